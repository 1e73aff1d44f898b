#include "align/pixel_shift.hpp"

#include <cmath>
#include <random>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "align/estimate.hpp"
#include "shipped.hpp"

namespace benchgraft::align {
namespace {

using ::testing::HasSubstr;

/// Displacement of a one-pixel line drawn mirror by mirror: shares no formula with the model.
double drawn_displacement(double gain, double sigma, double late) {
  double sum[2] = {0, 0}, weight[2] = {0, 0};
  for (int site = -6; site <= 6; ++site) {
    const bool second = site % 2 != 0;
    for (int part = 0; part < 2; ++part) {
      const double share = part == 0 ? 1 - late : late;
      const bool shifted = second == (part == 0);
      // The second half picture is drawn one pixel to the left and moved right by the shift.
      const double x = (second ? -1 : 0) + (shifted ? gain : 0);
      for (double t = -0.995; t < 1; t += 0.01)
        for (int row = 0; row < 2; ++row) {
          const double off = (site + t - row) / sigma;
          const double light = share * (1 - std::abs(t)) * std::exp(-off * off / 2);
          sum[row] += light * x, weight[row] += light;
        }
    }
  }
  return sum[1] / weight[1] - sum[0] / weight[0];
}

TEST(PixelShift, displaces_rows_as_mirrors_drawn_one_by_one) {
  for (const double gain : {-1.0, 0.0, 0.5, 0.9, 1.0, 1.3})
    for (const double sigma : {0.25, 0.4, 0.6})
      for (const double late : {0.0, 0.1, 0.2})
        EXPECT_NEAR(displacement({gain, sigma, late}), drawn_displacement(gain, sigma, late), 0.03)
            << gain << " " << sigma << " " << late;
}

TEST(PixelShift, raggedness_cannot_tell_too_low_from_too_high_but_displacement_can) {
  const ShiftState low{0.8, 0.3, 0}, high{1.2, 0.3, 0};
  EXPECT_NEAR(raggedness(low, 0.75), raggedness(high, 0.75), 1e-6);
  EXPECT_LT(displacement(low), 0);
  EXPECT_GT(displacement(high), 0);
}

TEST(PixelShift, a_line_is_narrowest_at_the_right_delay) {
  double before = line_spread({1, 0.25, 0});
  for (const double late : {0.05, 0.1, 0.2, 0.4}) {
    const double now = line_spread({1, 0.25, late});
    EXPECT_GT(now, before) << late;
    before = now;
  }
}

TEST(PixelShift, is_sorted_into_good_off_reversed_too_low_and_too_high) {
  const double off = displacement({0, 0.25, 0});
  const auto fault = [&](double gain) {
    return judge_shift(displacement({gain, 0.25, 0}), off, 0.01).value().fault;
  };
  EXPECT_EQ(fault(1.0), ShiftFault::good);
  EXPECT_EQ(fault(1.05), ShiftFault::good);
  EXPECT_EQ(fault(0.7), ShiftFault::gain_low);
  EXPECT_EQ(fault(1.4), ShiftFault::gain_high);
  EXPECT_EQ(fault(0.02), ShiftFault::off);
  EXPECT_EQ(fault(-1.0), ShiftFault::reversed);
  EXPECT_EQ(fault(-0.5), ShiftFault::unclear);
  EXPECT_NEAR(judge_shift(displacement({0.7, 0.25, 0}), off, 0.01).value().gain.value(), 0.7, 1e-9);
}

TEST(PixelShift, is_sorted_by_words_against_the_actuator_switched_off) {
  EXPECT_EQ(judge_shift("smooth").value().fault, ShiftFault::good);
  EXPECT_EQ(judge_shift("as jagged as off").value().fault, ShiftFault::off);
  EXPECT_EQ(judge_shift("more jagged than off").value().fault, ShiftFault::reversed);
  EXPECT_THAT(judge_shift("less jagged than off").value().sentence, HasSubstr("step the gain"));
  EXPECT_THAT(judge_shift("wobbly").error().message, HasSubstr("\"wobbly\" does not say"));
}

TEST(PixelShift, refuses_photos_that_cannot_carry_the_answer) {
  EXPECT_THAT(judge_shift(0.01, 0.02, 0.01).error().message, HasSubstr("too blurred"));
  EXPECT_FALSE(judge_shift(std::nan(""), 0.5, 0.01).ok());
  EXPECT_THAT(secant_gain(1, 0.1, 1, 0.2).error().message, HasSubstr("same gain"));
  EXPECT_THAT(secant_gain(1, 0.1, 1.2, 0.1).error().message, HasSubstr("does not act"));
}

TEST(PixelShift, a_single_flip_most_likely_exchanges_the_half_pictures) {
  EXPECT_TRUE(order_after_flip({true, false}).likely_reversed);
  EXPECT_TRUE(order_after_flip({false, true}).likely_reversed);
  EXPECT_FALSE(order_after_flip({true, true}).likely_reversed);
  EXPECT_FALSE(order_after_flip({false, false}).likely_reversed);
}

// Common practice, no source: jagged at 113, jagged again well below 97, smoothest near 97.
TEST(PixelShift, byte_is_found_within_three_of_97_from_readings_on_both_sides) {
  std::mt19937_64 random(97);
  for (int i = 0; i < 50; ++i) {
    const double sigma = 0.25 + 0.003 * i;
    const auto photo = [&](double byte) {
      const double shaken = (static_cast<double>(random() % 2001) / 1000 - 1) * 0.005;
      return drawn_displacement(byte / 97, sigma, 0) + shaken;
    };
    const double gain = secant_gain(113, photo(113), 75, photo(75)).value();
    EXPECT_NEAR(gain, 97, 3) << "blur " << sigma;

    Question question;
    question.setting = shipped("pixel shift gain");
    question.own_range = catalogue::Range{0, 255};
    question.own_step = 1;
    question.readings = {read("photo of the comb", 113, photo(113)),
                         read("photo of the comb", 75, photo(75))};
    EXPECT_NEAR(estimate(question).value().value, 97, 3) << "blur " << sigma;
  }
}

}  // namespace
}  // namespace benchgraft::align
