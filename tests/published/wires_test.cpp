// Volt drop, contact derating and wire ratings against published or recomputed figures.
#include <array>
#include <cmath>

#include <gtest/gtest.h>

#include "fit/conductors.hpp"
#include "fit/wire_figures.hpp"

namespace benchgraft::fit {
namespace {

/// dV = 2 L I R'(T) + I R contacts, R' of ASTM B258 sizes by IEC 60028, recomputed apart from this
/// code.
struct Drop {
  int awg;
  double amps, length_m, volts, celsius, contacts_ohm, loop_ohm, drop, percent;
};
constexpr std::array<Drop, 4> kDrops{{
    {22, 3, 0.6, 5, 60, 0.02, 0.093545, 0.280636, 5.6127},
    {18, 5, 0.8, 12, 60, 0, 0.038785, 0.193926, 1.6161},
    {24, 1, 0.4, 3.3, 60, 0, 0.077961, 0.077961, 2.3625},
    {20, 4, 1.0, 24, 60, 0, 0.077089, 0.308355, 1.2848},
}};

TEST(VoltDrop, of_four_harnesses) {
  for (const auto& row : kDrops) {
    const double drop =
        volt_drop(row.amps, row.length_m, awg_area_mm2(row.awg), row.celsius, row.contacts_ohm);
    EXPECT_NEAR(drop, row.drop, 2e-6) << "AWG " << row.awg;
    EXPECT_NEAR(drop / row.amps, row.loop_ohm, 1e-6) << "AWG " << row.awg;
    EXPECT_NEAR(100 * drop / row.volts, row.percent, 1e-4) << "AWG " << row.awg;
  }
}

TEST(VoltDrop, limit_is_two_percent_from_twelve_volts_up_and_three_below) {
  // Common practice, no source.
  EXPECT_EQ(drop_limit(24), 0.02);
  EXPECT_EQ(drop_limit(12), 0.02);
  EXPECT_EQ(drop_limit(11.9), 0.03);
  EXPECT_EQ(drop_limit(3.3), 0.03);
}

TEST(PinAndSocket, contacts_of_2_36_mm_by_circuits_and_wire) {
  // 30 K rise, all circuits loaded: a pin-and-socket datasheet, read as an excerpt.
  constexpr std::array<int, 6> kWires{14, 16, 18, 20, 22, 24};
  struct Row {
    int circuits;
    std::array<double, 6> amps;
  };
  constexpr std::array<Row, 7> kRows{{{2, {13, 12, 11, 8, 6, 6}},
                                      {3, {13, 11, 10, 8, 6, 5}},
                                      {4, {11, 10, 9, 7, 5, 4}},
                                      {6, {10, 9, 8, 6, 4, 4}},
                                      {9, {9, 7, 6, 5, 4, 3}},
                                      {12, {8, 7, 6, 4, 3, 3}},
                                      {15, {7, 6, 5, 4, 3, 3}}}};
  for (const auto& row : kRows)
    for (std::size_t i = 0; i < kWires.size(); ++i)
      EXPECT_EQ(pin_and_socket_amps(row.circuits, kWires[i]), row.amps[i])
          << row.circuits << " circuits, AWG " << kWires[i];
  EXPECT_EQ(pin_and_socket_amps(5, 18), 8) << "between two rows the one with more circuits";
  EXPECT_FALSE(pin_and_socket_amps(16, 18)) << "beyond the rows that were read";
  EXPECT_FALSE(pin_and_socket_amps(2, 26));
}

TEST(Contacts, rating_by_pitch) {
  // Connector guides read as excerpts; the 3.96 mm header from memory.
  EXPECT_EQ(contact_amps(2.0), 2);
  EXPECT_EQ(contact_amps(2.5), 3);
  EXPECT_EQ(contact_amps(2.54), 3);
  EXPECT_EQ(contact_amps(3.96), 7);
  EXPECT_FALSE(contact_amps(1.25)) << "no figure was read for it";
}

TEST(Contacts, side_by_side_carry_less_each) {
  // 3 A alone, 4.8 A in two, 7.68 A in four: a derating note, read as an excerpt.
  EXPECT_NEAR(2 * 3 * parallel_factor(2), 4.8, 1e-9);
  EXPECT_NEAR(4 * 3 * parallel_factor(4), 7.68, 1e-9);
}

TEST(Contacts, in_warm_surroundings_carry_less) {
  // I sqrt((85 - T) / 30) for 3 A, recomputed.
  EXPECT_NEAR(amps_at(3, 60), 2.7386, 5e-5);
  EXPECT_NEAR(amps_at(3, 65), 2.4495, 5e-5);
  EXPECT_NEAR(amps_at(3, 70), 2.1213, 5e-5);
  EXPECT_NEAR(amps_at(3, 75), 1.7321, 5e-5);
  EXPECT_EQ(amps_at(3, 40), 3) << "never more than rated";
  EXPECT_EQ(amps_at(3, 90), 0);
}

TEST(HookUpWire, amps_by_size) {
  // 105 C insulation at 40 C in free air: a power-supply maker's page, read as an excerpt.
  constexpr std::array<std::pair<int, double>, 6> kRows{
      {{26, 5.8}, {24, 7.6}, {22, 10.0}, {20, 13.1}, {18, 17.2}, {16, 22.8}}};
  for (const auto& [awg, amps] : kRows)
    EXPECT_NEAR(*hook_up_amps(awg_area_mm2(awg)), amps, 1e-9) << "AWG " << awg;
  EXPECT_EQ(hook_up_amps(0.05), 5.8) << "thinner: at most the row of AWG 26";
  EXPECT_FALSE(hook_up_amps(2.5)) << "beyond the rows that were read";
  EXPECT_GT(*hook_up_amps(0.25), 7.6);
  EXPECT_LT(*hook_up_amps(0.25), 10.0);
  EXPECT_EQ(bundle_factor(4), 1.0);
  EXPECT_EQ(bundle_factor(5), 0.8);
}

TEST(Cord, cross_section_by_amps) {
  // IEC 60950-1 table 3B, from memory.
  EXPECT_EQ(cord_area_mm2(6), 0.75);
  EXPECT_EQ(cord_area_mm2(6.1), 1.0);
  EXPECT_EQ(cord_area_mm2(10), 1.0);
  EXPECT_EQ(cord_area_mm2(16), 1.5);
  EXPECT_FALSE(cord_area_mm2(17));
}

TEST(ThinnestUsualWire, is_awg_26) { EXPECT_NEAR(awg_area_mm2(26), kThinnestUsualMm2, 1e-4); }

}  // namespace
}  // namespace benchgraft::fit
