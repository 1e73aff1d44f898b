// A supply out of a set with a three-wire cord goes into a double-insulated cabinet. It screws
// down, every plug goes in, it ran once: a set that works and is not safe.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "stories/loft.hpp"

namespace benchgraft::stories {
namespace {

using fit::Verdict;
using ::testing::Contains;
using ::testing::Field;
using ::testing::HasSubstr;
using ::testing::IsSubsetOf;
using ::testing::Not;

class EarthedSupply : public ::testing::Test {
 protected:
  const Asked linnet = asked("earthed_supply_into_linnet");
  const Asked pane = asked("supply_with_earth_into_double_insulated");
};

TEST_F(EarthedSupply, is_refused_for_its_missing_earth_in_both_families) {
  for (const auto* one : {&linnet, &pane}) {
    EXPECT_EQ(one->judgement.verdict, Verdict::does_not_fit);
    const auto* earth = reason(one->judgement, "earth path", "relies on protective earth");
    ASSERT_NE(earth, nullptr);
    EXPECT_TRUE(earth->safety);
    EXPECT_EQ(earth->verdict, Verdict::does_not_fit) << "no work of the bench cures it";
    EXPECT_THAT(one->text, HasSubstr("about half the mains voltage"));
    EXPECT_EQ(one->judgement.repins.size(), 0U) << "an earth is never re-pinned";
  }
}

TEST_F(EarthedSupply, names_the_blade_that_finds_nothing_to_go_on) {
  EXPECT_NE(reason(linnet.judgement, "nothing feeds it", "protective earth"), nullptr);
}

TEST_F(EarthedSupply, gives_the_touch_current_as_an_interval_that_passes_nothing) {
  // I = 2 pi f C V at 50 Hz; 8.2 nF of the supply: -20 % at 230 V, +20 % at 253 V (recomputed).
  const auto* current = reason(linnet.judgement, "touch current", "0.47 to 0.78 mA");
  ASSERT_NE(current, nullptr);
  EXPECT_TRUE(current->safety);
  EXPECT_THAT(linnet.text, HasSubstr("this passes nothing"));
}

TEST_F(EarthedSupply, sees_that_the_sensor_in_the_lamp_house_is_another_one) {
  const auto* sensor = reason(linnet.judgement, "sensor curve");
  ASSERT_NE(sensor, nullptr);
  EXPECT_TRUE(sensor->safety);
  EXPECT_THAT(sensor->says, HasSubstr("never protects"));
}

TEST_F(EarthedSupply, is_not_talked_into_it_by_a_set_that_ran_all_evening) {
  // The notes of both swaps say that it worked.
  for (const auto* one : {&linnet, &pane}) {
    EXPECT_EQ(reason(one->judgement, "records disagree"), nullptr);
    for (const auto& reason : one->judgement.reasons)
      EXPECT_FALSE(reason.safety && reason.before != reason.verdict) << reason.says;
  }
  EXPECT_THAT(linnet.text, HasSubstr("came back"));
}

TEST_F(EarthedSupply, says_nothing_for_certain_about_rails_that_are_the_same) {
  EXPECT_THAT(told_for_certain(linnet.judgement),
              IsSubsetOf({"sensor curve", "nothing feeds it", "earth path", "touch current",
                          "two grounds", "swap note"}));
  EXPECT_THAT(told_for_certain(pane.judgement),
              IsSubsetOf({"nothing feeds it", "earth path", "touch current", "swap note"}));
  EXPECT_THAT(linnet.text, Not(HasSubstr("too high")));
}

TEST_F(EarthedSupply, stays_refused_when_the_three_wire_inlet_moves_in_but_not_the_metal) {
  const Asked both = asked("supply_in_the_middle");
  EXPECT_EQ(both.judgement.verdict, Verdict::does_not_fit);
  EXPECT_EQ(reason(both.judgement, "nothing feeds it"), nullptr) << "the blade has its partner now";
  EXPECT_NE(reason(both.judgement, "earth path"), nullptr);
}

}  // namespace
}  // namespace benchgraft::stories
