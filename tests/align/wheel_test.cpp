#include "align/wheel.hpp"

#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "simulated_wheel.hpp"

namespace benchgraft::align {
namespace {

std::string refused(std::string_view letters, const std::vector<double>& degrees = {}) {
  const auto wheel = wheel_of(letters, degrees);
  return wheel.ok() ? "" : wheel.error().message;
}

TEST(Wheel, is_refused_when_it_cannot_be) {
  EXPECT_EQ(
      refused("RGX"),
      "\"X\" is no colour of a segment; write the wheel with the letters R, G, B, W, Y and C, "
      "as in RGBRGB.");
  EXPECT_EQ(refused("RGRG"), "The wheel has no blue segment; it wants red, green and blue.");
  EXPECT_EQ(refused("RGB", {120, 120}), "The wheel RGB has 3 segments, but 2 angles were given.");
  EXPECT_EQ(refused("RGB", {120, 120, 100}), "The segments add up to 340 degrees, not to 360.");
  EXPECT_EQ(
      refused("RGBW", {130, 110, 110, 10}),
      "A white segment of 10 degrees is too narrow for a spoke of 12 and a guard of 1 degrees on "
      "both sides.");
  EXPECT_EQ(refused(std::string(30, 'R')),
            "A wheel with 30 segments is none that is known; 3 to 24.");
  Wheel still = wheel_of("RGB").value();
  still.turns_per_second = 0;
  EXPECT_FALSE(check(still).ok());
  Wheel dark = wheel_of("RGB").value();
  dark.segments[1].light = {};
  ASSERT_FALSE(check(dark).ok());
  EXPECT_EQ(check(dark).error().message,
            "The green segment gives no light; measure it or leave it out to take the usual one.");
  EXPECT_FALSE(spoke_degrees(50, 20).ok());
}

TEST(Wheel, looks_the_same_after_its_period) {
  EXPECT_EQ(period(wheel_of("RGBRGB").value()), 180);
  EXPECT_EQ(period(wheel_of("RGB").value()), 360);
  EXPECT_EQ(period(wheel_of("RGBW", {100, 100, 100, 60}).value()), 360);
  EXPECT_EQ(period(wheel_of("RGBRGB", {70, 60, 50, 60, 60, 60}).value()), 360);
}

// The sum over all windows does not move with the delay, for equal and unequal segments.
RC_GTEST_PROP(Wheel, has_a_white_field_that_does_not_move, ()) {
  const auto angles = *rc::gen::element(std::vector<double>{}, std::vector<double>{108, 68, 184},
                                        std::vector<double>{140, 120, 100});
  const Wheel wheel = wheel_of("RGB", angles).value();
  // Up to where a window would leave its neighbour.
  const double late = *rc::gen::inRange(-400, 400) / 10.0;
  const Xyz right = white_light(wheel, 0), moved = white_light(wheel, late);
  RC_ASSERT(std::abs(moved.x - right.x) < 1e-9 * right.x);
  RC_ASSERT(std::abs(moved.y - right.y) < 1e-9 * right.y);
  RC_ASSERT(std::abs(moved.z - right.z) < 1e-9 * right.z);
}

RC_GTEST_PROP(Wheel, one_whole_segment_off_shows_the_next_colour_pure, ()) {
  const Wheel wheel = wheel_of("RGBRGB").value();
  const int by = *rc::gen::inRange(-6, 7);
  const Hue seen = wheel.segments[static_cast<std::size_t>((by + 12) % 6)].hue;
  const Xyz light = bar_light(wheel, Hue::red, 60.0 * by).light;
  const Xyz pure = bar_light(wheel, seen, 0).light;
  RC_ASSERT(std::abs(light.x - pure.x) < 1e-9);
  RC_ASSERT(std::abs(light.y - pure.y) < 1e-9);
  RC_ASSERT(std::abs(light.z - pure.z) < 1e-9);
}

RC_GTEST_PROP(Wheel, the_general_mixing_is_the_closed_form_where_that_is_good, ()) {
  const Wheel wheel = wheel_of("RGBRGB").value();
  const double late = *rc::gen::inRange(-460, 461) / 10.0;
  const auto bar = bar_light(wheel, Hue::green, late);
  double all = 0, own = 0;
  for (std::size_t i = 0; i < bar.degrees.size(); ++i) {
    all += bar.degrees[i];
    if (wheel.segments[i].hue == Hue::green) own += bar.degrees[i];
  }
  RC_ASSERT(std::abs(all - 2 * 46) < 1e-9);
  RC_ASSERT(std::abs(1 - own / all - neighbour_share(late, 46, 12, 1)) < 1e-9);
}

RC_GTEST_PROP(Wheel, the_error_comes_back_from_its_share, ()) {
  const double late = *rc::gen::inRange(11, 400) / 10.0;
  const double share = neighbour_share(late, 46, 12, 1);
  RC_ASSERT(std::abs(error_of_share(share, 46, 12, 1) - late) < 1e-9);
}

// The model's spot is a rectangle; a round one turned slice by slice stays near it.
TEST(Wheel, is_close_to_a_wheel_turned_under_a_round_spot) {
  std::mt19937_64 random(11);
  for (int i = 0; i < 40; ++i) {
    SimulatedWheel turned = any_wheel(random);
    turned.late = -25.0 + 50.0 * i / 39;
    Wheel wheel = wheel_of(turned.letters, turned.degrees).value();
    wheel.spoke = turned.spoke;
    wheel.guard = turned.guard;
    for (std::size_t s = 0; s < wheel.segments.size(); ++s)
      wheel.segments[s].light = {turned.light[s][0], turned.light[s][1], turned.light[s][2]};
    for (const Hue bar : kBars) {
      const Xyz light = bar_light(wheel, bar, turned.late).light;
      const Triple slices = turned.bar(bar == Hue::red ? 'R' : bar == Hue::green ? 'G' : 'B');
      const double scale = slices[0] + slices[1] + slices[2];
      EXPECT_NEAR(light.x, slices[0], 0.02 * scale) << turned.letters << " " << turned.late;
      EXPECT_NEAR(light.y, slices[1], 0.02 * scale) << turned.letters << " " << turned.late;
      EXPECT_NEAR(light.z, slices[2], 0.02 * scale) << turned.letters << " " << turned.late;
    }
  }
}

}  // namespace
}  // namespace benchgraft::align
