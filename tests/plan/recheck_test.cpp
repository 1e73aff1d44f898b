#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "small_shop.hpp"

namespace benchgraft::plan {
namespace {

using testing::HasSubstr;

// A host that takes a supply from a donor and a light from the shelf.
struct Planned {
  SmallShop shop;
  Plan plan;
};

Planned planned() {
  Planned all;
  auto& shop = all.shop;
  shop.set("H2", "Alpha").missing = {"supply", "light"};
  shop.part("H2P", "MB-1", 1, "H2", "picture");
  shop.loose("R1", "LT-1", 0.9);
  shop.set("D3", "Alpha").missing = {"light"};
  shop.part("D3S", "PS-1", 0.9, "D3", "supply");
  shop.set("C7", "Alpha").missing = {"light"};
  shop.room.sets.back().consent = shop::Consent::must_go_back;
  shop.part("C7S", "PS-1", 0.9, "C7", "supply");
  shop.wish(shop::WishSort::never_build, "C7");
  all.plan = shop.plan();
  return all;
}

Result<Money> again(const Planned& all) {
  return recheck_with(all.plan, all.shop.known, all.shop.room, all.shop.prospects(),
                      all.shop.fitting);
}

void expect_wrong(const Planned& all, const std::string& words) {
  const auto checked = again(all);
  ASSERT_FALSE(checked.ok()) << "expected: " << words;
  EXPECT_EQ(checked.error().kind, ErrorKind::conflict);
  EXPECT_THAT(checked.error().message, HasSubstr("The plan does not add up: "));
  EXPECT_THAT(checked.error().message, HasSubstr(words));
}

PlannedPart& supply_of(Planned& all) {
  for (auto& part : all.plan.rebuilds.at(0).parts)
    if (part.position == "supply") return part;
  throw std::logic_error("no supply planned");
}

TEST(Recheck, finds_the_same_value_as_the_planner) {
  const auto all = planned();
  ASSERT_EQ(all.plan.rebuilds.size(), 1U);
  const auto checked = again(all);
  ASSERT_TRUE(checked.ok()) << checked.error().message;
  EXPECT_EQ(checked.value(), all.plan.value);
}

TEST(Recheck, catches_a_value_that_was_made_up) {
  auto all = planned();
  all.plan.value.minor += 5;
  expect_wrong(all, "it is worth");
  all = planned();
  all.plan.rebuilds[0].value.minor += 5;
  expect_wrong(all, "H2 is worth");
  all = planned();
  all.plan.bound.minor = all.plan.value.minor - 1;
  expect_wrong(all, "its bound");
}

TEST(Recheck, catches_a_chance_that_is_too_good) {
  auto all = planned();
  supply_of(all).chance = 0.99;
  expect_wrong(all, "the chance of the supply of H2 is 0.9, not 0.99");
  all = planned();
  all.plan.rebuilds[0].chance = 1;
  expect_wrong(all, "H2 works at");
}

TEST(Recheck, catches_minutes_material_and_price_that_are_wrong) {
  auto all = planned();
  all.plan.rebuilds[0].work_minutes -= 5;
  expect_wrong(all, "H2 takes");
  all = planned();
  all.plan.rebuilds[0].material.minor = 7;
  expect_wrong(all, "the material of H2");
  all = planned();
  all.plan.rebuilds[0].price.minor = 20000;
  expect_wrong(all, "H2 fetches 10000, not 20000");
}

TEST(Recheck, catches_a_part_used_twice) {
  auto all = planned();
  auto second = all.plan.rebuilds[0];
  second.host = "D3";
  all.plan.rebuilds.push_back(second);
  for (auto& set : all.plan.sets)
    if (set.code == "D3") set.use = Use::host;
  EXPECT_FALSE(again(all).ok());
  all = planned();
  all.plan.rebuilds[0].parts.push_back(supply_of(all));
  expect_wrong(all, "the supply of H2 is filled twice");
}

TEST(Recheck, catches_a_part_taken_from_a_customers_set) {
  auto all = planned();
  supply_of(all).part = "C7S";
  supply_of(all).donor = "C7";
  expect_wrong(all, "C7 keeps its parts");
}

TEST(Recheck, catches_a_customers_set_that_is_stripped) {
  auto all = planned();
  for (auto& set : all.plan.sets)
    if (set.code == "C7") set.use = Use::stripped;
  expect_wrong(all, "C7 may not be stripped");
}

TEST(Recheck, catches_a_donor_that_is_not_opened) {
  auto all = planned();
  for (auto& set : all.plan.sets)
    if (set.code == "D3") set.use = Use::kept;
  expect_wrong(all, "D3, which is not opened for it");
}

TEST(Recheck, catches_a_bad_or_kept_part) {
  auto all = planned();
  all.shop.room.parts[2].state = shop::State::bad;  // D3S
  expect_wrong(all, "part D3S is bad");
  all = planned();
  all.shop.wish(shop::WishSort::keep_part, "", "D3S");
  expect_wrong(all, "part D3S is to be kept");
}

TEST(Recheck, catches_a_part_that_is_somewhere_else) {
  auto all = planned();
  supply_of(all).origin = Origin::shelf;
  expect_wrong(all, "part D3S is not on a shelf");
  all = planned();
  supply_of(all).part = "ZZ";
  expect_wrong(all, "there is no part ZZ");
  all = planned();
  supply_of(all).part.clear();
  supply_of(all).chance = 0.5;
  expect_wrong(all, "there is no PS-1 left in D3");
}

TEST(Recheck, catches_a_purchase_nobody_sells) {
  auto all = planned();
  supply_of(all).origin = Origin::bought;
  supply_of(all).part.clear();
  expect_wrong(all, "nobody is known to sell PS-1");
}

TEST(Recheck, catches_a_rebuild_that_the_judgement_refuses) {
  auto all = planned();
  all.shop.fitting = everything_fits(
      [](const auto&, auto& judged) { object(judged, fit::Verdict::destroys, "boom"); });
  expect_wrong(all, "H2 is judged \"destroys\"");
}

TEST(Recheck, catches_hours_that_are_not_there) {
  auto all = planned();
  all.shop.room.terms.hours = 0.1;
  expect_wrong(all, "minutes of bench time");
}

TEST(Recheck, catches_a_wish_that_is_not_obeyed) {
  auto all = planned();
  all.shop.wish(shop::WishSort::never_build, "H2");
  expect_wrong(all, "a wish about H2 is not obeyed");
  all = planned();
  all.shop.wish(shop::WishSort::build_this, "D3");
  expect_wrong(all, "a wish about D3 is not obeyed");
}

TEST(Recheck, catches_a_host_that_is_not_built_or_is_gone) {
  auto all = planned();
  all.plan.rebuilds.clear();
  expect_wrong(all, "H2 is a host but is not built");
  all = planned();
  all.shop.room.sets[0].fate = shop::Fate::gone;
  expect_wrong(all, "the set H2 is not here");
}

}  // namespace
}  // namespace benchgraft::plan
