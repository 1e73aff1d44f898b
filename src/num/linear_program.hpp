// A linear program that grows by columns: solve, read the duals, add what pays, solve again.
#pragma once

#include <memory>
#include <utility>
#include <vector>

namespace benchgraft::num {

inline constexpr double kNoLimit = 1e30;  ///< of a bound: none on that side

enum class Status {
  optimal,
  feasible,    ///< a solution, not proven to be the best
  infeasible,  ///< no solution exists
  unbounded,
  undecided,  ///< stopped before anything was found
};

/// How often a row (first) counts one unit of the new column.
using Entries = std::vector<std::pair<int, double>>;

/// Maximises the sum of value x amount, subject to low <= row <= high and low <= amount <= high.
/// One object belongs to one thread.
class LinearProgram {
 public:
  struct Answer {
    Status status = Status::undecided;
    double value = 0;
    std::vector<double> amounts;  ///< one per column
    std::vector<double> duals;    ///< one per row: what one more unit of its limit would add
  };

  LinearProgram();
  ~LinearProgram();
  LinearProgram(LinearProgram&&) noexcept;
  LinearProgram& operator=(LinearProgram&&) noexcept;

  int add_row(double low, double high);
  int add_column(double value, double low, double high, const Entries& entries);
  void limit_row(int row, double low, double high);
  void limit_column(int column, double low, double high);
  void value_column(int column, double value);
  [[nodiscard]] int rows() const;
  [[nodiscard]] int columns() const;
  /// Starts from where the last solve ended.
  Answer solve();

 private:
  struct Model;
  std::unique_ptr<Model> model_;
};

}  // namespace benchgraft::num
