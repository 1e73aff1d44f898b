// Contacts moved in a plug, and crossover leads: fewest moves, never an excluded circuit.
#include "fit/repin.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/fit_bench.hpp"

namespace benchgraft::fit {
namespace {

using namespace fit_bench;
using ::testing::HasSubstr;

std::string moves(const Judgement& j) {
  std::string text;
  for (const auto& repin : j.repins)
    for (const auto& move : repin.moves) text += move.from + ">" + move.to + " ";
  return text;
}

Meeting crossed() {
  return {.plug = {contact(1, kEnableIn), contact(2, kSupplyIn), contact(3, kGround)},
          .socket = {contact(1, kSupplyOut), contact(2, kEnableOut), contact(3, kGround)},
          .plug_connector = facts(kPlug, "ways = 3"),
          .socket_connector = facts(kSocket, "ways = 3")};
}

TEST(Repin, exchanges_two_contacts_and_keeps_the_danger_on_the_step) {
  const auto j = judged(crossed());
  EXPECT_EQ(j.verdict, Verdict::fits_with_work) << told(j);
  EXPECT_EQ(moves(j), "2>1 1>2 ");
  EXPECT_EQ(reason(j, "class clash").before, Verdict::destroys);
  EXPECT_THAT(reason(j, "class clash").not_before, HasSubstr("re-pin"));
  EXPECT_THAT(j.repins.front().conductor, HasSubstr("AWG"));
  EXPECT_EQ(j.repins.front().part, "NEW-1");
}

TEST(Repin, moves_no_contact_that_may_stay) {
  // Three grounds that could all change places: only the two contacts in the wrong place move.
  const auto j =
      judged(Meeting{.plug = {contact(1, kGround), contact(2, kGround), contact(3, kEnableIn)},
                     .socket = {contact(1, kGround), contact(2, kEnableOut), contact(3, kGround)},
                     .plug_connector = facts(kPlug, "ways = 3"),
                     .socket_connector = facts(kSocket, "ways = 3")});
  EXPECT_EQ(moves(j), "3>2 2>3 ") << told(j);
}

TEST(Repin, is_never_offered_for_mains_bus_ignition_earth_interlock_or_thermal) {
  const std::string ignition = facts(kMainsIn, R"(class = "ignition", domain = "lamp")");
  const std::string lit = facts(kMainsOut, R"(class = "ignition", domain = "lamp")");
  for (const auto& [in, out] :
       {std::pair{kDoor, kDoor}, std::pair{kSensor, kSensor}, std::pair{kMainsIn, kMainsOut},
        std::pair{kBusIn, kBusOut}, std::pair{ignition, lit}, std::pair{kEarth, kEarth},
        std::pair{kHotGround, kHotGround}}) {
    Meeting m = crossed();
    m.plug[2] = contact(3, in);
    m.plug[1] = contact(2, kUnused);
    m.socket[1] = contact(2, out);
    m.socket[2] = contact(3, kUnused);
    m.plug[0] = contact(1, kEnableIn);
    m.socket[0] = contact(1, kEnableOut);
    const auto j = judged(m);
    EXPECT_TRUE(j.repins.empty()) << told(j);
    EXPECT_NE(j.verdict, Verdict::fits_with_work) << told(j);
  }
}

TEST(Repin, exchanges_the_halves_of_a_pair) {
  Meeting m = crossed();
  m.plug = {contact(1, kPairIn), contact(2, kPairIn, R"(signal = "data -")"), contact(3, kGround)};
  m.socket = {contact(1, kPairOut, R"(signal = "data -")"), contact(2, kPairOut),
              contact(3, kGround)};
  const auto j = judged(m);
  EXPECT_EQ(j.verdict, Verdict::fits_with_work) << told(j);
  EXPECT_EQ(moves(j), "2>1 1>2 ");
}

TEST(Repin, leaves_an_excluded_circuit_where_it_is_and_moves_the_others) {
  Meeting m = crossed();
  m.plug.push_back(contact(4, kDoor));
  m.socket.push_back(contact(4, kDoor));
  m.plug_connector = facts(kPlug, "ways = 4");
  m.socket_connector = facts(kSocket, "ways = 4");
  EXPECT_EQ(moves(judged(m)), "2>1 1>2 ");
}

TEST(Repin, is_not_offered_while_a_fact_is_missing) {
  Meeting m = crossed();
  m.socket[2] = contact(3, kGround, "-domain");
  const auto j = judged(m);
  EXPECT_TRUE(j.repins.empty()) << told(j);
  EXPECT_EQ(j.verdict, Verdict::destroys);
}

TEST(Repin, does_not_cure_a_wrong_voltage) {
  Meeting m = crossed();
  m.socket[0] = contact(1, kSupplyOut, "volts = 12");
  const auto j = judged(m);
  EXPECT_TRUE(j.repins.empty()) << told(j);
  EXPECT_EQ(j.verdict, Verdict::destroys);
}

const std::string kOtherPlug = facts(kPlug, R"(family = "2.5 mm crimp", ways = 3)");

TEST(Crossover, joins_connectors_that_do_not_mate_by_what_agrees) {
  Meeting m = crossed();
  m.plug_connector = kOtherPlug;
  const auto j = judged(m);
  ASSERT_EQ(j.repins.size(), 1U) << told(j);
  EXPECT_TRUE(j.repins.front().crossover);
  EXPECT_EQ(moves(j), "2>1 1>2 3>3 ");
  EXPECT_EQ(j.verdict, Verdict::fits_with_work);
}

TEST(Crossover, says_conductor_colour_and_length) {
  Meeting m = crossed();
  m.plug_connector = kOtherPlug;
  m.plug_more = "known = \"measured\", lead_mm = 320";
  const auto by_lead = judged(m);
  ASSERT_EQ(by_lead.repins.size(), 1U) << told(by_lead);
  EXPECT_THAT(by_lead.repins.front().length, HasSubstr("320 mm, as long as the lead"));
  EXPECT_THAT(by_lead.repins.front().conductor, AllOf(HasSubstr("mm2"), HasSubstr("AWG 24"),
                                                      HasSubstr("colour of the wire it replaces")));
  m.plug_more = R"(known = "measured")";
  EXPECT_THAT(judged(m).repins.front().length, HasSubstr("lay a string"));
}

TEST(Crossover, is_as_long_as_the_places_of_the_model_ask_for) {
  Meeting m = crossed();
  m.plug_connector = kOtherPlug;
  std::string body = body_of(m);
  const auto place = [&](const std::string& name, const std::string& at) {
    const std::string line = "position = \"" + name + "\"\n";
    body.insert(body.find(line) + line.size(), "at_mm = " + at + "\n");
  };
  place("display driver", "[0, 0, 0]");
  place("supply", "[300, 400, 0]");
  const auto j = judged(body, swap("display driver", "NEW-1"));
  ASSERT_EQ(j.repins.size(), 1U) << told(j);
  // 500 mm straight, 1.3 times that and 100 mm: 750 mm.
  EXPECT_THAT(j.repins.front().length, HasSubstr("750 mm: 500 mm straight"));
}

TEST(Repin, of_a_plug_that_stays_has_no_length) {
  EXPECT_EQ(judged(crossed()).repins.front().length, "");
}

TEST(Crossover, is_never_made_of_the_ignition_circuit) {
  Meeting m = crossed();
  m.plug_connector = kOtherPlug;
  m.plug[2] = contact(3, kMainsIn, R"(class = "ignition", domain = "lamp")");
  m.socket[2] = contact(3, kMainsOut, R"(class = "ignition", domain = "lamp")");
  const auto j = judged(m);
  EXPECT_TRUE(j.repins.empty()) << told(j);
  EXPECT_THAT(reason(j, "does not mate").says, HasSubstr("whole original lead"));
}

TEST(Crossover, is_never_made_when_one_port_carries_an_excluded_circuit) {
  for (const auto& excluded : {kDoor, kSensor, kEarth, kMainsIn, kBusIn, kHotGround}) {
    Meeting m = crossed();
    m.plug_connector = kOtherPlug;
    m.plug[2] = contact(3, excluded);
    m.socket[2] = contact(3, excluded);
    const auto j = judged(m);
    EXPECT_TRUE(j.repins.empty()) << told(j);
    EXPECT_EQ(reason(j, "does not mate").verdict, Verdict::does_not_fit);
    EXPECT_TRUE(reason(j, "does not mate").safety);
    EXPECT_THAT(reason(j, "does not mate").says, HasSubstr("whole original lead"));
  }
}

TEST(Crossover, is_never_made_of_a_flat_ribbon) {
  Meeting m = crossed();
  m.plug_connector = facts(kOtherPlug, R"(family = "flat ribbon 1.0 mm")");
  const auto j = judged(m);
  EXPECT_TRUE(j.repins.empty()) << told(j);
  EXPECT_EQ(j.verdict, Verdict::does_not_fit);
}

TEST(TwoSockets, with_no_lead_on_record_are_a_question) {
  Meeting m = crossed();
  m.plug_connector = facts(kSocket, R"(family = "2.5 mm crimp", ways = 3)");
  const auto j = judged(m);
  EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
  EXPECT_TRUE(asks(j, "the lead between them"));
}

/// The host's own lead between two like sockets: the old part in the place had `old_contacts`.
Judgement unrecorded_lead(const std::vector<std::string>& old_contacts,
                          const std::vector<std::string>& new_contacts) {
  const auto board = [](const std::string& name, const std::vector<std::string>& contacts) {
    return part(name, "display driver", "", port("P", "supply", kSocket, contacts));
  };
  return judged(board("OLD-1", old_contacts) + board("NEW-1", new_contacts) +
                    part("HOST-1", "supply", "",
                         port("S", "display driver", kSocket,
                              {contact(1, kGround), contact(2, kSupplyOut)})) +
                    model("Tern 40", {{"display driver", "OLD-1"}, {"supply", "HOST-1"}}),
                swap("display driver", "NEW-1"));
}

TEST(TwoSockets, joined_by_the_hosts_own_lead_fit_when_the_contacts_are_those_of_the_old_part) {
  const std::vector<std::string> crossed_over{contact(1, kSupplyIn), contact(2, kGround)};
  const auto j = unrecorded_lead(crossed_over, crossed_over);
  EXPECT_EQ(j.verdict, Verdict::fits) << "whichever way its wires run: " << told(j);
}

TEST(TwoSockets, joined_by_a_lead_whose_wires_nobody_recorded_are_asked_about) {
  const auto j = unrecorded_lead({contact(1, kSupplyIn), contact(2, kGround)},
                                 {contact(1, kGround), contact(2, kSupplyIn)});
  EXPECT_GE(j.verdict, Verdict::unknown) << told(j);
}

TEST(Crossover, that_leaves_a_waited_for_reply_open_is_not_offered) {
  Meeting m{.plug = {contact(1, kGround), contact(2, kLitIn)},
            .socket = {contact(1, kGround), contact(2, kGround)},
            .plug_connector = facts(kPlug, R"(family = "2.5 mm crimp")")};
  const auto j = judged(m);
  EXPECT_TRUE(j.repins.empty());
  EXPECT_TRUE(has(j, "missing reply")) << told(j);
}

TEST(Crossover, does_not_say_the_contacts_do_not_pair_up_when_a_fact_is_only_missing) {
  Meeting m = crossed();
  m.plug_connector = kOtherPlug;
  m.plug[0] = contact(1, kEnableIn, "-active");
  const auto j = judged(m);
  EXPECT_TRUE(j.repins.empty());
  EXPECT_THAT(reason(j, "does not mate").says, Not(HasSubstr("do not pair up"))) << told(j);
}

}  // namespace
}  // namespace benchgraft::fit
