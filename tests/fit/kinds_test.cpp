// What is usual for the kind: "look here" apart from "will", cautions, kinds that are not judged.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "catalogue/text.hpp"
#include "support/fit_bench.hpp"

namespace benchgraft::fit {
namespace {

using namespace fit_bench;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

const std::string kKind = R"([[set_kind]]
set_kind = "lamp set"
open_minutes = 10
close_minutes = 15
role = [{ role = "lamp", out_minutes = 2, in_minutes = 3 }, { role = "sound" }]
surprise = [
  { changed = "lamp", look = "Seldom and small.", work_minutes = 1, chance = 0.1 },
  { changed = "lamp", look = "Often and long.", work_minutes = 30, chance = 0.5 },
  { changed = "sound", look = "Something else.", work_minutes = 5, chance = 0.5 },
]
hazard = [
  { hazard = "mains", caution = "Pull the plug." },
  { hazard = "hot lamp", caution = "Let it cool.", waiting_minutes = 45, roles = ["lamp"] },
  { hazard = "static", caution = "Wrist strap.", roles = ["sound"] },
]
)";

Judgement of_kind(const std::string& rebuild) {
  return judged(kKind + part("L-1", "lamp") + part("L-2", "lamp") + part("A-1", "sound") +
                    model("Tern 40", {{"lamp", "L-1"}, {"sound", "A-1"}}, R"(kind = "lamp set")"),
                rebuild);
}

TEST(LookHere, lists_what_is_usual_for_the_changed_part_worst_first_and_moves_no_verdict) {
  const auto j = of_kind(swap("lamp", "L-2"));
  ASSERT_EQ(j.look_here.size(), 2U);
  EXPECT_EQ(j.look_here[0].look, "Often and long.");
  EXPECT_EQ(j.look_here[1].look, "Seldom and small.");
  EXPECT_EQ(j.verdict, Verdict::fits) << told(j);
}

TEST(LookHere, says_nothing_about_a_part_of_the_very_same_make) {
  EXPECT_THAT(of_kind(swap("lamp", "L-1", "shelf")).look_here, IsEmpty());
}

TEST(Cautions, stand_on_the_steps_that_meet_the_hazard_and_on_every_opening) {
  const auto j = of_kind(swap("lamp", "L-1", "shelf"));
  ASSERT_EQ(j.cautions.size(), 2U);
  EXPECT_EQ(j.cautions[0].hazard, "mains");
  EXPECT_THAT(j.cautions[0].roles, IsEmpty());
  EXPECT_EQ(j.cautions[1].hazard, "hot lamp");
  EXPECT_THAT(j.cautions[1].roles, ElementsAre("lamp"));
}

TEST(Minutes, count_opening_closing_out_and_in_and_keep_waiting_apart) {
  const auto j = of_kind(swap("lamp", "L-1", "shelf"));
  EXPECT_EQ(j.work_minutes, 10 + 15 + 2 + 3);
  EXPECT_EQ(j.waiting_minutes, 45);
}

TEST(NotJudged, a_kind_that_is_only_taken_in_is_never_fits) {
  const std::string tube = R"([[set_kind]]
set_kind = "tube set"
judged = false
not_judged = "Picture tubes hold charge for days."
role = [{ role = "sound" }]
hazard = [{ hazard = "tube", caution = "Leave it to somebody who is trained." }]
)";
  const auto j = judged(
      tube + part("A-1", "sound") + model("Tern 40", {{"sound", "A-1"}}, R"(kind = "tube set")"),
      swap("sound", "A-1", "shelf"));
  EXPECT_EQ(j.verdict, Verdict::unknown);
  EXPECT_THAT(reason(j, "not judged").says, HasSubstr("hold charge"));
  EXPECT_TRUE(reason(j, "not judged").safety);
  EXPECT_EQ(j.cautions.size(), 1U) << "the cautions stand all the same";
}

TEST(KindOnly, a_host_nobody_wrote_down_is_judged_by_the_places_of_its_kind_and_asks) {
  const auto known = catalogue_of(kKind + part("L-2", "lamp", "-port"));
  const auto answer = judge(known, rebuild_of("format = 1\nrebuild = \"r\"\nkind = \"lamp set\"\n" +
                                              swap("lamp", "L-2")));
  ASSERT_TRUE(answer.ok()) << answer.error().message;
  EXPECT_EQ(answer.value().verdict, Verdict::unknown) << told(answer.value());
  EXPECT_FALSE(answer.value().questions.empty());
  EXPECT_EQ(answer.value().look_here.size(), 2U);
}

TEST(KindOnly, a_kind_or_model_nobody_knows_is_refused) {
  const auto known = catalogue_of(kKind);
  const auto answer =
      judge(known, rebuild_of("format = 1\nrebuild = \"r\"\nkind = \"lamp sed\"\n"));
  ASSERT_FALSE(answer.ok());
  EXPECT_THAT(answer.error().message, HasSubstr("lamp sed"));
}

}  // namespace
}  // namespace benchgraft::fit
