// Wire sizes, colours and marks against published figures. Each value keeps its source beside it.
#include "fit/conductors.hpp"

#include <algorithm>
#include <array>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace benchgraft::fit {
namespace {

/// d, A and R by the formula of ASTM B258 and IEC 60028 (0.017241 ohm mm2/m, 0.00393 / K),
/// recomputed; the last column was published elsewhere (a wire-gauge page, read as an excerpt).
struct AwgRow {
  int awg;
  double d_mm, a_mm2, r20_ohm_per_km, r70_ohm_per_km, published_ohm_per_km;  // 0 = not published
};
constexpr std::array<AwgRow, 14> kAwg{{
    {8, 3.26364, 8.365564, 2.06095, 2.46593, 0},
    {10, 2.58819, 5.261155, 3.27704, 3.92097, 3.28},
    {12, 2.05253, 3.308773, 5.21069, 6.23459, 5.21},
    {14, 1.62773, 2.080908, 8.28533, 9.91339, 8.28},
    {16, 1.29085, 1.308696, 13.17419, 15.76291, 13.17},
    {18, 1.02369, 0.823047, 20.94778, 25.06401, 20.94},
    {20, 0.81182, 0.517619, 33.30827, 39.85334, 33.29},
    {22, 0.6438, 0.325534, 52.96222, 63.3693, 52.94},
    {24, 0.51056, 0.20473, 84.21323, 100.76113, 84.2},
    {26, 0.40489, 0.128756, 133.90428, 160.21647, 133.86},
    {28, 0.32109, 0.080976, 212.91614, 254.75416, 212.87},
    {30, 0.25464, 0.050926, 338.54992, 405.07498, 338.5},
    {32, 0.20194, 0.032028, 538.31546, 644.09445, 538.25},
    {36, 0.127, 0.012668, 1361.02195, 1628.46276, 1360.0},
}};

TEST(Awg, diameter_area_and_resistance_follow_astm_b258_and_iec_60028) {
  for (const auto& row : kAwg) {
    EXPECT_NEAR(awg_diameter_mm(row.awg), row.d_mm, 1e-5) << row.awg;
    EXPECT_NEAR(awg_area_mm2(row.awg), row.a_mm2, 1e-6) << row.awg;
    const double area = awg_area_mm2(row.awg);
    EXPECT_NEAR(copper_ohm_per_km(area) / row.r20_ohm_per_km, 1, 1e-5) << row.awg;
    EXPECT_NEAR(copper_ohm_per_km(area, 70) / row.r70_ohm_per_km, 1, 1e-5) << row.awg;
  }
}

TEST(Awg, agrees_with_the_independently_published_resistance_within_a_tenth_of_a_percent) {
  for (const auto& row : kAwg)
    if (row.published_ohm_per_km > 0) {
      EXPECT_NEAR(copper_ohm_per_km(awg_area_mm2(row.awg)) / row.published_ohm_per_km, 1, 0.001)
          << row.awg;
    }
}

TEST(Awg, each_size_is_1_1229322_times_the_next) {
  // ASTM B258: ratio 92^(1/39), read as an excerpt.
  for (int awg = -3; awg < 40; ++awg)
    EXPECT_NEAR(awg_diameter_mm(awg) / awg_diameter_mm(awg + 1), 1.1229322, 1e-7);
}

TEST(Metric, largest_resistance_of_class_5_conductors) {
  // IEC 60228 class 5, plain copper, 20 C, ohm/km: a cable-engineering page, read as an excerpt.
  constexpr std::array<std::pair<double, double>, 7> kClass5{
      {{0.5, 39.0}, {0.75, 26.0}, {1.0, 19.5}, {1.5, 13.3}, {2.5, 7.98}, {4, 4.95}, {6, 3.30}}};
  for (const auto& [area, ohm] : kClass5) EXPECT_EQ(iec60228_class5_ohm_per_km(area), ohm) << area;
  EXPECT_EQ(iec60228_class5_ohm_per_km(0.6), std::nullopt) << "no standard size";
  EXPECT_EQ(iec60228_class5_ohm_per_km(10), std::nullopt) << "beyond the rows that were read";
}

TEST(Metric, a_flexible_conductor_may_have_more_resistance_than_the_solid_copper_of_its_size) {
  for (const double area : {0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0})
    EXPECT_GT(*iec60228_class5_ohm_per_km(area), copper_ohm_per_km(area)) << area;
}

using ::testing::Contains;
using ::testing::HasSubstr;

TEST(Colour, means_different_things_in_different_systems_and_proves_nothing) {
  // IEC 60445 (absorbed IEC 60446 in 2010), NEC 200.6(A) and 250.119, UK practice before 1969 and
  // 2006, old continental cords (a secondary list): all read as excerpts.
  struct Meaning {
    const char* colour;
    const char* means;
  };
  for (const auto& row : std::array<Meaning, 14>{{{"blue", "neutral (IEC 60445)"},
                                                  {"blue", "hot (NEC)"},
                                                  {"black", "line 2 (IEC 60445)"},
                                                  {"black", "neutral of old United Kingdom"},
                                                  {"black", "earth of old Belgian and Russian"},
                                                  {"red", "line of old United Kingdom"},
                                                  {"red", "protective earth of old German"},
                                                  {"white", "neutral (NEC)"},
                                                  {"grey", "line 3 (IEC 60445)"},
                                                  {"grey", "neutral (NEC)"},
                                                  {"yellow", "protective earth of old Swiss"},
                                                  {"green", "earth of old United Kingdom"},
                                                  {"brown", "line (IEC 60445)"},
                                                  {"green-yellow", "protective earth"}}}) {
    const auto known = colour_meaning(row.colour);
    ASSERT_TRUE(known) << row.colour;
    EXPECT_THAT(known->means, Contains(HasSubstr(row.means))) << row.colour;
    EXPECT_EQ(known->protective_earth_only, std::string(row.colour) == "green-yellow");
  }
  EXPECT_FALSE(colour_meaning("pink")) << "no system gives it a meaning";
}

TEST(TerminalMark, of_iec_60445_annex_a) {
  // From memory, not looked up.
  for (const auto& [mark, means] : std::array<std::pair<const char*, const char*>, 12>{
           {{"L", "line"},
            {"L1", "line 1"},
            {"L2", "line 2"},
            {"L3", "line 3"},
            {"N", "neutral"},
            {"PE", "protective earth"},
            {"PEN", "protective earth and neutral in one"},
            {"PB", "protective bonding"},
            {"FE", "functional earth"},
            {"L+", "positive pole"},
            {"L-", "negative pole"},
            {"M", "middle conductor of direct current"}}}) {
    ASSERT_TRUE(terminal_mark(mark)) << mark;
    EXPECT_EQ(terminal_mark(mark)->means, means);
  }
  EXPECT_FALSE(terminal_mark("X"));
}

}  // namespace
}  // namespace benchgraft::fit
