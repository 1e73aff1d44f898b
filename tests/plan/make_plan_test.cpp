#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "plan/why_not.hpp"
#include "small_shop.hpp"

namespace benchgraft::plan {
namespace {

using shop::WishSort;
using testing::HasSubstr;

// One Alpha whose supply is dead, and a good supply on the shelf.
SmallShop one_repair() {
  SmallShop shop;
  shop.set("H2", "Alpha");
  shop.fill("H2", 1);
  shop.room.parts[3].chance = 0;  // "supply" is the last of the variant's places by name
  shop.room.parts[3].state = shop::State::bad;
  shop.loose("R5", "PS-1", 1);
  return shop;
}

TEST(MakePlan, takes_the_good_part_from_the_shelf_and_counts_it_right) {
  const auto plan = one_repair().plan();
  ASSERT_EQ(plan.rebuilds.size(), 1U);
  const auto& rebuild = plan.rebuilds.front();
  EXPECT_EQ(rebuild.host, "H2");
  EXPECT_EQ(rebuild.price.minor, 10000);  // no tuner
  EXPECT_DOUBLE_EQ(rebuild.chance, 0.9);
  EXPECT_DOUBLE_EQ(rebuild.work_minutes, 20);  // open, close, one part out and in
  // 10000 x 0.9 - 20 min x 20 - 200 salvage of the shelf part
  EXPECT_EQ(rebuild.value.minor, 9000 - 400 - 200);
  EXPECT_EQ(plan.value, rebuild.value);
  EXPECT_EQ(plan.bound, plan.value);
  EXPECT_TRUE(plan.proven);
  const auto* supply = part_in(rebuild, "supply");
  ASSERT_NE(supply, nullptr);
  EXPECT_EQ(supply->part, "R5");
  EXPECT_EQ(supply->origin, Origin::shelf);
  EXPECT_EQ(rebuild.parts.front().position, "supply");  // changed places first
  EXPECT_EQ(use_of(plan, "H2"), Use::host);
  EXPECT_EQ(rebuild.why, "The supply comes from the shelf; everything else is its own.");
}

TEST(MakePlan, gives_an_empty_plan_for_an_empty_room) {
  const auto plan = SmallShop().plan();
  EXPECT_TRUE(plan.rebuilds.empty());
  EXPECT_TRUE(plan.sets.empty());
  EXPECT_EQ(plan.value.minor, 0);
  EXPECT_EQ(plan.bound.minor, 0);
  EXPECT_TRUE(plan.proven);
}

TEST(MakePlan, says_what_nothing_here_fits_as) {
  SmallShop shop;
  shop.set("H2", "Alpha").missing = {"light"};
  const auto plan = shop.plan();
  EXPECT_TRUE(plan.rebuilds.empty());
  EXPECT_THAT(why_of(plan, "H2"), HasSubstr("Nothing in this room is known to fit as its light."));
}

TEST(MakePlan, opens_a_donor_only_when_its_part_is_worth_the_work) {
  auto shop = one_repair();
  shop.room.parts.pop_back();  // nothing on the shelf
  shop.set("D3", "Alpha").missing = {"light"};
  shop.part("D3S", "PS-1", 1, "D3", "supply");
  const auto plan = shop.plan();
  ASSERT_EQ(plan.rebuilds.size(), 1U);
  EXPECT_EQ(use_of(plan, "D3"), Use::stripped);
  EXPECT_EQ(why_of(plan, "D3"), "The supply goes into H2.");
  // 20 min on the host, 5 min out of the donor, 6 min to open the donor.
  EXPECT_EQ(plan.rebuilds.front().work_minutes, 25);
  EXPECT_EQ(plan.value.minor, 9000 - 25 * 20 - 200 - 6 * 20);
  shop.room.terms.per_hour = {100000};
  EXPECT_TRUE(shop.plan().rebuilds.empty());
}

TEST(MakePlan, never_takes_a_part_out_of_a_customers_set) {
  auto shop = one_repair();
  shop.room.parts.pop_back();
  auto& customers = shop.set("C7", "Alpha");
  customers.missing = {"light"};
  customers.consent = shop::Consent::must_go_back;
  shop.part("C7S", "PS-1", 1, "C7", "supply");
  shop.wish(WishSort::never_build, "C7");
  auto plan = shop.plan();
  EXPECT_EQ(use_of(plan, "C7"), Use::kept);
  EXPECT_EQ(rebuild_of(plan, "H2"), nullptr);
  EXPECT_THAT(why_of(plan, "C7"), HasSubstr("must go back to its owner"));
  shop.room.sets.back().consent = shop::Consent::unknown;
  plan = shop.plan();
  EXPECT_EQ(use_of(plan, "C7"), Use::kept);
  EXPECT_EQ(rebuild_of(plan, "H2"), nullptr);
}

TEST(MakePlan, buys_a_part_when_that_pays) {
  SmallShop shop;
  shop.set("B4", "Beta").missing = {"supply"};
  shop.part("B4P", "MB-2", 1, "B4", "picture");
  shop.part("B4L", "LT-1", 1, "B4", "light");
  const auto plan = shop.plan();
  ASSERT_EQ(plan.rebuilds.size(), 1U);
  ASSERT_EQ(plan.purchases.size(), 1U);
  EXPECT_EQ(plan.purchases.front().type, "PS-3");
  EXPECT_EQ(plan.purchases.front().count, 1);
  EXPECT_EQ(plan.purchases.front().price.minor, 3000);
  EXPECT_EQ(plan.purchases.front().for_host, "B4");
  EXPECT_EQ(plan.rebuilds.front().material.minor, 3000);
  EXPECT_EQ(plan.value.minor, 12000 * 9 / 10 - 3000 - 20 * 20);
}

TEST(MakePlan, swaps_a_board_for_the_better_price_and_uses_the_freed_one) {
  SmallShop shop;
  shop.set("H2", "Alpha");
  shop.fill("H2", 1);  // whole, but without a tuner
  shop.loose("R1", "MB-2", 1);
  shop.set("H3", "Alpha").missing = {"picture"};
  shop.part("H3S", "PS-1", 1, "H3", "supply");
  shop.part("H3L", "LT-1", 1, "H3", "light");
  const auto plan = shop.plan();
  ASSERT_EQ(plan.rebuilds.size(), 2U);
  const auto* two = rebuild_of(plan, "H2");
  const auto* three = rebuild_of(plan, "H3");
  // One of them gets the tuner board, the other keeps or takes the plain one.
  EXPECT_EQ(two->price.minor + three->price.minor, 30000);
  EXPECT_TRUE(plan.proven);
}

TEST(MakePlan, counts_a_factory_part_nobody_wrote_down_as_untested) {
  SmallShop shop;
  shop.room.terms.chance_untested = 0.7;
  shop.set("H2", "Alpha").missing = {"supply"};
  shop.loose("R5", "PS-1", 1);
  const auto plan = shop.plan();
  ASSERT_EQ(plan.rebuilds.size(), 1U);
  // light and picture board untested; the remote counts for nothing.
  EXPECT_NEAR(plan.rebuilds.front().chance, 0.9 * 0.7 * 0.7, 1e-12);
  EXPECT_EQ(part_in(plan.rebuilds.front(), "light")->part, "");
  EXPECT_EQ(part_in(plan.rebuilds.front(), "light")->type, "LT-1");
}

TEST(MakePlan, does_not_judge_kinds_that_are_not_judged) {
  SmallShop shop;
  auto& set = shop.set("X9", "");
  set.kind = "tube box";
  set.variant.clear();
  const auto plan = shop.plan();
  EXPECT_EQ(use_of(plan, "X9"), Use::not_judged);
  EXPECT_EQ(why_of(plan, "X9"), "High voltage: transplants are not judged.");
}

TEST(MakePlan, leaves_a_set_alone_that_is_being_rebuilt) {
  auto shop = one_repair();
  shop::RebuildRecord record;
  record.name = "begun yesterday";
  record.host = shop.room.sets[0].id;
  record.state = "begun";
  shop.room.rebuilds.push_back(record);
  const auto plan = shop.plan();
  EXPECT_TRUE(plan.rebuilds.empty());
  EXPECT_THAT(why_of(plan, "H2"), HasSubstr("begun yesterday"));
}

TEST(MakePlan, does_not_use_a_part_that_another_rebuild_has_claimed) {
  auto shop = one_repair();
  shop.set("H3", "Alpha").missing = {"supply", "light"};
  shop::RebuildRecord record;
  record.host = shop.room.sets[1].id;
  record.state = "begun";
  record.parts.push_back({"supply", shop.room.part_by_code("R5")->id});
  shop.room.rebuilds.push_back(record);
  EXPECT_EQ(rebuild_of(shop.plan(), "H2"), nullptr);
  shop.room.rebuilds[0].state = "given up";
  EXPECT_NE(rebuild_of(shop.plan(), "H2"), nullptr);
}

TEST(MakePlan, keeps_to_the_bench_hours) {
  auto shop = one_repair();
  shop.room.terms.hours = 0.5;
  EXPECT_EQ(shop.plan().rebuilds.size(), 1U);
  shop.room.terms.hours = 0.3;  // 18 min, 20 are needed
  const auto plan = shop.plan();
  EXPECT_TRUE(plan.rebuilds.empty());
  EXPECT_THAT(why_of(plan, "H2"), HasSubstr("bench hours"));
}

TEST(MakePlan, refuses_numbers_that_cannot_be) {
  auto shop = one_repair();
  auto prospects = shop.prospects();
  prospects.parts[1].chance = 1.2;
  auto plan = make_plan_with(shop.known, shop.room, prospects, {}, shop.fitting);
  ASSERT_FALSE(plan.ok());
  EXPECT_EQ(plan.error().message,
            "The chance that part H2P works is 1.2; it has to lie between 0 and 1.");
  prospects.parts.pop_back();
  EXPECT_FALSE(make_plan_with(shop.known, shop.room, prospects, {}, shop.fitting).ok());
  shop.room.terms.per_hour = {-1};
  plan = shop.try_plan();
  ASSERT_FALSE(plan.ok());
  EXPECT_THAT(plan.error().message, HasSubstr("An hour at the bench costs -1"));
  shop.room.terms.per_hour = {1200};
  shop.room.terms.hours = -1;
  EXPECT_FALSE(shop.try_plan().ok());
  shop.room.terms.hours.reset();
  shop.room.terms.chance_good = 2;
  EXPECT_FALSE(shop.try_plan().ok());
}

TEST(MakePlan, refuses_a_negative_price_that_slipped_past_the_reader) {
  auto shop = one_repair();
  auto families = shop.known.families();
  families[0].models[0].prices[0].price = {-5};
  auto known = catalogue::Catalogue::from_families(families);
  ASSERT_TRUE(known.ok());
  const auto plan = make_plan_with(known.value(), shop.room, shop.prospects(), {}, shop.fitting);
  ASSERT_FALSE(plan.ok());
  EXPECT_EQ(plan.error().message, "The price of Alpha is -5; a price cannot be negative.");
}

TEST(MakePlan, drops_what_the_whole_judgement_refuses_and_finds_the_next_best) {
  auto shop = one_repair();
  shop.loose("R6", "PS-2", 1);
  shop.fitting = everything_fits([](const auto& rebuild, auto& judged) {
    if (put_into(rebuild, "supply") == "PS-1") object(judged, fit::Verdict::destroys, "boom");
  });
  const auto plan = shop.plan();
  ASSERT_EQ(plan.rebuilds.size(), 1U);
  EXPECT_EQ(part_in(plan.rebuilds[0], "supply")->type, "PS-2");
  EXPECT_TRUE(plan.proven);
}

TEST(MakePlan, pays_for_the_work_the_whole_judgement_asks_for) {
  auto shop = one_repair();
  shop.loose("R6", "PS-2", 1);
  shop.fitting = everything_fits([](const auto& rebuild, auto& judged) {
    if (put_into(rebuild, "supply") != "PS-1") return;
    object(judged, fit::Verdict::fits_with_work, "re-pin");
    judged.reasons.back().work_minutes = 30;
    judged.work_minutes += 30;
    judged.material += Money{150};
    fit::Companion clip;
    clip.what = "clip";
    clip.sort = "piece";
    clip.price = Money{150};
    judged.companions.push_back(clip);
  });
  const auto plan = shop.plan();
  ASSERT_EQ(plan.rebuilds.size(), 1U);
  EXPECT_EQ(part_in(plan.rebuilds[0], "supply")->type, "PS-2");  // the one without that work
  shop.room.parts.pop_back();
  const auto only = shop.plan();
  ASSERT_EQ(only.rebuilds.size(), 1U);
  EXPECT_EQ(only.rebuilds[0].work_minutes, 50);
  EXPECT_EQ(only.rebuilds[0].material.minor, 150);
  EXPECT_NEAR(only.rebuilds[0].chance, 0.8, 1e-12);
  EXPECT_EQ(only.rebuilds[0].verdict, fit::Verdict::fits_with_work);
}

TEST(MakePlan, never_takes_back_a_part_the_judgement_only_finds_along_the_way) {
  auto shop = one_repair();
  shop.fitting = everything_fits([](const auto& rebuild, auto& judged) {
    if (put_into(rebuild, "supply").empty()) return;
    fit::Companion lamp;
    lamp.what = "LT-9";
    lamp.sort = "part";  // a whole part that is not in the plan
    lamp.price = Money{100};
    judged.companions.push_back(lamp);
  });
  EXPECT_TRUE(shop.plan().rebuilds.empty());
}

TEST(MakePlan, sets_unknown_rebuilds_apart_with_their_questions) {
  auto shop = one_repair();
  shop.fitting = everything_fits([](const auto& rebuild, auto& judged) {
    if (put_into(rebuild, "supply").empty()) return;
    object(judged, fit::Verdict::unknown, "pins");
    fit::Question question;
    question.text = "What runs on contact 3?";
    judged.questions.push_back(question);
  });
  const auto plan = shop.plan();
  EXPECT_TRUE(plan.rebuilds.empty());
  EXPECT_EQ(plan.value.minor, 0);
  ASSERT_EQ(plan.after_questions.size(), 1U);
  EXPECT_EQ(plan.after_questions[0].host, "H2");
  EXPECT_EQ(plan.after_questions[0].verdict, fit::Verdict::unknown);
  EXPECT_EQ(plan.after_questions[0].questions, std::vector<std::string>{"What runs on contact 3?"});
  EXPECT_EQ(use_of(plan, "H2"), Use::kept);
}

TEST(MakePlan, keeps_a_part_of_unknown_type_for_after_its_question) {
  auto shop = one_repair();
  auto& grey = shop.room.parts.back();
  grey.type.clear();
  grey.candidates = {"PS-1", "PS-2"};
  grey.roles = {"supply"};
  shop.fitting = everything_fits([](const auto& rebuild, auto& judged) {
    for (const auto& part : rebuild.parts)
      if (part.type.empty()) object(judged, fit::Verdict::unknown, "which");
    if (put_into(rebuild, "supply") == "PS-2") object(judged, fit::Verdict::destroys, "no");
  });
  const auto plan = shop.plan();
  EXPECT_TRUE(plan.rebuilds.empty());
  ASSERT_EQ(plan.after_questions.size(), 1U);
  EXPECT_EQ(part_in(plan.after_questions[0], "supply")->part, "R5");
}

TEST(MakePlan, says_which_test_is_worth_most_and_how_much) {
  auto shop = one_repair();
  shop.room.parts.back().chance = 0.5;
  shop.room.parts.back().state = shop::State::untested;
  shop.fitting = everything_fits([](const auto& rebuild, auto& judged) {
    if (put_into(rebuild, "supply") == "PS-2") object(judged, fit::Verdict::does_not_fit, "no");
  });
  const auto plan = shop.plan();
  ASSERT_EQ(plan.rebuilds.size(), 1U);
  // Now: 10000 x 0.45 - 400 - 100. Good: 10000 x 0.9 - 400 - 200 = 8400. Bad: nothing, 0.
  EXPECT_EQ(plan.value.minor, 4000);
  ASSERT_EQ(plan.tests.size(), 1U);
  EXPECT_EQ(plan.tests[0].part, "R5");
  EXPECT_EQ(plan.tests[0].worth.minor, 4200 - 4000);
  shop.options.value_tests = false;
  EXPECT_TRUE(shop.plan().tests.empty());
}

TEST(MakePlan, gives_the_same_plan_whatever_the_order_of_the_records) {
  SmallShop shop;
  for (const char* code : {"H2", "H3", "H4"}) {
    shop.set(code, "Alpha");
    shop.fill(code, 0.95);
  }
  shop.room.parts[3].chance = 0, shop.room.parts[3].state = shop::State::bad;
  shop.room.parts[5].chance = 0, shop.room.parts[5].state = shop::State::bad;
  shop.loose("R1", "MB-2", 0.9);
  shop.loose("R2", "PS-1", 0.9);
  const auto plan = shop.plan();
  auto turned = shop;
  std::reverse(turned.room.parts.begin(), turned.room.parts.end());
  std::reverse(turned.room.sets.begin(), turned.room.sets.end());
  const auto other = turned.plan();
  EXPECT_EQ(plan.value, other.value);
  EXPECT_EQ(plan.bound, other.bound);
  EXPECT_EQ(plan.rebuilds.size(), other.rebuilds.size());
  const auto again = shop.plan();
  for (std::size_t i = 0; i < plan.rebuilds.size(); ++i) {
    EXPECT_EQ(plan.rebuilds[i].host, again.rebuilds[i].host);
    EXPECT_EQ(plan.rebuilds[i].why, again.rebuilds[i].why);
  }
}

TEST(MakePlan, agrees_whether_it_tries_everything_or_makes_columns) {
  SmallShop shop;
  for (const char* code : {"H2", "B4"}) {
    shop.set(code, code[0] == 'H' ? "Alpha" : "Beta");
    shop.fill(code, 0.9);
  }
  for (const std::size_t bad : {3U, 4U})
    shop.room.parts[bad].chance = 0, shop.room.parts[bad].state = shop::State::bad;
  shop.loose("R1", "MB-2", 0.9);
  shop.loose("R2", "PS-2", 0.7);
  const auto tried = shop.plan();
  shop.options.enumerate_up_to = 0;
  const auto columns = shop.plan();
  EXPECT_TRUE(tried.proven);
  EXPECT_TRUE(columns.proven);
  EXPECT_THAT(tried.method, HasSubstr("enumeration"));
  EXPECT_THAT(columns.method, HasSubstr("integer program"));
  EXPECT_NEAR(static_cast<double>(tried.value.minor), static_cast<double>(columns.value.minor), 2);
}

TEST(MakePlan, takes_a_part_somebody_else_fitted_for_what_it_is) {
  SmallShop shop;
  shop.set("H2", "Alpha");  // "standard", which has a PS-1
  shop.fill("H2", 1);
  shop.room.parts[3].type = "PS-2";
  const auto plan = shop.plan();
  ASSERT_NE(rebuild_of(plan, "H2"), nullptr) << why_of(plan, "H2");
  const auto* supply = part_in(*rebuild_of(plan, "H2"), "supply");
  ASSERT_NE(supply, nullptr);
  EXPECT_EQ(supply->type, "PS-2");
  EXPECT_EQ(supply->origin, Origin::own);
}

TEST(MakePlan, changes_a_foreign_part_that_does_not_fit) {
  SmallShop shop;
  shop.set("H2", "Alpha");
  shop.fill("H2", 1);
  shop.room.parts[3].type = "PS-2";
  shop.loose("R5", "PS-1", 1);
  shop.fitting = everything_fits([](const auto& rebuild, auto& judged) {
    if (put_into(rebuild, "supply") == "PS-2")
      object(judged, fit::Verdict::does_not_fit, "PS-2 in an Alpha");
  });
  const auto plan = shop.plan();
  ASSERT_NE(rebuild_of(plan, "H2"), nullptr) << why_of(plan, "H2");
  EXPECT_EQ(part_in(*rebuild_of(plan, "H2"), "supply")->part, "R5");
}

TEST(MakePlan, builds_nothing_that_earns_nothing) {
  SmallShop shop;
  shop.set("H2", "Alpha");
  shop.fill("H2", 0.001);
  const auto plan = shop.plan();
  EXPECT_TRUE(plan.rebuilds.empty());
  EXPECT_TRUE(plan.proven);
  EXPECT_THAT(why_of(plan, "H2"), HasSubstr("No way to build it would earn anything."));
}

TEST(MakePlan, does_not_call_a_set_needless_that_the_search_did_not_get_to) {
  auto shop = one_repair();
  const auto inventory = take_stock(shop.known, shop.room, shop.prospects());
  ASSERT_TRUE(inventory.ok());
  const Wanted nothing;
  Answers answers(shop.fitting);
  const Ground ground{shop.known, shop.room, inventory.value(), nothing, answers, false};
  const auto room = room_of_numbers(ground);
  EXPECT_THAT(why_not_built(ground, room, 0, false).text,
              HasSubstr("By itself it could be worth 84.00 EUR, but the search was stopped"));
  EXPECT_THAT(why_not_built(ground, room, 0, true).text, HasSubstr("worth more elsewhere"));
}

TEST(MakePlan, writes_no_minus_before_nothing) {
  EXPECT_EQ(money_words(-0.2, "EUR"), "0.00 EUR");
  EXPECT_EQ(money_words(-0.0, "EUR"), "0.00 EUR");
  EXPECT_EQ(money_words(-1234, "EUR"), "-12.34 EUR");
}

}  // namespace
}  // namespace benchgraft::plan
