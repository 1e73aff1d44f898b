#include "plan/enumerate.hpp"

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

TEST(Enumeration, agrees_with_trying_everything_on_200_random_rooms) {
  for (std::uint32_t seed = 1; seed <= 200; ++seed) {
    const auto room = test::random_room(seed, shape_for(seed));
    ASSERT_TRUE(check(room).ok()) << "seed " << seed;
    const auto answer = enumerate(room, Limits{});
    const auto twin = test::plan_by_trying_everything(room);
    EXPECT_EQ(answer.unmet.size(), static_cast<std::size_t>(twin.unmet)) << "seed " << seed;
    EXPECT_NEAR(answer.value, twin.value, 0.5) << "seed " << seed;
    EXPECT_TRUE(answer.proven) << "seed " << seed;
    EXPECT_GE(answer.bound, answer.value) << "seed " << seed;
    const auto recounted = value_of(room, answer.best);
    ASSERT_TRUE(recounted.ok()) << "seed " << seed << ": " << recounted.error().message;
    EXPECT_NEAR(recounted.value(), answer.value, 1e-6) << "seed " << seed;
  }
}

TEST(Enumeration, keeps_its_bound_above_the_truth_when_it_is_stopped) {
  int stopped = 0;
  for (std::uint32_t seed = 1; seed <= 60; ++seed) {
    const auto room = test::random_room(seed, shape_for(seed | 7));
    Limits limits;
    limits.steps = 50 + seed * 10;
    const auto answer = enumerate(room, limits);
    const auto twin = test::plan_by_trying_everything(room);
    if (!answer.proven) ++stopped;
    if (answer.unmet.size() != static_cast<std::size_t>(twin.unmet)) continue;
    EXPECT_GE(answer.bound, twin.value - 0.5) << "seed " << seed;
    EXPECT_LE(answer.value, twin.value + 0.5) << "seed " << seed;
  }
  EXPECT_GT(stopped, 10);
}

}  // namespace
}  // namespace benchgraft::plan
