#include "sheets/json.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "sheets/sample.hpp"
#include "sheets/shop_pages.hpp"

namespace benchgraft::sheets {
namespace {

using Json = nlohmann::json;

Json judged() { return Json::parse(judgement_json(sample_judgement(), {"sample", "EUR"})); }

TEST(Json, of_a_judgement_has_every_part_of_the_answer) {
  const auto json = judged();
  for (const char* key :
       {"verdict", "reasons", "companions", "adaptations", "lost", "gained", "settings", "counters",
        "orientation", "questions", "work_minutes", "waiting_minutes", "material", "chance"})
    EXPECT_TRUE(json.contains(key)) << key;
  for (const char* key : {"rule", "verdict", "says", "facts", "source", "will", "sort", "before",
                          "code", "safety", "would_change"})
    EXPECT_TRUE(json["reasons"][0].contains(key)) << key;
}

TEST(Json, counts_money_in_whole_minor_units) {
  EXPECT_EQ(judged()["material"], 6500);
  EXPECT_TRUE(judged()["material"].is_number_integer());
  EXPECT_EQ(judged()["companions"][0]["price_minor"], 6500);
  const auto plan = Json::parse(plan_json(sample_plan(), "EUR"));
  EXPECT_EQ(plan["value"], 3700);
  EXPECT_EQ(plan["bound"], 4000);
  EXPECT_TRUE(plan["value"].is_number_integer());
}

TEST(Json, writes_null_for_what_is_not_known) {
  EXPECT_TRUE(judged()["companions"][1]["price_minor"].is_null());
}

TEST(Json, names_verdicts_as_one_word) {
  EXPECT_EQ(judged()["verdict"], "unknown");
  EXPECT_EQ(judged()["reasons"][0]["verdict"], "fits_with_work");
  EXPECT_EQ(judged()["reasons"][0]["before"], "destroys");
}

TEST(Json, says_where_each_fact_is_recorded) {
  const auto fact = judged()["reasons"][0]["facts"][1];
  EXPECT_EQ(fact["file"], "kestrel.toml");
  EXPECT_EQ(fact["line"], 12);
}

TEST(Json, of_a_plan_has_value_bound_rebuilds_and_sets) {
  const auto plan = Json::parse(plan_json(sample_plan(), "EUR"));
  for (const char* key : {"value", "bound", "gap", "proven", "method", "rebuilds", "sets",
                          "purchases", "tests", "after_questions", "remarks"})
    EXPECT_TRUE(plan.contains(key)) << key;
  EXPECT_EQ(plan["rebuilds"][0]["parts"][0]["origin"], "donor");
  EXPECT_EQ(plan["sets"][1]["use"], "stripped");
}

TEST(Json, of_the_sheet_carries_the_order_of_work) {
  const auto work = sample_work();
  const auto json = Json::parse(build_json(sample_judgement(), &work, {"sample", "EUR"}));
  EXPECT_EQ(json["work"]["steps"].size(), work.steps.size());
  EXPECT_EQ(json["work"]["steps"][0]["stage"], "read_first");
  EXPECT_TRUE(Json::parse(build_json(sample_judgement(), nullptr, {"s", "EUR"}))["work"].is_null());
}

TEST(Json, answers_why_with_all_that_was_said_under_a_code) {
  const auto why = Json::parse(why_json(sample_judgement(), "FLP2").value());
  EXPECT_EQ(why["settings"].size(), 1U);
  EXPECT_TRUE(why.contains("orientation"));
  ASSERT_FALSE(why_json(sample_judgement(), "NONE"));
  EXPECT_EQ(why_json(sample_judgement(), "NONE").error().kind, ErrorKind::not_found);
}

TEST(Json, survives_text_that_is_not_text) {
  auto broken = sample_judgement();
  broken.reasons[0].says = "\xff\xfe";
  EXPECT_TRUE(Json::accept(judgement_json(broken, {"s", "EUR"})));
}

TEST(Json, of_lists_is_an_object_with_one_list) {
  shop::Shop room;
  shop::Set set;
  set.code = "H2";
  shop::Part part;
  part.code = "7KR";
  room.sets = {set};
  room.parts = {part};
  EXPECT_EQ(Json::parse(sets_json(room))["sets"][0]["code"], "H2");
  EXPECT_TRUE(Json::parse(sets_json(room))["sets"][0]["consent"].is_null());
  EXPECT_EQ(Json::parse(parts_json(room))["parts"][0]["state"], "untested");
  EXPECT_EQ(Json::parse(journal_json(
                {{3, "2026-05-31", "me", "mark", "marked 7KR", 0}}))["journal"][0]["entry"],
            3);
  EXPECT_EQ(Json::parse(found_json({{"part", "7KR", "x"}}))["found"][0]["code"], "7KR");
  EXPECT_TRUE(Json::parse(wishes_json(room))["wishes"].empty());
  EXPECT_TRUE(Json::parse(rebuilds_json(room))["rebuilds"].empty());
}

}  // namespace
}  // namespace benchgraft::sheets
