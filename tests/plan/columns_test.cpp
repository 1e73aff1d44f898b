#include "plan/columns.hpp"

#include <gtest/gtest.h>

#include "support/plan_rooms.hpp"
#include "support/plan_twin.hpp"

namespace benchgraft::plan {
namespace {

test::RoomShape shape_for(std::uint32_t seed) {
  return {static_cast<int>(1 + seed % 8),
          4,
          static_cast<int>(2 + seed % 2),
          3,
          2,
          seed % 3 == 0,
          seed % 2 == 0};
}

TEST(Columns, agree_with_trying_everything_on_200_random_rooms) {
  int built = 0;
  for (std::uint32_t seed = 1; seed <= 200; ++seed) {
    const auto room = test::random_room(seed, shape_for(seed));
    const auto answer = plan_by_columns(room, Limits{});
    ASSERT_TRUE(answer.ok()) << "seed " << seed << ": " << answer.error().message;
    const auto twin = test::plan_by_trying_everything(room);
    EXPECT_EQ(answer.value().unmet.size(), static_cast<std::size_t>(twin.unmet)) << "seed " << seed;
    EXPECT_NEAR(answer.value().value, twin.value, 0.5) << "seed " << seed;
    EXPECT_TRUE(answer.value().proven) << "seed " << seed;
    EXPECT_GE(answer.value().bound, answer.value().value) << "seed " << seed;
    const auto recounted = value_of(room, answer.value().best);
    ASSERT_TRUE(recounted.ok()) << "seed " << seed << ": " << recounted.error().message;
    EXPECT_NEAR(recounted.value(), answer.value().value, 1e-6) << "seed " << seed;
    if (!answer.value().best.built.empty()) ++built;
  }
  EXPECT_GT(built, 100);
}

TEST(Columns, keep_their_bound_above_the_truth_when_they_are_stopped) {
  int stopped = 0;
  for (std::uint32_t seed = 1; seed <= 60; ++seed) {
    const auto room = test::random_room(seed, shape_for(seed | 7));
    Limits limits;
    limits.steps = 5 + seed * 2;
    const auto answer = plan_by_columns(room, limits);
    ASSERT_TRUE(answer.ok()) << answer.error().message;
    const auto twin = test::plan_by_trying_everything(room);
    if (!answer.value().proven) ++stopped;
    if (answer.value().unmet.size() != static_cast<std::size_t>(twin.unmet)) continue;
    EXPECT_GE(answer.value().bound, twin.value - 0.5) << "seed " << seed;
    EXPECT_LE(answer.value().value, twin.value + 0.5) << "seed " << seed;
  }
  EXPECT_GT(stopped, 10);
}

}  // namespace
}  // namespace benchgraft::plan
