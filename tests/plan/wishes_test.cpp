#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "small_shop.hpp"

namespace benchgraft::plan {
namespace {

using shop::WishSort;
using testing::HasSubstr;

// Two Alphas without a supply, one good supply on the shelf: only one can be built.
SmallShop one_supply_for_two() {
  SmallShop shop;
  for (const char* code : {"H2", "H3"}) {
    shop.set(code, "Alpha").missing = {"supply"};
    shop.part(std::string(code) + "P", "MB-1", 1, code, "picture");
    shop.part(std::string(code) + "L", "LT-1", code[1] == '2' ? 1 : 0.9, code, "light");
  }
  shop.loose("R5", "PS-1", 1);
  return shop;
}

TEST(Wishes, build_the_set_that_is_wished_for_although_the_other_is_worth_more) {
  auto shop = one_supply_for_two();
  EXPECT_NE(rebuild_of(shop.plan(), "H2"), nullptr);
  shop.wish(WishSort::build_this, "H3");
  const auto plan = shop.plan();
  EXPECT_NE(rebuild_of(plan, "H3"), nullptr);
  EXPECT_EQ(rebuild_of(plan, "H2"), nullptr);
  EXPECT_TRUE(plan.proven);
}

TEST(Wishes, build_a_promised_set_even_at_a_loss) {
  auto shop = one_supply_for_two();
  shop.room.terms.per_hour = {100000};
  EXPECT_TRUE(shop.plan().rebuilds.empty());
  shop.wish(WishSort::build_this, "H2");
  const auto plan = shop.plan();
  ASSERT_NE(rebuild_of(plan, "H2"), nullptr);
  EXPECT_LT(plan.value.minor, 0);
  EXPECT_GE(plan.bound, plan.value);
}

TEST(Wishes, name_a_set_that_cannot_be_built_and_plan_the_rest) {
  auto shop = one_supply_for_two();
  shop.room.sets[1].missing.push_back("light");
  shop.room.parts[3].in_set.reset();  // its light is on the shelf and bad
  shop.room.parts[3].state = shop::State::bad;
  shop.wish(WishSort::build_this, "H3");
  shop.fitting.single = [](const auto&, const auto&, const auto& part) -> Result<fit::PartAnswer> {
    fit::PartAnswer answer;
    if (part.place == "light") answer.verdict = fit::Verdict::does_not_fit;
    return answer;
  };
  const auto plan = shop.plan();
  EXPECT_TRUE(remarks_on(plan,
                         "H3 is wished for and cannot be built: Nothing in this room is "
                         "known to fit as its light."));
  EXPECT_NE(rebuild_of(plan, "H2"), nullptr);
}

TEST(Wishes, name_the_one_that_gives_way_when_two_need_the_same_part) {
  auto shop = one_supply_for_two();
  shop.wish(WishSort::build_this, "H2");
  shop.wish(WishSort::build_this, "H3");
  shop.known = small_catalogue();
  shop.fitting.single = [](const auto&, const auto&, const auto& part) -> Result<fit::PartAnswer> {
    fit::PartAnswer answer;
    if (part.type == "PS-3") answer.verdict = fit::Verdict::does_not_fit;
    return answer;
  };
  const auto plan = shop.plan();
  EXPECT_EQ(plan.rebuilds.size(), 1U);
  EXPECT_TRUE(remarks_on(plan,
                         "is wished for and cannot be built: what it needs is taken by other "
                         "wishes"));
}

TEST(Wishes, never_strip_and_never_build_are_obeyed) {
  auto shop = one_supply_for_two();
  shop.room.parts.pop_back();
  shop.part("H3S", "PS-1", 1, "H3", "supply");
  shop.room.sets[1].missing = {};
  shop.wish(WishSort::never_build, "H3");
  auto plan = shop.plan();
  EXPECT_EQ(use_of(plan, "H3"), Use::stripped);
  shop.wish(WishSort::never_strip, "H3");
  plan = shop.plan();
  EXPECT_EQ(use_of(plan, "H3"), Use::kept);
  EXPECT_THAT(why_of(plan, "H3"), HasSubstr("never stripped"));
  EXPECT_TRUE(plan.rebuilds.empty());
}

TEST(Wishes, keep_a_part_out_of_every_rebuild) {
  auto shop = one_supply_for_two();
  shop.wish(WishSort::keep_part, "", "R5");
  EXPECT_TRUE(shop.plan().rebuilds.empty());
}

TEST(Wishes, use_a_part_where_it_is_wanted_although_a_better_one_is_there) {
  auto shop = one_supply_for_two();
  shop.loose("R6", "PS-1", 0.6);
  shop.wish(WishSort::use_part_in, "H2", "R6");
  const auto plan = shop.plan();
  ASSERT_NE(rebuild_of(plan, "H2"), nullptr);
  EXPECT_EQ(part_in(*rebuild_of(plan, "H2"), "supply")->part, "R6");
  ASSERT_NE(rebuild_of(plan, "H3"), nullptr);
  EXPECT_EQ(part_in(*rebuild_of(plan, "H3"), "supply")->part, "R5");
}

TEST(Wishes, open_the_donor_that_holds_the_wanted_part) {
  auto shop = one_supply_for_two();
  shop.set("D4", "Alpha").missing = {"light"};
  shop.part("D4S", "PS-1", 0.5, "D4", "supply");
  shop.wish(WishSort::use_part_in, "H2", "D4S");
  const auto plan = shop.plan();
  ASSERT_NE(rebuild_of(plan, "H2"), nullptr);
  EXPECT_EQ(part_in(*rebuild_of(plan, "H2"), "supply")->donor, "D4");
  EXPECT_EQ(use_of(plan, "D4"), Use::stripped);
}

TEST(Wishes, name_a_part_that_cannot_be_used_as_wished) {
  auto shop = one_supply_for_two();
  shop.loose("R7", "PS-1", 0);
  shop.wish(WishSort::use_part_in, "H2", "R7");
  EXPECT_TRUE(
      remarks_on(shop.plan(), "The wish to use part R7 in H2 cannot be met: part R7 is bad"));
}

struct Clash {
  WishSort a;
  const char *set_a, *part_a;
  WishSort b;
  const char *set_b, *part_b;
  const char* says;
};

TEST(Wishes, contradictory_ones_are_refused_by_name) {
  const Clash clashes[] = {
      {WishSort::build_this, "H2", "", WishSort::never_build, "H2", "",
       "The wish to build H2 and the wish never to build H2 contradict each other; withdraw one of "
       "them."},
      {WishSort::use_part_in, "H2", "R5", WishSort::keep_part, "", "R5",
       "The wish to use part R5 in H2 and the wish to keep part R5 contradict each other; withdraw "
       "one of them."},
      {WishSort::use_part_in, "H2", "R5", WishSort::use_part_in, "H3", "R5",
       "The wish to use part R5 in H2 and the wish to use part R5 in H3 contradict each other; "
       "withdraw one of them."},
      {WishSort::use_part_in, "H2", "R5", WishSort::never_build, "H2", "",
       "The wish to use part R5 in H2 and the wish never to build H2 contradict each other; "
       "withdraw one of them."},
  };
  for (const auto& clash : clashes)
    for (const bool turned : {false, true}) {
      auto shop = one_supply_for_two();
      if (turned) shop.wish(clash.b, clash.set_b, clash.part_b);
      shop.wish(clash.a, clash.set_a, clash.part_a);
      if (!turned) shop.wish(clash.b, clash.set_b, clash.part_b);
      const auto plan = shop.try_plan();
      ASSERT_FALSE(plan.ok()) << clash.says;
      EXPECT_EQ(plan.error().kind, ErrorKind::conflict);
      const bool either_order = clash.b == WishSort::use_part_in;
      if (either_order && turned) continue;
      EXPECT_EQ(plan.error().message, clash.says);
    }
}

TEST(Wishes, a_part_in_a_set_never_stripped_nor_built_cannot_be_wanted_elsewhere) {
  auto shop = one_supply_for_two();
  shop.set("D4", "Alpha");
  shop.part("D4S", "PS-1", 0.5, "D4", "supply");
  shop.wish(WishSort::use_part_in, "H2", "D4S");
  shop.wish(WishSort::never_strip, "D4");
  EXPECT_TRUE(shop.try_plan().ok());  // D4 may be built with another supply
  shop.wish(WishSort::never_build, "D4");
  EXPECT_FALSE(shop.try_plan().ok());
}

TEST(Wishes, about_things_that_are_gone_are_named) {
  auto shop = one_supply_for_two();
  shop.wish(WishSort::build_this, "Z9");
  shop.wish(WishSort::use_part_in, "H2", "Z8");
  const auto plan = shop.plan();
  EXPECT_TRUE(remarks_on(plan, "no set Z9 is here"));
  EXPECT_TRUE(remarks_on(plan, "no part Z8 is here"));
}

}  // namespace
}  // namespace benchgraft::plan
