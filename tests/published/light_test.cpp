// Light against figures worked out apart from the program.
#include "align/light.hpp"

#include <gtest/gtest.h>

namespace benchgraft::align {
namespace {

TEST(Screen, has_the_tabulated_area) {
  const struct {
    double inches, area;
  } rows[] = {{46, .583}, {50, .689}, {56, .865}, {61, 1.026}, {65, 1.165}, {73, 1.469}};
  for (const auto& row : rows)
    EXPECT_NEAR(Screen{row.inches}.area_m2(), row.area, 6e-4) << row.inches;
}

TEST(Screen, wants_the_tabulated_light_for_400_candelas) {
  // Flux times gain in lumens for 400 cd/m2.
  const struct {
    double inches, lumens;
  } rows[] = {{46, 733}, {50, 866}, {56, 1086}, {61, 1289}, {65, 1464}, {73, 1846}};
  for (const auto& row : rows)
    EXPECT_NEAR(luminance_of_flux(row.lumens, 1, 1, Screen{row.inches}), 400, 0.4) << row.inches;
}

TEST(Screen, of_a_measured_set_agrees_with_its_flux) {
  // A test report in print: 50 inches, 359 cd/m2 white; 259 lm at a gain of 3 were worked out from
  // it.
  EXPECT_NEAR(luminance_of_flux(259, 1, 3, Screen{50}), 359, 0.5);
  EXPECT_NEAR(forecast_light(359, 0.05, Screen{50}, Screen{61}).value().factor, .672, 5e-4);
  EXPECT_NEAR(kCandelasPerFootLambert, 3.426, 5e-4);
}

TEST(Lamp, dims_through_its_two_anchors_as_worked_out) {
  const struct {
    double early, share, rated, b, tau;
  } rows[] = {{500, .80, 3500, .5825, 6566.7},
              {500, .65, 2000, .3431, 5820.5},
              {500, .75, 3000, .4908, 6330.5},
              {500, .80, 6000, .4561, 13400.6}};
  for (const auto& row : rows) {
    const Dimming lamp = dimming_through({row.early}, row.share, {row.rated}).value();
    EXPECT_NEAR(lamp.b, row.b, 5e-5);
    EXPECT_NEAR(lamp.tau, row.tau, 0.05);
    EXPECT_NEAR(lamp.share({row.early}), row.share, 1e-12);
    EXPECT_NEAR(lamp.share({row.rated}), 0.5, 1e-12);
  }
  const Dimming first = dimming_through({500}, .80, {3500}).value();
  EXPECT_NEAR(first.share({1000}), .716, 5e-4);
  EXPECT_NEAR(first.share({2000}), .606, 5e-4);
  EXPECT_NEAR(first.share({6000}), .387, 5e-4);
}

TEST(Lamp, has_an_age_that_light_tells_only_roughly) {
  // dt/t = dm / (b m ln(1/m)): at m = 0.6 a tenth of the light is a third of the age.
  const Dimming lamp = dimming_through({500}, .80, {3500}).value();
  const double age = lamp_age(lamp, 0.6, 0.1).value().hours.value;
  const double little = lamp_age(lamp, 0.6 * 1.001, 0.1).value().hours.value;
  EXPECT_NEAR((age - little) / age / 0.001 * 0.1, 0.34, 0.005);
}

}  // namespace
}  // namespace benchgraft::align
