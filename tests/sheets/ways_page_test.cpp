// What would it take, as it is read.
#include "sheets/ways_page.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace benchgraft::sheets {
namespace {

using testing::HasSubstr;
using testing::Not;

const About kAbout{"H2", "EUR"};

fit::WaysOut sample() {
  fit::WayChange buy;
  buy.step = fit::WayStep::buy;
  buy.place = "lamp";
  buy.type = buy.called = "FL-9";
  buy.money = {6500};
  buy.delivery_days = 3;
  fit::WayChange put;
  put.place = "engine";
  put.type = "VE-4";
  put.called = "K7R";
  put.from = "D4";
  put.work_minutes = 25;
  fit::WayChange measure;
  measure.step = fit::WayStep::measure;
  measure.questions = {"What runs on contact 5 of KD-2?"};
  measure.work_minutes = 2;
  fit::Way way;
  way.changes = {put, buy, measure};
  way.verdict = fit::Verdict::unknown;
  way.money = {6500};
  way.work_minutes = 90;
  way.chance = 0.45;
  way.cost = 11000;
  fit::Way refused = way;
  refused.changes = {put};
  refused.changes[0].from = "C2";
  refused.refused = "set C2 must go back to its owner";
  fit::Reason reason;
  reason.code = "D4NG";
  reason.rule = "missing part";
  reason.verdict = fit::Verdict::does_not_fit;
  reason.says = "Nothing does the job of the engine optics";
  fit::WaysOut ways;
  ways.now = fit::Verdict::does_not_fit;
  ways.in_the_way = {reason};
  ways.ways = {way};
  ways.refused = refused;
  ways.judgements = 17;
  ways.complete = true;
  return ways;
}

// Lines are joined so that a test does not hang on where they are broken.
std::string told(const fit::WaysOut& ways) {
  return as_text(ways_page(ways, kAbout), {false, 1000});
}

TEST(WaysPage, tells_every_change_with_source_price_and_delivery) {
  const auto text = told(sample());
  EXPECT_THAT(text, HasSubstr("Put in VE-4 as the engine: K7R out of D4."));
  EXPECT_THAT(text, HasSubstr("Buy FL-9 as the lamp for 65.00 EUR, 3 days to deliver."));
  EXPECT_THAT(text, HasSubstr("Settle one question by measuring, before power."));
  EXPECT_THAT(text, HasSubstr("What runs on contact 5 of KD-2?"));
  EXPECT_THAT(text, HasSubstr("hangs on what is measured"));
  EXPECT_THAT(text, HasSubstr("45 %"));
}

TEST(WaysPage, names_what_must_not_be_taken_with_the_next_best) {
  EXPECT_THAT(told(sample()),
              HasSubstr("Not to be had: Put in VE-4 as the engine: K7R out of C2 would be cheaper, "
                        "but set C2 must go back to its owner. The next best is way 1."));
  auto none = sample();
  none.ways.clear();
  EXPECT_THAT(told(none), AllOf(HasSubstr("There is no other."), HasSubstr("No way out")));
}

TEST(WaysPage, says_whether_a_cheaper_way_may_be_left_out) {
  EXPECT_THAT(told(sample()), HasSubstr("no cheaper way with up to 4 parts was left out"));
  auto stopped = sample();
  stopped.complete = false;
  EXPECT_THAT(told(stopped), HasSubstr("stopped after 17 judgements"));
}

TEST(WaysPage, says_that_nothing_stands_in_the_way) {
  fit::WaysOut fine;
  fine.now = fit::Verdict::fits_with_work;
  EXPECT_THAT(told(fine), HasSubstr("Nothing stands in the way."));
}

TEST(WaysPage, is_one_line_on_a_sheet) {
  const auto line = way_out_words(sample().ways.front(), kAbout);
  EXPECT_THAT(line, HasSubstr("Cheapest way out: put in VE-4 as the engine: K7R out of D4, buy "
                              "FL-9 as the lamp for 65.00 EUR, 3 days to deliver, then settle one "
                              "question by measuring, before power; then it hangs on what is "
                              "measured."));
  EXPECT_THAT(line, Not(HasSubstr("\n")));
  EXPECT_THAT(way_out_words(std::nullopt, kAbout), HasSubstr("No way out was found"));
}

TEST(WaysJson, has_every_change_and_what_is_refused) {
  const auto json = nlohmann::json::parse(ways_json(sample(), kAbout));
  EXPECT_EQ(json["verdict"], "does_not_fit");
  EXPECT_EQ(json["ways"][0]["changes"][1]["step"], "buy");
  EXPECT_EQ(json["ways"][0]["changes"][1]["delivery_days"], 3);
  EXPECT_TRUE(json["ways"][0]["changes"][0]["delivery_days"].is_null());
  EXPECT_EQ(json["ways"][0]["spend_minor"], 6500);
  EXPECT_EQ(json["refused"]["refused"], "set C2 must go back to its owner");
  EXPECT_EQ(json["in_the_way"][0]["code"], "D4NG");
}

}  // namespace
}  // namespace benchgraft::sheets
