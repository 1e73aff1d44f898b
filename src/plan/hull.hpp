// Corners of what can be attained in (log chance, cost): where price x e^q - c can be highest.
#pragma once

#include <vector>

namespace benchgraft::plan {

/// One step along the frontier: more chance for more cost.
struct Edge {
  double q = 0, cost = 0;
  int place = 0, source = 0;  ///< which source the step leads to, and where
  [[nodiscard]] double slope() const { return cost / q; }
};

/// From the cheapest corner upwards; edges by rising slope.
struct Frontier {
  double q = 0, cost = 0;
  int source = 0;  ///< of the cheapest corner; only for the frontier of one place
  std::vector<Edge> edges;
};

struct Point {
  double q = 0, cost = 0;
  int source = 0;
};

/// Frontier of the points of one place. `points` is not empty.
Frontier frontier_of(std::vector<Point> points, int place);

/// Frontier of the sum of two.
Frontier sum(const Frontier& a, const Frontier& b);

/// The highest price x e^q - c over the corners of a + b; `corner` = how many merged edges lead
/// there.
double highest(double price, const Frontier& a, const Frontier& b, std::size_t* corner = nullptr);

}  // namespace benchgraft::plan
