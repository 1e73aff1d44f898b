#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tasks/plan_room.hpp"
#include "tasks/rebuild_asked.hpp"

namespace benchgraft::tasks {
namespace {

using testing::HasSubstr;

shop::SetId set_id(std::uint64_t number) { return {{number, 1}}; }

// A host with one odd part of its own, a donor, a shelf.
Room room() {
  Room made;
  shop::Set host, donor;
  host.id = set_id(1), host.code = "H2", host.missing = {"lamp", "remote control"};
  donor.id = set_id(2), donor.code = "D3";
  made.shop.sets = {host, donor};
  shop::Part own, engine, lamp;
  own.code = "H2E", own.type = "HS-20/B", own.in_set = host.id, own.position = "supply";
  own.state = shop::State::good;
  own.changes.emplace_back().port = "MAIN";
  engine.code = "D3K", engine.type = "QE-30/A", engine.in_set = donor.id,
  engine.position = "engine";
  engine.run_hours = 900;
  lamp.code = "LMP", lamp.candidates = {"FL-20", "FL-24"}, lamp.place = "shelf 1";
  lamp.state = shop::State::bad;
  made.shop.parts = {own, engine, lamp};
  return made;
}

plan::Plan plan_of_one() {
  plan::PlannedRebuild rebuild;
  rebuild.host = "H2";
  rebuild.model = "Bramble 56";
  rebuild.variant = "120 W";
  rebuild.parts = {{"engine", {"light"}, "QE-30/A", "D3K", plan::Origin::donor, "D3", 0.9},
                   {"lamp", {"lamp"}, "FL-20", "", plan::Origin::bought, "", 1},
                   {"supply", {"supply"}, "HS-20/B", "H2E", plan::Origin::own, "", 0.9}};
  plan::Plan made;
  made.rebuilds = {rebuild};
  made.sets = {{"H2", "", plan::Use::host, ""},
               {"D3", "", plan::Use::stripped, "Its screen is split."}};
  return made;
}

TEST(RebuildOf, puts_in_what_the_plan_exchanges_and_leaves_what_stays) {
  const auto text = rebuild_of(room(), plan_of_one(), "H2");
  ASSERT_TRUE(text);
  ASSERT_EQ(text.value().parts.size(), 2U);
  EXPECT_EQ(text.value().parts[0].place, "engine");
  EXPECT_EQ(text.value().parts[0].from, "D3");
  EXPECT_EQ(text.value().parts[0].run_hours, 900);
  EXPECT_EQ(text.value().parts[1].type, "FL-20");
  EXPECT_EQ(text.value().parts[1].from, "bought");
}

TEST(RebuildOf, tells_what_is_on_record_about_the_hosts_own_parts) {
  const auto text = rebuild_of(room(), plan_of_one(), "H2");
  ASSERT_TRUE(text);
  ASSERT_EQ(text.value().seen.size(), 1U);
  EXPECT_EQ(text.value().seen[0].place, "supply");
  EXPECT_EQ(text.value().seen[0].changes.size(), 1U);
  EXPECT_EQ(text.value().seen[0].known_good, true);
}

TEST(RebuildOf, keeps_missing_only_what_the_plan_does_not_fill) {
  const auto text = rebuild_of(room(), plan_of_one(), "H2");
  ASSERT_TRUE(text);
  EXPECT_THAT(text.value().missing, testing::ElementsAre("remote control"));
}

TEST(RebuildOf, says_what_the_plan_does_with_a_set_it_does_not_build) {
  const auto text = rebuild_of(room(), plan_of_one(), "D3");
  ASSERT_FALSE(text);
  EXPECT_EQ(text.error().kind, ErrorKind::not_found);
  EXPECT_THAT(text.error().message, HasSubstr("strip it: Its screen is split."));
  EXPECT_THAT(rebuild_of(room(), plan_of_one(), "NOPE").error().message,
              HasSubstr("neither a rebuild file nor the code of a set"));
}

TEST(Prospects, come_from_what_was_said_else_from_the_state_and_the_terms) {
  auto here = room().shop;
  here.terms.chance_good = 0.9;
  here.terms.chance_untested = 0.4;
  here.parts[1].chance = 0.77;
  auto seen = prospects(here);
  ASSERT_EQ(seen.parts.size(), 3U);
  EXPECT_EQ(seen.parts[0].chance, 0.9);
  EXPECT_EQ(seen.parts[1].chance, 0.77);
  EXPECT_EQ(seen.parts[2].chance, 0) << "a bad part never works";
  here.parts[1].chance.reset();
  EXPECT_EQ(prospects(here).parts[1].chance, 0.4);
}

}  // namespace
}  // namespace benchgraft::tasks
