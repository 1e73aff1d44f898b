// The wheel model against figures that were worked out apart from it (numerical mixing, sRGB
// primaries as stand-in) and against filters whose colours were summed up apart from it.
#include "align/wheel.hpp"

#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include "published/illuminants.hpp"

namespace benchgraft::align {
namespace {

Wheel six() {
  auto wheel = wheel_of("RGBRGB");
  ensure(wheel.ok(), "a usual wheel");
  wheel.value().spoke = 14;
  return wheel.value();
}

struct Bar {
  double x, y, luminance;
};
struct Row {
  double late, share;
  Bar red, green, blue;
};
// RGBRGB, 60 degrees each, spoke 14, guard 1: share of the neighbour, xy and luminance against the
// right delay, of the red, green and blue bar.
const Row kSix[] = {
    {0, 0, {.6400, .3300, 1.000}, {.3000, .6000, 1.000}, {.1500, .0600, 1.000}},
    {5, .0130, {.6319, .3364, 1.031}, {.2980, .5929, .988}, {.1534, .0619, 1.025}},
    {10, .0657, {.6008, .3611, 1.155}, {.2901, .5642, .941}, {.1678, .0698, 1.128}},
    {20, .2727, {.5008, .4406, 1.644}, {.2588, .4517, .755}, {.2320, .1052, 1.531}},
    {-5, .0130, {.6283, .3235, .991}, {.3024, .5981, .991}, {.1519, .0669, 1.116}},
    {-10, .0657, {.5831, .2987, .957}, {.3125, .5901, .954}, {.1598, .0952, 1.586}},
    {-20, .2727, {.4382, .2188, .820}, {.3573, .5545, .808}, {.1906, .2063, 3.430}},
    {30, .5000, {.4193, .5052, 2.181}, {.2247, .3288, .550}, {.3209, .1542, 1.973}},
};

void expect_bar(const Wheel& wheel, Hue hue, double late, const Bar& expected) {
  const Xyz light = bar_light(wheel, hue, late).light;
  const auto place = chromaticity(light).value();
  // The table was mixed numerically, with slices of its own.
  EXPECT_NEAR(place.x, expected.x, 1e-4) << name_of(hue) << " at " << late;
  EXPECT_NEAR(place.y, expected.y, 1e-4) << name_of(hue) << " at " << late;
  EXPECT_NEAR(light.y / bar_light(wheel, hue, 0).light.y, expected.luminance,
              5e-4 * (1 + expected.luminance))
      << name_of(hue) << " at " << late;
}

TEST(Wheel, of_six_segments_mixes_as_worked_out_apart) {
  const Wheel wheel = six();
  for (const auto& row : kSix) {
    EXPECT_NEAR(neighbour_share(row.late, 44, 14, 1), row.share, 6e-5) << row.late;
    expect_bar(wheel, Hue::red, row.late, row.red);
    expect_bar(wheel, Hue::green, row.late, row.green);
    expect_bar(wheel, Hue::blue, row.late, row.blue);
  }
}

TEST(Wheel, gives_the_error_back_from_the_share) {
  EXPECT_NEAR(error_of_share(.10, 44, 14, 1), 12.10, 0.005);
  EXPECT_NEAR(error_of_share(.25, 44, 14, 1), 19.00, 0.005);
}

TEST(Wheel, of_three_segments_is_more_tolerant) {
  EXPECT_NEAR(neighbour_share(5, 104, 14, 1), .0055, 6e-5);
  EXPECT_NEAR(neighbour_share(10, 104, 14, 1), .0278, 6e-5);
  EXPECT_NEAR(neighbour_share(20, 104, 14, 1), .1154, 6e-5);
}

TEST(Wheel, with_a_clear_segment_adds_white_to_its_neighbours) {
  auto wheel = wheel_of("RGBW", {100, 100, 100, 60});
  ASSERT_TRUE(wheel.ok());
  wheel.value().spoke = 14;
  // The clear segment of this vector is as bright as one degree each of red, green and blue.
  expect_bar(wheel.value(), Hue::blue, 10, {.1635, .0822, 1.443});
  expect_bar(wheel.value(), Hue::red, -10, {.5929, .3299, 1.127});
}

TEST(Wheel, turns_angles_into_times_as_tabulated) {
  const struct {
    double hertz, microseconds;
  } rows[] = {{60, 46.30}, {90, 30.86}, {120, 23.15}, {150, 18.52}, {180, 15.43}, {240, 11.57}};
  for (const auto& row : rows)
    EXPECT_NEAR(microseconds(1, row.hertz), row.microseconds, 0.005) << row.hertz;
  EXPECT_NEAR(microseconds(14, 120), 324, 0.5);
  EXPECT_NEAR(spoke_degrees(5, 20).value(), 14.36, 0.005);
  EXPECT_NEAR(spoke_degrees(4, 22).value(), 10.43, 0.005);
  // A repair page tells of an index of 150 Hz at 60 frames: two and a half turns a frame.
  EXPECT_DOUBLE_EQ(index_hertz(2.5, 60, 1), 150);
}

/// Transmittance that rises from 0 to 1 between `a` and `b` nm and falls from 1 to 0 between `c`
/// and `d`.
Spectrum filter(double a, double b, double c, double d) {
  Spectrum pass;
  for (std::size_t i = 0; i < kWavelengths; ++i) {
    const double nm = 380 + 5 * static_cast<double>(i);
    const double up = a == b ? 1 : std::clamp((nm - a) / (b - a), 0.0, 1.0);
    const double down = c == d ? 1 : std::clamp((d - nm) / (d - c), 0.0, 1.0);
    pass[i] = up * down;
  }
  return pass;
}

struct Filtered {
  const char* name;
  Spectrum pass;
  Xyz a, d65, e;  // XYZ with the bare light at Y = 100, 5 nm sums worked out apart
};
const Filtered kFiltered[] = {
    {"red from 590",
     filter(580, 600, 0, 0),
     {68.045179, 33.29978, 0.024287},
     {42.275861, 21.298294, 0.017037},
     {48.169414, 24.094205, 0.018857}},
    {"green 500 to 570",
     filter(490, 510, 560, 580),
     {17.184572, 45.119752, 2.885051},
     {18.759968, 55.453044, 4.658685},
     {18.253521, 52.808723, 4.288982}},
    {"blue 400 to 490",
     filter(395, 405, 485, 500),
     {5.29769, 2.205663, 31.266316},
     {17.809362, 5.610478, 101.296566},
     {16.486879, 4.929259, 92.861717}},
    {"yellow from 510",
     filter(500, 520, 0, 0),
     {104.428662, 94.121681, 1.692509},
     {76.960556, 87.852475, 2.456442},
     {83.22512, 89.107598, 2.291528}},
    {"cyan up to 580",
     filter(0, 0, 570, 590),
     {31.185484, 57.840274, 35.543115},
     {44.32777, 71.586015, 108.850813},
     {42.775451, 68.305776, 99.969152}},
};

TEST(Filters, have_the_colours_worked_out_apart) {
  Spectrum flat;
  flat.fill(1);
  for (const auto& row : kFiltered) {
    const auto expect = [&](const Spectrum& light, const Xyz& expected) {
      const Xyz colour = 100 / seen(light).y * through(light, row.pass);
      EXPECT_NEAR(colour.x, expected.x, 1e-4) << row.name;
      EXPECT_NEAR(colour.y, expected.y, 1e-4) << row.name;
      EXPECT_NEAR(colour.z, expected.z, 1e-4) << row.name;
    };
    expect(published::kIlluminantA, row.a);
    expect(published::kIlluminantD65, row.d65);
    expect(flat, row.e);
  }
}

}  // namespace
}  // namespace benchgraft::align
