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
};

TEST(EarthPath, every_combination_of_cabinet_inlet_and_supply) {
  constexpr Verdict kMeasure = Verdict::fits_with_work, kAsk = Verdict::unknown,
                    kNo = Verdict::does_not_fit;
  const Combination all[] = {
      // cabinet of class I
      {"I", "3", "I", kMeasure},
      {"I", "3", "II", kMeasure},
      {"I", "3", "", kAsk},
      {"I", "2", "I", kNo},
      {"I", "2", "II", kNo},  // exposed metal would float
      {"I", "2", "", kNo},
      {"I", "", "I", kAsk},
      {"I", "", "II", kAsk},
      {"I", "", "", kAsk},
      // double insulated cabinet
      {"II", "3", "I", kNo},  // nothing bonds its metal
      {"II", "3", "II", kMeasure},
      {"II", "3", "", kAsk},
      {"II", "2", "I", kNo},
      {"II", "2", "II", kMeasure},
      {"II", "2", "", kAsk},
      {"II", "", "I", kNo},
      {"II", "", "II", kAsk},
      {"II", "", "", kAsk},
      // class of the cabinet not recorded
      {"", "3", "I", kAsk},
      {"", "3", "II", kAsk},
      {"", "3", "", kAsk},
      {"", "2", "I", kNo},  // whatever the cabinet: this supply needs the earth the inlet lacks
      {"", "2", "II", kAsk},
      {"", "2", "", kAsk},
      {"", "", "I", kAsk},
      {"", "", "II", kAsk},
      {"", "", "", kAsk},
  };
  for (const auto& c : all) {
    const auto fact = [](const std::string& key, const std::string& value, bool quoted) {
      if (value.empty()) return "-" + key;
      return key + " = " + (quoted ? "\"" + value + "\"" : value);
    };
    const auto j =
        judged_mains({.cabinet = fact("protection", c.cabinet, true),
                      .inlet = facts("inlet_wires = 3, mains_volts = [100, 240]",
                                     fact("inlet_wires", c.inlet, false)),
                      .supply = facts(R"(protection = "I", mains_volts = [200, 240], y_nf = 2.2)",
                                      fact("protection", c.supply, true))});
    Verdict worst = Verdict::fits;
    for (const auto& one : j.reasons)
      if (one.rule == "earth path") {
        worst = std::max(worst, one.verdict);
        EXPECT_TRUE(one.safety);
      }
    EXPECT_EQ(worst, c.verdict) << "cabinet " << c.cabinet << ", inlet " << c.inlet << ", supply "
                                << c.supply << ": " << told(j);
    EXPECT_GE(j.verdict, Verdict::fits_with_work) << "it is always measured";
  }
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
