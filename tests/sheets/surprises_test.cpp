#include "sheets/surprises.hpp"

#include <map>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "sheets/sample.hpp"

namespace benchgraft::sheets {
namespace {

std::vector<std::string> headings(const std::vector<Block>& blocks) {
  std::vector<std::string> found;
  for (const auto& block : blocks) found.push_back(block.heading);
  return found;
}

const Block& block(const std::vector<Block>& blocks, const std::string& heading) {
  for (const auto& each : blocks)
    if (each.heading == heading) return each;
  ADD_FAILURE() << "no block \"" << heading << "\"";
  return blocks.front();
}

TEST(Surprises, come_worst_first) {
  EXPECT_THAT(
      headings(surprises(sample_judgement())),
      testing::ElementsAre("Danger", "Fits only with work", "Must come along", "Will be lost",
                           "Must be redone", "To settle by measuring, before power", "Good to know",
                           "Look here: usual for this kind, not on record for this set"));
}

TEST(Surprises, tell_a_danger_even_when_work_makes_it_good) {
  const auto blocks = surprises(sample_judgement());
  const auto& danger = block(blocks, "Danger");
  ASSERT_EQ(danger.lines.size(), 1U);
  EXPECT_EQ(danger.lines[0].mark, "Danger");
  EXPECT_EQ(danger.lines[0].under.at(0).text, "Not before this is done: re-pin the CTL plug.");
}

TEST(Surprises, fold_what_may_be_so_into_one_line_for_each_role) {
  const auto blocks = surprises(sample_judgement());
  const auto& look = block(blocks, "Look here: usual for this kind, not on record for this set");
  EXPECT_TRUE(look.folded);
  ASSERT_EQ(look.lines.size(), 3U);
  EXPECT_EQ(look.lines[0].mark, "Lamp");
  EXPECT_EQ(look.lines[0].text, "Watts and reflector. Length of its leads.");
}

TEST(Surprises, never_mix_what_may_be_into_what_will_be) {
  for (const auto& each : surprises(sample_judgement()))
    for (const auto& line : each.lines)
      EXPECT_TRUE(line.code != "MAY2" || each.folded) << each.heading;
}

TEST(Surprises, say_each_finding_in_one_group_only) {
  std::map<std::string, std::string> said;
  for (const auto& each : surprises(sample_judgement()))
    for (const auto& line : each.lines) {
      if (line.code.empty()) continue;
      const auto [first, fresh] = said.emplace(line.code, each.heading);
      EXPECT_TRUE(fresh || first->second == each.heading) << line.code;
    }
}

TEST(Surprises, leave_a_missing_fact_to_its_question) {
  for (const auto& each : surprises(sample_judgement()))
    for (const auto& line : each.lines) EXPECT_NE(line.code, "ASK3");
}

TEST(Surprises, never_call_the_unknown_fitting) {
  auto judged = sample_judgement();
  EXPECT_EQ(verdict_line(judged).mark, "Not known yet");
  judged.questions.clear();
  EXPECT_EQ(verdict_line(judged).text.substr(0, 43), "Something that matters is not on record. Mi");
}

TEST(Surprises, find_nothing_to_say_about_nothing) {
  EXPECT_TRUE(surprises(fit::Judgement{}).empty());
}

}  // namespace
}  // namespace benchgraft::sheets
