// What all users of one rail draw together, against what the supply gives and needs.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/fit_bench.hpp"

namespace benchgraft::fit {
namespace {

using namespace fit_bench;
using ::testing::HasSubstr;

/// A supply of one 5 V rail with two users; the display driver is put in.
struct Room {
  std::string rail = R"(rail = "5 V", volts = 5, amps = 3, least_amps = 0.2)";
  std::string host_draws = "amps = 1.5", new_draws = "amps = 1.2";
  bool host_ports_recorded = true;
  bool host_contacts_recorded = true;
};

Judgement judged_room(const Room& room) {
  const auto out = [](const std::string& name, const std::string& to) {
    return port(name, to, kSocket,
                {contact(1, kSupplyOut, R"(rail = "5 V", -amps)"), contact(2, kGround)});
  };
  const auto user = [](const std::string& changes, bool recorded = true) {
    const std::vector<std::string> contacts{contact(1, kSupplyIn, changes), contact(2, kGround)};
    return port("P", "supply", kPlug, recorded ? contacts : kNotRecorded);
  };
  return judged(
      part("PSU-1", "supply", "rail = [{ " + room.rail + " }]",
           out("A", "display driver") + out("B", "sound")) +
          part("OLD-1", "display driver") +
          part("NEW-1", "display driver", "", user(room.new_draws)) +
          (room.host_ports_recorded
               ? part("AMP-1", "sound", "", user(room.host_draws, room.host_contacts_recorded))
               : part("AMP-1", "sound", "-port")) +
          model("Tern 40", {{"supply", "PSU-1"}, {"display driver", "OLD-1"}, {"sound", "AMP-1"}}),
      swap("display driver", "NEW-1"));
}

TEST(RailOverload, adds_up_all_users_of_a_rail) {
  const auto j = judged_room({.new_draws = "amps = 1.6"});
  EXPECT_EQ(reason(j, "rail overload").before, Verdict::does_not_fit) << told(j);
  EXPECT_EQ(reason(j, "rail overload").sort, RuleSort::whole);
  EXPECT_THAT(reason(j, "rail overload").says, AllOf(HasSubstr("gives 3 A"), HasSubstr("3.1 A"),
                                                     HasSubstr("AMP-1 contact 1 1.5 A")));
  EXPECT_FALSE(has(judged_room({.new_draws = "amps = 1.5"}), "rail overload"));
  EXPECT_EQ(judged_room({}).verdict, Verdict::fits) << told(judged_room({}));
}

TEST(RailOverload, is_certain_before_every_user_is_known) {
  const auto j = judged_room({.host_draws = "-amps", .new_draws = "amps = 3.1"});
  EXPECT_TRUE(has(j, "rail overload")) << told(j);
}

TEST(RailOverload, asks_for_a_draw_nobody_recorded) {
  const auto j = judged_room({.new_draws = "-amps"});
  EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
  EXPECT_TRUE(asks(j, "How many amps does NEW-1 draw on 5 V?"));
}

TEST(RailOverload, asks_what_the_rail_can_give) {
  const auto j = judged_room({.rail = R"(rail = "5 V", volts = 5)"});
  EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
  EXPECT_TRUE(asks(j, "How many amps can PSU-1 give on 5 V?"));
}

TEST(RailOverload, does_not_add_up_to_fits_when_another_user_is_not_recorded) {
  for (const Room& room :
       {Room{.host_ports_recorded = false}, Room{.host_contacts_recorded = false}}) {
    const auto j = judged_room(room);
    EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
    EXPECT_TRUE(asks(j, "How many amps does AMP-1 draw on 5 V?"));
  }
}

TEST(LeastLoad, a_supply_that_needs_more_load_than_is_drawn_does_not_hold_its_volts) {
  const Room light{.rail = R"(rail = "5 V", volts = 5, amps = 3, least_amps = 1)",
                   .host_draws = "amps = 0.2",
                   .new_draws = "amps = 0.7"};
  EXPECT_EQ(reason(judged_room(light), "least load").before, Verdict::does_not_fit)
      << told(judged_room(light));
  Room enough = light;
  enough.new_draws = "amps = 0.8";
  EXPECT_FALSE(has(judged_room(enough), "least load"));
}

}  // namespace
}  // namespace benchgraft::fit
