#include "support/fit_adapt_twin.hpp"

#include <algorithm>

namespace benchgraft::fit_adapt_twin {
namespace {

bool allowed(const std::vector<Work>& works, std::size_t mask) {
  for (std::size_t i = 0; i < works.size(); ++i) {
    if ((mask >> i & 1U) == 0) continue;
    for (const auto need : works[i].needs)
      if ((mask >> need & 1U) == 0) return false;
    for (const auto other : works[i].excludes)
      if ((mask >> other & 1U) != 0) return false;
  }
  return true;
}

}  // namespace

Choice try_all(const std::vector<Work>& works, int faults) {
  Choice best{static_cast<std::size_t>(faults) + 1, 0};
  for (std::size_t mask = 0; mask < (std::size_t{1} << works.size()); ++mask) {
    if (!allowed(works, mask)) continue;
    std::set<int> covered;
    double cost = 0;
    for (std::size_t i = 0; i < works.size(); ++i) {
      if ((mask >> i & 1U) == 0) continue;
      covered.insert(works[i].cures.begin(), works[i].cures.end());
      cost += works[i].cost;
    }
    const std::size_t open = static_cast<std::size_t>(faults) - covered.size();
    if (open < best.open || (open == best.open && cost < best.cost)) best = {open, cost};
  }
  return best;
}

bool needs_come_first(const std::vector<std::string>& order, const std::vector<Work>& works) {
  const auto place = [&](std::size_t work) {
    return std::find(order.begin(), order.end(), "w" + std::to_string(work));
  };
  for (std::size_t i = 0; i < works.size(); ++i)
    for (const auto need : works[i].needs)
      if (place(i) != order.end() && !(place(need) < place(i))) return false;
  return true;
}

}  // namespace benchgraft::fit_adapt_twin
