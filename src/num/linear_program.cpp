#include "num/linear_program.hpp"

#include <ClpSimplex.hpp>

#include "base/ensure.hpp"

namespace benchgraft::num {

struct LinearProgram::Model {
  ClpSimplex simplex;
  bool solved = false;
};

LinearProgram::LinearProgram() : model_(std::make_unique<Model>()) {
  model_->simplex.setLogLevel(0);
  model_->simplex.setOptimizationDirection(-1);  // maximise
}
LinearProgram::~LinearProgram() = default;
LinearProgram::LinearProgram(LinearProgram&&) noexcept = default;
LinearProgram& LinearProgram::operator=(LinearProgram&&) noexcept = default;

int LinearProgram::add_row(double low, double high) {
  model_->simplex.addRow(0, nullptr, nullptr, low, high);
  return rows() - 1;
}

int LinearProgram::add_column(double value, double low, double high, const Entries& entries) {
  std::vector<int> index;
  std::vector<double> element;
  for (const auto& [row, amount] : entries) {
    ensure(row >= 0 && row < rows(), "a column counts in a row that is not there");
    index.push_back(row);
    element.push_back(amount);
  }
  model_->simplex.addColumn(static_cast<int>(index.size()), index.data(), element.data(), low, high,
                            value);
  return columns() - 1;
}

void LinearProgram::limit_row(int row, double low, double high) {
  model_->simplex.setRowBounds(row, low, high);
}

void LinearProgram::limit_column(int column, double low, double high) {
  model_->simplex.setColumnBounds(column, low, high);
}

void LinearProgram::value_column(int column, double value) {
  model_->simplex.setObjectiveCoefficient(column, value);
}

int LinearProgram::rows() const { return model_->simplex.numberRows(); }
int LinearProgram::columns() const { return model_->simplex.numberColumns(); }

LinearProgram::Answer LinearProgram::solve() {
  ClpSimplex& simplex = model_->simplex;
  // After new columns the old corner is still feasible, after new limits still dual feasible.
  if (model_->solved && simplex.primalFeasible())
    simplex.primal(1);
  else
    simplex.dual();
  if (simplex.status() != 0 && simplex.status() != 1) simplex.primal();
  model_->solved = true;
  Answer answer;
  answer.status = simplex.status() == 0   ? Status::optimal
                  : simplex.status() == 1 ? Status::infeasible
                  : simplex.status() == 2 ? Status::unbounded
                                          : Status::undecided;
  if (answer.status != Status::optimal) return answer;
  answer.value = simplex.objectiveValue();
  answer.amounts.assign(simplex.primalColumnSolution(),
                        simplex.primalColumnSolution() + simplex.numberColumns());
  answer.duals.assign(simplex.dualRowSolution(), simplex.dualRowSolution() + simplex.numberRows());
  return answer;
}

}  // namespace benchgraft::num
