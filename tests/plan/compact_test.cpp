// The planner against the whole room as one integer program: another model, another way to solve.
#include <gtest/gtest.h>

#include "plan/columns.hpp"
#include "support/plan_compact.hpp"
#include "support/plan_rooms.hpp"
#include "support/plan_workshop.hpp"

namespace benchgraft::plan {
namespace {

// Work is paid by its money here, so a minute limit is left out: the dearest work has no minutes of
// its own in that model.
Problem room_for(std::uint32_t seed) {
  auto room = test::random_room(seed, {static_cast<int>(1 + seed % 8), 4, 2, 3, 2, false, false});
  room.minutes.reset();
  return room;
}

TEST(OneProgram, bounds_the_planner_and_does_not_beat_it) {
  int close = 0;
  for (std::uint32_t seed = 1; seed <= 80; ++seed) {
    const auto room = room_for(seed);
    const auto ours = plan_by_columns(room, Limits{});
    const auto theirs = test::plan_by_one_program(room, 12, 20);
    ASSERT_TRUE(ours.ok() && theirs.ok()) << "seed " << seed;
    EXPECT_TRUE(ours.value().proven) << "seed " << seed;
    EXPECT_LE(theirs.value().value, ours.value().value + 0.5) << "seed " << seed;
    EXPECT_GE(theirs.value().bound, ours.value().value - 0.5) << "seed " << seed;
    if (theirs.value().value >= 0.98 * ours.value().value - 1) ++close;
  }
  EXPECT_GT(close, 70);
}

}  // namespace
}  // namespace benchgraft::plan
