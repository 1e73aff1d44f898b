// What is believed about the right value after the readings, on a grid that follows them.
#pragma once

#include <memory>
#include <vector>

#include "align/response.hpp"

namespace benchgraft::align {

/// One case to reckon with: the right value and the shape of the observer that is asked. All
/// states of a belief are equally likely.
struct State {
  double centre = 0;
  std::size_t shape = 0;
};

/// Chance of each centre, and states that stand for the whole.
struct Belief {
  std::vector<double> centres;
  std::vector<double> chances;  ///< of the centres; they add up to 1
  std::vector<State> states;    ///< in the order of their centres
  State best;                   ///< the most likely one

  /// The centre with the share `part` (0..1) of belief below it.
  [[nodiscard]] double quantile(double part) const;
};

/// Where a value found before, or the present one, says that the right one may be near.
struct Hunch {
  double value = 0;
  double error = 0;
};

/// Exact sums on a grid of centres; the grid closes in until a cell is small against what is left.
/// in: `models`, the asked one first; all judge the same right value. cost: under 2 ms.
Belief believe(const std::vector<std::unique_ptr<ResponseModel>>& models, const Scale& scale,
               const std::optional<Hunch>& hunch);

}  // namespace benchgraft::align
