// Does one connector end go into the other, and which contact then faces which.
#include "fit/mate.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/fit_bench.hpp"

namespace benchgraft::fit {
namespace {

using namespace fit_bench;
using ::testing::Contains;
using ::testing::HasSubstr;

catalogue::Connector end(const std::string& defaults, const std::string& changes = "") {
  const auto known =
      catalogue_of(part("X-1", "board", "", port("P", "", facts(defaults, changes), {})));
  return known.part_type("X-1")->ports->front().connector;
}

Mating meet(const std::string& plug_changes, const std::string& socket_changes = "") {
  return mate(end(kPlug, plug_changes), end(kSocket, socket_changes));
}

TEST(Mate, a_plug_goes_into_its_socket) {
  EXPECT_EQ(meet("").mates, Tri::yes);
  EXPECT_EQ(meet("").reversible, Tri::no);
  EXPECT_FALSE(meet("").turned_round);
}

TEST(Mate, another_family_keeps_them_apart) {
  EXPECT_EQ(meet(R"(family = "2.5 mm crimp")").mates, Tri::no);
  EXPECT_THAT(meet(R"(family = "2.5 mm crimp")").because, HasSubstr("2.5 mm crimp"));
}

TEST(Mate, a_pitch_of_2_50_does_not_go_into_2_54) {
  const auto apart = meet("pitch_mm = 2.50", "pitch_mm = 2.54");
  EXPECT_EQ(apart.mates, Tri::no);
  EXPECT_THAT(apart.because, AllOf(HasSubstr("2.5"), HasSubstr("2.54")));
  EXPECT_EQ(meet("pitch_mm = 2.54", "pitch_mm = 2.54").mates, Tri::yes);
  EXPECT_EQ(meet("pitch_mm = 0.500", "pitch_mm = 0.504").mates, Tri::yes) << "a ruler's error";
}

TEST(Mate, another_number_of_ways_keeps_them_apart) {
  EXPECT_EQ(meet("ways = 3").mates, Tri::no);
  EXPECT_EQ(meet("ways = 3", "ways = 3").mates, Tri::yes);
}

TEST(Mate, two_keys_that_differ_keep_them_apart) {
  EXPECT_EQ(meet(R"(key = "rib")").mates, Tri::no);
  EXPECT_EQ(meet(R"(key = "rib")", R"(key = "rib")").mates, Tri::yes);
}

TEST(Mate, without_a_key_on_one_side_it_goes_in_both_ways) {
  EXPECT_EQ(meet(R"(key = "none")").mates, Tri::yes);
  EXPECT_EQ(meet(R"(key = "none")").reversible, Tri::yes);
  EXPECT_EQ(meet("-key").reversible, Tri::unknown);
}

TEST(Mate, two_plugs_or_two_sockets_do_not_join) {
  EXPECT_THAT(mate(end(kPlug), end(kPlug)).because, HasSubstr("both are plugs"));
  EXPECT_THAT(mate(end(kSocket), end(kSocket)).because, HasSubstr("both are sockets"));
}

TEST(Mate, a_filled_hole_against_a_pin_blocks_and_against_a_gap_does_not) {
  EXPECT_EQ(meet("gaps = [2]").mates, Tri::no);
  EXPECT_THAT(meet("gaps = [2]").because, HasSubstr("pin 2"));
  EXPECT_EQ(meet("gaps = [2]", "gaps = [2]").mates, Tri::yes);
  EXPECT_EQ(meet("", "gaps = [2]").mates, Tri::yes) << "an open hole over a missing pin goes in";
}

TEST(Mate, a_filled_hole_is_counted_from_the_end_it_meets) {
  const std::string turned = R"(one_at = "right")";
  EXPECT_EQ(meet("gaps = [2], ways = 3", "gaps = [2], ways = 3, " + turned).mates, Tri::yes);
  EXPECT_EQ(meet("gaps = [1], ways = 3", "gaps = [1], ways = 3, " + turned).mates, Tri::no);
  EXPECT_EQ(meet("gaps = [1], ways = 3", "gaps = [3], ways = 3, " + turned).mates, Tri::yes);
}

TEST(Mate, a_filled_hole_over_pins_nobody_looked_at_is_a_question) {
  const auto asked = meet("gaps = [2]", "-gaps");
  EXPECT_EQ(asked.mates, Tri::unknown);
  EXPECT_THAT(asked.missing, Contains("which pins are taken out"));
}

TEST(Mate, a_ribbon_with_its_contacts_on_the_other_side_does_not_touch) {
  EXPECT_EQ(meet(R"(ribbon_side = "top")", R"(ribbon_side = "bottom")").mates, Tri::no);
  EXPECT_EQ(meet(R"(ribbon_side = "top")", R"(ribbon_side = "top")").mates, Tri::yes);
}

TEST(Mate, a_cut_plug_goes_into_nothing_not_even_another_cut_one) {
  catalogue::Connector cut;
  cut.family = "cut";
  EXPECT_EQ(mate(cut, end(kSocket)).mates, Tri::no);
  EXPECT_EQ(mate(cut, cut).mates, Tri::no);
}

TEST(Mate, names_what_is_not_recorded) {
  for (const auto& [key, words] :
       {std::pair{"family", "the connector family"}, std::pair{"ways", "the number of ways"},
        std::pair{"half", "which is plug and which is socket"}}) {
    const auto asked = meet(std::string("-") + key);
    EXPECT_EQ(asked.mates, Tri::unknown) << key;
    EXPECT_THAT(asked.missing, Contains(words));
  }
}

TEST(Mate, a_fact_only_one_side_tells_leaves_it_open) {
  for (const std::string key : {"pitch_mm", "key", "one_at"}) {
    EXPECT_EQ(meet("-" + key).mates, Tri::unknown) << key;
    EXPECT_EQ(meet("", "-" + key).mates, Tri::unknown) << key;
    EXPECT_EQ(meet("-" + key, "-" + key).mates, Tri::yes) << key << ": told by neither side";
  }
  EXPECT_EQ(meet(R"(ribbon_side = "top")", "").mates, Tri::unknown);
}

TEST(Mate, contact_1_at_the_other_end_turns_the_order_round) {
  const auto turned = meet("", R"(one_at = "right")");
  EXPECT_EQ(turned.mates, Tri::yes);
  EXPECT_TRUE(turned.turned_round);
}

TEST(Facing, counts_from_the_other_end_when_contact_1_is_there) {
  const auto known = catalogue_of(
      part("X-1", "board", "",
           port("A", "", facts(kPlug, "ways = 3"),
                {contact(1, kSupplyOut), contact(2, kGround), contact(3, kUnused)}) +
               port("B", "", facts(kSocket, "ways = 3"),
                    {contact(1, kUnused), contact(2, kGround), contact(3, kSupplyIn)})));
  const auto& ports = *known.part_type("X-1")->ports;
  const auto numbers = [&](bool turned) {
    std::string text;
    for (const auto& face : facing_contacts(ports[0], ports[1], turned))
      text += (face.a ? face.a->number : "-") + (face.b ? face.b->number : "-") + " ";
    return text;
  };
  EXPECT_EQ(numbers(false), "11 22 33 ");
  EXPECT_EQ(numbers(true), "13 22 31 ");
}

TEST(Facing, keeps_a_contact_only_one_side_lists) {
  const auto known = catalogue_of(part(
      "X-1", "board", "",
      port("A", "", kPlug, {contact(1, kGround)}) + port("B", "", kSocket, {contact(2, kGround)})));
  const auto& ports = *known.part_type("X-1")->ports;
  const auto faces = facing_contacts(ports[0], ports[1], false);
  ASSERT_EQ(faces.size(), 2U);
  EXPECT_EQ(faces[0].b, nullptr);
  EXPECT_EQ(faces[1].a, nullptr);
}

TEST(DoesNotMate, is_said_with_what_stands_in_the_way) {
  const auto j = judged(Meeting{.plug = {contact(1, kBusIn), contact(2, kHotGround)},
                                .socket = {contact(1, kBusOut), contact(2, kHotGround)},
                                .plug_connector = facts(kPlug, R"(family = "3.96 mm crimp")")});
  EXPECT_EQ(j.verdict, Verdict::does_not_fit);
  EXPECT_THAT(reason(j, "does not mate").says,
              AllOf(HasSubstr("3.96 mm crimp"), HasSubstr("whole original lead")));
}

TEST(DoesNotMate, contact_1_at_the_other_end_puts_supply_on_ground) {
  Meeting m{.plug = {contact(1, kSupplyIn), contact(2, kGround)},
            .socket = {contact(1, kSupplyOut), contact(2, kGround)}};
  EXPECT_EQ(judged(m).verdict, Verdict::fits) << told(judged(m));
  m.socket_connector = facts(kSocket, R"(one_at = "right")");
  const auto j = judged(m);
  EXPECT_EQ(reason(j, "class clash").before, Verdict::destroys) << told(j);
}

TEST(DoesNotMate, where_contact_1_is_recorded_on_one_side_only_is_asked) {
  const auto j = judged(Meeting{.plug = {contact(1, kSupplyIn), contact(2, kGround)},
                                .socket = {contact(1, kSupplyOut), contact(2, kGround)},
                                .plug_connector = facts(kPlug, "-one_at")});
  EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
  EXPECT_TRUE(asks(j, "contact 1"));
}

TEST(DoesNotMate, a_danger_behind_an_unknown_connector_is_told_and_stays_unknown) {
  const auto j = judged(Meeting{.plug = {contact(1, kSupplyIn), contact(2, kGround)},
                                .socket = {contact(1, kBusOut), contact(2, kHotGround)},
                                .plug_connector = facts(kPlug, "-family")});
  EXPECT_EQ(j.verdict, Verdict::unknown);
  EXPECT_THAT(reason(j, "domain clash").says, HasSubstr("If it goes in"));
}

TEST(ReversedPlug, that_destroys_when_turned_round_is_marked_before_unplugging) {
  Meeting m{.plug = {contact(1, kSupplyIn), contact(2, kGround)},
            .socket = {contact(1, kSupplyOut), contact(2, kGround)},
            .plug_connector = facts(kPlug, R"(key = "none")")};
  const auto j = judged(m);
  EXPECT_EQ(j.verdict, Verdict::fits_with_work) << told(j);
  EXPECT_THAT(reason(j, "reversed plug").not_before, HasSubstr("contact 1 is marked"));
  m.plug_connector = kPlug;
  EXPECT_FALSE(has(judged(m), "reversed plug"));
}

TEST(ReversedPlug, that_is_the_same_either_way_round_is_left_alone) {
  const auto j = judged(Meeting{.plug = {contact(1, kGround), contact(2, kGround)},
                                .socket = {contact(1, kGround), contact(2, kGround)},
                                .plug_connector = facts(kPlug, R"(key = "none")")});
  EXPECT_EQ(j.verdict, Verdict::fits) << told(j);
}

TEST(PlugCut, is_said_of_the_part_it_was_cut_from) {
  Meeting m{.plug = {contact(1, kSupplyIn), contact(2, kGround)},
            .socket = {contact(1, kSupplyOut), contact(2, kGround)}};
  m.changes = R"({ change = "plug cut", port = "P" })";
  const auto j = judged(m);
  EXPECT_EQ(reason(j, "plug cut").before, Verdict::does_not_fit) << told(j);
  EXPECT_FALSE(has(j, "does not mate"));
}

}  // namespace
}  // namespace benchgraft::fit
