// One test a contact rule that fires it, and one near miss that must stay quiet.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/fit_bench.hpp"

namespace benchgraft::fit {
namespace {

using namespace fit_bench;
using ::testing::HasSubstr;

/// Plug contact 1 facing socket contact 1, ground beside them.
Judgement facing(const std::string& plug, const std::string& socket,
                 const std::string& role = "display driver",
                 const std::string& host_role = "supply") {
  return judged(Meeting{.plug = {contact(1, plug), contact(2, kGround)},
                        .socket = {contact(1, socket), contact(2, kGround)},
                        .plug_role = role,
                        .socket_role = host_role});
}

TEST(Contacts, that_agree_in_everything_fit) {
  for (const auto& [out, in] :
       {std::pair{kSupplyOut, kSupplyIn}, std::pair{kEnableOut, kEnableIn},
        std::pair{kLitOut, kLitIn}, std::pair{kStringOut, kStringIn}, std::pair{kPairOut, kPairIn},
        std::pair{kDoor, kDoor}, std::pair{kSensor, kSensor}, std::pair{kUnused, kUnused}}) {
    EXPECT_EQ(facing(in, out).verdict, Verdict::fits) << told(facing(in, out));
    EXPECT_EQ(facing(out, in).verdict, Verdict::fits) << told(facing(out, in));
  }
}

TEST(DomainClash, hot_ground_on_cold_ground_destroys_although_both_are_called_ground) {
  const auto j = facing(kGround, kHotGround);
  EXPECT_EQ(j.verdict, Verdict::destroys);
  EXPECT_EQ(reason(j, "domain clash").before, Verdict::destroys) << told(j);
  EXPECT_TRUE(reason(j, "domain clash").safety);
  EXPECT_EQ(j.reasons.front().rule, "domain clash") << "the worst comes first";
}

TEST(DomainClash, bus_on_logic_and_mains_on_a_lamp_destroy) {
  EXPECT_EQ(reason(facing(kSupplyIn, kBusOut), "domain clash").verdict, Verdict::destroys);
  const std::string lamp = facts(kMainsIn, R"(class = "ignition", domain = "lamp")");
  EXPECT_EQ(reason(facing(lamp, kMainsOut), "domain clash").verdict, Verdict::destroys);
  const std::string panel = facts(kSupplyIn, R"(domain = "panel high voltage")");
  EXPECT_EQ(reason(facing(panel, kSupplyOut), "domain clash").verdict, Verdict::destroys);
}

TEST(DomainClash, stays_quiet_on_one_side_of_the_barrier_and_for_a_floating_contact) {
  EXPECT_FALSE(has(facing(kHotGround, kHotGround), "domain clash"));
  EXPECT_EQ(facing(kHotGround, kHotGround).verdict, Verdict::fits);
  const std::string floating = facts(kGround, R"(domain = "floating")");
  EXPECT_EQ(facing(floating, kGround).verdict, Verdict::fits);
}

TEST(DomainClash, a_floating_contact_on_the_hot_side_is_no_near_miss) {
  const std::string floating = facts(kGround, R"(domain = "floating")");
  EXPECT_EQ(facing(floating, kHotGround).verdict, Verdict::destroys);
}

TEST(ClassClash, supply_on_ground_and_supply_on_signal_destroy) {
  for (const auto& plug : {kGround, kEnableIn, kPairIn, kEnableOut}) {
    const auto j = facing(plug, kSupplyOut);
    EXPECT_EQ(j.verdict, Verdict::destroys) << told(j);
    EXPECT_EQ(reason(j, "class clash").before, Verdict::destroys);
  }
}

TEST(ClassClash, mains_bus_interlock_and_thermal_against_anything_else_destroy) {
  const auto cold_mains = facts(kMainsOut, R"(domain = "secondary")");
  for (const auto& [plug, socket] :
       {std::pair{kHotGround, kMainsOut},
        std::pair{facts(kSupplyIn, R"(domain = "primary")"), kBusOut},
        std::pair{kGround, cold_mains}, std::pair{kGround, kDoor}, std::pair{kSupplyIn, kSensor},
        std::pair{kDoor, kSensor}, std::pair{kEarth, kDoor}}) {
    const auto j = facing(plug, socket);
    EXPECT_EQ(j.verdict, Verdict::destroys) << told(j);
    EXPECT_TRUE(reason(j, "class clash").safety) << told(j);
  }
}

TEST(ClassClash, ground_on_an_output_destroys_and_on_an_input_only_does_not_fit) {
  EXPECT_EQ(facing(kGround, kEnableOut).verdict, Verdict::destroys);
  EXPECT_EQ(reason(facing(kGround, kEnableIn), "class clash").before, Verdict::does_not_fit);
}

TEST(ClassClash, earth_on_a_cold_ground_is_asked_about) {
  const auto j = facing(kEarth, kGround);
  EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
  EXPECT_TRUE(reason(j, "class clash").safety);
}

TEST(OverVoltage, twelve_volts_into_a_five_volt_input_destroys) {
  const auto j = facing(kSupplyIn, facts(kSupplyOut, "volts = 12"));
  EXPECT_EQ(j.verdict, Verdict::destroys);
  EXPECT_TRUE(reason(j, "over voltage").safety);
  EXPECT_THAT(reason(j, "over voltage").says, HasSubstr("gives 12 V"));
}

TEST(OverVoltage, counts_the_highest_volts_the_supply_may_give) {
  EXPECT_TRUE(has(facing(kSupplyIn, facts(kSupplyOut, "volts = [4.8, 5.51]")), "over voltage"));
  EXPECT_EQ(facing(kSupplyIn, facts(kSupplyOut, "volts = [5.6, 6]")).verdict, Verdict::destroys);
  EXPECT_FALSE(has(facing(kSupplyIn, facts(kSupplyOut, "volts = [4.8, 5.5]")), "over voltage"));
}

TEST(OverVoltage, of_a_window_that_only_overlaps_is_to_be_measured) {
  const auto high = facing(kSupplyIn, facts(kSupplyOut, "volts = [5, 6]"));
  EXPECT_EQ(reason(high, "over voltage").before, Verdict::unknown) << told(high);
  const auto low = facing(kSupplyIn, facts(kSupplyOut, "volts = [4, 5]"));
  EXPECT_EQ(reason(low, "rail low").before, Verdict::unknown) << told(low);
}

TEST(OverVoltage, takes_a_single_number_as_ten_percent_either_way) {
  const auto in = facts(kSupplyIn, "volts = 5");
  EXPECT_EQ(facing(in, facts(kSupplyOut, "volts = 5.5")).verdict, Verdict::fits);
  EXPECT_EQ(facing(in, facts(kSupplyOut, "volts = 5.51")).verdict, Verdict::destroys);
  EXPECT_EQ(facing(in, facts(kSupplyOut, "volts = 4.5")).verdict, Verdict::fits);
  EXPECT_TRUE(has(facing(in, facts(kSupplyOut, "volts = 4.49")), "rail low"));
}

TEST(OverVoltage, knows_the_sign_of_a_negative_rail) {
  const auto in = facts(kSupplyIn, "volts = -12");
  EXPECT_EQ(facing(in, facts(kSupplyOut, "volts = -12.5")).verdict, Verdict::fits);
  EXPECT_TRUE(has(facing(in, facts(kSupplyOut, "volts = -14")), "over voltage"));
  EXPECT_TRUE(has(facing(in, facts(kSupplyOut, "volts = 12")), "over voltage"));
  EXPECT_TRUE(has(facing(in, facts(kSupplyOut, "volts = -10")), "rail low"));
}

TEST(RailLow, does_not_fit_a_board_and_destroys_a_lamp_driver) {
  const auto low = facts(kSupplyOut, "volts = 4.4");
  EXPECT_EQ(reason(facing(kSupplyIn, low), "rail low").before, Verdict::does_not_fit);
  const auto driver = facing(kSupplyIn, low, "lamp driver");
  EXPECT_EQ(reason(driver, "rail low").before, Verdict::destroys);
  EXPECT_THAT(reason(driver, "rail low").says, HasSubstr("draws more current"));
  EXPECT_EQ(reason(facing(kSupplyIn, low, "light driver"), "rail low").before, Verdict::destroys);
  EXPECT_FALSE(has(facing(kSupplyIn, facts(kSupplyOut, "volts = 4.5"), "lamp driver"), "rail low"));
}

TEST(RailOverload, one_user_drawing_more_than_its_contact_gives_does_not_fit) {
  const auto j = facing(facts(kSupplyIn, "amps = 2.1"), kSupplyOut);
  EXPECT_EQ(reason(j, "rail overload").before, Verdict::does_not_fit) << told(j);
  EXPECT_FALSE(has(facing(facts(kSupplyIn, "amps = 2.0"), kSupplyOut), "rail overload"));
}

TEST(LevelClash, five_volt_logic_into_three_burns_and_three_into_five_does_not_work) {
  const auto five = [](const std::string& c) { return facts(c, "logic_volts = 5"); };
  EXPECT_EQ(reason(facing(five(kEnableOut), kEnableIn), "level clash").before, Verdict::destroys);
  EXPECT_EQ(reason(facing(kEnableOut, five(kEnableIn)), "level clash").before,
            Verdict::does_not_fit);
  EXPECT_FALSE(has(facing(five(kEnableOut), five(kEnableIn)), "level clash"));
  EXPECT_FALSE(has(facing(facts(kEnableOut, "logic_volts = 3.6"), kEnableIn), "level clash"));
}

TEST(LevelClash, an_open_collector_takes_the_level_of_what_pulls_it_up) {
  EXPECT_FALSE(has(facing(facts(kLitOut, "logic_volts = 5"), kLitIn), "level clash"));
}

TEST(LevelClash, both_ways_lines_of_different_logic_volts_burn_too) {
  const auto line = facts(kEnableOut, R"(direction = "both", protocol = "two-wire 100 kHz")");
  EXPECT_EQ(facing(line, line).verdict, Verdict::fits) << told(facing(line, line));
  const auto j = facing(facts(line, "logic_volts = 5"), line);
  EXPECT_EQ(reason(j, "level clash").before, Verdict::destroys) << told(j);
}

TEST(LevelClash, an_inverted_enable_does_not_fit_and_on_a_lamp_driver_it_destroys) {
  const auto inverted = facts(kEnableIn, R"(active = "low", idle = "high")");
  EXPECT_EQ(reason(facing(inverted, kEnableOut), "level clash").before, Verdict::does_not_fit);
  EXPECT_EQ(reason(facing(inverted, kEnableOut, "lamp driver"), "level clash").before,
            Verdict::destroys);
  EXPECT_FALSE(has(facing(kEnableIn, kEnableOut, "lamp driver"), "level clash"));
}

TEST(LevelClash, another_idle_level_alone_is_enough) {
  EXPECT_TRUE(has(facing(facts(kEnableIn, R"(idle = "high")"), kEnableOut), "level clash"));
}

TEST(DriveClash, an_open_collector_that_nobody_pulls_up_does_not_fit) {
  const auto j = facing(facts(kLitIn, "pull_up = false"), kLitOut);
  EXPECT_EQ(reason(j, "drive clash").before, Verdict::does_not_fit) << told(j);
  EXPECT_FALSE(has(facing(kLitIn, kLitOut), "drive clash"));
}

TEST(DriveClash, a_driven_output_on_an_input_that_wants_a_contact_does_not_fit) {
  EXPECT_TRUE(has(facing(facts(kEnableIn, R"(drive = "dry contact")"), kEnableOut), "drive clash"));
}

TEST(DirectionClash, two_outputs_destroy_and_two_that_only_pull_wait_for_each_other) {
  EXPECT_EQ(reason(facing(kEnableOut, kEnableOut), "direction clash").before, Verdict::destroys);
  EXPECT_EQ(reason(facing(kSupplyOut, kSupplyOut), "direction clash").before, Verdict::destroys);
  EXPECT_EQ(reason(facing(kLitOut, kLitOut), "direction clash").before, Verdict::does_not_fit);
  EXPECT_FALSE(has(facing(kLitIn, kLitOut), "direction clash"));
}

TEST(ProtocolClash, another_protocol_on_the_same_signal_does_not_fit) {
  const auto pulses = facts(kEnableIn, R"(protocol = "two pulses a turn")");
  EXPECT_EQ(reason(facing(pulses, kEnableOut), "protocol clash").before, Verdict::does_not_fit);
  EXPECT_FALSE(has(facing(kEnableIn, kEnableOut), "protocol clash"));
}

TEST(RateClash, pulses_of_another_rate_are_not_followed) {
  const auto takes = facts(kEnableIn, "hertz = [180, 250]");
  const auto gives = [](const std::string& rate) { return facts(kEnableOut, "hertz = " + rate); };
  EXPECT_EQ(reason(facing(takes, gives("20000")), "rate clash").before, Verdict::does_not_fit);
  EXPECT_THAT(reason(facing(takes, gives("20000")), "rate clash").says,
              HasSubstr("pulses at 20000 Hz"));
  EXPECT_FALSE(has(facing(takes, gives("200")), "rate clash"));
  const auto overlaps = facing(takes, gives("[200, 400]"));
  EXPECT_EQ(reason(overlaps, "rate clash").verdict, Verdict::unknown) << told(overlaps);
  EXPECT_TRUE(asks(facing(takes, kEnableOut), "pulse rate")) << told(facing(takes, kEnableOut));
}

TEST(MissingReply, names_the_reply_the_time_and_who_should_give_it) {
  const auto j = facing(kLitIn, kUnused);
  EXPECT_EQ(reason(j, "missing reply").before, Verdict::does_not_fit);
  EXPECT_THAT(reason(j, "missing reply").says,
              AllOf(HasSubstr("NEW-1 waits for \"lit\""), HasSubstr("HOST-1 never gives it"),
                    HasSubstr("after 10 s")));
}

TEST(MissingReply, two_ends_that_both_wait_starve_each_other) {
  EXPECT_TRUE(has(facing(kLitIn, kLitIn), "missing reply"));
  EXPECT_FALSE(has(facing(kLitIn, kLitOut), "missing reply"));
}

TEST(CrossedSignals, the_same_names_in_another_order_do_not_fit) {
  const auto other = facts(kPairOut, R"(signal = "data -")");
  const auto other_in = facts(kPairIn, R"(signal = "data -")");
  const auto meet = [&](const std::string& first, const std::string& second) {
    return judged(Meeting{.plug = {contact(1, kPairOut), contact(2, other)},
                          .socket = {contact(1, first), contact(2, second)}});
  };
  EXPECT_TRUE(has(meet(other_in, kPairIn), "crossed signals")) << told(meet(other_in, kPairIn));
  EXPECT_EQ(meet(kPairIn, other_in).verdict, Verdict::fits) << told(meet(kPairIn, other_in));
}

TEST(CrossedSignals, two_words_nobody_else_uses_are_asked_about) {
  const auto j = facing(facts(kEnableIn, R"(signal = "lamp on")"), kEnableOut);
  EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
  EXPECT_FALSE(has(j, "crossed signals"));
  EXPECT_TRUE(asks(j, "lamp on"));
}

TEST(CrossedSignals, a_clash_of_levels_shows_even_when_the_names_differ) {
  const auto j = facing(facts(kEnableIn, R"(signal = "lamp on", active = "low")"), kEnableOut);
  EXPECT_TRUE(has(j, "level clash")) << told(j);
}

TEST(NothingFeedsIt, two_inputs_or_an_input_on_an_empty_contact_do_not_fit) {
  for (const auto& host : {kSupplyIn, kUnused}) {
    const auto j = facing(kSupplyIn, host);
    EXPECT_EQ(reason(j, "nothing feeds it").before, Verdict::does_not_fit) << told(j);
  }
  EXPECT_FALSE(has(facing(kSupplyIn, kSupplyOut), "nothing feeds it"));
}

TEST(EmptyContact, against_something_live_is_unknown_until_it_was_measured) {
  const auto meet = [](const std::string& live, const std::string& known) {
    return judged(Meeting{.plug = {contact(1, live), contact(2, kGround)},
                          .socket = {contact(1, kUnused), contact(2, kGround)},
                          .socket_more = known});
  };
  const auto guessed = meet(kSupplyOut, R"(known = "derived")");
  EXPECT_EQ(guessed.verdict, Verdict::unknown) << told(guessed);
  EXPECT_TRUE(has(guessed, "empty contact"));
  EXPECT_TRUE(asks(guessed, "really not connected"));
  EXPECT_EQ(meet(kSupplyOut, R"(known = "measured")").verdict, Verdict::fits);
}

TEST(EmptyContact, a_line_that_nobody_takes_is_asked_about_even_when_measured) {
  for (const auto& line : {kEnableOut, kPairOut, facts(kEnableOut, R"(direction = "both")")}) {
    const auto j = facing(line, kUnused);
    EXPECT_EQ(reason(j, "empty contact").before, Verdict::unknown) << told(j);
  }
}

TEST(SafetyLoopOpen, a_door_or_thermal_loop_that_ends_in_an_empty_contact_does_not_fit) {
  for (const auto& loop : {kDoor, kSensor}) {
    const auto j = facing(loop, kUnused);
    EXPECT_EQ(reason(j, "safety loop open").verdict, Verdict::does_not_fit) << told(j);
    EXPECT_TRUE(reason(j, "safety loop open").safety);
    EXPECT_FALSE(has(facing(loop, loop), "safety loop open"));
  }
}

TEST(SafetyLoopOpen, an_earth_contact_that_ends_nowhere_breaks_the_earth_path) {
  const auto j = facing(kEarth, kUnused);
  EXPECT_EQ(reason(j, "earth path").before, Verdict::does_not_fit) << told(j);
  EXPECT_TRUE(reason(j, "earth path").safety);
}

TEST(SensorCurve, another_curve_or_another_switch_sense_does_not_fit) {
  const auto curve = facing(facts(kSensor, R"(protocol = "ntc 47k")"), kSensor);
  EXPECT_EQ(reason(curve, "sensor curve").before, Verdict::does_not_fit) << told(curve);
  EXPECT_TRUE(reason(curve, "sensor curve").safety);
  EXPECT_TRUE(has(facing(facts(kDoor, R"(idle = "high")"), kDoor), "sensor curve"));
  EXPECT_FALSE(has(facing(kSensor, kSensor), "sensor curve"));
}

TEST(StringCurrent, more_current_than_the_strings_allow_destroys_and_less_leaves_them_dark) {
  const auto j = facing(kStringIn, facts(kStringOut, "amps = 0.5"));
  EXPECT_EQ(reason(j, "string current").before, Verdict::destroys) << told(j);
  EXPECT_FALSE(has(facing(kStringIn, facts(kStringOut, "amps = 0.38")), "string current"));
  EXPECT_EQ(reason(facing(kStringIn, facts(kStringOut, "amps = 0.2")), "string current").before,
            Verdict::does_not_fit);
}

TEST(StringVolts, a_driver_that_does_not_reach_them_does_not_fit) {
  for (const std::string volts : {"volts = [51, 65]", "volts = [45, 59]", "volts = 50"})
    EXPECT_EQ(reason(facing(kStringIn, facts(kStringOut, volts)), "string volts").before,
              Verdict::does_not_fit)
        << volts;
  EXPECT_FALSE(has(facing(kStringIn, facts(kStringOut, "volts = [50, 60]")), "string volts"));
}

TEST(OverVoltage, an_igniter_stronger_than_the_lamp_side_stands_destroys) {
  const auto end = [](const std::string& direction, const std::string& volts) {
    return R"(signal = "lamp A", class = "ignition", domain = "lamp", direction = ")" + direction +
           "\", volts = [0, " + volts + "]";
  };
  const auto j = facing(end("in", "5000"), end("out", "20000"));
  EXPECT_EQ(reason(j, "over voltage").before, Verdict::destroys) << told(j);
  EXPECT_TRUE(reason(j, "over voltage").safety);
  EXPECT_FALSE(has(facing(end("in", "6000"), end("out", "5000")), "over voltage"));
}

TEST(NoReturn, power_without_any_ground_to_come_back_by_does_not_fit) {
  const auto meet = [](const std::vector<std::string>& plug,
                       const std::vector<std::string>& socket) {
    const std::string ways = "ways = " + std::to_string(plug.size());
    return judged(Meeting{.plug = plug,
                          .socket = socket,
                          .plug_connector = facts(kPlug, ways),
                          .socket_connector = facts(kSocket, ways)});
  };
  const auto open = meet({contact(1, kSupplyIn), contact(2, kGround)},
                         {contact(1, kSupplyOut), contact(2, kUnused)});
  EXPECT_EQ(reason(open, "no return").before, Verdict::does_not_fit) << told(open);
  const auto two = meet({contact(1, kSupplyIn), contact(2, kGround), contact(3, kGround)},
                        {contact(1, kSupplyOut), contact(2, kUnused), contact(3, kGround)});
  EXPECT_FALSE(has(two, "no return")) << told(two);
}

TEST(CrossedSignals, line_and_neutral_and_rails_of_like_volts_are_not_exchanged_silently) {
  const auto meet = [](const std::string& out, const std::string& in, const std::string& first,
                       const std::string& second) {
    const auto named = [](const std::string& c, const std::string& name) {
      return facts(c, "signal = \"" + name + "\"");
    };
    return judged(
        Meeting{.plug = {contact(1, named(in, first)), contact(2, named(in, second))},
                .socket = {contact(1, named(out, second)), contact(2, named(out, first))}});
  };
  const auto mains = meet(kMainsOut, kMainsIn, "line", "neutral");
  EXPECT_EQ(reason(mains, "crossed signals").verdict, Verdict::does_not_fit) << told(mains);
  EXPECT_TRUE(reason(mains, "crossed signals").safety) << "switch and fuse sit in the line";
  const auto rails = meet(kSupplyOut, kSupplyIn, "5 V standby", "5 V");
  EXPECT_EQ(reason(rails, "crossed signals").before, Verdict::does_not_fit) << told(rails);
}

TEST(OverVoltage, a_passive_power_contact_takes_what_its_partner_gives) {
  for (const std::string direction : {R"(direction = "passive")", R"(direction = "both")"}) {
    const auto j = facing(facts(kSupplyIn, direction), facts(kSupplyOut, "volts = 12"));
    EXPECT_TRUE(has(j, "over voltage")) << told(j);
  }
}

}  // namespace
}  // namespace benchgraft::fit
