// The first rebuild of the demo: a deep one-mirror cabinet of the second generation takes the
// engine of a slim two-mirror set of the third. Everything here must follow from the recorded
// facts.
#include <algorithm>
#include <fstream>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "catalogue/text.hpp"
#include "fit/judge.hpp"

namespace benchgraft {
namespace {

using fit::Judgement;
using fit::Verdict;
using ::testing::Contains;
using ::testing::Field;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

const std::string kSource = BENCHGRAFT_SOURCE_DIR;

Judgement judged(const std::string& rebuild_file) {
  const auto known = catalogue::load_catalogue(
      {kSource + "/data/kinds", kSource + "/data/limits", kSource + "/data/demo/catalogue"});
  EXPECT_TRUE(known.ok()) << known.error().message;
  std::ifstream in(kSource + "/data/demo/rebuilds/" + rebuild_file);
  std::stringstream text;
  text << in.rdbuf();
  const auto rebuild = catalogue::read_rebuild(text.str(), rebuild_file);
  EXPECT_TRUE(rebuild.ok()) << rebuild.error().message;
  auto answer = fit::judge(known.value(), rebuild.value());
  EXPECT_TRUE(answer.ok()) << answer.error().message;
  return answer.value();
}

const fit::Reason* reason(const Judgement& judgement, const std::string& rule,
                          const std::string& part_of_sentence = "") {
  for (const auto& one : judgement.reasons)
    if (one.rule == rule && one.says.find(part_of_sentence) != std::string::npos) return &one;
  return nullptr;
}

class FirstRebuild : public ::testing::Test {
 protected:
  const Judgement judgement = judged("first.toml");
};

TEST_F(FirstRebuild,
       shouts_that_the_control_plug_goes_in_and_destroys_until_two_contacts_are_moved) {
  const auto* clash = reason(judgement, "class clash");
  ASSERT_NE(clash, nullptr);
  EXPECT_EQ(clash->before, Verdict::destroys);
  EXPECT_EQ(clash->verdict, Verdict::fits_with_work);
  EXPECT_THAT(clash->says, HasSubstr("contact 1"));
  EXPECT_THAT(clash->says, HasSubstr("contact 2"));
  EXPECT_THAT(clash->not_before, HasSubstr("not before"));
  EXPECT_EQ(clash->facts.size(), 4U);
  for (const auto& fact : clash->facts) EXPECT_GT(fact.where.line, 0) << fact.text;
  ASSERT_EQ(judgement.repins.size(), 1U);
  EXPECT_EQ(judgement.repins.front().moves.size(), 2U) << "an exchange takes two moves";
}

TEST_F(FirstRebuild, turns_the_picture_left_right_only_because_one_fold_mirror_is_gone) {
  EXPECT_TRUE(judgement.orientation.known);
  EXPECT_EQ(judgement.orientation.toggle, (catalogue::Flip{true, false}));
  EXPECT_THAT(judgement.orientation.says, HasSubstr("One fold mirror fewer"));
  EXPECT_THAT(judgement.settings,
              Contains(::testing::AllOf(Field(&fit::SettingToDo::name, "pixel shift order"),
                                        Field(&fit::SettingToDo::action, "check"))));
}

TEST_F(FirstRebuild, lets_index_and_actuator_travel_with_the_display_driver_and_says_when_not) {
  for (const char* name : {"wheel index", "pixel shift gain"}) {
    const auto setting = std::find_if(judgement.settings.begin(), judgement.settings.end(),
                                      [&](const auto& one) { return one.name == name; });
    ASSERT_NE(setting, judgement.settings.end()) << name;
    EXPECT_EQ(setting->action, "travels");
    EXPECT_THAT(setting->why, HasSubstr("redo it if that part stays behind"));
  }
}

TEST_F(FirstRebuild, knows_that_the_two_wire_fan_never_answers_and_when_the_set_would_stop) {
  const auto* reply = reason(judgement, "missing reply");
  ASSERT_NE(reply, nullptr);
  EXPECT_EQ(reply->before, Verdict::does_not_fit);
  EXPECT_THAT(reply->says, HasSubstr("tach"));
  EXPECT_THAT(reply->says, HasSubstr("20 s"));
}

TEST_F(FirstRebuild, brings_the_earth_braid_and_the_light_shield_across) {
  EXPECT_THAT(judgement.companions, Contains(Field(&fit::Companion::what, "engine earth braid")));
  EXPECT_THAT(judgement.companions, Contains(Field(&fit::Companion::what, "light shield")));
  const auto* braid = reason(judgement, "carried piece", "earth braid");
  ASSERT_NE(braid, nullptr);
  EXPECT_TRUE(braid->safety);
  EXPECT_THAT(braid->says, HasSubstr("before power"));
}

TEST_F(FirstRebuild, makes_the_lamp_follow_the_engine_and_the_counter_speak_of_the_old_lamp) {
  const auto lamp = std::find_if(judgement.companions.begin(), judgement.companions.end(),
                                 [](const auto& one) { return one.role == "lamp"; });
  ASSERT_NE(lamp, judgement.companions.end());
  EXPECT_TRUE(lamp->price.has_value());
  ASSERT_EQ(judgement.counters.size(), 1U);
  EXPECT_THAT(judgement.counters.front().says, HasSubstr("the old lamp"));
}

TEST_F(FirstRebuild, forecasts_the_light_by_area_and_asks_for_the_throw) {
  // (50 / 56)^2 = 0.797 (geometry).
  ASSERT_NE(reason(judgement, "light and throw", "0.80 times as bright"), nullptr);
  EXPECT_THAT(judgement.questions,
              Contains(Field(&fit::Question::text, HasSubstr("from lens to screen"))));
  EXPECT_EQ(judgement.verdict, Verdict::unknown) << "an open question is never \"fits\"";
}

TEST_F(FirstRebuild, sees_the_lead_that_reaches_the_fan_and_keeps_the_two_grounds_apart) {
  ASSERT_NE(reason(judgement, "lead reaches fan", "exhaust fan"), nullptr);
  const auto* grounds = reason(judgement, "two grounds");
  ASSERT_NE(grounds, nullptr);
  EXPECT_TRUE(grounds->safety);
  EXPECT_THAT(grounds->says, HasSubstr("never joined"));
}

TEST_F(FirstRebuild, puts_the_cautions_where_they_belong) {
  for (const char* hazard :
       {"moving weight", "stored charge", "lamp under pressure", "ultraviolet"})
    EXPECT_THAT(judgement.cautions, Contains(Field(&fit::Caution::hazard, hazard)));
  EXPECT_GE(judgement.waiting_minutes, 45) << "the lamp cools before the door is opened";
}

TEST(LikeForLike, all_but_empties_the_list) {
  const Judgement judgement = judged("like_for_like.toml");
  EXPECT_LE(judgement.verdict, Verdict::fits_with_work);
  EXPECT_THAT(judgement.companions, IsEmpty());
  EXPECT_THAT(judgement.repins, IsEmpty());
  EXPECT_THAT(judgement.questions, IsEmpty());
  EXPECT_THAT(judgement.look_here, IsEmpty());
  EXPECT_THAT(judgement.lost, IsEmpty());
  for (const auto& one : judgement.reasons) EXPECT_EQ(one.rule, "setting elsewhere") << one.says;
}

TEST(SupplyWithEarth, is_refused_in_a_double_insulated_cabinet_whatever_else_fits) {
  const Judgement judgement = judged("supply_with_earth_into_double_insulated.toml");
  EXPECT_EQ(judgement.verdict, Verdict::does_not_fit);
  const auto* earth = reason(judgement, "earth path");
  ASSERT_NE(earth, nullptr);
  EXPECT_TRUE(earth->safety);
  EXPECT_EQ(earth->verdict, Verdict::does_not_fit);
}

TEST(UnknownPart, gives_questions_and_no_fits) {
  const Judgement judgement = judged("unknown_part.toml");
  EXPECT_EQ(judgement.verdict, Verdict::unknown);
  EXPECT_GE(judgement.questions.size(), 3U);
}

}  // namespace
}  // namespace benchgraft
