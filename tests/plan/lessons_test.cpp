// What one refusal teaches: few judgements have to be enough, and nothing good may be cut off.
#include <limits>

#include <gtest/gtest.h>

#include "plan/columns.hpp"
#include "plan/host_search.hpp"

namespace benchgraft::plan {
namespace {

constexpr int kPlaces = 10, kChoices = 5;
constexpr double kNever = -std::numeric_limits<double>::infinity();

// Ten places with a doubtful part of their own (choice 0) and four better ones each, the last the
// best. `refuses` answers with the code of what speaks against a rebuild, 0 = nothing.
Problem room_where(const std::function<int(const std::vector<int>&)>& refuses) {
  Host host;
  host.name = "H2";
  for (int p = 0; p < kPlaces; ++p) {
    Place place;
    for (int c = 0; c < kChoices; ++c) {
      Choice choice;
      choice.name = std::to_string(c);
      choice.changes = c > 0;
      choice.sources = {{kNone, c == 0 ? 0.5 : 0.8 + 0.01 * c, 10.0 * c, 0}};
      place.choices.push_back(choice);
    }
    host.places.push_back(place);
  }
  host.tiers = {{100000, 0}};
  Problem room;
  room.hosts = {host};
  room.sets = {{"H2", 0, false, 0, {}}};
  room.whole = [refuses](int, const std::vector<int>& choices) {
    Whole whole;
    whole.price = 100000;
    if (const int code = refuses(choices)) {
      whole.allowed = false;
      whole.findings = {{static_cast<std::uint64_t>(code), true, Level::unsure, 0, 0}};
    }
    return whole;
  };
  return room;
}

std::optional<Found> best_of(const Problem& room, std::size_t& judged) {
  HostSearch search(room, 0);
  Effort effort{Limits{}};
  const Prices none{{}, 0};
  auto best = search.best(none, kNever, effort);
  EXPECT_FALSE(effort.over());
  judged = search.judged();
  return best;
}

TEST(Lessons, find_the_fellow_that_a_part_needs_from_few_judgements) {
  // Every part put in the first place needs its own fellow in the last.
  const auto room = room_where(
      [](const auto& choices) { return choices[0] > choices[9] ? 100 + choices[0] : 0; });
  std::size_t judged = 0;
  const auto best = best_of(room, judged);
  ASSERT_TRUE(best);
  EXPECT_EQ(best->built.choices, std::vector<int>(kPlaces, 4));
  EXPECT_LT(judged, 300U);  // of 9,765,625
}

TEST(Lessons, shut_a_host_that_is_refused_however_it_is_built) {
  // Such as a fact of the cabinet that nobody knows.
  const auto room = room_where([](const auto&) { return 7; });
  std::size_t judged = 0;
  EXPECT_FALSE(best_of(room, judged));
  EXPECT_LT(judged, 150U);
}

TEST(Lessons, learn_each_of_many_parts_that_may_not_go_in) {
  // Only the own part may stay in the first five places: a refusal of its own for each other.
  const auto room = room_where([](const auto& choices) {
    for (int p = 0; p < 5; ++p)
      if (choices[static_cast<std::size_t>(p)] > 0)
        return 10 * p + choices[static_cast<std::size_t>(p)];
    return 0;
  });
  std::size_t judged = 0;
  const auto best = best_of(room, judged);
  ASSERT_TRUE(best);
  EXPECT_EQ(best->built.choices, (std::vector<int>{0, 0, 0, 0, 0, 4, 4, 4, 4, 4}));
  EXPECT_LT(judged, 2000U);
}

TEST(Lessons, do_not_shut_a_host_when_two_of_its_own_parts_hide_each_other) {
  // Each of two own parts alone gives the same refusal: changing one of them does not cure it.
  const auto room =
      room_where([](const auto& choices) { return choices[2] == 0 || choices[6] == 0 ? 7 : 0; });
  std::size_t judged = 0;
  const auto best = best_of(room, judged);
  ASSERT_TRUE(best);
  EXPECT_EQ(best->built.choices, std::vector<int>(kPlaces, 4));
}

TEST(Columns, leave_every_host_its_share_when_the_search_for_one_never_ends) {
  // H2 is refused nearly always, each time for another reason; H3 is built as it is.
  auto room = room_where([](const auto& choices) {
    int code = 1;
    for (const int choice : choices) code = code * kChoices + choice;
    return code;
  });
  Host simple;
  simple.name = "H3";
  simple.places = {{{{"its own", false, {{kNone, 0.9, 0, 0}}, 0, 0, 0, 0, {}}}, kNone}};
  simple.tiers = {{5000, 0}};
  room.hosts.push_back(simple);
  room.sets[0].host = 0;
  room.sets.push_back({"H3", 1, false, 0, {}});
  room.whole = [hard = room.whole](int host, const std::vector<int>& choices) {
    if (host == 0) return hard(host, choices);
    Whole whole;
    whole.price = 5000;
    return whole;
  };
  Limits limits;
  limits.steps = 400'000;
  const auto answer = plan_by_columns(room, limits);
  ASSERT_TRUE(answer.ok()) << answer.error().message;
  EXPECT_FALSE(answer.value().proven);
  EXPECT_NEAR(answer.value().value, 4500, 1e-6);
  EXPECT_GT(answer.value().bound, 4500);  // what H2 might still be worth is not given up
}

}  // namespace
}  // namespace benchgraft::plan
