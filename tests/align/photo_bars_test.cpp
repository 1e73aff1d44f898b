#include "align/photo_bars.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <string>
#include <tuple>
#include <utility>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "align/wheel.hpp"
#include "photo_shots.hpp"

namespace benchgraft::align {
namespace {

using testing::HasSubstr;

/// One set before one phone on a stand: photos of the index page at any delay.
class Bench {
 public:
  explicit Bench(std::uint64_t seed) : dice_(seed) {
    wheel = renderer::some_wheel(dice_);
    phone = renderer::some_phone(dice_);
    room = renderer::some_room(dice_);
    phone.width = 800;
    phone.height = 600;
    phone.fill = std::max(phone.fill, 0.65);
  }

  Result<BarColours> bars(double delay_deg) {
    static const renderer::Sheet kSheet = sheet_of(Page::index_bars);
    const Photo photo =
        photo_of(renderer::photograph(kSheet, wheel, delay_deg, phone, room, dice_.bits()));
    const auto screen = find_screen(photo);
    if (!screen) return screen.error();
    return measure_bars(photo, screen.value());
  }

  /// Degrees the data are late for a neighbour share, by the model of the program: a plain slit of
  /// light, where the spot here is round.
  [[nodiscard]] double degrees(double share) const {
    const double window = wheel.segments[0].degrees - wheel.spot_deg - 2 * wheel.guard_deg;
    return std::copysign(
        error_of_share(std::min(std::abs(share), 1.0), window, wheel.spot_deg, wheel.guard_deg),
        share);
  }

  renderer::Wheel wheel;
  renderer::Phone phone;
  renderer::Room room;

 private:
  renderer::Dice dice_;
};

TEST(Bars, give_pure_colours_where_the_index_is_right) {
  Bench bench(1);
  const auto bars = bench.bars(0);
  ASSERT_TRUE(bars.ok()) << bars.error().message;
  for (std::size_t bar = 0; bar < 3; ++bar)
    for (std::size_t c = 0; c < 3; ++c) {
      if (bar == c) {
        EXPECT_GT(bars.value().bar[bar][c], 0.6);
      } else {
        EXPECT_LT(bars.value().bar[bar][c], 0.25);
      }
    }
  // Red, green and blue together are white: the measure of each bar is that white.
  for (std::size_t c = 0; c < 3; ++c)
    EXPECT_NEAR(bars.value().bar[0][c] + bars.value().bar[1][c] + bars.value().bar[2][c], 1, 0.3);
}

TEST(Bars, hold_the_share_of_neighbour_light_that_the_wheel_gives_them) {
  int good = 0, all = 0;
  double worst = 0;
  for (std::uint64_t seed = 1; seed <= 6; ++seed) {
    Bench bench(100 + seed);
    const auto pure = bench.bars(0);
    ASSERT_TRUE(pure.ok()) << pure.error().message;
    for (const double delay : {-16.0, -10.0, -6.0, 6.0, 10.0, 16.0}) {
      const auto seen = bench.bars(delay);
      ASSERT_TRUE(seen.ok()) << seen.error().message;
      const double truth = renderer::true_mixing(bench.wheel, 'R', delay).share;
      const double found = mixing(seen.value(), pure.value(), {}).overlap;
      const double off = std::abs(found - std::copysign(truth, delay));
      worst = std::max(worst, off);
      good += off <= 0.008 + 0.05 * truth;
      ++all;
    }
  }
  printf("share of neighbour light: %d of %d within 0.008 + 5 %%, worst %.4f\n", good, all, worst);
  EXPECT_GE(good, all * 95 / 100);
}

#ifdef __SANITIZE_ADDRESS__
constexpr std::uint64_t kSets = 6;  // that build looks for other faults
#else
constexpr std::uint64_t kSets = 40;
#endif

/// As on a bench: one photo near the right setting, one with the data late, one early. Each side
/// gives a delay, the index lies between. Prints what was reached; returns how many are within 1.5.
int index_within_limit(std::uint64_t sets) {
  int good = 0, refused = 0;
  double worst = 0;
  for (std::uint64_t seed = 1; seed <= sets; ++seed) {
    Bench bench(200 + seed);
    renderer::Dice dice(seed);
    const double near = dice.between(-2, 2);
    const double late = dice.between(8, 15), early = -dice.between(8, 15);
    const auto pure = bench.bars(near), after = bench.bars(late), before = bench.bars(early);
    if (!pure || !after || !before) {
      ++refused;
      continue;
    }
    const double a = late - bench.degrees(mixing(after.value(), pure.value(), {}).overlap);
    const double b = early - bench.degrees(mixing(before.value(), pure.value(), {}).overlap);
    const double off = std::abs((a + b) / 2);
    worst = std::max(worst, off);
    good += off <= 1.5;
  }
  printf("index from three photos: %d of %d within 1.5 degrees, %d refused, worst %.2f\n", good,
         static_cast<int>(sets), refused, worst);
  return good;
}

TEST(Bars, give_the_index_within_a_degree_and_a_half_in_95_of_100) {
  EXPECT_GE(index_within_limit(kSets), static_cast<int>(kSets * 95 / 100));
}

// Minutes long: test_align --gtest_also_run_disabled_tests --gtest_filter='*500*'
TEST(Bars, DISABLED_give_the_index_within_a_degree_and_a_half_in_95_of_100_of_500_sets) {
  EXPECT_GE(index_within_limit(500), 475);
}

TEST(Bars, tell_late_from_early) {
  for (std::uint64_t seed = 1; seed <= 4; ++seed) {
    Bench bench(300 + seed);
    const auto pure = bench.bars(0), late = bench.bars(9), early = bench.bars(-9);
    ASSERT_TRUE(pure.ok() && late.ok() && early.ok());
    EXPECT_GT(mixing(late.value(), pure.value(), {}).overlap, 0) << seed;
    EXPECT_LT(mixing(early.value(), pure.value(), {}).overlap, 0) << seed;
  }
}

TEST(Bars, show_a_clear_segment_as_white_in_the_bar_beside_it) {
  Bench bench(7);
  bench.wheel.segments = {{'R', 100}, {'G', 100}, {'B', 100}, {'W', 60}};
  bench.wheel.spot_deg = 14;
  const double margin = 14 + 2 * bench.wheel.guard_deg;
  WheelOrder order;
  order.next = {BarNeighbour::green, BarNeighbour::blue, BarNeighbour::white};
  order.previous = {BarNeighbour::white, BarNeighbour::red, BarNeighbour::green};
  order.window = {100 - margin, 100 - margin, 100 - margin};
  const auto pure = bench.bars(0), late = bench.bars(12);
  ASSERT_TRUE(pure.ok() && late.ok());
  // White is lit by the clear segment too; the bars are shares of it all the same.
  const Mixing seen = mixing(late.value(), pure.value(), order);
  const auto truth = renderer::true_mixing(bench.wheel, 'B', 12);
  EXPECT_EQ(truth.neighbour, 'W');
  EXPECT_NEAR(seen.share[2], truth.share, 0.02);
  EXPECT_NEAR(seen.share[0], renderer::true_mixing(bench.wheel, 'R', 12).share, 0.02);
}

TEST(Bars, look_like_their_neighbours_one_whole_segment_off) {
  Bench bench(8);
  bench.wheel = renderer::Wheel{};
  const auto pure = bench.bars(0), off = bench.bars(60);
  ASSERT_TRUE(pure.ok() && off.ok());
  EXPECT_THAT(mixing(off.value(), pure.value(), {}).looks_like, testing::ElementsAre(1, 2, 0));
}

TEST(Bars, fit_no_delay_when_two_colours_are_exchanged) {
  Bench bench(9);
  bench.wheel = renderer::Wheel{};
  const auto pure = bench.bars(0);
  ASSERT_TRUE(pure.ok());
  BarColours exchanged = pure.value();
  std::swap(exchanged.bar[0], exchanged.bar[1]);
  const Mixing seen = mixing(exchanged, pure.value(), {});
  EXPECT_THAT(seen.looks_like, testing::ElementsAre(1, 0, 2));
  EXPECT_GT(seen.misfit, 10);
  EXPECT_LT(mixing(bench.bars(10).value(), pure.value(), {}).misfit, 5);
}

TEST(Bars, are_found_on_a_picture_mirrored_upside_down_or_too_large) {
  for (const auto& [turn, mirrored, upside_down] :
       {std::tuple{std::array<double, 4>{1, 0, 0, 1}, false, false},
        {std::array<double, 4>{-1, 0, 0, 1}, true, false},
        {std::array<double, 4>{1, 0, 0, -1}, false, true},
        {std::array<double, 4>{-1, 0, 0, -1}, true, true}}) {
    Bench bench(10);
    bench.room.turn = turn;
    bench.room.size_x = bench.room.size_y = 1.05;
    bench.room.shift_x = 0.015;
    bench.room.shift_y = -0.01;
    const auto bars = bench.bars(0);
    ASSERT_TRUE(bars.ok()) << bars.error().message;
    EXPECT_EQ(bars.value().standing.left_right, mirrored);
    EXPECT_EQ(bars.value().standing.upside_down, upside_down);
    EXPECT_GT(bars.value().bar[0][0], 0.6);
    EXPECT_GT(bars.value().bar[2][2], 0.6);
  }
}

TEST(Bars, are_refused_on_another_page) {
  for (const Page page : {Page::white, Page::glyph, Page::grid}) {
    const Photo photo = shot_of(page, small_phone());
    const auto screen = find_screen(photo);
    ASSERT_TRUE(screen.ok());
    const auto bars = measure_bars(photo, screen.value());
    ASSERT_FALSE(bars.ok()) << page_word(page);
    EXPECT_THAT(bars.error().message, HasSubstr("not the index page"));
  }
}

TEST(Bars, are_refused_when_white_is_clipped_or_too_dark) {
  Bench bright(11), dark(11);
  bright.phone.exposure = 1.5;
  dark.phone.exposure = 0.035;
  dark.phone.full_well = 50000;
  EXPECT_THAT(bright.bars(0).error().message, HasSubstr("clipped"));
  EXPECT_THAT(dark.bars(0).error().message, HasSubstr("too dark"));
}

}  // namespace
}  // namespace benchgraft::align
