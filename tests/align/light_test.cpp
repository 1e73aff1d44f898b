#include "align/light.hpp"

#include <array>
#include <cmath>
#include <numbers>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace benchgraft::align {
namespace {

using ::testing::HasSubstr;

TEST(Light, goes_from_lux_on_the_screen_to_flux_and_luminance) {
  EXPECT_NEAR(flux_lumens(1000, Screen{50}), 689, 1);
  EXPECT_NEAR(luminance_of_lux(std::numbers::pi * 100), 100, 1e-9);
  EXPECT_NEAR(effective_gain(359, 359 * std::numbers::pi / 3), 3, 1e-9);
  EXPECT_NEAR(luminance_from_distance(4, 2, 0.04).value(), 400, 1e-9);
  EXPECT_THAT(luminance_from_distance(4, 0.5, 0.04).error().message, HasSubstr("too large"));
  EXPECT_FALSE(luminance_from_distance(-4, 2, 0.04).ok());
}

TEST(Light, is_uneven_by_its_darkest_place) {
  const std::array<double, 9> lux{90, 100, 90, 100, 120, 100, 60, 100, 140};
  const Uniformity found = uniformity(lux).value();
  EXPECT_NEAR(found.mean_lux, 100, 1e-9);
  EXPECT_NEAR(found.least_by_mean, 0.6, 1e-9);
  EXPECT_EQ(found.darkest, 6U);
  const std::array<double, 3> few{1, 2, 3};
  EXPECT_THAT(uniformity(few).error().message, HasSubstr("take nine"));
  const std::array<double, 5> dark{1, 2, 0, 3, 4};
  EXPECT_EQ(uniformity(dark).error().message, "Reading 3 is 0 lux; it must be above 0.");
}

TEST(Light, is_foretold_for_another_screen_with_what_is_not_known) {
  const LightForecast known = forecast_light(359, 0.05, Screen{50}, Screen{61}, 1).value();
  const LightForecast unknown = forecast_light(359, 0.05, Screen{50}, Screen{61}).value();
  EXPECT_NEAR(known.luminance, 241, 1);
  EXPECT_LT(known.interval.high - known.interval.low, unknown.interval.high - unknown.interval.low);
  EXPECT_THAT(unknown.sentence, HasSubstr("67 % of the luminance"));
  EXPECT_FALSE(forecast_light(0, 0.05, Screen{50}, Screen{61}).ok());
}

RC_GTEST_PROP(Lamp, age_comes_back_from_its_light, ()) {
  const double early = *rc::gen::inRange(100, 900), rated = *rc::gen::inRange(1000, 8000);
  const double share = *rc::gen::inRange(55, 95) / 100.0;
  const Dimming lamp = dimming_through({early}, share, {rated}).value();
  const double age = *rc::gen::inRange(1, 9000);
  const LampAge found = lamp_age(lamp, lamp.share({age}), 0.1).value();
  RC_ASSERT(std::abs(found.hours.value - age) < 1e-6 * age);
  RC_ASSERT(found.interval.low <= age && age <= found.interval.high);
}

TEST(Lamp, at_half_light_is_not_used_on) {
  const Dimming lamp = dimming_through({500}, .80, {3500}).value();
  EXPECT_FALSE(lamp_age(lamp, 0.55, 0.1).value().past_rated);
  EXPECT_TRUE(lamp_age(lamp, 0.5, 0.1).value().past_rated);
  EXPECT_THAT(lamp_age(lamp, 0.4, 0.1).value().sentence, HasSubstr("fit another lamp"));
  EXPECT_FALSE(lamp_age(lamp, 0, 0.1).ok());
  EXPECT_FALSE(lamp_age(lamp, 0.5, 0).ok());
  EXPECT_THAT(dimming_through({500}, .40, {3500}).error().message,
              HasSubstr("does not grow dimmer as lamps do"));
}

}  // namespace
}  // namespace benchgraft::align
