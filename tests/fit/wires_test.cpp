// Wire sizes, contacts, volts lost on the way, and fuses against the wires behind them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/fit_bench.hpp"

namespace benchgraft::fit {
namespace {

using namespace fit_bench;
using ::testing::AllOf;
using ::testing::HasSubstr;

/// A connector of `pitch` that mates with its other half.
std::string end(const std::string& pitch, bool plug, int ways = 2) {
  return "family = \"" + pitch + " mm crimp\", pitch_mm = " + pitch +
         ", ways = " + std::to_string(ways) + ", gaps = [], half = \"" +
         (plug ? "plug" : "socket") + R"(", key = "latch", one_at = "left")";
}

std::string volts(double nominal) { return "volts = " + std::to_string(nominal) + ", amps = 40"; }

/// A new display driver that draws `amps` from a supply, plugged straight in.
Judgement plugged(const std::string& pitch, const std::string& amps,
                  const std::string& before = "") {
  const auto driver = [&](const std::string& name, const std::string& drawn) {
    return part(name, "display driver", "",
                port("P", "supply", end(pitch, true),
                     {contact(1, kSupplyIn, "amps = " + drawn), contact(2, kGround)}));
  };
  return judged(driver("D-1", before.empty() ? "0.5" : before) + driver("D-2", amps) +
                    part("PSU-1", "supply", "",
                         port("S", "display driver", end(pitch, false),
                              {contact(1, kSupplyOut, "amps = 40"), contact(2, kGround)})) +
                    model("Tern 40", {{"display driver", "D-1"}, {"supply", "PSU-1"}}),
                swap("display driver", "D-2"));
}

TEST(ContactRating, above_the_usual_amps_is_looked_at_and_far_above_does_not_fit) {
  // 2.5 mm: 3 A, 2.74 A at 60 C.
  EXPECT_FALSE(has(plugged("2.5", "2.7"), "contact rating"));
  const auto warm = plugged("2.5", "2.8");
  EXPECT_EQ(reason(warm, "contact rating").before, Verdict::fits_with_work) << told(warm);
  EXPECT_THAT(reason(warm, "contact rating").says,
              AllOf(HasSubstr("usually carries 3 A"), HasSubstr("2.7 A in a cabinet of 60 C")));
  EXPECT_EQ(reason(plugged("2.5", "4.5"), "contact rating").before, Verdict::fits_with_work);
  EXPECT_EQ(reason(plugged("2.5", "4.6"), "contact rating").before, Verdict::does_not_fit);
}

TEST(ContactRating, of_each_pitch_that_is_known) {
  // 2.0 mm 2 A, 2.54 mm 3 A, 3.96 mm 7 A, each times sqrt(25 / 30).
  EXPECT_FALSE(has(plugged("2.0", "1.8"), "contact rating"));
  EXPECT_TRUE(has(plugged("2.0", "1.9"), "contact rating"));
  EXPECT_FALSE(has(plugged("2.54", "2.7"), "contact rating"));
  EXPECT_TRUE(has(plugged("2.54", "2.8"), "contact rating"));
  EXPECT_FALSE(has(plugged("3.96", "6.3"), "contact rating"));
  EXPECT_TRUE(has(plugged("3.96", "6.5"), "contact rating"));
  EXPECT_FALSE(has(plugged("1.25", "6.5"), "contact rating")) << "no figure was read for it";
}

TEST(ContactRating, of_pin_and_socket_contacts_goes_by_how_many_are_loaded) {
  // 2 circuits of AWG 14: 13 A, 11.87 A at 60 C (datasheet, read as an excerpt).
  EXPECT_FALSE(has(plugged("2.36", "11.8"), "contact rating"));
  EXPECT_TRUE(has(plugged("2.36", "11.9"), "contact rating"));
}

TEST(ContactRating, is_silent_when_no_more_flows_than_before) {
  EXPECT_FALSE(has(plugged("2.5", "4.6", "4.6"), "contact rating"));
  EXPECT_TRUE(has(plugged("2.5", "4.6", "4.5"), "contact rating"));
}

TEST(ContactRating, side_by_side_each_carries_less) {
  // Two contacts of 2.5 mm: 0.8 x 2.74 = 2.19 A each.
  const auto with = [](const std::string& amps) {
    return judged({.plug = {contact(1, kSupplyIn, "amps = " + amps),
                            contact(2, kSupplyIn, "amps = " + amps), contact(3, kGround)},
                   .socket = {contact(1, kSupplyOut, "amps = 40"),
                              contact(2, kSupplyOut, "amps = 40"), contact(3, kGround)},
                   .plug_connector = end("2.5", true, 3),
                   .socket_connector = end("2.5", false, 3)});
  };
  EXPECT_FALSE(has(with("2.1"), "contact rating"));
  EXPECT_THAT(reason(with("2.3"), "contact rating").says, HasSubstr("with 2 side by side"));
}

// --- leads -------------------------------------------------------------------------------------

/// Facts of one lead of two wires.
struct Lead {
  std::string area = "0.5", length = "300";  ///< "" = not recorded
};

std::string lead(const std::string& name, const Lead& l, const std::string& pitch) {
  const std::string area = l.area.empty() ? "" : ", area_mm2 = " + l.area;
  return part(name, "rail lead",
              R"(kind = "lead", wire = [{ from = "A.1", to = "B.1")" + area +
                  R"( }, { from = "A.2", to = "B.2")" + area + " }]" +
                  (l.length.empty() ? "" : ", length_mm = " + l.length),
              port("A", "supply", end(pitch, true), kNotRecorded) +
                  port("B", "display driver", end(pitch, true), kNotRecorded));
}

/// A rail of `volts` with a user of `amps`; the old lead or a new one between.
struct Rail {
  Lead old_lead{}, new_lead{};
  double volts = 12;
  std::string amps = "2", least = "10", old_amps = "2";
  std::string put_in = swap("rail lead", "L-2");
};

Judgement over_a_lead(const Rail& r) {
  const auto driver = [&](const std::string& name, const std::string& amps) {
    return part(name, "display driver", "",
                port("P", "supply", end("3.96", false),
                     {contact(1, kSupplyIn, "amps = " + amps + ", volts = [" + r.least + ", 100]"),
                      contact(2, kGround)}));
  };
  return judged(
      driver("D-1", r.old_amps) + driver("D-2", r.amps) + lead("L-1", r.old_lead, "3.96") +
          lead("L-2", r.new_lead, "3.96") +
          part("PSU-1", "supply", "",
               port("S", "display driver", end("3.96", false),
                    {contact(1, kSupplyOut, volts(r.volts)), contact(2, kGround)})) +
          model("Tern 40", {{"display driver", "D-1"}, {"supply", "PSU-1"}, {"rail lead", "L-1"}}),
      r.put_in);
}

const std::string kNewDriver = swap("display driver", "D-2");

TEST(WireSize, too_thin_for_the_amps_does_not_fit) {
  // 0.13 mm2 (AWG 26): 5.8 A in free air (read as an excerpt).
  const auto thin = [](const std::string& amps) {
    return over_a_lead({.new_lead = {"0.1", "20"}, .volts = 48, .amps = amps, .old_amps = amps});
  };
  EXPECT_FALSE(has(thin("5.8"), "wire size")) << told(thin("5.8"));
  const auto j = thin("5.9");
  EXPECT_EQ(reason(j, "wire size").before, Verdict::does_not_fit) << told(j);
  EXPECT_THAT(
      reason(j, "wire size").says,
      AllOf(HasSubstr("5.9 A flow in a wire of 0.1 mm2 of L-2"), HasSubstr("5.8 A at most")));
}

TEST(WireSize, of_the_old_lead_counts_when_a_new_part_draws_more) {
  const Rail more{.old_lead = {"0.1", "20"}, .volts = 48, .amps = "6", .put_in = kNewDriver};
  EXPECT_TRUE(has(over_a_lead(more), "wire size")) << told(over_a_lead(more));
  Rail same = more;
  same.old_amps = "6";
  EXPECT_FALSE(has(over_a_lead(same), "wire size"));
}

TEST(WireSize, is_asked_for_when_a_new_lead_would_need_more_than_the_thinnest_usual_wire) {
  const auto unknown = [](const std::string& amps, const std::string& length) {
    return over_a_lead({.new_lead = {"", length}, .volts = 48, .amps = amps, .old_amps = amps});
  };
  const auto j = unknown("6", "20");
  EXPECT_EQ(reason(j, "wire size").verdict, Verdict::unknown) << told(j);
  EXPECT_TRUE(asks(j, "cross-section in mm2"));
  EXPECT_FALSE(has(unknown("5", "20"), "wire size"));
  // 5 A over 1 m of AWG 26 and back lose 1.55 V, 3.2 % of 48 V.
  EXPECT_TRUE(asks(unknown("5", "1000"), "cross-section in mm2"));
  EXPECT_FALSE(
      has(over_a_lead({.old_lead = {"", "20"}, .volts = 48, .amps = "6", .put_in = kNewDriver}),
          "wire size"))
      << "the lead itself is not new";
}

TEST(VoltDrop, above_what_is_usual_is_measured_at_the_far_end) {
  // 2 A over 300 mm of 0.1 mm2 and back at 60 C: 2 x 0.6 m x 199.5 mohm/m = 0.239 V, 2 % of 12 V is
  // 0.24 V; recomputed.
  const auto of_length = [](const std::string& length) {
    return over_a_lead({.new_lead = {"0.1", length}});
  };
  EXPECT_FALSE(has(of_length("300"), "volt drop")) << told(of_length("300"));
  const auto j = of_length("310");
  EXPECT_EQ(reason(j, "volt drop").before, Verdict::fits_with_work) << told(j);
  EXPECT_THAT(reason(j, "volt drop").says,
              AllOf(HasSubstr("0.25 V of 12 V"), HasSubstr("2 % is usual at most")));
}

TEST(VoltDrop, below_twelve_volts_three_percent_are_usual) {
  // 3 % of 5 V is 0.15 V: 188 mm at 2 A and 0.1 mm2.
  const auto of_length = [](const std::string& length) {
    return over_a_lead({.new_lead = {"0.1", length}, .volts = 5, .least = "4"});
  };
  EXPECT_FALSE(has(of_length("185"), "volt drop"));
  EXPECT_TRUE(has(of_length("195"), "volt drop"));
}

TEST(VoltDrop, that_leaves_the_user_too_little_does_not_fit) {
  // 2 A over 1 m of 0.1 mm2 and back: 0.80 V.
  const auto j = over_a_lead({.new_lead = {"0.1", "1000"}, .least = "11.3"});
  EXPECT_EQ(reason(j, "volt drop").before, Verdict::does_not_fit) << told(j);
  EXPECT_THAT(reason(j, "volt drop").says, HasSubstr("D-1 needs 11.3 V at least"));
  EXPECT_EQ(reason(over_a_lead({.new_lead = {"0.1", "1000"}, .least = "11.1"}), "volt drop").before,
            Verdict::fits_with_work);
}

TEST(VoltDrop, no_more_than_over_the_old_lead_is_nothing_new) {
  EXPECT_FALSE(
      has(over_a_lead({.old_lead = {"0.1", "1000"}, .new_lead = {"0.1", "1000"}}), "volt drop"));
  EXPECT_TRUE(
      has(over_a_lead({.old_lead = {"0.1", "900"}, .new_lead = {"0.1", "1000"}}), "volt drop"));
  EXPECT_TRUE(
      has(over_a_lead({.old_lead = {"0.2", "1000"}, .new_lead = {"0.1", "1000"}}), "volt drop"));
}

TEST(Wires, of_the_same_make_of_lead_are_silent) {
  const auto j = over_a_lead({.old_lead = {"0.05", "2000"},
                              .amps = "7",
                              .old_amps = "7",
                              .put_in = swap("rail lead", "L-1")});
  for (const auto* rule : {"wire size", "contact rating", "volt drop"})
    EXPECT_FALSE(has(j, rule)) << told(j);
}

// --- behind a fuse -----------------------------------------------------------------------------

/// A new inlet with a fuse, and the lead of the set from it to the supply.
Judgement fused(const std::string& fuse, const std::string& area, bool new_lead_too = false) {
  const auto mains_lead = [&](const std::string& name) {
    const std::string size = area.empty() ? "" : ", area_mm2 = " + area;
    return part(name, "mains lead",
                R"(kind = "lead", length_mm = 200, wire = [{ from = "A.1", to = "B.1")" + size +
                    R"( }, { from = "A.2", to = "B.2")" + size + " }]",
                port("A", "mains inlet", end("3.96", true), kNotRecorded) +
                    port("B", "supply", end("3.96", true), kNotRecorded));
  };
  const auto inlet = [&](const std::string& name, const std::string& amps) {
    return part(name, "mains inlet",
                "inlet_wires = 2, mains_volts = [100, 240], y_nf = 0, mains = { cord_anchored = "
                "true, polarised = true, fuse_standard = \"IEC 60127\", fuse_amps = " +
                    amps + " }",
                port("OUT", "supply", end("3.96", false),
                     {contact(1, kMainsOut), contact(2, kMainsOut, R"(signal = "neutral")")}));
  };
  return judged(
      inlet("I-1", "3") + inlet("I-2", fuse) + mains_lead("L-1") + mains_lead("L-2") +
          part("PSU-1", "supply", "mains_volts = [100, 240], y_nf = 1",
               port("IN", "mains inlet", end("3.96", false),
                    {contact(1, kMainsIn), contact(2, kMainsIn, R"(signal = "neutral")")})) +
          model("Tern 40", {{"mains inlet", "I-1"}, {"supply", "PSU-1"}, {"mains lead", "L-1"}}),
      swap("mains inlet", "I-2") + (new_lead_too ? swap("mains lead", "L-2") : ""));
}

TEST(FuseRating, above_what_the_wire_behind_it_carries_burns_the_wire_first) {
  // 0.3255 mm2 (AWG 22): 10 A (read as an excerpt).
  const auto j = fused("10.5", "0.3255");
  EXPECT_EQ(reason(j, "fuse rating").before, Verdict::does_not_fit) << told(j);
  EXPECT_THAT(reason(j, "fuse rating").says, HasSubstr("the wire burns before the fuse opens"));
  EXPECT_TRUE(reason(j, "fuse rating").safety);
  EXPECT_FALSE(has(fused("9.9", "0.3255"), "fuse rating")) << told(fused("9.9", "0.3255"));
}

TEST(FuseRating, asks_for_the_wire_behind_it_when_the_lead_is_new) {
  EXPECT_TRUE(asks(fused("6.3", "", true), "cross-section in mm2 is printed on the wires of L-2"));
  EXPECT_FALSE(has(fused("6.3", ""), "fuse rating")) << "the lead is the host's own";
  EXPECT_FALSE(has(fused("5", "", true), "fuse rating")) << "any usual wire carries it";
}

TEST(Conductors, of_a_new_mains_lead_are_proven_by_continuity_too) {
  EXPECT_TRUE(has(fused("5", "0.75", true), "conductor not proven"));
  const auto j = fused("5", "0.75");
  int of_the_lead = 0;
  for (const auto& one : j.reasons)
    if (one.rule == "conductor not proven" && one.says.find("lead L-1") != std::string::npos)
      ++of_the_lead;
  EXPECT_EQ(of_the_lead, 0) << told(j);
}

}  // namespace
}  // namespace benchgraft::fit
