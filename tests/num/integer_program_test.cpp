#include "num/integer_program.hpp"

#include <cmath>
#include <limits>
#include <random>

#include <gtest/gtest.h>

namespace benchgraft::num {
namespace {

IntegerProgram knapsack(const std::vector<double>& profits, const std::vector<double>& weights,
                        double capacity) {
  IntegerProgram program;
  program.rows = {{-kNoLimit, capacity}};
  for (std::size_t j = 0; j < profits.size(); ++j)
    program.columns.push_back({profits[j], 0, 1, true, {{0, weights[j]}}});
  return program;
}

// Tries every 0/1 vector; nothing shared with the solver.
double best_of_all(const IntegerProgram& program) {
  const std::size_t n = program.columns.size();
  double best = -std::numeric_limits<double>::infinity();
  for (std::size_t bits = 0; bits < (std::size_t{1} << n); ++bits) {
    std::vector<double> used(program.rows.size(), 0.0);
    double value = 0;
    for (std::size_t j = 0; j < n; ++j) {
      if (!(bits >> j & 1)) continue;
      value += program.columns[j].value;
      for (const auto& [row, amount] : program.columns[j].entries)
        used[static_cast<std::size_t>(row)] += amount;
    }
    bool good = true;
    for (std::size_t i = 0; i < used.size(); ++i)
      good =
          good && used[i] <= program.rows[i].high + 1e-9 && used[i] >= program.rows[i].low - 1e-9;
    if (good) best = std::max(best, value);
  }
  return best;
}

// P01 of Kreher & Stinson, Combinatorial Algorithms (1999), as spread in public knapsack
// collections; from memory, and tried out in full below.
TEST(IntegerProgram, finds_the_published_optimum_of_a_knapsack) {
  const auto program = knapsack({92, 57, 49, 68, 60, 43, 67, 84, 87, 72},
                                {23, 31, 29, 44, 53, 38, 63, 85, 89, 82}, 165);
  const auto answer = solve(program);
  ASSERT_TRUE(answer.ok());
  EXPECT_EQ(answer.value().status, Status::optimal);
  EXPECT_NEAR(answer.value().value, 309, 1e-6);
  EXPECT_NEAR(answer.value().bound, 309, 1e-6);
  EXPECT_NEAR(best_of_all(program), 309, 1e-9);
  EXPECT_EQ(answer.value().amounts, (std::vector<double>{1, 1, 1, 1, 0, 1, 0, 0, 0, 0}));
}

TEST(IntegerProgram, agrees_with_trying_everything_on_random_programs) {
  for (unsigned seed = 1; seed <= 60; ++seed) {
    std::mt19937 random(seed);
    const auto draw = [&](int low, int high) {
      return std::uniform_int_distribution<int>(low, high)(random);
    };
    IntegerProgram program;
    for (int i = 0; i < 4; ++i) program.rows.push_back({-kNoLimit, double(draw(2, 12))});
    program.rows.push_back({double(draw(0, 2)), kNoLimit});
    for (int j = 0; j < 10; ++j) {
      Column column{double(draw(-5, 20)), 0, 1, true, {}};
      for (int i = 0; i < 5; ++i)
        if (draw(0, 1)) column.entries.push_back({i, double(draw(i < 4 ? -2 : 0, 5))});
      program.columns.push_back(column);
    }
    const double twin = best_of_all(program);
    const auto answer = solve(program);
    ASSERT_TRUE(answer.ok()) << "seed " << seed << ": " << answer.error().message;
    if (std::isinf(twin)) {
      EXPECT_EQ(answer.value().status, Status::infeasible) << "seed " << seed;
      continue;
    }
    EXPECT_EQ(answer.value().status, Status::optimal) << "seed " << seed;
    EXPECT_NEAR(answer.value().value, twin, 1e-6) << "seed " << seed;
    EXPECT_TRUE(holds(program, answer.value().amounts, 1e-6)) << "seed " << seed;
  }
}

TEST(IntegerProgram, keeps_the_start_and_an_honest_bound_when_it_is_stopped_at_once) {
  std::mt19937 random(7);
  IntegerProgram program;
  for (int i = 0; i < 12; ++i) program.rows.push_back({-kNoLimit, 101});
  for (int j = 0; j < 40; ++j) {
    Column column{double(10 + random() % 30), 0, 1, true, {}};
    for (int i = 0; i < 12; ++i) column.entries.push_back({i, double(random() % 40)});
    program.columns.push_back(column);
  }
  program.start.assign(40, 0);
  program.start[3] = 1;
  program.nodes = 0;
  const auto stopped = solve(program);
  ASSERT_TRUE(stopped.ok());
  EXPECT_GE(stopped.value().value, program.columns[3].value);
  program.nodes = 1000000;
  const auto full = solve(program);
  ASSERT_TRUE(full.ok());
  ASSERT_EQ(full.value().status, Status::optimal);
  EXPECT_LE(stopped.value().value, full.value().value + 1e-6);
  EXPECT_GE(stopped.value().bound, full.value().value - 1e-6);
}

TEST(IntegerProgram, mixes_whole_and_broken_amounts) {
  // max 2x + y, x + y <= 2.5, x whole: x = 2, y = 0.5.
  IntegerProgram program;
  program.rows = {{-kNoLimit, 2.5}};
  program.columns = {{2, 0, 10, true, {{0, 1}}}, {1, 0, 10, false, {{0, 1}}}};
  const auto answer = solve(program);
  ASSERT_TRUE(answer.ok());
  EXPECT_NEAR(answer.value().value, 4.5, 1e-6);
  EXPECT_NEAR(answer.value().amounts[1], 0.5, 1e-6);
}

TEST(IntegerProgram, says_when_there_is_no_end) {
  IntegerProgram program;
  program.rows = {{0, kNoLimit}};
  program.columns = {{1, 0, kNoLimit, false, {{0, 1}}}};
  const auto answer = solve(program);
  ASSERT_TRUE(answer.ok());
  EXPECT_EQ(answer.value().status, Status::unbounded);
}

TEST(IntegerProgram, gives_nothing_for_nothing) {
  const auto answer = solve({});
  ASSERT_TRUE(answer.ok());
  EXPECT_EQ(answer.value().status, Status::optimal);
  EXPECT_EQ(answer.value().value, 0);
}

TEST(IntegerProgram, refuses_a_start_that_breaks_a_limit) {
  auto program = knapsack({5, 4}, {3, 3}, 4);
  program.start = {1, 1};
  const auto answer = solve(program);
  ASSERT_FALSE(answer.ok());
  EXPECT_EQ(answer.error().message,
            "The start given to the integer program breaks one of its limits.");
}

TEST(IntegerProgram, refuses_a_value_that_is_not_a_number) {
  auto program = knapsack({5, 4}, {3, 3}, 4);
  program.columns[1].value = std::nan("");
  EXPECT_FALSE(solve(program).ok());
}

}  // namespace
}  // namespace benchgraft::num
