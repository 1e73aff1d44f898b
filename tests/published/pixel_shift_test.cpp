// The half-pixel model against a simulation done apart from it (blurred mirrors on a grid) and
// against figures worked out by hand.
#include "align/pixel_shift.hpp"

#include <gtest/gtest.h>

namespace benchgraft::align {
namespace {

struct Row {
  double gain, r75, r60, width, d;
};
// Upright edge, blur 0.25 p: raggedness at 75 % and 60 %, width 10-90, displacement of a one-pixel
// line. The simulation prints three places (D with a grid of its own: its slope is 0.59 where the
// formula gives 0.5955).
const Row kRows[] = {
    {1.00, .032, .015, 1.00, 0.000},  {0.90, .039, .019, 1.00, -0.058},
    {0.75, .074, .040, 1.04, -0.147}, {0.50, .130, .081, 1.14, -0.295},
    {0.00, .205, .168, 1.54, -0.591}, {1.25, .074, .040, 1.04, 0.148},
    {1.50, .130, .081, 1.14, 0.296},  {-1.0, .219, .214, 2.54, -1.180},
};

TEST(PixelShift, agrees_with_the_simulation_of_blurred_mirrors) {
  for (const auto& row : kRows) {
    const ShiftState state{row.gain, 0.25, 0};
    EXPECT_NEAR(raggedness(state, 0.75), row.r75, 0.004) << row.gain;
    EXPECT_NEAR(raggedness(state, 0.60), row.r60, 0.002) << row.gain;
    EXPECT_LE(raggedness(state, 0.50), 0.005) << "blind at one half, gain " << row.gain;
    EXPECT_NEAR(edge_width(state), row.width, 0.012) << row.gain;
    EXPECT_NEAR(displacement(state), row.d, 0.012) << row.gain;
  }
}

TEST(PixelShift, has_the_slope_of_the_simulation_at_two_blurs) {
  EXPECT_NEAR(displacement_per_gain(0.25), 0.59, 0.01);
  EXPECT_NEAR(displacement_per_gain(0.40), 0.36, 0.01);
}

TEST(PixelShift, finds_the_gain_by_the_secant) {
  const double gain = secant_gain(.70, -.20, .80, -.08).value();
  EXPECT_NEAR(gain, .8667, 5e-5);
  EXPECT_EQ(gain_byte(gain), 111);
  EXPECT_EQ(gain_byte(-1), 0);
  EXPECT_EQ(gain_byte(3), 255);
}

TEST(PixelShift, knows_the_pixel_of_a_screen) {
  EXPECT_NEAR(pixel_mm(50, 1920), 0.577, 5e-4);
  EXPECT_NEAR(pixel_mm(56, 1920), 0.646, 5e-4);
  EXPECT_NEAR(pixel_mm(61, 1920), 0.703, 5e-4);
  EXPECT_NEAR(pixel_mm(73, 1920), 0.842, 5e-4);
}

}  // namespace
}  // namespace benchgraft::align
