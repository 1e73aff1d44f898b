#include "align/colour.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace benchgraft::align {
namespace {

TEST(Colour, a_flat_spectrum_of_one_has_luminance_one_and_lies_in_the_middle) {
  Spectrum flat;
  flat.fill(1);
  const Xyz white = seen(flat);
  EXPECT_NEAR(white.y, 1, 1e-12);
  const auto place = chromaticity(white);
  ASSERT_TRUE(place.ok());
  EXPECT_NEAR(place.value().x, 1.0 / 3, 1e-4);
  EXPECT_NEAR(place.value().y, 1.0 / 3, 1e-4);
}

TEST(Colour, has_no_place_in_the_diagram_without_light) {
  const auto place = chromaticity({});
  ASSERT_FALSE(place.ok());
  EXPECT_EQ(place.error().message,
            "A colour without light has no place in the colour diagram; take a brighter reading.");
  EXPECT_FALSE(xyz_of(Chromaticity{0.3, 0}, 1).ok());
  EXPECT_FALSE(xyz_of(Chromaticity{0.7, 0.6}, 1).ok());
}

RC_GTEST_PROP(Colour, goes_to_the_diagram_and_back, ()) {
  const auto share = [](int n) { return 0.02 + n / 1000.0; };
  const double x = share(*rc::gen::inRange(0, 480));
  const double y = share(*rc::gen::inRange(0, 480));
  const auto colour = xyz_of(Chromaticity{x, y}, 0.7);
  RC_ASSERT(colour.ok());
  const auto back = chromaticity(colour.value());
  RC_ASSERT(back.ok());
  RC_ASSERT(std::abs(back.value().x - x) < 1e-12);
  RC_ASSERT(std::abs(back.value().y - y) < 1e-12);
}

RC_GTEST_PROP(Colour, goes_to_linear_light_and_back, ()) {
  const auto share = [] { return *rc::gen::inRange(0, 1000) / 999.0; };
  const LinearRgb light{share(), share(), share()};
  const LinearRgb back = linear_rgb(xyz_of(light));
  RC_ASSERT(std::abs(back.r - light.r) < 1e-12);
  RC_ASSERT(std::abs(back.g - light.g) < 1e-12);
  RC_ASSERT(std::abs(back.b - light.b) < 1e-12);
  // The two pieces of the curve do not meet exactly in the standard: 8e-9 apart at the knee.
  RC_ASSERT(std::abs(linear_of_srgb(srgb_of_linear(light.r)) - light.r) < 1e-6);
}

RC_GTEST_PROP(Colour, differs_from_itself_by_nothing_and_both_ways_alike, ()) {
  const auto part = [](int least, int most) { return *rc::gen::inRange(least, most) / 10.0; };
  const Lab a{part(0, 1000), part(-1280, 1280), part(-1280, 1280)};
  const Lab b{part(0, 1000), part(-1280, 1280), part(-1280, 1280)};
  RC_ASSERT(difference(a, a) == 0);
  RC_ASSERT(std::abs(difference(a, b) - difference(b, a)) < 1e-9);
}

}  // namespace
}  // namespace benchgraft::align
