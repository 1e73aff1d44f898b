// What the host and the parts may be, narrowed by what was seen, with a reason for every candidate
// that was struck out.
#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/fit_bench.hpp"

namespace benchgraft::fit {
namespace {

using namespace fit_bench;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

/// Two variants that differ in lamp and lamp driver; the tuner sits only in "late".
const std::string kTwoVariants =
    part("L-1", "lamp", "lamp_watts = 120, lamp_volts = [60, 90]") +
    part("L-2", "lamp", "lamp_watts = 150, lamp_volts = [60, 90]") +
    part("L-3", "lamp", "lamp_watts = 150, lamp_volts = [60, 90]") +
    part("D-1", "lamp driver", "lamp_watts = 120, lamp_volts = [60, 90]") +
    part("D-2", "lamp driver", "lamp_watts = 150, lamp_volts = [60, 90]") + part("A-1", "sound") +
    part("A-2", "sound") + part("T-1", "tuner") + R"([[model]]
model = "Tern 40"
kind = "bench set"
protection = "II"
position = [{ position = "lamp" }, { position = "lamp driver" }, { position = "sound" },
  { position = "tuner", optional = true }]
[[model.variant]]
variant = "early"
parts = { lamp = "L-1", "lamp driver" = "D-1", sound = "A-1" }
[[model.variant]]
variant = "late"
parts = { lamp = "L-2", "lamp driver" = "D-2", sound = "A-1", tuner = "T-1" }
)";

std::string seen(const std::string& place, const std::string& type) {
  return "[[seen]]\nplace = \"" + place + "\"\ntype = \"" + type + "\"\n";
}

TEST(Variants, a_lamp_that_was_seen_leaves_one_and_says_why) {
  const auto j = judged(kTwoVariants, seen("lamp", "L-1") + swap("sound", "A-2"));
  EXPECT_THAT(j.variants_left, ElementsAre("early"));
  ASSERT_EQ(j.struck_out.size(), 1U);
  EXPECT_EQ(j.struck_out.front().candidate, "late");
  EXPECT_THAT(j.struck_out.front().because,
              AllOf(HasSubstr("L-1 was seen"), HasSubstr("built with L-2")));
  EXPECT_EQ(j.variant, "early");
  EXPECT_EQ(j.verdict, Verdict::fits) << told(j);
}

TEST(Variants, a_stated_one_strikes_out_the_others) {
  const auto j = judged(kTwoVariants, "variant = \"late\"\n" + swap("sound", "A-2"));
  EXPECT_THAT(j.variants_left, ElementsAre("late"));
  EXPECT_THAT(j.struck_out.front().because, HasSubstr("said to be late"));
}

TEST(Variants, what_the_factory_left_empty_is_a_sign_too) {
  const auto j = judged(kTwoVariants, seen("tuner", "T-1") + swap("sound", "A-2"));
  EXPECT_THAT(j.variants_left, ElementsAre("late")) << told(j);
}

TEST(Variants, a_finding_that_fits_no_variant_is_a_contradiction_that_names_them_all) {
  const std::string said = refused(
      kTwoVariants, seen("lamp", "L-1") + seen("lamp driver", "D-2") + swap("sound", "A-2"));
  EXPECT_THAT(said,
              AllOf(HasSubstr("early"), HasSubstr("late"), HasSubstr("fits no recorded variant")));
}

TEST(Variants, that_matter_are_asked_for_by_the_place_that_tells_them_apart) {
  const auto j = judged(kTwoVariants, swap("lamp", "L-3"));
  EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
  EXPECT_THAT(j.variants_left, ElementsAre("early", "late"));
  EXPECT_TRUE(has(j, "lamp power"));
  EXPECT_THAT(reason(j, "lamp power").says, HasSubstr("If it is early"));
  EXPECT_TRUE(asks(j, "it tells early and late apart"));
}

TEST(Variants, that_all_judge_alike_do_not_matter_to_the_verdict) {
  const auto j = judged(kTwoVariants, swap("sound", "A-2"));
  EXPECT_EQ(j.verdict, Verdict::fits) << told(j);
}

TEST(Candidates, of_a_part_are_all_judged_and_the_question_says_how_to_tell) {
  const std::string one_of = R"([[part]]
place = "lamp"
candidates = ["L-1", "L-3"]
)";
  const auto j = judged(kTwoVariants, "variant = \"early\"\n" + one_of);
  EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
  EXPECT_TRUE(asks(j, "is it L-1 or L-3?")) << told(j);
  EXPECT_THAT(reason(j, "lamp power").says, HasSubstr("If the lamp is L-3"));
}

TEST(Candidates, that_would_all_destroy_destroy) {
  const std::string one_of = R"([[part]]
place = "lamp"
candidates = ["L-2", "L-3"]
)";
  EXPECT_EQ(judged(kTwoVariants, "variant = \"early\"\n" + one_of).verdict, Verdict::destroys);
}

TEST(Candidates, keep_every_question_of_every_case) {
  const std::string body =
      kTwoVariants + part("A-3", "sound", "-mount") + part("A-4", "sound", "-port");
  const std::string one_of = R"(variant = "early"
[[part]]
place = "sound"
candidates = ["A-2", "A-3", "A-4"]
)";
  const auto j = judged(body, one_of);
  EXPECT_EQ(j.verdict, Verdict::unknown);
  EXPECT_TRUE(asks(j, "Does A-3 sit on the holes")) << told(j);
  EXPECT_TRUE(asks(j, "connectors of the sound A-4")) << told(j);
}

TEST(Candidates, that_cannot_do_the_job_are_not_among_those_asked_about) {
  const std::string one_of = R"(variant = "early"
[[part]]
place = "sound"
candidates = ["A-2", "L-1"]
)";
  const auto j = judged(kTwoVariants, one_of);
  const bool struck = std::any_of(j.struck_out.begin(), j.struck_out.end(),
                                  [](const StruckOut& s) { return s.candidate == "L-1"; });
  EXPECT_TRUE(struck) << told(j);
}

}  // namespace
}  // namespace benchgraft::fit
