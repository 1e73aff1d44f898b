// A lamp driver out of a desktop projector: the same tin, the same sockets, the same watts.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "stories/loft.hpp"

namespace benchgraft::stories {
namespace {

using fit::Verdict;
using ::testing::HasSubstr;
using ::testing::IsSubsetOf;
using ::testing::Not;

class ProjectorLampDriver : public ::testing::Test {
 protected:
  const Asked bramble = asked("projector_lamp_driver");
  const Asked serial = asked("projector_driver_serial");
};

TEST_F(ProjectorLampDriver, plugs_in_and_destroys_because_five_contacts_stand_in_another_order) {
  EXPECT_EQ(bramble.judgement.verdict, Verdict::destroys);
  const auto* clash = reason(bramble.judgement, "class clash");
  ASSERT_NE(clash, nullptr);
  EXPECT_EQ(clash->before, Verdict::destroys);
  for (const char* contact : {"contact 1", "contact 2", "contact 3", "contact 5"})
    EXPECT_THAT(clash->says, HasSubstr(contact));
  EXPECT_THAT(clash->says, HasSubstr("plugs in and it destroys"));
}

TEST_F(ProjectorLampDriver, is_not_the_lamps_driver_although_the_watts_are_the_same) {
  const auto* lamp = reason(bramble.judgement, "lamp power");
  ASSERT_NE(lamp, nullptr);
  EXPECT_TRUE(lamp->safety);
  EXPECT_EQ(lamp->verdict, Verdict::does_not_fit);
  EXPECT_THAT(lamp->says, HasSubstr("60 to 90 V"));
  EXPECT_THAT(lamp->says, HasSubstr("70 to 105 V"));
}

TEST_F(ProjectorLampDriver, has_a_lamp_lead_that_does_not_reach_and_is_never_lengthened) {
  const auto* lead = reason(bramble.judgement, "lead too short", "LAMP");
  ASSERT_NE(lead, nullptr);
  EXPECT_EQ(lead->verdict, Verdict::does_not_fit);
  for (const auto& one : bramble.judgement.repins) EXPECT_NE(one.port, "LAMP");
}

TEST_F(ProjectorLampDriver, keeps_its_hot_and_its_cold_ground_apart) {
  EXPECT_THAT(bramble.text, HasSubstr("HD-5 has a hot ground (on BUS) and a cold ground (on CTL)"));
  EXPECT_THAT(bramble.text, HasSubstr("They are never joined"));
}

TEST_F(ProjectorLampDriver, tells_that_the_note_of_the_dead_one_says_the_same) {
  EXPECT_THAT(bramble.text, HasSubstr("ended in damage"));
}

TEST_F(ProjectorLampDriver, says_nothing_for_certain_about_bus_door_and_mount) {
  EXPECT_THAT(told_for_certain(bramble.judgement),
              IsSubsetOf({"class clash", "crossed signals", "lamp power", "lead too short",
                          "two grounds", "swap note"}));
  for (const auto& one : bramble.judgement.reasons)
    EXPECT_THAT(one.says, Not(HasSubstr("DOOR"))) << "the door loop fits";
}

TEST_F(ProjectorLampDriver, of_the_larger_kind_breaks_the_door_loop_and_burns_the_lamp) {
  EXPECT_EQ(serial.judgement.verdict, Verdict::destroys);
  const auto* loop = reason(serial.judgement, "safety loop open", "door loop");
  ASSERT_NE(loop, nullptr);
  EXPECT_TRUE(loop->safety);
  const auto* watts = reason(serial.judgement, "lamp power", "180 W");
  ASSERT_NE(watts, nullptr);
  EXPECT_EQ(watts->verdict, Verdict::destroys);
  EXPECT_THAT(serial.text, HasSubstr("Never light this pair"));
}

}  // namespace
}  // namespace benchgraft::stories
