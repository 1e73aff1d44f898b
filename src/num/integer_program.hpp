// A linear program some of whose amounts are whole numbers, solved by branch and cut.
#pragma once

#include <vector>

#include "base/result.hpp"
#include "num/linear_program.hpp"

namespace benchgraft::num {

struct Column {
  double value = 0;
  double low = 0, high = 1;
  bool whole = true;
  Entries entries;
};

struct Row {
  double low = -kNoLimit, high = kNoLimit;
};

/// Maximises the sum of value x amount.
struct IntegerProgram {
  std::vector<Row> rows;
  std::vector<Column> columns;
  std::vector<double> start;  ///< amounts of a solution known beforehand; may be empty
  double seconds = 60;        ///< elapsed, then the best found so far is given
  int nodes = 1000000;        ///< of the search tree
  double close_enough = 0;    ///< stop when value and bound differ by at most this
};

struct IntegerAnswer {
  Status status = Status::undecided;
  double value = 0;  ///< of `amounts`
  double bound = 0;  ///< no solution is worth more
  std::vector<double> amounts;
};

/// Fails on a start that breaks a row, on numbers that are not finite, and when the solver gives
/// up.
Result<IntegerAnswer> solve(const IntegerProgram& program);

/// True when `amounts` keep every limit within `tolerance` and whole numbers are whole.
bool holds(const IntegerProgram& program, const std::vector<double>& amounts, double tolerance);

}  // namespace benchgraft::num
