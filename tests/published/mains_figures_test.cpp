// Distances and fuse ratings against published figures. Each value keeps its source beside it.
#include "fit/mains_figures.hpp"

#include <array>

#include <gtest/gtest.h>

namespace benchgraft::fit {
namespace {

using catalogue::FuseStandard;

TEST(Creepage, of_basic_insulation_at_pollution_degree_2) {
  // IEC 60664-1 table F.5 as copied in an open magnetics-design library, read as excerpts; the
  // 250 V row agrees with two published test reports (IEC 60950-1 and IEC 62368-1).
  struct Row {
    double volts, group_1, group_2, group_3;
  };
  constexpr std::array<Row, 10> kRows{{{50, 0.6, 0.85, 1.2},
                                       {100, 0.71, 1.0, 1.4},
                                       {125, 0.75, 1.05, 1.5},
                                       {160, 0.8, 1.1, 1.6},
                                       {200, 1.0, 1.4, 2.0},
                                       {250, 1.25, 1.8, 2.5},
                                       {320, 1.6, 2.2, 3.2},
                                       {400, 2.0, 2.8, 4.0},
                                       {500, 2.5, 3.6, 5.0},
                                       {630, 3.2, 4.5, 6.3}}};
  for (const auto& row : kRows) {
    EXPECT_NEAR(*basic_creepage_mm(row.volts, MaterialGroup::group_1), row.group_1, 1e-12);
    EXPECT_NEAR(*basic_creepage_mm(row.volts, MaterialGroup::group_2), row.group_2, 1e-12);
    EXPECT_NEAR(*basic_creepage_mm(row.volts, MaterialGroup::group_3), row.group_3, 1e-12);
  }
  EXPECT_NEAR(*basic_creepage_mm(264), 2.64, 1e-9) << "on a straight line between rows, recomputed";
  EXPECT_FALSE(basic_creepage_mm(40));
  EXPECT_FALSE(basic_creepage_mm(700)) << "beyond the rows that were read";
}

TEST(Clearance, by_the_peak_of_the_transient) {
  // IEC 62368-1 table 14, same copy, read as excerpts.
  struct Row {
    double peak, basic, reinforced;
  };
  for (const auto& row : std::array<Row, 5>{{{1500, 0.5, 1.0},
                                             {2000, 1.0, 2.0},
                                             {2500, 1.5, 3.0},
                                             {3000, 2.0, 3.8},
                                             {4000, 3.0, 5.5}}}) {
    EXPECT_EQ(clearance_mm(row.peak, false), row.basic);
    EXPECT_EQ(clearance_mm(row.peak, true), row.reinforced);
  }
  EXPECT_FALSE(clearance_mm(5000, true)) << "the copy contradicts itself there";
  EXPECT_EQ(mains_transient_volts(120), 1500) << "overvoltage category II up to 150 V";
  EXPECT_EQ(mains_transient_volts(230), 2500) << "above 150 V up to 300 V";
  EXPECT_FALSE(mains_transient_volts(400));
}

TEST(Distances, of_a_barrier_at_230_and_120_volts) {
  // 2.5 / 5.0 and 1.5 / 3.0 mm at 230 V, 1.5 / 3.0 and 0.5 / 1.0 mm at 120 V: the same rows, and
  // two published test reports for 230 V.
  struct Row {
    double mains;
    bool reinforced;
    double creepage, clearance;
  };
  for (const auto& row : std::array<Row, 5>{{{230, false, 2.5, 1.5},
                                             {230, true, 5.0, 3.0},
                                             {120, false, 1.5, 0.5},
                                             {120, true, 3.0, 1.0},
                                             {264, true, 5.28, 3.0}}}) {
    const auto needed = distances_needed(row.mains, row.reinforced);
    ASSERT_TRUE(needed);
    EXPECT_NEAR(needed->creepage_mm, row.creepage, 1e-9) << row.mains << " V";
    EXPECT_NEAR(needed->clearance_mm, row.clearance, 1e-9) << row.mains << " V";
  }
  EXPECT_FALSE(distances_needed(400, false));
}

TEST(Fuse, least_printed_amps_for_a_steady_current) {
  // UL 248-14: current / 0.75; IEC 60127: the current; both by the temperature factor. A page on
  // fuse standards, read as an excerpt; values recomputed.
  EXPECT_NEAR(least_fuse_amps(FuseStandard::ul_248_14, 1.8), 2.4, 1e-9);
  EXPECT_NEAR(least_fuse_amps(FuseStandard::ul_248_14, 1.8, 0.9), 2.666667, 1e-6);
  EXPECT_NEAR(least_fuse_amps(FuseStandard::iec_60127, 1.8), 1.8, 1e-9);
}

}  // namespace
}  // namespace benchgraft::fit
