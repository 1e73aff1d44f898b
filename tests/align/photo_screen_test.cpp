#include "align/photo_screen.hpp"

#include <cmath>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "photo_shots.hpp"

namespace benchgraft::align {
namespace {

using testing::HasSubstr;

std::string refusal(const Photo& photo) {
  const auto screen = find_screen(photo);
  return screen.ok() ? "a screen was found" : screen.error().message;
}

TEST(Screen, is_found_to_a_tenth_of_a_pixel_on_a_painted_photo) {
  Photo photo = painted(1200, 900, 4);
  paint(photo, 200, 150, 1000, 600, 200);
  grain(photo);
  const auto screen = find_screen(photo);
  ASSERT_TRUE(screen.ok()) << screen.error().message;
  const Quad wanted{Point{199.5, 149.5}, {999.5, 149.5}, {999.5, 599.5}, {199.5, 599.5}};
  for (std::size_t i = 0; i < 4; ++i)
    EXPECT_LT(length(screen.value().corners[i] - wanted[i]), 0.1) << i;
}

TEST(Screen, is_found_on_every_page_that_is_photographed_whole) {
  renderer::Dice dice(11);
  for (const Page page : {Page::index_bars, Page::white, Page::glyph, Page::grid})
    for (int k = 0; k < 2; ++k) {
      renderer::Phone phone = renderer::some_phone(dice);
      phone.width = 1200;
      phone.height = 900;
      const auto screen = find_screen(shot_of(page, phone, renderer::some_room(dice), 0, 5));
      ASSERT_TRUE(screen.ok()) << page_word(page) << ": " << screen.error().message;
      // The curve of the lens comes out of the four sides alone.
      EXPECT_NEAR(screen.value().lens.k, phone.lens_k, 0.004) << page_word(page);
      EXPECT_LT(screen.value().side_bend, 0.5) << page_word(page);
    }
}

TEST(Screen, maps_to_the_photo_and_back_through_the_lens) {
  renderer::Phone phone = small_phone();
  phone.lens_k = -0.06;
  const auto screen = find_screen(shot_of(Page::grid, phone));
  ASSERT_TRUE(screen.ok());
  for (const Point p : {Point{0, 0}, {0.3, 0.9}, {1, 0.5}})
    EXPECT_LT(length(screen.value().on_screen(screen.value().in_photo(p)) - p), 1e-6);
}

TEST(Screen, taken_from_touches_in_any_order_is_the_one_touched) {
  const Photo photo = painted(1200, 900, 30);
  const auto screen =
      screen_from_touches(photo, {Point{1000, 600}, {200, 150}, {210, 610}, {990, 140}});
  ASSERT_TRUE(screen.ok());
  EXPECT_TRUE(screen.value().touched);
  EXPECT_LT(length(screen.value().in_photo({0, 0}) - Point{200, 150}), 1e-6);
  EXPECT_LT(length(screen.value().in_photo({1, 1}) - Point{1000, 600}), 1e-6);
}

TEST(Screen, is_not_taken_from_touches_that_make_none) {
  const Photo photo = painted(1200, 900, 30);
  const auto message = [&](const Quad& touches) {
    return screen_from_touches(photo, touches).error().message;
  };
  EXPECT_THAT(message({Point{100, 100}, {2000, 100}, {900, 800}, {100, 800}}),
              HasSubstr("lies outside the photo"));
  EXPECT_THAT(message({Point{100, 100}, {900, 100}, {500, 300}, {500, 800}}),
              HasSubstr("not the four corners"));
  EXPECT_THAT(message({Point{100, 100}, {200, 100}, {200, 160}, {100, 160}}),
              HasSubstr("too small"));
  EXPECT_THAT(message({Point{std::nan(""), 100}, {900, 100}, {900, 800}, {100, 800}}),
              HasSubstr("outside the photo"));
}

TEST(Screen, is_refused_when_there_are_two) {
  Photo photo = painted(1200, 900, 4);
  paint(photo, 60, 150, 560, 500, 200);
  paint(photo, 640, 200, 1140, 520, 180);
  EXPECT_THAT(refusal(photo), HasSubstr("two lit screens"));
}

TEST(Screen, is_found_beside_a_small_lamp) {
  Photo photo = painted(1200, 900, 4);
  paint(photo, 100, 150, 900, 600, 200);
  paint(photo, 1000, 50, 1060, 110, 255);
  grain(photo);
  EXPECT_TRUE(find_screen(photo).ok());
}

TEST(Screen, is_refused_when_it_is_cut_off) {
  renderer::Phone phone = small_phone();
  phone.fill = 0.9;
  phone.off_x = 0.3;
  EXPECT_THAT(refusal(shot_of(Page::white, phone)), HasSubstr("cut off by the edge"));
}

TEST(Screen, is_refused_when_it_is_too_small) {
  renderer::Phone phone = small_phone();
  phone.fill = 0.2;
  EXPECT_THAT(refusal(shot_of(Page::index_bars, phone)), HasSubstr("too small"));
}

TEST(Screen, is_refused_when_seen_from_far_aside) {
  renderer::Phone phone = small_phone();
  phone.yaw_deg = 48;
  EXPECT_THAT(refusal(shot_of(Page::white, phone)), HasSubstr("too far aside"));
}

TEST(Screen, is_refused_when_the_photo_is_a_screenshot) {
  for (const Page page : {Page::index_bars, Page::glyph, Page::grid})
    EXPECT_THAT(refusal(photo_of(page_png(page, 1920, 1080).value())), HasSubstr("a screenshot"))
        << page_word(page);
}

TEST(Screen, is_refused_when_a_screenshot_stands_in_a_larger_picture) {
  const PagePicture page = draw_page(Page::index_bars, 960, 540).value();
  Photo photo = painted(1200, 900, 0);
  for (int y = 0; y < 540; ++y)
    for (int x = 0; x < 960; ++x)
      for (std::size_t c = 0; c < 3; ++c)
        photo.code[3 * static_cast<std::size_t>((y + 100) * 1200 + x + 100) + c] =
            page.rgb[3 * static_cast<std::size_t>(y * 960 + x) + 2 - c];
  EXPECT_THAT(refusal(photo), HasSubstr("a screenshot"));
}

TEST(Screen, is_not_seen_in_the_dark_or_in_noise) {
  EXPECT_THAT(refusal(painted(1200, 900, 0)), HasSubstr("no lit screen"));
  Photo noise = painted(1200, 900, 0);
  renderer::Dice dice(3);
  for (auto& code : noise.code) code = static_cast<std::uint8_t>(dice.bits());
  EXPECT_THAT(refusal(noise), HasSubstr("no lit screen"));
}

TEST(Screen, is_not_seen_in_a_cat) {
  // Round head and body, two pointed ears, soft light: bright, large, and no screen.
  Photo cat = painted(1200, 900, 25);
  renderer::Dice dice(4);
  for (int y = 0; y < 900; ++y)
    for (int x = 0; x < 1200; ++x) {
      const double head = std::hypot((x - 600) / 190.0, (y - 300) / 160.0);
      const double body = std::hypot((x - 620) / 300.0, (y - 650) / 240.0);
      const bool ear = y > 90 && y < 260 &&
                       (std::abs(x - 470) < (y - 90) / 2.2 || std::abs(x - 730) < (y - 90) / 2.2);
      if (head < 1 || body < 1 || ear)
        paint(cat, x, y, x + 1, y + 1,
              static_cast<std::uint8_t>(150 + 40 * std::sin(x / 25.0 + y / 60.0) +
                                        dice.between(-12, 12)));
    }
  EXPECT_THAT(refusal(cat), HasSubstr("no lit screen"));
}

}  // namespace
}  // namespace benchgraft::align
