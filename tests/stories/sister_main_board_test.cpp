// The main board of a sister panel: same size, same sockets, another panel supply, another order of
// the pixels, another way of dimming, other keys.
#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "stories/loft.hpp"

namespace benchgraft::stories {
namespace {

using fit::Verdict;
using ::testing::Contains;
using ::testing::Field;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::IsSubsetOf;
using ::testing::Not;

class SisterMainBoard : public ::testing::Test {
 protected:
  const Asked sill = asked("sister_main_board");
};

TEST_F(SisterMainBoard, shouts_that_twelve_volts_meet_a_five_volt_panel) {
  EXPECT_EQ(sill.judgement.verdict, Verdict::destroys);
  const auto* volts = reason(sill.judgement, "over voltage");
  ASSERT_NE(volts, nullptr);
  EXPECT_TRUE(volts->safety);
  EXPECT_THAT(volts->says, HasSubstr("12 V"));
  EXPECT_THAT(volts->says, HasSubstr("4.75 to 5.25 V"));
  EXPECT_THAT(volts->says, HasSubstr("contact 1"));
  EXPECT_THAT(volts->says, HasSubstr("contact 2"));
  for (const auto& fact : volts->facts) EXPECT_GT(fact.where.line, 0) << fact.text;
  EXPECT_EQ(sill.judgement.reasons.front().rule, "over voltage") << "danger comes first";
}

TEST_F(SisterMainBoard, sees_the_order_of_the_pixels_the_dimming_and_the_keys) {
  const auto* order = reason(sill.judgement, "protocol clash", "second order");
  ASSERT_NE(order, nullptr);
  EXPECT_THAT(order->says, HasSubstr("first order"));
  EXPECT_NE(reason(sill.judgement, "protocol clash", "pulse width 180 Hz"), nullptr);
  const auto* keys = reason(sill.judgement, "protocol clash", "resistor ladder E");
  ASSERT_NE(keys, nullptr);
  EXPECT_THAT(keys->says, HasSubstr("resistor ladder F"));
}

TEST_F(SisterMainBoard, has_panel_code_and_dimming_set_again) {
  for (const char* name : {"panel code", "panel light dimming"})
    EXPECT_THAT(sill.judgement.settings,
                Contains(::testing::AllOf(Field(&fit::SettingToDo::name, name),
                                          Field(&fit::SettingToDo::action, "redo"))));
}

TEST_F(SisterMainBoard, offers_no_re_pin_for_what_would_still_burn) {
  EXPECT_THAT(sill.judgement.repins, IsEmpty());
  EXPECT_THAT(sill.judgement.adaptations, IsEmpty());
}

TEST_F(SisterMainBoard, says_nothing_for_certain_about_sound_rails_and_receiver) {
  EXPECT_THAT(told_for_certain(sill.judgement),
              IsSubsetOf({"over voltage", "protocol clash", "wrong socket", "setting elsewhere",
                          "capability", "swap note"}));
  for (const auto& one : sill.judgement.reasons) {
    EXPECT_THAT(one.says, Not(HasSubstr("ZA-32"))) << "the loudspeakers fit";
    EXPECT_THAT(one.says, Not(HasSubstr("ZR-32"))) << "the receiver fits";
    EXPECT_THAT(one.says, Not(HasSubstr("ZS-32"))) << "the rails are the same";
  }
  EXPECT_THAT(sill.judgement.lost, IsEmpty());
  EXPECT_THAT(sill.judgement.gained, Contains("digital video input"));
}

TEST_F(SisterMainBoard, hears_of_the_keys_alone_when_only_the_key_board_is_the_sisters) {
  const Asked keys = asked("keys_of_the_sister");
  EXPECT_EQ(keys.judgement.verdict, Verdict::does_not_fit);
  const auto clashes =
      std::count_if(keys.judgement.reasons.begin(), keys.judgement.reasons.end(),
                    [](const auto& one) { return one.verdict >= Verdict::does_not_fit; });
  EXPECT_EQ(clashes, 1);
}

}  // namespace
}  // namespace benchgraft::stories
