// Slow twin of the choice of adaptations: every subset is tried.
#pragma once

#include <cstddef>
#include <set>
#include <string>
#include <vector>

namespace benchgraft::fit_adapt_twin {

/// One piece of work: the faults it cures, what it costs, the works it needs and excludes.
struct Work {
  std::set<int> cures;
  double cost = 0;
  std::set<std::size_t> needs, excludes;
};

struct Choice {
  std::size_t open = 0;  ///< faults that stay
  double cost = 0;
};

/// The least cost of a subset that leaves as few of `faults` open as can be. Cost: 2^works.
Choice try_all(const std::vector<Work>& works, int faults);

/// True when every name's needs (by name) stand before it in `order`.
bool needs_come_first(const std::vector<std::string>& order, const std::vector<Work>& works);

}  // namespace benchgraft::fit_adapt_twin
