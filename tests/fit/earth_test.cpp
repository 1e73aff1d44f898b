// Protective earth, protection class, touch current, mains range, two grounds.
#include "fit/earth.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/fit_bench.hpp"

namespace benchgraft::fit {
namespace {

using namespace fit_bench;
using ::testing::HasSubstr;

struct Mains {
  std::string cabinet = R"(protection = "I")";
  std::string inlet = "inlet_wires = 3, mains_volts = [100, 240]";
  std::string supply = R"(protection = "I", mains_volts = [200, 240], y_nf = 2.2)";
  std::string more{};
  Conditions conditions{};
};

Judgement judged_mains(const Mains& m) {
  return judged(
      part("I-1", "mains inlet", m.inlet) +
          part("PSU-1", "supply", R"(protection = "I", mains_volts = [200, 240], y_nf = 2.2)") +
          part("PSU-2", "supply", m.supply) +
          model("Tern 40", {{"mains inlet", "I-1"}, {"supply", "PSU-1"}}, m.cabinet) + m.more,
      swap("supply", "PSU-2"), m.conditions);
}

/// What has to be said for one combination of cabinet class, inlet wires and supply class.
struct Combination {
  const char* cabinet;
  const char* inlet;
  const char* supply;
  Verdict verdict;
  const char* says;  ///< of the worst that is said
};

constexpr const char* kAskCabinet = "is the cabinet earthed (I) or double insulated (II)";
constexpr const char* kAskSupply = "is PSU-2 made for an earthed (I)";
constexpr const char* kAskInlet = "has I-1 two or three wires";
constexpr const char* kOpened = "The earth path is opened by this work";
constexpr const char* kFloats = "The set loses its protective earth";
constexpr const char* kNoEarth = "relies on protective earth and there is none";
constexpr const char* kNotMadeForIt = "the cabinet was never made for it";
constexpr const char* kInsulated = "Double insulated: no earth may be relied on";

std::string fact(const std::string& key, const std::string& value, bool quoted) {
  if (value.empty()) return "-" + key;
  return key + " = " + (quoted ? "\"" + value + "\"" : value);
}

Judgement judged_combination(const Combination& c) {
  return judged_mains({.cabinet = fact("protection", c.cabinet, true),
                       .inlet = facts("inlet_wires = 3, mains_volts = [100, 240]",
                                      fact("inlet_wires", c.inlet, false)),
                       .supply = facts(R"(protection = "I", mains_volts = [200, 240], y_nf = 2.2)",
                                       fact("protection", c.supply, true))});
}

TEST(EarthPath, every_combination_of_cabinet_inlet_and_supply) {
  constexpr Verdict kMeasure = Verdict::fits_with_work, kAsk = Verdict::unknown,
                    kNo = Verdict::does_not_fit;
  const Combination all[] = {
      // cabinet of class I
      {"I", "3", "I", kMeasure, kOpened},
      {"I", "3", "II", kMeasure, kOpened},
      {"I", "3", "", kAsk, kAskSupply},
      {"I", "2", "I", kNo, kFloats},
      {"I", "2", "II", kNo, kFloats},
      {"I", "2", "", kNo, kFloats},
      {"I", "", "I", kAsk, kAskInlet},
      {"I", "", "II", kAsk, kAskInlet},
      {"I", "", "", kAsk, kAskInlet},
      // double insulated cabinet
      {"II", "3", "I", kNo, kNotMadeForIt},  // nothing bonds its metal
      {"II", "3", "II", kMeasure, kInsulated},
      {"II", "3", "", kAsk, kAskSupply},
      {"II", "2", "I", kNo, kNoEarth},
      {"II", "2", "II", kMeasure, kInsulated},
      {"II", "2", "", kAsk, kAskSupply},
      {"II", "", "I", kNo, kNoEarth},
      {"II", "", "II", kAsk, kAskInlet},
      {"II", "", "", kAsk, kAskInlet},
      // class of the cabinet not recorded
      {"", "3", "I", kAsk, kAskCabinet},
      {"", "3", "II", kAsk, kAskCabinet},
      {"", "3", "", kAsk, kAskCabinet},
      // Whatever the cabinet: this supply needs the earth the inlet lacks.
      {"", "2", "I", kNo, kNoEarth},
      {"", "2", "II", kAsk, kAskCabinet},
      {"", "2", "", kAsk, kAskCabinet},
      {"", "", "I", kAsk, kAskCabinet},
      {"", "", "II", kAsk, kAskCabinet},
      {"", "", "", kAsk, kAskCabinet},
  };
  for (const auto& c : all) {
    const auto j = judged_combination(c);
    Verdict worst = Verdict::fits;
    std::string said;
    for (const auto& one : j.reasons)
      if (one.rule == "earth path") {
        worst = std::max(worst, one.verdict);
        said += one.says + "\n";
        EXPECT_TRUE(one.safety);
      }
    const std::string where = std::string("cabinet ") + c.cabinet + ", inlet " + c.inlet +
                              ", supply " + c.supply + ": " + told(j);
    EXPECT_EQ(worst, c.verdict) << where;
    EXPECT_THAT(said, HasSubstr(c.says)) << where;
    EXPECT_GE(j.verdict, Verdict::fits_with_work) << "it is always measured";
    // Everything that is not known is asked, each by its own question.
    EXPECT_EQ(asks(j, kAskCabinet), std::string(c.cabinet).empty()) << where;
    EXPECT_EQ(asks(j, kAskSupply), std::string(c.supply).empty()) << where;
    EXPECT_EQ(asks(j, kAskInlet), std::string(c.inlet).empty()) << where;
  }
}

TEST(EarthPath, an_earth_wire_in_a_double_insulated_cabinet_must_not_hang_loose) {
  const Combination three{"II", "3", "II", Verdict::fits_with_work, ""};
  const Combination two{"II", "2", "II", Verdict::fits_with_work, ""};
  const auto loose = [](const Judgement& j) {
    return told(j).find("it must not hang loose") != std::string::npos;
  };
  EXPECT_TRUE(loose(judged_combination(three)));
  EXPECT_FALSE(loose(judged_combination(two)));
}

const std::string kLineOut =
    R"(signal = "line", class = "mains", domain = "primary", direction = "out")";
const std::string kLineIn =
    R"(signal = "line", class = "mains", domain = "primary", direction = "in")";

/// A set of class I whose earth goes from the inlet over its MAINS plug to the supply.
Judgement earthed(const std::string& new_contacts, const std::string& inlet_carries = "",
                  const std::string& new_facts = "") {
  const auto supply = [](const std::string& name, const std::string& second,
                         const std::string& more) {
    return part(name, "supply",
                facts(R"(protection = "I", mains_volts = [200, 240], y_nf = 2.2)", more),
                port("IN", "mains inlet", kSocket, {contact(1, kLineIn), contact(2, second)}));
  };
  return judged(
      part("I-1", "mains inlet", "inlet_wires = 3, mains_volts = [100, 240]" + inlet_carries,
           port("MAINS", "supply", kPlug, {contact(1, kLineOut), contact(2, kEarth)})) +
          supply("PSU-1", kEarth, "") + supply("PSU-2", new_contacts, new_facts) +
          model("Tern 40", {{"mains inlet", "I-1"}, {"supply", "PSU-1"}}, R"(protection = "I")"),
      swap("supply", "PSU-2"));
}

/// All that is said about the earth.
std::string said(const Judgement& j) {
  std::string text;
  for (const auto& one : j.reasons)
    if (one.rule == "earth path") text += one.says + "\n";
  return text;
}

TEST(EarthPath, names_the_lead_that_makes_it_and_counts_it_only_after_measuring) {
  const auto j = earthed(kEarth);
  EXPECT_THAT(said(j), AllOf(HasSubstr("runs over the MAINS plug of I-1 in PSU-2 (contact 2)"),
                             HasSubstr("counts only after continuity and bond are measured")))
      << told(j);
}

TEST(EarthPath, names_an_earth_lead_among_the_pieces) {
  const auto j = earthed(kEarth, R"(, carries = [{ piece = "green braid", kind = "earth lead" }])");
  EXPECT_THAT(said(j), HasSubstr("the green braid on I-1")) << told(j);
}

TEST(EarthPath, says_so_when_no_lead_on_record_makes_it) {
  EXPECT_THAT(said(judged_mains({})), HasSubstr("No lead on record makes the protective path"));
}

TEST(EarthPath, is_lost_with_a_supply_that_does_not_take_it_on) {
  const auto lost = earthed(kUnused);
  EXPECT_THAT(said(lost), HasSubstr("loses its protective earth: PSU-1 took it on")) << told(lost);
  EXPECT_EQ(lost.verdict, Verdict::does_not_fit);
  const auto braid =
      earthed(kUnused, R"(, carries = [{ piece = "green braid", kind = "earth lead" }])");
  EXPECT_THAT(said(braid), ::testing::Not(HasSubstr("loses its protective earth")))
      << "another lead does it: " << told(braid);
  EXPECT_THAT(said(earthed(kEarth)), ::testing::Not(HasSubstr("loses its protective earth")));
}

TEST(HotGround, is_warned_of_on_the_step_and_never_part_of_the_bond) {
  const auto j = earthed(kHotGround);
  const auto warned = [](const Judgement& judgement) {
    for (const auto& caution : judgement.cautions)
      if (caution.hazard == "hot ground" && caution.roles == std::vector<std::string>{"supply"})
        return caution.text;
    return std::string();
  };
  EXPECT_THAT(warned(j), AllOf(HasSubstr("never bond it"), HasSubstr("IN of PSU-2"))) << told(j);
  EXPECT_EQ(warned(earthed(kEarth)), "");
  EXPECT_THAT(said(earthed(kEarth)), HasSubstr("The hot ground is never part of it"));
}

TEST(EarthPath, the_bond_is_measured_before_it_counts_as_done) {
  EXPECT_THAT(reason(judged_mains({}), "earth path").not_before, HasSubstr("protective bond"));
}

TEST(EarthPath, stays_quiet_when_nothing_on_it_is_touched) {
  const auto j = judged(part("A-1", "sound") + part("A-2", "sound") + part("I-1", "mains inlet") +
                            model("Tern 40", {{"sound", "A-1"}, {"mains inlet", "I-1"}}),
                        swap("sound", "A-2"));
  EXPECT_FALSE(has(j, "earth path")) << told(j);
}

TEST(EarthPath, an_earth_braid_on_the_old_part_brings_it_up) {
  const auto j =
      judged(part("A-1", "sound", R"(carries = [{ piece = "braid", kind = "earth lead" }])") +
                 part("A-2", "sound", R"(carries = [{ piece = "braid", kind = "earth lead" }])") +
                 model("Tern 40", {{"sound", "A-1"}}),
             swap("sound", "A-2"));
  EXPECT_TRUE(has(j, "earth path")) << told(j);
}

std::string limit(const std::string& profile, const std::string& protection,
                  const std::string& milliamps) {
  return "[[touch_limit]]\nprofile = \"" + profile +
         "\"\nedition = \"1\"\ntest = \"touch current\"\n" + "protection = \"" + protection +
         "\"\nmilliamps = " + milliamps + "\n";
}

TEST(TouchCurrent, will_fail_only_when_the_smallest_possible_current_is_over_the_limit) {
  // 4.7 nF, 230 V, 50 Hz: 0.340 mA; with -20 % capacitance 0.272 mA.
  const auto with = [](const std::string& milliamps) {
    return judged_mains({.supply = R"(protection = "I", mains_volts = [200, 240], y_nf = 4.7)",
                         .more = limit("P", "I", milliamps)});
  };
  EXPECT_EQ(reason(with("0.27"), "touch current").before, Verdict::does_not_fit);
  EXPECT_EQ(reason(with("0.273"), "touch current").before, Verdict::fits_with_work);
  EXPECT_THAT(reason(with("0.273"), "touch current").says,
              AllOf(HasSubstr("P (1)"), HasSubstr("this passes nothing")));
  EXPECT_TRUE(reason(with("0.273"), "touch current").safety);
}

TEST(TouchCurrent, adds_up_the_filters_of_all_parts_of_the_set) {
  const auto j = judged(
      part("PSU-1", "supply", R"(protection = "II", mains_volts = [200, 240], y_nf = 2.2)") +
          part("PSU-2", "supply", R"(protection = "II", mains_volts = [200, 240], y_nf = 4.7)") +
          part("D-1", "lamp driver", "y_nf = 4.7") +
          model("Tern 40", {{"supply", "PSU-1"}, {"lamp driver", "D-1"}}) + limit("P", "II", "0.5"),
      swap("supply", "PSU-2"));
  EXPECT_THAT(reason(j, "touch current").says, HasSubstr("9.4 nF")) << told(j);
  EXPECT_EQ(reason(j, "touch current").before, Verdict::does_not_fit)
      << "9.4 nF less 20 % still give 0.543 mA";
}

TEST(TouchCurrent, without_a_chosen_profile_fails_only_what_fails_under_the_most_generous_one) {
  const std::string supply = R"(protection = "I", mains_volts = [200, 240], y_nf = 4.7)";
  const std::string both = limit("LAX", "I", "3.5") + limit("STRICT", "I", "0.1");
  const auto free = judged_mains({.supply = supply, .more = both});
  EXPECT_EQ(reason(free, "touch current").before, Verdict::fits_with_work) << told(free);
  EXPECT_THAT(reason(free, "touch current").says, HasSubstr("LAX"));
  const auto chosen =
      judged_mains({.supply = supply, .more = both, .conditions = {.touch_profile = "STRICT"}});
  EXPECT_EQ(reason(chosen, "touch current").before, Verdict::does_not_fit) << told(chosen);
}

TEST(TouchCurrent, is_told_as_the_least_while_a_filter_is_not_recorded) {
  // The inlet's own filter is not recorded: the sum can only be more.
  const auto with = [](const std::string& inlet) {
    return judged_mains({.inlet = "inlet_wires = 3, mains_volts = [100, 240]" + inlet,
                         .supply = R"(protection = "I", mains_volts = [200, 240], y_nf = 4.7)",
                         .more = limit("P", "I", "1")});
  };
  EXPECT_THAT(reason(with(""), "touch current").says, HasSubstr("4.7 nF in all at least give"));
  EXPECT_THAT(reason(with(", y_nf = 0"), "touch current").says, HasSubstr("4.7 nF in all give"));
}

TEST(TouchCurrent, never_says_that_a_set_passes) {
  for (const double nf : {2.3, 4.7, 10.0, 47.0, 470.0}) {
    const auto j = judged_mains(
        {.supply = R"(protection = "I", mains_volts = [200, 240], y_nf = )" + std::to_string(nf),
         .more = limit("P", "I", "3.5")});
    EXPECT_GE(reason(j, "touch current").before, Verdict::fits_with_work) << nf;
    EXPECT_THAT(reason(j, "touch current").says,
                ::testing::AnyOf(HasSubstr("it will fail"), HasSubstr("this passes nothing")));
  }
}

TEST(TouchCurrent, no_more_capacitors_than_before_is_nothing_new) {
  EXPECT_FALSE(has(judged_mains({.more = limit("P", "I", "0.01")}), "touch current"));
}

TEST(TouchCurrent, is_asked_about_when_a_changed_supply_says_nothing_of_its_capacitors) {
  const auto j = judged_mains(
      {.supply = R"(protection = "I", mains_volts = [200, 240])", .more = limit("P", "I", "0.1")});
  EXPECT_TRUE(asks(j, "PSU-2")) << told(j);
  EXPECT_EQ(j.verdict, Verdict::unknown);
}

TEST(MainsRange, a_supply_for_other_mains_destroys) {
  Mains m{.supply = R"(protection = "I", mains_volts = [100, 120], y_nf = 2.2)"};
  EXPECT_EQ(judged_mains(m).verdict, Verdict::destroys);
  EXPECT_TRUE(reason(judged_mains(m), "mains range").safety);
  m.conditions = {.mains_volts = 120, .mains_hz = 60, .touch_profile = ""};
  EXPECT_FALSE(has(judged_mains(m), "mains range")) << told(judged_mains(m));
}

TEST(MainsRange, too_low_a_mains_does_not_fit_and_destroys_nothing) {
  Mains m{.conditions = {.mains_volts = 120, .mains_hz = 60, .touch_profile = ""}};
  EXPECT_EQ(reason(judged_mains(m), "mains range").before, Verdict::does_not_fit);
}

TEST(MainsRange, of_a_lamp_driver_fed_by_the_mains_counts_too) {
  const auto driver = [](const std::string& name, const std::string& range) {
    return part(name, "lamp driver", range,
                port("AC", "supply", kPlug, {contact(1, kMainsIn), contact(2, kUnused)}));
  };
  const std::string body =
      driver("D-1", "mains_volts = [200, 240]") + driver("D-2", "mains_volts = [100, 120]") +
      driver("D-3", "mains_volts = [100, 240]") + model("Tern 40", {{"lamp driver", "D-1"}});
  EXPECT_EQ(reason(judged(body, swap("lamp driver", "D-2")), "mains range").before,
            Verdict::destroys);
  EXPECT_FALSE(has(judged(body, swap("lamp driver", "D-3")), "mains range"));
}

TEST(MainsRange, nobody_recorded_is_asked_for) {
  const auto j = judged_mains({.supply = R"(protection = "I", y_nf = 2.2)"});
  EXPECT_EQ(reason(j, "mains range").verdict, Verdict::unknown);
  EXPECT_TRUE(asks(j, "mains range printed on PSU-2"));
}

TEST(TwoGrounds, of_one_board_are_named_and_never_joined) {
  const auto board = [](const std::string& name, const std::string& ground) {
    return part(
        name, "lamp driver", "lamp_watts = 100",
        port("BUS", "sound", kSocket, {contact(1, kUnused), contact(2, ground)}) +
            port("CTL", "display driver", kSocket, {contact(1, kUnused), contact(2, kGround)}));
  };
  const std::string body =
      board("D-1", kHotGround) + board("D-2", kHotGround) + board("D-3", kGround) +
      part("A-1", "display driver", "",
           port("C", "lamp driver", kPlug, {contact(1, kUnused), contact(2, kGround)})) +
      model("Tern 40", {{"lamp driver", "D-1"}, {"display driver", "A-1"}});
  const auto j = judged(body, swap("lamp driver", "D-2"));
  EXPECT_THAT(reason(j, "two grounds").says,
              AllOf(HasSubstr("hot ground (on BUS)"), HasSubstr("cold ground (on CTL)")))
      << told(j);
  EXPECT_TRUE(reason(j, "two grounds").safety);
  EXPECT_FALSE(has(judged(body, swap("lamp driver", "D-3")), "two grounds"));
}

}  // namespace
}  // namespace benchgraft::fit
