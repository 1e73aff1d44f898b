// Conductors by mark, colours, fuse and switch, plug, cord, distances, fuses.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/fit_bench.hpp"

namespace benchgraft::fit {
namespace {

using namespace fit_bench;
using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;

const std::string kLine =
    R"(class = "mains", domain = "primary", direction = "out", signal = "line")";
const std::string kNeutral =
    R"(class = "mains", domain = "primary", direction = "out", signal = "neutral")";
const std::string kLineIn = facts(kLine, R"(direction = "in")");
const std::string kNeutralIn = facts(kNeutral, R"(direction = "in")");
const std::string kThree =
    R"(family = "3.96 mm crimp", pitch_mm = 3.96, ways = 3, gaps = [], half = "plug", key = "latch", one_at = "left")";
const std::string kThreeSocket = facts(kThree, R"(half = "socket")");
const std::string kHeld = "polarised = true, cord_anchored = true";

/// A set of class I with a three-wire inlet on a supply; a new inlet or a new supply goes in.
struct Set {
  std::string old_inlet = kHeld, new_inlet = kHeld;  ///< the mains sides
  std::string old_supply{}, new_supply{};
  std::vector<std::string> conductors{R"(mark = "L")", R"(mark = "N")", R"(mark = "PE")"};
  std::string known = R"(known = "measured")";
  std::vector<std::string> socket{"", "", ""};  ///< facts of the contacts of the supplies
  std::string cabinet = R"(protection = "I")";
  std::string supply_facts = R"(protection = "I", mains_volts = [200, 240], y_nf = 2.2)";
  std::string more{};
};

std::string side(const std::string& facts) {
  return facts.empty() ? "" : ", mains = { " + facts + " }";
}

std::string inlet(const std::string& name, const std::string& mains, const Set& s) {
  return part(name, "mains inlet",
              "inlet_wires = 3, mains_volts = [100, 240], y_nf = 0" + side(mains),
              port("MAINS", "supply", kThree,
                   {contact(1, kLine, s.conductors[0]), contact(2, kNeutral, s.conductors[1]),
                    contact(3, kEarth, s.conductors[2])},
                   s.known));
}

std::string supply(const std::string& name, const std::string& mains, const Set& s) {
  return part(name, "supply", s.supply_facts + side(mains),
              port("IN", "mains inlet", kThreeSocket,
                   {contact(1, kLineIn, s.socket[0]), contact(2, kNeutralIn, s.socket[1]),
                    contact(3, kEarth, s.socket[2])}));
}

std::string body(const Set& s) {
  const Set plain;
  return inlet("I-1", s.old_inlet, plain) + inlet("I-2", s.new_inlet, s) +
         supply("PSU-1", s.old_supply, s) + supply("PSU-2", s.new_supply, s) + s.more +
         model("Tern 40", {{"mains inlet", "I-1"}, {"supply", "PSU-1"}}, s.cabinet);
}

Judgement new_inlet(const Set& s) { return judged(body(s), swap("mains inlet", "I-2")); }
Judgement new_supply(const Set& s, const Conditions& conditions = {}) {
  return judged(body(s), swap("supply", "PSU-2"), conditions);
}

int count(const Judgement& j, const std::string& rule) {
  return static_cast<int>(std::count_if(j.reasons.begin(), j.reasons.end(),
                                        [&](const Reason& one) { return one.rule == rule; }));
}

// --- conductors --------------------------------------------------------------------------------

TEST(Conductors, marked_and_measured_are_proven_and_stay_quiet) {
  const auto j = new_inlet({});
  for (const auto* rule :
       {"conductor not proven", "conductors exchanged", "colour conflict", "green-yellow misused",
        "plug polarity", "fuse and switch", "cord anchorage", "records disagree"})
    EXPECT_FALSE(has(j, rule)) << told(j);
  EXPECT_TRUE(has(j, "earth path")) << "it is measured all the same";
}

TEST(Conductors, a_mark_without_continuity_is_a_question) {
  const auto j = new_inlet({.known = ""});
  EXPECT_EQ(reason(j, "conductor not proven").verdict, Verdict::unknown) << told(j);
  EXPECT_TRUE(reason(j, "conductor not proven").safety);
  EXPECT_THAT(reason(j, "conductor not proven").says, HasSubstr("a mark alone proves nothing"));
  EXPECT_TRUE(asks(j, "continuity from each pin of the mains plug"));
}

TEST(Conductors, without_a_mark_are_a_question_that_tells_what_the_colours_may_mean) {
  const auto j = new_inlet({.conductors = {R"(colour = "blue")", R"(colour = "brown")", ""}});
  EXPECT_THAT(reason(j, "conductor not proven").says,
              AllOf(HasSubstr("blue may be neutral (IEC 60445), hot (NEC)"),
                    HasSubstr("brown may be line")))
      << told(j);
  EXPECT_FALSE(has(new_supply({.conductors = {"", "", ""}}), "conductor not proven"))
      << "the host's own inlet is untouched";
}

TEST(Conductors, a_mark_that_settles_nothing_is_no_proof) {
  EXPECT_TRUE(has(new_inlet({.conductors = {R"(mark = "L")", R"(mark = "COM")", R"(mark = "PE")"}}),
                  "conductor not proven"));
  EXPECT_FALSE(
      has(new_inlet({.conductors = {R"(mark = "LIVE")", R"(mark = "N")", R"(mark = "PE")"}}),
          "conductor not proven"));
}

TEST(Conductors, an_inlet_whose_contacts_nobody_recorded_is_asked_about) {
  const auto j = judged(
      body({}) + part("I-3", "mains inlet", "inlet_wires = 3, mains_volts = [100, 240], -port"),
      swap("mains inlet", "I-3"));
  EXPECT_TRUE(has(j, "conductor not proven")) << told(j);
}

TEST(Conductors, a_measured_mark_against_its_class_is_a_record_that_is_wrong) {
  const auto j = new_inlet({.conductors = {R"(mark = "PE")", R"(mark = "N")", R"(mark = "L")"}});
  EXPECT_EQ(count(j, "records disagree"), 2) << told(j);
  EXPECT_EQ(reason(j, "records disagree").verdict, Verdict::unknown);
}

// --- colours -----------------------------------------------------------------------------------

TEST(Colours, that_contradict_a_proven_mark_are_said_and_the_measurement_counts) {
  const auto j = new_inlet(
      {.conductors = {R"(mark = "L", colour = "brown")", R"(mark = "N", colour = "brown")",
                      R"(mark = "PE", colour = "green-yellow")"}});
  EXPECT_EQ(count(j, "colour conflict"), 1) << told(j);
  EXPECT_THAT(reason(j, "colour conflict").says,
              AllOf(HasSubstr("marked N (neutral) but is brown"),
                    HasSubstr("The continuity measured counts")));
  EXPECT_EQ(reason(j, "colour conflict").before, Verdict::fits_with_work);
}

TEST(Colours, that_may_be_what_the_mark_says_are_quiet) {
  // Blue is hot by NEC, black neutral in old United Kingdom wiring, red earth in old German cords.
  const auto j = new_inlet(
      {.conductors = {R"(mark = "L", colour = "light blue")", R"(mark = "N", colour = "black")",
                      R"(mark = "PE", colour = "red")"}});
  EXPECT_FALSE(has(j, "colour conflict")) << told(j);
}

TEST(Colours, without_a_mark_never_prove_but_still_contradict_the_class) {
  const auto j = new_inlet({.conductors = {"", "", R"(colour = "brown")"}});
  EXPECT_THAT(reason(j, "colour conflict").says,
              HasSubstr("Neither counts before continuity from the plug is measured"))
      << told(j);
  EXPECT_TRUE(has(j, "conductor not proven"));
}

TEST(Colours, green_yellow_is_protective_earth_and_nothing_else) {
  const auto j = new_inlet({.conductors = {R"(mark = "L", colour = "green/yellow")",
                                           R"(mark = "N")", R"(mark = "PE")"}});
  EXPECT_EQ(reason(j, "green-yellow misused").before, Verdict::does_not_fit) << told(j);
  EXPECT_TRUE(reason(j, "green-yellow misused").safety);
  EXPECT_EQ(count(j, "green-yellow misused"), 1);
}

TEST(Colours, green_yellow_on_a_low_voltage_rail_is_refused_too) {
  const auto with = [](const std::string& colour) {
    return judged({.plug = {contact(1, kSupplyIn, colour), contact(2, kGround)},
                   .socket = {contact(1, kSupplyOut), contact(2, kGround)}});
  };
  EXPECT_TRUE(has(with(R"(colour = "green-yellow")"), "green-yellow misused"));
  EXPECT_FALSE(has(with(R"(colour = "green")"), "green-yellow misused"));
  EXPECT_FALSE(has(with(R"(colour = "red")"), "colour conflict")) << "no standard binds rails";
}

// --- across the link ---------------------------------------------------------------------------

const std::vector<std::string> kProven{R"(mark = "L")", R"(mark = "N")", R"(mark = "PE")"};
const std::vector<std::string> kTurned{R"(mark = "N")", R"(mark = "L")", R"(mark = "PE")"};

TEST(Exchanged, line_and_neutral_put_the_fuse_into_the_neutral) {
  const auto j =
      new_inlet({.old_supply = R"(fuse_in = "line")", .conductors = kTurned, .socket = kProven});
  EXPECT_EQ(reason(j, "conductors exchanged").before, Verdict::fits_with_work) << told(j);
  EXPECT_THAT(reason(j, "conductors exchanged").says,
              HasSubstr("fuse of PSU-1 then sits in the neutral"));
  EXPECT_THAT(reason(j, "conductors exchanged").not_before, HasSubstr("line is proven"));
}

TEST(Exchanged, line_and_neutral_ask_where_the_fuse_is_when_nobody_recorded_it) {
  const auto j = new_inlet({.conductors = kTurned, .socket = kProven});
  EXPECT_EQ(reason(j, "conductors exchanged").verdict, Verdict::unknown) << told(j);
  EXPECT_TRUE(asks(j, "Does the fuse of PSU-1 open the line"));
}

TEST(Exchanged, with_both_fused_is_only_told_and_unproven_marks_say_nothing) {
  const auto both =
      new_inlet({.old_supply = R"(fuse_in = "both")", .conductors = kTurned, .socket = kProven});
  EXPECT_EQ(reason(both, "conductors exchanged").before, Verdict::fits) << told(both);
  EXPECT_FALSE(has(new_inlet({.old_supply = R"(fuse_in = "line")",
                              .conductors = kTurned,
                              .known = "",
                              .socket = kProven}),
                   "conductors exchanged"));
  EXPECT_FALSE(has(new_inlet({.old_supply = R"(fuse_in = "line")", .socket = kProven}),
                   "conductors exchanged"));
}

TEST(Exchanged, line_proven_on_the_earth_conductor_destroys) {
  const auto j = new_inlet(
      {.conductors = {R"(mark = "PE")", R"(mark = "N")", R"(mark = "L")"}, .socket = kProven});
  EXPECT_EQ(reason(j, "conductors exchanged").before, Verdict::destroys) << told(j);
  EXPECT_EQ(j.verdict, Verdict::destroys);
}

// --- fuse and switch, plug, cord ---------------------------------------------------------------

TEST(FuseAndSwitch, in_the_neutral_of_a_new_supply_leaves_the_set_live) {
  const auto j = new_supply({.new_supply = R"(fuse_in = "neutral", switch_in = "neutral")"});
  EXPECT_THAT(reason(j, "fuse and switch").says,
              HasSubstr("In PSU-2 the neutral goes through the fuse and switch, not the line"))
      << told(j);
  EXPECT_EQ(reason(j, "fuse and switch").before, Verdict::fits_with_work);
  EXPECT_FALSE(has(new_supply({.new_supply = R"(fuse_in = "line", switch_in = "both")"}),
                   "fuse and switch"));
}

TEST(FuseAndSwitch, in_one_conductor_behind_a_plug_that_lost_its_polarity) {
  const std::string turns = "polarised = false, cord_anchored = true";
  const auto j = new_inlet({.new_inlet = turns, .old_supply = R"(fuse_in = "line")"});
  EXPECT_THAT(reason(j, "fuse and switch").says, HasSubstr("may sit in the neutral")) << told(j);
  EXPECT_TRUE(has(j, "plug polarity"));
  // Nothing new when the old plug went in either way round as well, or both conductors are opened.
  EXPECT_FALSE(
      has(new_inlet({.old_inlet = turns, .new_inlet = turns, .old_supply = R"(fuse_in = "line")"}),
          "fuse and switch"));
  EXPECT_FALSE(
      has(new_inlet({.new_inlet = turns, .old_supply = R"(fuse_in = "both")"}), "fuse and switch"));
}

TEST(FuseAndSwitch, of_a_new_supply_that_opens_one_conductor_where_the_old_opened_both) {
  const std::string turns = "polarised = false, cord_anchored = true";
  EXPECT_TRUE(has(new_supply({.old_inlet = turns,
                              .old_supply = R"(switch_in = "both")",
                              .new_supply = R"(switch_in = "line")"}),
                  "fuse and switch"));
  EXPECT_FALSE(has(new_supply({.old_inlet = turns,
                               .old_supply = R"(switch_in = "line")",
                               .new_supply = R"(switch_in = "line")"}),
                   "fuse and switch"));
}

TEST(FuseAndSwitch, are_asked_for_when_the_old_part_told_and_the_new_does_not) {
  const auto j = new_supply({.old_supply = R"(fuse_in = "line", switch_in = "line")"});
  EXPECT_EQ(reason(j, "fuse and switch").verdict, Verdict::unknown) << told(j);
  EXPECT_TRUE(asks(j, "Does the fuse of PSU-2 open"));
  EXPECT_TRUE(asks(j, "Does the switch of PSU-2 open"));
  EXPECT_FALSE(has(new_supply({}), "fuse and switch")) << "nobody told anything";
}

TEST(FuseAndSwitch, are_asked_for_when_the_plug_lost_its_polarity) {
  const auto j = new_inlet({.new_inlet = "polarised = false, cord_anchored = true"});
  EXPECT_TRUE(asks(j, "Does the fuse of PSU-1 open")) << told(j);
}

TEST(PlugPolarity, lost_is_measured_both_ways_round) {
  const auto j = new_inlet({.new_inlet = "polarised = false, cord_anchored = true"});
  EXPECT_EQ(reason(j, "plug polarity").before, Verdict::fits_with_work) << told(j);
  EXPECT_THAT(reason(j, "plug polarity").not_before, HasSubstr("both ways round"));
  EXPECT_FALSE(has(new_inlet({.old_inlet = "polarised = false",
                              .new_inlet = "polarised = false, cord_anchored = true"}),
                   "plug polarity"));
}

TEST(PlugPolarity, is_asked_for_only_where_it_matters) {
  const std::string silent = "cord_anchored = true";
  EXPECT_TRUE(asks(new_inlet({.new_inlet = silent}), "one way round only"));
  EXPECT_TRUE(asks(
      new_inlet({.old_inlet = silent, .new_inlet = silent, .old_supply = R"(switch_in = "line")"}),
      "one way round only"));
  EXPECT_FALSE(asks(new_inlet({.old_inlet = silent, .new_inlet = silent}), "one way round only"));
}

TEST(CordAnchorage, missing_is_work_and_unknown_is_a_question) {
  const auto loose = new_inlet({.new_inlet = "polarised = true, cord_anchored = false"});
  EXPECT_EQ(reason(loose, "cord anchorage").before, Verdict::fits_with_work) << told(loose);
  EXPECT_THAT(reason(loose, "cord anchorage").not_before, HasSubstr("held against pull"));
  EXPECT_TRUE(asks(new_inlet({.new_inlet = "polarised = true"}), "held against pull"));
  EXPECT_FALSE(has(new_supply({.old_inlet = "cord_anchored = false"}), "cord anchorage"))
      << "the cord was not touched";
}

TEST(MainsSide, is_silent_for_a_part_of_the_same_make) {
  Set s{.old_inlet = "polarised = false, cord_anchored = false",
        .old_supply =
            R"(fuse_in = "neutral", fuse_amps = 0.5, amps = 2, creepage_mm = 1, clearance_mm = 1)"};
  const auto j = judged(body(s), swap("supply", "PSU-1") + swap("mains inlet", "I-1"));
  for (const auto* rule : {"fuse and switch", "cord anchorage", "plug polarity", "fuse rating",
                           "fuse type", "insulation distance", "conductor not proven"})
    EXPECT_FALSE(has(j, rule)) << told(j);
}

// --- distances ---------------------------------------------------------------------------------

Judgement distances(const std::string& mains, const std::string& cabinet = "II",
                    const std::string& made_for = "II", const Conditions& conditions = {}) {
  return new_supply(
      {.new_supply = mains,
       .cabinet = "protection = \"" + cabinet + "\"",
       .supply_facts = "protection = \"" + made_for + "\", mains_volts = [100, 240], y_nf = 2.2"},
      conditions);
}

TEST(Distances, under_what_the_class_asks_will_fail_with_profile_and_edition) {
  const auto j = distances("creepage_mm = 4.9, clearance_mm = 3.0");
  EXPECT_EQ(reason(j, "insulation distance").before, Verdict::does_not_fit) << told(j);
  EXPECT_THAT(reason(j, "insulation distance").says,
              AllOf(HasSubstr("needs 5 mm by IEC 62368-1"), HasSubstr("edition not checked"),
                    HasSubstr("it will fail")));
  EXPECT_EQ(count(distances("creepage_mm = 4.9, clearance_mm = 2.9"), "insulation distance"), 2);
}

TEST(Distances, not_under_it_are_quiet_for_a_part_made_for_that_class) {
  EXPECT_FALSE(has(distances("creepage_mm = 5.0, clearance_mm = 3.0"), "insulation distance"));
  EXPECT_FALSE(
      has(distances("creepage_mm = 2.5, clearance_mm = 1.5", "I", "I"), "insulation distance"));
}

TEST(Distances, of_a_part_asked_for_more_than_it_was_made_for_are_measured_and_never_pass) {
  const auto j = distances("creepage_mm = 6, clearance_mm = 4", "II", "I");
  EXPECT_EQ(reason(j, "insulation distance").before, Verdict::fits_with_work) << told(j);
  EXPECT_THAT(reason(j, "insulation distance").says, HasSubstr("passes nothing"));
}

TEST(Distances, go_by_the_mains_they_are_used_on) {
  const Conditions low{.mains_volts = 120, .mains_hz = 60, .touch_profile = ""};
  EXPECT_FALSE(
      has(distances("creepage_mm = 3, clearance_mm = 1", "II", "II", low), "insulation distance"));
  EXPECT_TRUE(has(distances("creepage_mm = 2.9, clearance_mm = 1", "II", "II", low),
                  "insulation distance"));
  EXPECT_TRUE(has(distances("creepage_mm = 3, clearance_mm = 1"), "insulation distance"));
}

TEST(Distances, half_recorded_or_impossible_are_asked_for) {
  EXPECT_TRUE(asks(distances("creepage_mm = 6"), "shortest way through air"));
  EXPECT_TRUE(asks(distances("clearance_mm = 6"), "shortest way over the surface"));
  EXPECT_TRUE(asks(distances("creepage_mm = 5, clearance_mm = 6"), "Measure both distances"));
  EXPECT_FALSE(has(distances(""), "insulation distance")) << "nobody told anything";
}

TEST(Distances, told_by_the_old_supply_are_asked_of_the_new_one) {
  const auto j = new_supply({.old_supply = "creepage_mm = 6, clearance_mm = 4"});
  EXPECT_TRUE(asks(j, "over the surface")) << told(j);
  EXPECT_TRUE(asks(j, "through air"));
}

// --- fuses -------------------------------------------------------------------------------------

TEST(FuseRating, of_an_inlet_against_what_the_new_supply_draws) {
  const auto drawing = [](const std::string& amps, const std::string& fuse) {
    return new_supply({.old_inlet = "fuse_amps = 3" + fuse, .new_supply = "amps = " + amps});
  };
  const auto over = drawing("3.1", R"(, fuse_standard = "IEC 60127")");
  EXPECT_EQ(reason(over, "fuse rating").before, Verdict::does_not_fit) << told(over);
  EXPECT_THAT(reason(over, "fuse rating").says, HasSubstr("Never a bigger fuse"));
  EXPECT_FALSE(has(drawing("3", R"(, fuse_standard = "IEC 60127")"), "fuse rating"));
  // UL 248-14: 3 A hold 2.25 A.
  EXPECT_EQ(reason(drawing("2.3", R"(, fuse_standard = "UL 248-14")"), "fuse rating").before,
            Verdict::does_not_fit);
  EXPECT_FALSE(has(drawing("2.25", R"(, fuse_standard = "UL 248-14")"), "fuse rating"));
}

TEST(FuseRating, asks_for_the_standard_only_where_it_decides) {
  const auto drawing = [](const std::string& amps) {
    return new_supply({.old_inlet = "fuse_amps = 3", .new_supply = "amps = " + amps});
  };
  EXPECT_TRUE(asks(drawing("2.5"), "Which standard"));
  EXPECT_FALSE(has(drawing("2.2"), "fuse rating"));
  EXPECT_EQ(reason(drawing("3.5"), "fuse rating").before, Verdict::does_not_fit);
}

TEST(FuseRating, asks_what_a_new_supply_draws_when_nobody_recorded_it) {
  EXPECT_TRUE(asks(new_supply({.old_inlet = "fuse_amps = 3"}), "How many amps does PSU-2 draw"));
  EXPECT_FALSE(asks(new_supply({}), "How many amps does PSU-2 draw")) << "no fuse on record";
}

TEST(FuseRating, of_the_new_supply_itself_below_its_own_draw) {
  EXPECT_TRUE(has(new_supply({.new_supply = "amps = 2, fuse_amps = 1.6"}), "fuse rating"));
  EXPECT_FALSE(has(new_supply({.new_supply = "amps = 2, fuse_amps = 3.15"}), "fuse rating"));
}

TEST(FuseType, of_another_standard_or_speed_is_never_carried_over_by_its_amps) {
  const std::string iec = R"(fuse_amps = 3, fuse_standard = "IEC 60127", fuse_speed = "slow")";
  const auto j = new_supply(
      {.old_supply = iec,
       .new_supply = R"(fuse_amps = 3, fuse_standard = "UL 248-14", fuse_speed = "slow")"});
  EXPECT_THAT(reason(j, "fuse type").says, HasSubstr("the same printed amps are not alike"))
      << told(j);
  EXPECT_EQ(reason(j, "fuse type").before, Verdict::fits_with_work);
  EXPECT_TRUE(
      has(new_supply(
              {.old_supply = iec,
               .new_supply = R"(fuse_amps = 3, fuse_standard = "IEC 60127", fuse_speed = "fast")"}),
          "fuse type"));
  EXPECT_FALSE(has(new_supply({.old_supply = iec, .new_supply = iec}), "fuse type"));
}

TEST(FuseType, told_by_the_old_part_is_asked_of_the_new_one) {
  const auto j = new_supply(
      {.old_supply = R"(fuse_amps = 3, fuse_standard = "IEC 60127", fuse_speed = "slow")"});
  EXPECT_TRUE(asks(j, "Which standard is printed beside the fuse of PSU-2")) << told(j);
  EXPECT_TRUE(asks(j, "Which speed"));
  EXPECT_FALSE(has(new_supply({}), "fuse type"));
}

}  // namespace
}  // namespace benchgraft::fit
