// Like for like: the same number and revision from another carcass. Almost nothing is to be said.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "stories/loft.hpp"

namespace benchgraft::stories {
namespace {

using fit::Verdict;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::IsSubsetOf;
using ::testing::Not;

class SameNumber : public ::testing::TestWithParam<const char*> {
 protected:
  const Asked answer = asked(GetParam());
};

TEST_P(SameNumber, brings_nothing_loses_nothing_asks_nothing) {
  EXPECT_LE(answer.judgement.verdict, Verdict::fits_with_work);
  EXPECT_THAT(answer.judgement.companions, IsEmpty());
  EXPECT_THAT(answer.judgement.repins, IsEmpty());
  EXPECT_THAT(answer.judgement.adaptations, IsEmpty());
  EXPECT_THAT(answer.judgement.lost, IsEmpty());
  EXPECT_THAT(answer.judgement.gained, IsEmpty());
  EXPECT_THAT(answer.judgement.questions, IsEmpty());
}

TEST_P(SameNumber, folds_nothing_usual_of_the_kind_under_it) {
  EXPECT_THAT(answer.judgement.look_here, IsEmpty());
  EXPECT_THAT(answer.text, Not(HasSubstr("Look here")));
}

TEST_P(SameNumber, says_only_what_sits_in_its_memory) {
  EXPECT_THAT(told_for_certain(answer.judgement), IsSubsetOf({"setting elsewhere"}));
  EXPECT_THAT(answer.text, Not(HasSubstr("Danger")));
}

INSTANTIATE_TEST_SUITE_P(Rebuilds, SameNumber,
                         ::testing::Values("like_for_like", "like_for_like_flat"));

}  // namespace
}  // namespace benchgraft::stories
