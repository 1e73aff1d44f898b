#include "num/linear_program.hpp"

#include <gtest/gtest.h>

namespace benchgraft::num {
namespace {

// Wyndor Glass, Hillier & Lieberman, Introduction to Operations Research, ch. 3 (from memory):
// max 3a + 5b, a <= 4, 2b <= 12, 3a + 2b <= 18. By hand: corner a = 2, b = 6 gives 36; of the rows
// that bind, 2y2 + 2y3 = 5 and 3y3 = 3, so y3 = 1, y2 = 1.5.
LinearProgram glass() {
  LinearProgram program;
  program.add_row(-kNoLimit, 4);
  program.add_row(-kNoLimit, 12);
  program.add_row(-kNoLimit, 18);
  program.add_column(3, 0, kNoLimit, {{0, 1}, {2, 3}});
  program.add_column(5, 0, kNoLimit, {{1, 2}, {2, 2}});
  return program;
}

TEST(LinearProgram, finds_the_published_optimum_and_its_duals) {
  auto program = glass();
  const auto answer = program.solve();
  ASSERT_EQ(answer.status, Status::optimal);
  EXPECT_NEAR(answer.value, 36, 1e-9);
  EXPECT_NEAR(answer.amounts[0], 2, 1e-9);
  EXPECT_NEAR(answer.amounts[1], 6, 1e-9);
  EXPECT_NEAR(answer.duals[0], 0, 1e-9);
  EXPECT_NEAR(answer.duals[1], 1.5, 1e-9);
  EXPECT_NEAR(answer.duals[2], 1, 1e-9);
}

TEST(LinearProgram, takes_a_later_column_only_when_it_pays_at_the_duals) {
  auto program = glass();
  (void)program.solve();
  // Uses one of row 2 and one of row 3: costs 1.5 + 1 = 2.5 at the duals.
  program.add_column(2.4, 0, kNoLimit, {{1, 1}, {2, 1}});
  EXPECT_NEAR(program.solve().value, 36, 1e-9);
  program.add_column(2.6, 0, kNoLimit, {{1, 1}, {2, 1}});
  EXPECT_GT(program.solve().value, 36 + 1e-6);
}

TEST(LinearProgram, obeys_limits_that_are_changed_between_solves) {
  auto program = glass();
  (void)program.solve();
  program.limit_column(1, 0, 3);
  auto answer = program.solve();
  EXPECT_NEAR(answer.value, 3 * 4 + 5 * 3, 1e-9);
  program.limit_column(1, 0, kNoLimit);
  program.limit_row(2, -kNoLimit, 12);
  answer = program.solve();
  EXPECT_NEAR(answer.value, 30, 1e-9);  // b = 6 uses all of row 3
}

TEST(LinearProgram, tells_no_solution_from_no_end) {
  LinearProgram none;
  none.add_row(2, kNoLimit);
  none.add_column(1, 0, 1, {{0, 1}});
  EXPECT_EQ(none.solve().status, Status::infeasible);
  LinearProgram endless;
  endless.add_row(0, kNoLimit);
  endless.add_column(1, 0, kNoLimit, {{0, 1}});
  EXPECT_EQ(endless.solve().status, Status::unbounded);
}

}  // namespace
}  // namespace benchgraft::num
