#include "align/photo_glyph.hpp"

#include <array>
#include <set>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "photo_shots.hpp"

namespace benchgraft::align {
namespace {

using testing::HasSubstr;

/// What the renderer does to the page's right and down, and what that is called.
struct Turn {
  std::array<double, 4> terms;
  Standing standing;
  const char* words;
};
const std::array<Turn, 8> kTurns{{
    {{1, 0, 0, 1}, {false, false, false}, "the right way round"},
    {{-1, 0, 0, 1}, {false, true, false}, "mirrored left to right"},
    {{1, 0, 0, -1}, {false, false, true}, "mirrored top to bottom"},
    {{-1, 0, 0, -1}, {false, true, true}, "turned by half a turn"},
    {{0, -1, 1, 0}, {true, true, false}, "turned by a quarter to the right"},
    {{0, 1, -1, 0}, {true, false, true}, "turned by a quarter to the left"},
    {{0, 1, 1, 0},
     {true, false, false},
     "turned by a quarter to the right and mirrored left to right"},
    {{0, -1, -1, 0},
     {true, true, true},
     "turned by a quarter to the left and mirrored left to right"},
}};

TEST(Glyph, tells_the_eight_standings_apart_through_any_phone) {
  renderer::Dice dice(31);
  for (const Turn& turn : kTurns)
    for (int k = 0; k < 2; ++k) {
      renderer::Phone phone = renderer::some_phone(dice);
      phone.width = 1000;
      phone.height = 750;
      renderer::Room room = renderer::some_room(dice);
      room.turn = turn.terms;
      room.turned_deg = dice.between(-3, 3);
      const Photo photo = shot_of(Page::glyph, phone, room, dice.between(-20, 20));
      const auto screen = find_screen(photo);
      ASSERT_TRUE(screen.ok()) << turn.words << ": " << screen.error().message;
      const auto seen = see_glyph(photo, screen.value());
      ASSERT_TRUE(seen.ok()) << turn.words << ": " << seen.error().message;
      EXPECT_TRUE(seen.value().standing == turn.standing) << turn.words;
      EXPECT_EQ(standing_words(seen.value().standing), turn.words);
      EXPECT_GT(seen.value().margin, 0.2);
    }
}

TEST(Glyph, has_eight_different_names) {
  std::set<std::string> words;
  for (const Turn& turn : kTurns) words.insert(standing_words(turn.standing));
  EXPECT_EQ(words.size(), 8u);
}

TEST(Glyph, is_not_seen_on_another_page) {
  for (const Page page : {Page::white, Page::index_bars}) {
    const Photo photo = shot_of(page, small_phone());
    const auto screen = find_screen(photo);
    ASSERT_TRUE(screen.ok());
    const auto seen = see_glyph(photo, screen.value());
    ASSERT_FALSE(seen.ok()) << page_word(page);
    EXPECT_THAT(seen.error().message, HasSubstr("glyph page"));
  }
}

struct Placed {
  renderer::Room room;
  SeenGrid seen;
};

/// A grid larger than the screen on all sides, as a set overscans.
Placed placed(renderer::Dice& dice, const std::array<double, 4>& turn) {
  renderer::Phone phone = renderer::some_phone(dice);
  phone.width = 1600;
  phone.height = 1200;
  Placed result;
  result.room = renderer::some_room(dice);
  auto& room = result.room;
  room.turn = turn;
  room.size_x = dice.between(1.06, 1.09);
  room.size_y = dice.between(1.08, 1.11);
  room.shift_x = dice.between(-0.02, 0.02);
  room.shift_y = dice.between(-0.02, 0.02);
  room.turned_deg = dice.between(-0.6, 0.6);
  room.keystone = dice.between(-0.02, 0.02);
  const Photo photo = shot_of(Page::grid, phone, room, 0, dice.bits());
  const auto screen = find_screen(photo);
  EXPECT_TRUE(screen.ok()) << (screen.ok() ? "" : screen.error().message);
  const auto seen = measure_grid(photo, screen.value());
  EXPECT_TRUE(seen.ok()) << (seen.ok() ? "" : seen.error().message);
  if (seen.ok()) result.seen = seen.value();
  return result;
}

TEST(Grid, gives_place_size_turn_and_keystone_within_a_pixel_of_the_set) {
  renderer::Dice dice(41);
  constexpr double kPixel = 1.0 / 1920;
  for (std::size_t i = 0; i < 4; ++i)
    for (int k = 0; k < 2; ++k) {
      const auto [room, seen] = placed(dice, kTurns[i].terms);
      EXPECT_TRUE(seen.standing == kTurns[i].standing) << kTurns[i].words;
      EXPECT_EQ(seen.dots, 44);
      EXPECT_NEAR(seen.offset.x, room.shift_x, kPixel);
      EXPECT_NEAR(seen.offset.y, room.shift_y, 1.5 * kPixel);
      EXPECT_NEAR(seen.width, room.size_x, 2 * kPixel);
      EXPECT_NEAR(seen.height, room.size_y, 3 * kPixel);
      EXPECT_NEAR(seen.turned_deg, room.turned_deg, 0.05);
      EXPECT_NEAR(seen.narrow_top, room.keystone, 0.002);
      EXPECT_NEAR(seen.narrow_left, 0, 0.003);
      for (const bool own : seen.own_edge) EXPECT_FALSE(own);
    }
}

TEST(Grid, says_where_the_lit_edge_is_the_pictures_own) {
  renderer::Room room;
  room.shift_x = 0.05;  // dark on the left
  room.size_x = 1.04;
  room.size_y = 1.08;
  const Photo photo = shot_of(Page::grid, small_phone(), room);
  const auto screen = find_screen(photo);
  ASSERT_TRUE(screen.ok());
  const auto seen = measure_grid(photo, screen.value());
  ASSERT_TRUE(seen.ok()) << seen.error().message;
  EXPECT_THAT(seen.value().own_edge, testing::ElementsAre(false, false, false, true));
}

TEST(Grid, is_measured_against_the_touched_screen_where_the_picture_does_not_fill_it) {
  renderer::Room full;
  renderer::Phone phone = small_phone();
  phone.lens_k = 0;  // four touches cannot tell a lens
  const auto whole = find_screen(shot_of(Page::white, phone, full));
  ASSERT_TRUE(whole.ok());
  renderer::Room room;
  room.size_x = room.size_y = 0.92;
  room.shift_x = 0.02;
  const Photo photo = shot_of(Page::grid, phone, room);
  const auto screen = screen_from_touches(photo, whole.value().corners);
  ASSERT_TRUE(screen.ok());
  const auto seen = measure_grid(photo, screen.value());
  ASSERT_TRUE(seen.ok()) << seen.error().message;
  EXPECT_NEAR(seen.value().width, 0.92, 0.004);
  EXPECT_NEAR(seen.value().offset.x, 0.02, 0.002);
}

TEST(Grid, asks_for_the_standing_first_when_the_picture_lies_on_its_side) {
  renderer::Room room;
  room.turn = kTurns[4].terms;
  const Photo photo = shot_of(Page::grid, small_phone(), room);
  const auto screen = find_screen(photo);
  ASSERT_TRUE(screen.ok());
  const auto seen = measure_grid(photo, screen.value());
  ASSERT_FALSE(seen.ok());
  EXPECT_THAT(seen.error().message, HasSubstr("turned by a quarter to the right; put that right"));
}

TEST(Grid, is_not_measured_on_another_page) {
  for (const Page page : {Page::white, Page::index_bars, Page::glyph}) {
    const Photo photo = shot_of(page, small_phone());
    const auto screen = find_screen(photo);
    ASSERT_TRUE(screen.ok());
    const auto seen = measure_grid(photo, screen.value());
    ASSERT_FALSE(seen.ok()) << page_word(page);
    EXPECT_THAT(seen.error().message, HasSubstr("grid page"));
  }
}

}  // namespace
}  // namespace benchgraft::align
