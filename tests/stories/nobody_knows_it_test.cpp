// A part nobody knows: questions, and not one false "fits".
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
using ::testing::Not;

class NobodyKnowsIt : public ::testing::TestWithParam<const char*> {
 protected:
  const Asked answer = asked(GetParam());
};

TEST_P(NobodyKnowsIt, is_unknown_and_asks) {
  EXPECT_EQ(answer.judgement.verdict, Verdict::unknown);
  EXPECT_GE(answer.judgement.questions.size(), 1U);
  for (const auto& one : answer.judgement.questions) {
    EXPECT_FALSE(one.text.empty());
    EXPECT_GT(one.work_minutes, 0) << one.text;
  }
  EXPECT_THAT(answer.text, HasSubstr("to settle with the set open, before power"));
}

TEST_P(NobodyKnowsIt, is_never_said_to_fit_nor_to_burn) {
  EXPECT_THAT(answer.text, Not(HasSubstr("It goes together as it is")));
  EXPECT_THAT(answer.text, Not(HasSubstr("Nothing on record stands in the way")));
  for (const auto& one : answer.judgement.reasons) {
    EXPECT_NE(one.verdict, Verdict::destroys) << one.says;
    EXPECT_NE(one.verdict, Verdict::does_not_fit) << one.says;
  }
  EXPECT_THAT(answer.judgement.repins, IsEmpty());
  EXPECT_LE(answer.judgement.chance, 0.5);
}

INSTANTIATE_TEST_SUITE_P(Parts, NobodyKnowsIt,
                         ::testing::Values("nobody_knows_it", "unknown_part", "nothing_printed"));

TEST(NobodyKnowsADriver, asks_first_what_the_lamp_would_suffer_from) {
  const Asked driver = asked("nobody_knows_it");
  for (const char* words : {"lamp watts", "lamp volts"})
    EXPECT_THAT(driver.judgement.questions,
                Contains(::testing::AllOf(Field(&fit::Question::text, HasSubstr(words)),
                                          Field(&fit::Question::safety, true))));
  EXPECT_THAT(driver.judgement.questions,
              Contains(Field(&fit::Question::text, HasSubstr("what runs on each contact"))));
}

}  // namespace
}  // namespace benchgraft::stories
