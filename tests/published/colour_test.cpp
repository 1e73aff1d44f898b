// Colorimetry against published figures.
#include "align/colour.hpp"

#include <gtest/gtest.h>

#include "published/illuminants.hpp"

namespace benchgraft::align {
namespace {

struct WhitePoint {
  const char* name;
  const Spectrum& light;
  Xyz colour;          // ASTM E308-18, table 5 (5 nm sums), y = 100
  Chromaticity place;  // CIE 15:2004, table T.3
};

TEST(Observer, gives_the_published_white_points_of_A_and_D65) {
  const WhitePoint points[] = {
      {"A", published::kIlluminantA, {109.850, 100, 35.585}, {0.44758, 0.40745}},
      {"D65", published::kIlluminantD65, {95.047, 100, 108.883}, {0.31272, 0.32903}},
  };
  for (const auto& point : points) {
    const Xyz sum = seen(point.light);
    const Xyz colour = 100 / sum.y * sum;
    EXPECT_NEAR(colour.x, point.colour.x, 0.005) << point.name;
    EXPECT_NEAR(colour.z, point.colour.z, 0.005) << point.name;
    EXPECT_NEAR(chromaticity(sum).value().x, point.place.x, 1e-5) << point.name;
    EXPECT_NEAR(chromaticity(sum).value().y, point.place.y, 1e-5) << point.name;
  }
}

TEST(Rgb, has_the_matrix_of_its_published_primaries_and_white) {
  // IEC 61966-2-1:1999 prints four places.
  const Xyz red = xyz_of(LinearRgb{1, 0, 0});
  const Xyz green = xyz_of(LinearRgb{0, 1, 0});
  const Xyz blue = xyz_of(LinearRgb{0, 0, 1});
  EXPECT_NEAR(red.x, 0.4124, 5e-5);
  EXPECT_NEAR(green.x, 0.3576, 5e-5);
  EXPECT_NEAR(blue.x, 0.1805, 5e-5);
  EXPECT_NEAR(red.y, 0.2126, 5e-5);
  EXPECT_NEAR(green.y, 0.7152, 5e-5);
  EXPECT_NEAR(blue.y, 0.0722, 5e-5);
  EXPECT_NEAR(red.z, 0.0193, 5e-5);
  EXPECT_NEAR(green.z, 0.1192, 5e-5);
  EXPECT_NEAR(blue.z, 0.9505, 5e-5);
  // ITU-R BT.709-6, item 1.3 and 1.4.
  const auto place = [](const LinearRgb& light) { return chromaticity(xyz_of(light)).value(); };
  EXPECT_NEAR(place({1, 0, 0}).x, 0.640, 1e-9);
  EXPECT_NEAR(place({1, 0, 0}).y, 0.330, 1e-9);
  EXPECT_NEAR(place({0, 1, 0}).x, 0.300, 1e-9);
  EXPECT_NEAR(place({0, 1, 0}).y, 0.600, 1e-9);
  EXPECT_NEAR(place({0, 0, 1}).x, 0.150, 1e-9);
  EXPECT_NEAR(place({0, 0, 1}).y, 0.060, 1e-9);
  EXPECT_NEAR(place({1, 1, 1}).x, 0.3127, 1e-9);
  EXPECT_NEAR(place({1, 1, 1}).y, 0.3290, 1e-9);
}

struct Pair {
  Lab a, b;
  double difference;
};
// Sharma, Wu and Dalal, Color Research and Application 30 (2005) 21-30, table 1.
const Pair kPairs[] = {
    {{50.0000, 2.6772, -79.7751}, {50.0000, 0.0000, -82.7485}, 2.0425},
    {{50.0000, 3.1571, -77.2803}, {50.0000, 0.0000, -82.7485}, 2.8615},
    {{50.0000, 2.8361, -74.0200}, {50.0000, 0.0000, -82.7485}, 3.4412},
    {{50.0000, -1.3802, -84.2814}, {50.0000, 0.0000, -82.7485}, 1.0000},
    {{50.0000, -1.1848, -84.8006}, {50.0000, 0.0000, -82.7485}, 1.0000},
    {{50.0000, -0.9009, -85.5211}, {50.0000, 0.0000, -82.7485}, 1.0000},
    {{50.0000, 0.0000, 0.0000}, {50.0000, -1.0000, 2.0000}, 2.3669},
    {{50.0000, -1.0000, 2.0000}, {50.0000, 0.0000, 0.0000}, 2.3669},
    {{50.0000, 2.4900, -0.0010}, {50.0000, -2.4900, 0.0009}, 7.1792},
    {{50.0000, 2.4900, -0.0010}, {50.0000, -2.4900, 0.0010}, 7.1792},
    {{50.0000, 2.4900, -0.0010}, {50.0000, -2.4900, 0.0011}, 7.2195},
    {{50.0000, 2.4900, -0.0010}, {50.0000, -2.4900, 0.0012}, 7.2195},
    {{50.0000, -0.0010, 2.4900}, {50.0000, 0.0009, -2.4900}, 4.8045},
    {{50.0000, -0.0010, 2.4900}, {50.0000, 0.0010, -2.4900}, 4.8045},
    {{50.0000, -0.0010, 2.4900}, {50.0000, 0.0011, -2.4900}, 4.7461},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 0.0000, -2.5000}, 4.3065},
    {{50.0000, 2.5000, 0.0000}, {73.0000, 25.0000, -18.0000}, 27.1492},
    {{50.0000, 2.5000, 0.0000}, {61.0000, -5.0000, 29.0000}, 22.8977},
    {{50.0000, 2.5000, 0.0000}, {56.0000, -27.0000, -3.0000}, 31.9030},
    {{50.0000, 2.5000, 0.0000}, {58.0000, 24.0000, 15.0000}, 19.4535},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 3.1736, 0.5854}, 1.0000},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 3.2972, 0.0000}, 1.0000},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 1.8634, 0.5757}, 1.0000},
    {{50.0000, 2.5000, 0.0000}, {50.0000, 3.2592, 0.3350}, 1.0000},
    {{60.2574, -34.0099, 36.2677}, {60.4626, -34.1751, 39.4387}, 1.2644},
    {{63.0109, -31.0961, -5.8663}, {62.8187, -29.7946, -4.0864}, 1.2630},
    {{61.2901, 3.7196, -5.3901}, {61.4292, 2.2480, -4.9620}, 1.8731},
    {{35.0831, -44.1164, 3.7933}, {35.0232, -40.0716, 1.5901}, 1.8645},
    {{22.7233, 20.0904, -46.6940}, {23.0331, 14.9730, -42.5619}, 2.0373},
    {{36.4612, 47.8580, 18.3852}, {36.2715, 50.5065, 21.2231}, 1.4146},
    {{90.8027, -2.0831, 1.4410}, {91.1528, -1.6435, 0.0447}, 1.4441},
    {{90.9257, -0.5406, -0.9208}, {88.6381, -0.8985, -0.7239}, 1.5381},
    {{6.7747, -0.2908, -2.4247}, {5.8714, -0.0985, -2.2286}, 0.6377},
    {{2.0776, 0.0795, -1.1350}, {0.9033, -0.0636, -0.5514}, 0.9082},
};

TEST(Difference, agrees_with_the_34_published_pairs_of_ciede2000) {
  for (const auto& [a, b, published] : kPairs) {
    EXPECT_NEAR(difference(a, b), published, 5.1e-5);
    EXPECT_NEAR(difference(b, a), published, 5.1e-5);
  }
}

}  // namespace
}  // namespace benchgraft::align
