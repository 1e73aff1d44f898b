// Every fact that can be missing is a question and never "fits".
#include <map>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/fit_bench.hpp"

namespace benchgraft::fit {
namespace {

using namespace fit_bench;
using ::testing::HasSubstr;

/// Keys whose absence on one contact rightly says nothing, with the reason.
using Silent = std::map<std::string, const char*>;

void leave_out_each_key(const std::string& out, const std::string& in, const Silent& silent) {
  for (const bool on_plug : {true, false}) {
    const std::string& whole = on_plug ? in : out;
    for (const std::string key :
         {"signal", "class", "domain", "volts", "amps", "direction", "drive", "active", "idle",
          "logic_volts", "protocol", "pull_up", "waits_s"}) {
      const std::string less = facts(whole, "-" + key);
      if (less == facts(whole, "")) continue;
      Meeting m{.plug = {contact(1, on_plug ? less : in), contact(2, kGround)},
                .socket = {contact(1, on_plug ? out : less), contact(2, kGround)}};
      const auto j = judged(m);
      const auto allowed = silent.find((on_plug ? "in " : "out ") + key);
      if (allowed != silent.end()) {
        EXPECT_EQ(j.verdict, Verdict::fits)
            << allowed->first << " is no longer silent; " << allowed->second << "\n"
            << told(j);
        continue;
      }
      EXPECT_GE(j.verdict, Verdict::unknown) << key << " left out of " << whole << "\n" << told(j);
      EXPECT_FALSE(j.questions.empty()) << key << " left out of " << whole << "\n" << told(j);
    }
  }
}

TEST(Unknown, every_fact_of_a_supply_contact_is_asked_for) {
  leave_out_each_key(kSupplyOut, kSupplyIn,
                     {{"out signal", "a rail is known by its volts, its name is a label"},
                      {"in signal", "a rail is known by its volts, its name is a label"}});
}

TEST(Unknown, every_fact_of_a_signal_contact_is_asked_for) {
  leave_out_each_key(kEnableOut, kEnableIn, {});
}

TEST(Unknown, every_fact_of_a_reply_is_asked_for) {
  leave_out_each_key(
      kLitOut, kLitIn,
      {{"out logic_volts", "an open collector has no level of its own: the pull-up gives it"},
       {"in waits_s", "the reply is given, so it does not matter how long would be waited"}});
}

TEST(Unknown, every_fact_of_a_safety_loop_is_asked_for) {
  leave_out_each_key(
      kSensor, kSensor,
      {{"out direction", "a loop has no direction"}, {"in direction", "a loop has no direction"}});
  leave_out_each_key(kDoor, kDoor,
                     {{"out direction", "a loop has no direction"},
                      {"in direction", "a loop has no direction"},
                      {"out drive", "a loop is closed or open, whatever closes it"},
                      {"in drive", "a loop is closed or open, whatever closes it"}});
}

TEST(Unknown, every_fact_of_a_light_string_and_a_pair_is_asked_for) {
  const Silent rail{{"out signal", "a string is known by its volts and amps"},
                    {"in signal", "a string is known by its volts and amps"}};
  leave_out_each_key(kStringOut, kStringIn, rail);
  leave_out_each_key(kPairOut, kPairIn, {});
}

TEST(Unknown, the_domain_and_class_of_a_ground_are_asked_for) {
  leave_out_each_key(kGround, kGround,
                     {{"out signal", "ground is ground within one domain"},
                      {"in signal", "ground is ground within one domain"},
                      {"out direction", "a ground has none"},
                      {"in direction", "a ground has none"}});
}

TEST(Unknown, a_contact_only_one_side_lists_is_asked_for_by_its_number) {
  const auto j = judged(Meeting{.plug = {contact(1, kEnableIn), contact(2, kGround)},
                                .socket = {contact(1, kEnableOut)}});
  EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
  EXPECT_TRUE(asks(j, "contact 2"));
}

TEST(Unknown, a_way_neither_side_lists_is_asked_for) {
  const auto j = judged(Meeting{.plug = {contact(1, kEnableIn), contact(2, kGround)},
                                .socket = {contact(1, kEnableOut), contact(2, kGround)},
                                .plug_connector = facts(kPlug, "ways = 3"),
                                .socket_connector = facts(kSocket, "ways = 3")});
  EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
  EXPECT_TRUE(asks(j, "contact 3"));
}

TEST(Unknown, contacts_nobody_recorded_are_a_question_of_safety) {
  for (const bool plug : {true, false}) {
    Meeting m{.plug = {contact(1, kEnableIn), contact(2, kGround)},
              .socket = {contact(1, kEnableOut), contact(2, kGround)}};
    (plug ? m.plug : m.socket) = kNotRecorded;
    const auto j = judged(m);
    EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
    EXPECT_TRUE(asks(j, "what runs on each contact"));
    EXPECT_TRUE(reason(j, "not recorded").safety);
  }
}

TEST(Unknown, ports_nobody_recorded_are_a_question) {
  for (const bool plug : {true, false}) {
    const auto ports = [&](const std::string& name, const std::string& to, const std::string& end,
                           bool recorded) {
      return recorded ? part(name, to == "supply" ? "display driver" : "supply", "",
                             port("P", to, end, {contact(1, kGround), contact(2, kGround)}))
                      : part(name, to == "supply" ? "display driver" : "supply", "-port");
    };
    const auto j = judged(part("OLD-1", "display driver") + ports("NEW-1", "supply", kPlug, !plug) +
                              ports("HOST-1", "display driver", kSocket, plug) +
                              model("Tern 40", {{"display driver", "OLD-1"}, {"supply", "HOST-1"}}),
                          swap("display driver", "NEW-1"));
    EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
    EXPECT_TRUE(asks(j, "Record the connectors of"));
  }
}

TEST(Unknown, where_a_connector_goes_is_asked_when_it_says_nothing) {
  const auto j = judged(
      part("OLD-1", "display driver") +
          part("NEW-1", "display driver", "", port("P", "", kPlug, {contact(1, kSupplyIn)})) +
          model("Tern 40", {{"display driver", "OLD-1"}}),
      swap("display driver", "NEW-1"));
  EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
  EXPECT_TRUE(asks(j, "Where does the P plug of NEW-1 go?"));
}

/// A port of the host that finds no partner on the part that goes in.
Judgement left_alone(const std::vector<std::string>& contacts) {
  return judged(part("OLD-1", "display driver", "",
                     port("S", "supply", kSocket, {contact(1, kSupplyOut), contact(2, kGround)})) +
                    part("NEW-1", "display driver") +
                    part("HOST-1", "supply", "", port("P", "display driver", kPlug, contacts)) +
                    model("Tern 40", {{"display driver", "OLD-1"}, {"supply", "HOST-1"}}),
                swap("display driver", "NEW-1"));
}

TEST(LoosePort, that_needs_nothing_stays_unplugged) {
  const auto j = left_alone({contact(1, kEnableOut), contact(2, kGround)});
  EXPECT_EQ(reason(j, "left unplugged").verdict, Verdict::fits) << told(j);
}

TEST(LoosePort, that_must_be_fed_answered_or_closed_does_not_fit) {
  for (const auto& need : {kSupplyIn, kLitIn, kDoor, kSensor, kEarth}) {
    const auto j = left_alone({contact(1, need), contact(2, kGround)});
    EXPECT_EQ(reason(j, "nothing feeds it").before, Verdict::does_not_fit) << told(j);
  }
}

TEST(LoosePort, whose_contacts_nobody_recorded_is_asked_about) {
  const auto j = left_alone(kNotRecorded);
  EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
  for (const auto& less : {facts(kSupplyIn, "-direction"), facts(kSupplyIn, "-class"),
                           facts(kLitIn, "-direction"), facts(kDoor, "-class")}) {
    const auto one = left_alone({contact(1, less), contact(2, kGround)});
    EXPECT_GE(one.verdict, Verdict::unknown) << less << "\n" << told(one);
  }
}

/// A host whose kind knows that the lamp driver lights the lamp; `old_port` on the driver that
/// comes out.
Judgement driver_changed(const std::string& kind_link, const std::string& new_ports) {
  const std::string kind =
      "[[set_kind]]\nset_kind = \"linked set\"\nrole = [{ role = \"lamp driver\" }, { role = "
      "\"lamp\" }]\nlink = [" +
      kind_link + "]\n[[part_kind]]\npart_kind = \"board\"\n";
  return judged(
      kind + part("D-1", "lamp driver", "lamp_watts = 120, lamp_volts = [60, 90], y_nf = 0") +
          part("D-2", "lamp driver", "lamp_watts = 120, lamp_volts = [60, 90], y_nf = 0",
               new_ports) +
          part("L-1", "lamp", "lamp_watts = 120, lamp_volts = [65, 85]") +
          model("Tern 40", {{"lamp driver", "D-1"}, {"lamp", "L-1"}}, R"(kind = "linked set")"),
      swap("lamp driver", "D-2"));
}

TEST(UsualLink, that_neither_old_nor_new_part_records_is_a_question_and_never_fine) {
  const std::string ignition = R"({ from = "lamp driver", to = "lamp", carries = "ignition" })";
  const auto j = driver_changed(ignition, "");
  EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
  EXPECT_TRUE(asks(j, "joined to the lamp")) << told(j);
  EXPECT_FALSE(asks(driver_changed("", ""), "joined to the lamp"));
}

}  // namespace
}  // namespace benchgraft::fit
