#include "plan/problem.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "plan/answer.hpp"

namespace benchgraft::plan {
namespace {

using testing::HasSubstr;

// One host that needs a supply: its own is missing, one is on the shelf, one is in a donor.
Problem one_host() {
  Problem room;
  room.money_per_minute = 2;
  room.pools = {{"PS-1", 1}, {"PS-1 inside", 0}};
  Host host;
  host.name = "H2";
  host.required = 1;
  host.open_minutes = 10;
  host.evidence[0] = {9, 1};
  host.tiers = {{1000, 0}};
  Place place;
  place.choices.push_back({"PS-1", true, {{0, 0.5, 100, 0}, {1, 0.8, 100, 5}}, 1, 0, 20, 0, {}});
  host.places = {place};
  room.hosts = {host};
  room.sets = {{"H2", 0, false, 0, {}}, {"D3", kNone, true, 6, {{1, 1}}}};
  return room;
}

void expect_refused(const Problem& room, const std::string& words) {
  const auto checked = check(room);
  ASSERT_FALSE(checked.ok()) << words;
  EXPECT_EQ(checked.error().kind, ErrorKind::bad_input);
  EXPECT_THAT(checked.error().message, HasSubstr(words));
}

TEST(Problem, refuses_each_number_that_cannot_be) {
  EXPECT_TRUE(check(one_host()).ok());
  auto room = one_host();
  room.hosts[0].places[0].choices[0].sources[0].chance = 1.5;
  expect_refused(room, "The chance that PS-1 for H2 works is 1.5; it has to lie between 0 and 1.");
  room = one_host();
  room.hosts[0].tiers[0].price = -1;
  expect_refused(room, "The price of H2 is -1; it cannot be negative.");
  room = one_host();
  room.money_per_minute = -1;
  expect_refused(room, "An hour at the bench costs -60");
  room = one_host();
  room.minutes = -3;
  expect_refused(room, "There are -3 minutes of bench time");
  room = one_host();
  room.pools[0].on_shelf = -1;
  expect_refused(room, "Fewer than no PS-1");
  room = one_host();
  room.sets[1].strip_minutes = -1;
  expect_refused(room, "Opening D3 takes -1 minutes");
  room = one_host();
  room.hosts[0].places[0].choices[0].sources[1].money = -5;
  expect_refused(room, "neither can be negative");
}

TEST(Problem, refuses_what_points_nowhere) {
  auto room = one_host();
  room.hosts[0].places[0].choices[0].sources[0].pool = 9;
  expect_refused(room, "a pool that is not there");
  room = one_host();
  room.hosts[0].places[0].choices[0].sources.clear();
  expect_refused(room, "comes from nowhere");
  room = one_host();
  room.hosts[0].pairs.push_back({0, 0, 0, 0, true, {}});
  expect_refused(room, "A pair of H2");
  room = one_host();
  room.sets[0].host = 4;
  expect_refused(room, "H2 is a host that is not there");
  room = one_host();
  room.sets[1].holds[0].pool = 7;
  expect_refused(room, "D3 holds parts of a pool that is not there");
}

TEST(Worth, is_price_times_chances_less_work_and_money) {
  const auto room = one_host();
  const Worth shelf = worth_of(room, {0, {0}, {0}});
  EXPECT_TRUE(shelf.allowed);
  EXPECT_DOUBLE_EQ(shelf.chance, 0.45);
  EXPECT_DOUBLE_EQ(shelf.minutes, 30);
  EXPECT_DOUBLE_EQ(shelf.value, 450 - 100 - 60);
  const Worth donor = worth_of(room, {0, {0}, {1}});
  EXPECT_DOUBLE_EQ(donor.value, 720 - 100 - 70);
}

TEST(Worth, needs_every_role_filled_and_no_pair_refused) {
  auto room = one_host();
  room.hosts[0].required = 3;
  EXPECT_FALSE(worth_of(room, {0, {0}, {0}}).allowed);
}

TEST(ValueOfAllotment, counts_the_opening_of_a_donor_once) {
  const auto room = one_host();
  const auto value = value_of(room, {{{0, {0}, {1}}}, {0, 1}});
  ASSERT_TRUE(value.ok());
  EXPECT_DOUBLE_EQ(value.value(), 550 - 12);
}

void expect_not_adding_up(const Problem& room, const Allotment& allotment,
                          const std::string& words) {
  const auto value = value_of(room, allotment);
  ASSERT_FALSE(value.ok()) << words;
  EXPECT_EQ(value.error().kind, ErrorKind::conflict);
  EXPECT_THAT(value.error().message, HasSubstr(words));
}

TEST(ValueOfAllotment, finds_what_does_not_add_up) {
  auto room = one_host();
  expect_not_adding_up(room, {{{0, {0}, {1}}}, {0, 0}}, "1 more of PS-1 inside are used");
  expect_not_adding_up(room, {{}, {1, 0}}, "H2 may not be stripped");
  expect_not_adding_up(room, {{{0, {0}, {0}}, {0, {0}, {0}}}, {0, 0}}, "H2 is used twice");
  expect_not_adding_up(room, {{{0, {}, {}}}, {0, 0}}, "a rebuild is not complete");
  expect_not_adding_up(room, {{{0, {0}, {5}}}, {0, 0}}, "a rebuild is not complete");
  expect_not_adding_up(room, {{{3, {0}, {0}}}, {0, 0}}, "a rebuild is not complete");
  expect_not_adding_up(room, {{}, {0}}, "not every set has a use");
  room.minutes = 29;
  expect_not_adding_up(room, {{{0, {0}, {0}}}, {0, 0}}, "it takes 30 minutes, there are 29");
  room = one_host();
  room.hosts[0].required = 3;
  expect_not_adding_up(room, {{{0, {0}, {0}}}, {0, 0}}, "built in a way that is not allowed");
}

}  // namespace
}  // namespace benchgraft::plan
