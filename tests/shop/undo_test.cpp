#include "shop/undo.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "shop/commands.hpp"
#include "support/some_shops.hpp"

namespace benchgraft::shop {
namespace {

/// Commands one after the other, with what each changed.
class Steps {
 public:
  const Edits& add(const Command& command) {
    auto effect = effect_of(command, records.shop, support::at_the_bench(1 + all.size()));
    EXPECT_TRUE(effect.ok()) << (effect ? "" : effect.error().message);
    Records after{effect ? effect.value().after : records.shop, {}};
    all.push_back(difference(records, after));
    records = after;
    return all.back();
  }
  bool depends_on(std::size_t later, std::size_t earlier) const {
    return depends(traces_of(all.at(later)), traces_of(all.at(earlier)));
  }

  Records records;
  std::vector<Edits> all;
};

TakeIn set_with_code(const std::string& code) {
  Set set;
  set.code = code;
  set.consent = Consent::may_strip;
  return {set};
}

AddPart part_in(const std::string& code, const std::string& set, const std::string& position) {
  Part part;
  part.code = code;
  part.position = position;
  return {part, set};
}

Steps two_sets_with_supplies() {
  Steps steps;
  steps.add(set_with_code("H2"));            // 0
  steps.add(set_with_code("D3"));            // 1
  steps.add(part_in("HA", "H2", "supply"));  // 2
  steps.add(part_in("DA", "D3", "supply"));  // 3
  return steps;
}

TEST(Undo, finds_that_things_in_a_set_depend_on_taking_it_in) {
  const Steps steps = two_sets_with_supplies();
  EXPECT_TRUE(steps.depends_on(2, 0));
  EXPECT_FALSE(steps.depends_on(3, 0));
  EXPECT_FALSE(steps.depends_on(1, 0));
}

TEST(Undo, keeps_changes_of_different_fields_apart) {
  Steps steps = two_sets_with_supplies();
  steps.add(ChangeSet{.set = "H2", .place = "bench 1"});  // 4
  steps.add(ChangeSet{.set = "H2", .note = "clean"});     // 5
  steps.add(ChangeSet{.set = "H2", .place = "bench 2"});  // 6
  EXPECT_FALSE(steps.depends_on(5, 4));
  EXPECT_TRUE(steps.depends_on(6, 4));
  auto back = take_back(steps.all[5], steps.records);
  ASSERT_TRUE(back);
  EXPECT_EQ(back.value().shop.set_by_code("H2")->note, "");
  EXPECT_EQ(back.value().shop.set_by_code("H2")->place, "bench 2");
  back = take_back(steps.all[4], steps.records);
  ASSERT_FALSE(back);
  EXPECT_EQ(back.error().kind, ErrorKind::conflict);
}

TEST(Undo, takes_where_a_part_is_and_what_its_test_said_for_one_thing_each) {
  Steps steps = two_sets_with_supplies();
  steps.add(MovePart{"HA", "", "", "shelf"});                   // 4
  steps.add(MovePart{"HA", "", "", "other shelf"});             // 5
  steps.add(SetState{"HA", State::good, "ran", "", ""});        // 6
  steps.add(SetState{"HA", State::good, "ran hot", "H2", ""});  // 7
  steps.add(ChangeSet{.set = "H2", .model = "Tern 50"});        // 8
  steps.add(ChangeSet{.set = "H2", .variant = "120 W"});        // 9
  EXPECT_TRUE(steps.depends_on(5, 4));
  EXPECT_FALSE(steps.depends_on(6, 5));
  EXPECT_TRUE(steps.depends_on(7, 6));
  EXPECT_TRUE(steps.depends_on(9, 8));
}

TEST(Undo, takes_one_part_back_into_its_set_without_the_others_that_left_later) {
  Steps steps = two_sets_with_supplies();
  steps.add(part_in("HC", "H2", "lamp"));      // 4
  steps.add(MovePart{"HA", "", "", "shelf"});  // 5
  steps.add(MovePart{"HC", "", "", "shelf"});  // 6
  EXPECT_FALSE(steps.depends_on(6, 5));
  auto back = take_back(steps.all[5], steps.records);
  ASSERT_TRUE(back) << back.error().message;
  EXPECT_EQ(back.value().shop.part_by_code("HA")->position, "supply");
  EXPECT_EQ(back.value().shop.set_by_code("H2")->missing, std::vector<std::string>{"lamp"});
}

TEST(Undo, finds_that_a_position_was_filled_anew) {
  Steps steps = two_sets_with_supplies();
  steps.add(MovePart{"HA", "", "", "shelf"});     // 4
  steps.add(MovePart{"DA", "H2", "supply", ""});  // 5
  EXPECT_TRUE(steps.depends_on(5, 4));
}

TEST(Undo, finds_that_a_rebuild_depends_on_its_parts_and_claims) {
  Steps steps = two_sets_with_supplies();
  steps.add(BeginRebuild{"first", "H2", {{"supply", "DA"}}, ""});  // 4
  steps.add(GiveUpRebuild{"first", ""});                           // 5
  steps.add(BeginRebuild{"second", "H2", {}, ""});                 // 6
  EXPECT_TRUE(steps.depends_on(4, 3));
  EXPECT_TRUE(steps.depends_on(4, 0));
  EXPECT_TRUE(steps.depends_on(5, 4));
  EXPECT_TRUE(steps.depends_on(6, 5));
}

TEST(Undo, finds_that_a_wish_depends_on_its_set) {
  Steps steps = two_sets_with_supplies();
  steps.add(AddWish{{{}, WishSort::build_this, "H2", "", ""}});  // 4
  EXPECT_TRUE(steps.depends_on(4, 0));
  EXPECT_FALSE(steps.depends_on(4, 1));
}

RC_GTEST_PROP(Undo, difference_and_apply_lead_from_any_shop_to_any_other, ()) {
  const Records from{*support::any_shop(), {{"Tern", "a"}, {"Wren", "b"}}};
  Records to{*support::any_shop(), {{"Wren", "c"}}};
  Records reached = from;
  apply(difference(from, to), reached);
  RC_ASSERT(difference(reached, to).empty());
}

RC_GTEST_PROP(Undo, taking_a_change_back_leads_back_to_where_it_was, ()) {
  const Records from{*support::any_shop(), {{"Tern", "a"}}};
  const Records to{*support::any_shop(), {{"Tern", "b"}, {"Wren", "c"}}};
  auto back = take_back(difference(from, to), to);
  if (!back) RC_FAIL(back.error().message);
  RC_ASSERT(difference(back.value(), from).empty());
}

}  // namespace
}  // namespace benchgraft::shop
