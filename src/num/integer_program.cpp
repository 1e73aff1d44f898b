#include "num/integer_program.hpp"

#include <algorithm>
#include <cmath>

#include <CbcHeuristicLocal.hpp>
#include <CbcHeuristicRINS.hpp>
#include <CbcModel.hpp>
#include <CglClique.hpp>
#include <CglKnapsackCover.hpp>
#include <CglProbing.hpp>
#include <CglZeroHalf.hpp>
#include <CoinPackedMatrix.hpp>
#include <OsiClpSolverInterface.hpp>

namespace benchgraft::num {
namespace {

constexpr double kWhole = 1e-5;       ///< how far from a whole number counts as whole
constexpr double kNoSolution = 1e49;  // the solver says 1e50 when it has none

Error bad(const char* what) { return {ErrorKind::bad_input, what}; }

double value_of(const IntegerProgram& program, const std::vector<double>& amounts) {
  double sum = 0;
  for (std::size_t j = 0; j < amounts.size(); ++j) sum += program.columns[j].value * amounts[j];
  return sum;
}

Result<void> check(const IntegerProgram& program) {
  const int rows = static_cast<int>(program.rows.size());
  for (const auto& column : program.columns) {
    if (!std::isfinite(column.value) || std::isnan(column.low) || std::isnan(column.high))
      return bad("A column of the integer program has a value or a limit that is not a number.");
    for (const auto& [row, amount] : column.entries)
      if (row < 0 || row >= rows || !std::isfinite(amount))
        return bad("A column of the integer program counts in a row that is not there.");
  }
  if (!program.start.empty() && !holds(program, program.start, 1e-6))
    return bad("The start given to the integer program breaks one of its limits.");
  return {};
}

void load(OsiClpSolverInterface& solver, const IntegerProgram& program) {
  std::vector<int> rows, columns;
  std::vector<double> elements, low, high, value, row_low, row_high;
  for (std::size_t j = 0; j < program.columns.size(); ++j) {
    const auto& column = program.columns[j];
    for (const auto& [row, amount] : column.entries) {
      rows.push_back(row);
      columns.push_back(static_cast<int>(j));
      elements.push_back(amount);
    }
    low.push_back(column.low);
    high.push_back(column.high);
    value.push_back(-column.value);  // the solver minimises
  }
  for (const auto& row : program.rows) {
    row_low.push_back(row.low);
    row_high.push_back(row.high);
  }
  CoinPackedMatrix matrix(true, rows.data(), columns.data(), elements.data(),
                          static_cast<CoinBigIndex>(elements.size()));
  matrix.setDimensions(static_cast<int>(program.rows.size()),
                       static_cast<int>(program.columns.size()));
  solver.loadProblem(matrix, low.data(), high.data(), value.data(), row_low.data(),
                     row_high.data());
  for (std::size_t j = 0; j < program.columns.size(); ++j)
    if (program.columns[j].whole) solver.setInteger(static_cast<int>(j));
}

void tune(CbcModel& model, const IntegerProgram& program) {
  model.setLogLevel(0);
  model.solver()->messageHandler()->setLogLevel(0);
  model.setUseElapsedTime(true);
  model.setMaximumSeconds(program.seconds);
  model.setMaximumNodes(program.nodes);
  model.setAllowableGap(program.close_enough);
  model.setIntegerTolerance(kWhole / 10);
  CglProbing probing;
  probing.setMaxPass(1);
  probing.setMaxProbe(10);
  CglClique clique;
  clique.setStarCliqueReport(false);
  clique.setRowCliqueReport(false);
  CglKnapsackCover cover;
  CglZeroHalf half;
  model.addCutGenerator(&probing, -1, "probing");
  model.addCutGenerator(&clique, -1, "clique");
  model.addCutGenerator(&cover, -1, "cover");
  model.addCutGenerator(&half, -1, "half");
  CbcHeuristicLocal local(model);
  CbcHeuristicRINS near(model);
  model.addHeuristic(&local);
  model.addHeuristic(&near);
}

// Whole numbers come back a little off; what stands on them must not.
void round_whole(const IntegerProgram& program, std::vector<double>& amounts) {
  for (std::size_t j = 0; j < amounts.size(); ++j)
    if (program.columns[j].whole) amounts[j] = std::round(amounts[j]);
}

IntegerAnswer read(const CbcModel& model, const IntegerProgram& program) {
  IntegerAnswer answer;
  const double* best = model.bestSolution();
  if (best && model.getObjValue() < kNoSolution) {
    answer.amounts.assign(best, best + program.columns.size());
    round_whole(program, answer.amounts);
    answer.value = value_of(program, answer.amounts);
  }
  answer.bound = -model.getBestPossibleObjValue();
  const bool finished = model.status() == 0;
  if (model.isProvenInfeasible() && answer.amounts.empty())
    answer.status = Status::infeasible;
  else if (model.isContinuousUnbounded())
    answer.status = Status::unbounded;
  else if (answer.amounts.empty())
    answer.status = Status::undecided;
  else
    answer.status = finished ? Status::optimal : Status::feasible;
  if (answer.status == Status::optimal) answer.bound = answer.value;
  answer.bound = std::max(answer.bound, answer.value);
  return answer;
}

}  // namespace

bool holds(const IntegerProgram& program, const std::vector<double>& amounts, double tolerance) {
  if (amounts.size() != program.columns.size()) return false;
  std::vector<double> sums(program.rows.size(), 0.0);
  for (std::size_t j = 0; j < amounts.size(); ++j) {
    const auto& column = program.columns[j];
    if (amounts[j] < column.low - tolerance || amounts[j] > column.high + tolerance) return false;
    if (column.whole && std::abs(amounts[j] - std::round(amounts[j])) > tolerance) return false;
    for (const auto& [row, amount] : column.entries)
      sums[static_cast<std::size_t>(row)] += amount * amounts[j];
  }
  for (std::size_t i = 0; i < sums.size(); ++i)
    if (sums[i] < program.rows[i].low - tolerance || sums[i] > program.rows[i].high + tolerance)
      return false;
  return true;
}

Result<IntegerAnswer> solve(const IntegerProgram& program) {
  if (auto good = check(program); !good) return good.error();
  if (program.columns.empty()) {
    IntegerAnswer nothing;
    nothing.status = holds(program, {}, 1e-9) ? Status::optimal : Status::infeasible;
    return nothing;
  }
  try {
    OsiClpSolverInterface solver;
    solver.messageHandler()->setLogLevel(0);
    load(solver, program);
    // Its presolve leaks (found with the address sanitizer) and gains nothing on rooms of this
    // size.
    solver.setHintParam(OsiDoPresolveInInitial, false, OsiHintDo);
    solver.setHintParam(OsiDoPresolveInResolve, false, OsiHintDo);
    CbcModel model(solver);
    tune(model, program);
    model.initialSolve();
    if (model.isProvenDualInfeasible() || model.solver()->isProvenDualInfeasible()) {
      IntegerAnswer endless;
      endless.status = Status::unbounded;
      return endless;
    }
    if (!program.start.empty())
      model.setBestSolution(program.start.data(), static_cast<int>(program.start.size()),
                            -value_of(program, program.start), true);
    model.branchAndBound();
    IntegerAnswer answer = read(model, program);
    const bool has = !answer.amounts.empty();
    if (has && !holds(program, answer.amounts, 1e-4))
      return Error{ErrorKind::conflict,
                   "The solver's answer breaks one of its own limits; please report this room."};
    return answer;
  } catch (const CoinError& error) {
    return Error{ErrorKind::limit, "The solver gave up on this room: " + error.message() + "."};
  }
}

}  // namespace benchgraft::num
