#include "steps/precedence.hpp"

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace benchgraft::steps {
namespace {

using testing::ElementsAre;

std::size_t place(const std::vector<std::size_t>& order, std::size_t thing) {
  return static_cast<std::size_t>(std::find(order.begin(), order.end(), thing) - order.begin());
}

TEST(Precedence, keeps_the_given_order_where_nothing_waits) {
  EXPECT_THAT(Precedence(4).sorted().order, ElementsAre(0, 1, 2, 3));
}

TEST(Precedence, moves_only_what_has_to_wait) {
  Precedence before(4);
  before.require(3, 1);
  EXPECT_THAT(before.sorted().order, ElementsAre(0, 2, 3, 1));
}

TEST(Precedence, names_a_circle_and_not_what_merely_waits_for_it) {
  Precedence before(5);
  before.require(1, 2);
  before.require(2, 3);
  before.require(3, 1);
  before.require(3, 4);
  const auto outcome = before.sorted();
  EXPECT_TRUE(outcome.order.empty());
  EXPECT_THAT(outcome.circle, testing::UnorderedElementsAre(1, 2, 3));
}

TEST(Precedence, finds_a_thing_that_waits_for_itself) {
  Precedence before(2);
  before.require(1, 1);
  EXPECT_THAT(before.sorted().circle, ElementsAre(1));
}

TEST(Precedence, drops_a_wish_that_would_close_a_circle) {
  Precedence before(3);
  before.require(0, 1);
  before.require(1, 2);
  EXPECT_FALSE(before.prefer(2, 0));
  EXPECT_TRUE(before.prefer(0, 2));
  EXPECT_THAT(before.sorted().order, ElementsAre(0, 1, 2));
}

TEST(Precedence, knows_what_waits_through_others) {
  Precedence before(4);
  before.require(0, 1);
  before.require(1, 3);
  EXPECT_TRUE(before.reaches(0, 3));
  EXPECT_FALSE(before.reaches(3, 0));
  EXPECT_THAT(before.waiting_for({0}), ElementsAre(true, true, false, true));
}

RC_GTEST_PROP(Precedence, puts_every_thing_once_and_after_all_it_waits_for, ()) {
  const auto count = *rc::gen::inRange<std::size_t>(1, 30);
  // Pairs that go up in a hidden numbering can never close a circle.
  std::vector<std::size_t> hidden(count);
  for (std::size_t i = 0; i < count; ++i) hidden[i] = i;
  for (std::size_t i = count; i > 1; --i)
    std::swap(hidden[i - 1], hidden[*rc::gen::inRange<std::size_t>(0, i)]);
  const auto pairs =
      *rc::gen::container<std::vector<std::pair<std::size_t, std::size_t>>>(rc::gen::pair(
          rc::gen::inRange<std::size_t>(0, count), rc::gen::inRange<std::size_t>(0, count)));
  Precedence before(count);
  for (const auto& [a, b] : pairs)
    if (a != b) before.require(hidden[std::min(a, b)], hidden[std::max(a, b)]);

  const auto order = before.sorted().order;
  auto all = order;
  std::sort(all.begin(), all.end());
  RC_ASSERT(all.size() == count);
  for (std::size_t i = 0; i < count; ++i) RC_ASSERT(all[i] == i);
  for (const auto& [a, b] : pairs)
    if (a != b)
      RC_ASSERT(place(order, hidden[std::min(a, b)]) < place(order, hidden[std::max(a, b)]));
}

RC_GTEST_PROP(Precedence, gives_either_an_order_or_a_true_circle, ()) {
  const auto count = *rc::gen::inRange<std::size_t>(1, 12);
  const auto pairs =
      *rc::gen::container<std::vector<std::pair<std::size_t, std::size_t>>>(rc::gen::pair(
          rc::gen::inRange<std::size_t>(0, count), rc::gen::inRange<std::size_t>(0, count)));
  Precedence before(count);
  for (const auto& [first, then] : pairs) before.require(first, then);
  const auto outcome = before.sorted();
  RC_ASSERT(outcome.order.empty() != outcome.circle.empty());
  for (std::size_t i = 0; i < outcome.circle.size(); ++i) {
    const std::pair<std::size_t, std::size_t> step{outcome.circle[i],
                                                   outcome.circle[(i + 1) % outcome.circle.size()]};
    RC_ASSERT(std::find(pairs.begin(), pairs.end(), step) != pairs.end());
  }
  for (const auto& [first, then] : pairs)
    if (!outcome.order.empty()) RC_ASSERT(place(outcome.order, first) < place(outcome.order, then));
}

}  // namespace
}  // namespace benchgraft::steps
