#include "plan/hull.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace benchgraft::plan {
namespace {

bool flatter(const Edge& a, const Edge& b) { return a.cost * b.q < b.cost * a.q; }

}  // namespace

Frontier frontier_of(std::vector<Point> points, int place) {
  std::sort(points.begin(), points.end(), [](const Point& a, const Point& b) {
    if (a.cost != b.cost) return a.cost < b.cost;
    if (a.q != b.q) return a.q > b.q;
    return a.source < b.source;
  });
  // Lower hull of cost over q, from the cheapest point on; a point without more chance is dropped.
  std::vector<Point> hull;
  for (const auto& point : points) {
    if (!hull.empty() && point.q <= hull.back().q) continue;
    while (hull.size() >= 2) {
      const auto &a = hull[hull.size() - 2], &b = hull.back();
      const bool below = (b.cost - a.cost) * (point.q - b.q) < (point.cost - b.cost) * (b.q - a.q);
      if (below) break;
      hull.pop_back();
    }
    hull.push_back(point);
  }
  Frontier frontier{hull.front().q, hull.front().cost, hull.front().source, {}};
  for (std::size_t i = 1; i < hull.size(); ++i)
    frontier.edges.push_back(
        {hull[i].q - hull[i - 1].q, hull[i].cost - hull[i - 1].cost, place, hull[i].source});
  return frontier;
}

Frontier sum(const Frontier& a, const Frontier& b) {
  Frontier both{a.q + b.q, a.cost + b.cost, 0, {}};
  both.edges.reserve(a.edges.size() + b.edges.size());
  std::merge(a.edges.begin(), a.edges.end(), b.edges.begin(), b.edges.end(),
             std::back_inserter(both.edges), flatter);
  return both;
}

double highest(double price, const Frontier& a, const Frontier& b, std::size_t* corner) {
  double q = a.q + b.q, cost = a.cost + b.cost;
  double best = price * std::exp(q) - cost;
  std::size_t i = 0, j = 0, taken = 0;
  if (corner) *corner = 0;
  while (i < a.edges.size() || j < b.edges.size()) {
    const bool from_b =
        i == a.edges.size() || (j < b.edges.size() && flatter(b.edges[j], a.edges[i]));
    const Edge& edge = from_b ? b.edges[j++] : a.edges[i++];
    q += edge.q;
    cost += edge.cost;
    ++taken;
    const double value = price * std::exp(q) - cost;
    if (value <= best) continue;
    best = value;
    if (corner) *corner = taken;
  }
  return best;
}

}  // namespace benchgraft::plan
