// BarNeighbour light in the bars of the index page. Model: docs/methods/align_photo.md.
#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "align/photo_bars.hpp"

namespace benchgraft::align {
namespace {

// Below this share of white a phone's colour matrix has cut the value at nothing: it says "little",
// not how little.
constexpr double kFloor = 0.008;
constexpr double kRelative = 0.01, kAbsolute = 0.003;  // what patches of one photo do not show

/// One equation: seen = start + overlap * slope, with its deviation.
struct Equation {
  double start = 0, slope = 0, seen = 0, deviation = 1;
};

struct Fit {
  double overlap = 0, error = 0, misfit = 0;
};

/// BarColour per unit of window: a clear segment passes what all three pass together.
BarColour per_window(const BarColours& pure, const WheelOrder& order, BarNeighbour of) {
  BarColour sum{};
  for (std::size_t i = 0; i < 3; ++i) {
    if (of != BarNeighbour::white && i != static_cast<std::size_t>(of)) continue;
    for (std::size_t c = 0; c < 3; ++c) sum[c] += pure.bar[i][c] / order.window[i];
  }
  return sum;
}

void add_equations(const BarColours& seen, const BarColours& pure, const WheelOrder& order,
                   std::size_t bar, BarNeighbour other, std::vector<Equation>& all) {
  const BarColour neighbour = per_window(pure, order, other);
  for (std::size_t c = 0; c < 3; ++c) {
    Equation e;
    e.start = pure.bar[bar][c];
    e.slope = neighbour[c] - pure.bar[bar][c] / order.window[bar];
    e.seen = seen.bar[bar][c];
    const double level = std::max(std::abs(e.seen), std::abs(e.start));
    e.deviation = std::sqrt(kAbsolute * kAbsolute + kRelative * kRelative * level * level +
                            seen.error[bar][c] * seen.error[bar][c] +
                            pure.error[bar][c] * pure.error[bar][c]);
    if (e.start < kFloor) {
      if (e.seen < kFloor) continue;
      e.deviation += 0.03;
    }
    all.push_back(e);
  }
}

/// Least squares for overlap >= 0.
Fit fitted(const std::vector<Equation>& equations) {
  double up = 0, down = 0;
  for (const Equation& e : equations) {
    const double w = 1 / (e.deviation * e.deviation);
    up += w * e.slope * (e.seen - e.start);
    down += w * e.slope * e.slope;
  }
  Fit fit;
  if (down <= 0) return {0, std::numeric_limits<double>::infinity(), 0};
  fit.overlap = std::max(0.0, up / down);
  fit.error = 1 / std::sqrt(down);
  double sum = 0;
  for (const Equation& e : equations) {
    const double off = (e.seen - e.start - fit.overlap * e.slope) / e.deviation;
    sum += off * off;
  }
  fit.misfit = std::sqrt(sum / static_cast<double>(equations.size()));
  fit.error *= std::max(1.0, fit.misfit);
  return fit;
}

Fit late_or_early(const std::vector<Equation>& late, const std::vector<Equation>& early) {
  const Fit after = fitted(late);
  Fit before = fitted(early);
  if (after.misfit <= before.misfit) return after;
  before.overlap = -before.overlap;
  return before;
}

std::size_t nearest_hue(const BarColour& seen, const BarColours& pure) {
  std::size_t best = 0;
  double best_cosine = -1;
  const auto norm = [](const BarColour& c) {
    return std::sqrt(std::max(c[0] * c[0] + c[1] * c[1] + c[2] * c[2], 1e-12));
  };
  for (std::size_t i = 0; i < 3; ++i) {
    double product = 0;
    for (std::size_t c = 0; c < 3; ++c) product += seen[c] * pure.bar[i][c];
    const double cosine = product / (norm(seen) * norm(pure.bar[i]));
    if (cosine > best_cosine) best_cosine = cosine, best = i;
  }
  return best;
}

}  // namespace

Mixing mixing(const BarColours& seen, const BarColours& pure, const WheelOrder& order) {
  Mixing result;
  std::vector<Equation> late, early;
  for (std::size_t bar = 0; bar < 3; ++bar) {
    add_equations(seen, pure, order, bar, order.next[bar], late);
    add_equations(seen, pure, order, bar, order.previous[bar], early);
    result.looks_like[bar] = nearest_hue(seen.bar[bar], pure);
  }
  const Fit joint = late_or_early(late, early);
  // One wheel, one delay: each bar is asked in the direction all three agree on best.
  const bool is_late = joint.overlap >= 0;
  for (std::size_t bar = 0; bar < 3; ++bar) {
    std::vector<Equation> own;
    add_equations(seen, pure, order, bar, is_late ? order.next[bar] : order.previous[bar], own);
    const Fit fit = fitted(own);
    result.share[bar] = (is_late ? fit.overlap : -fit.overlap) / order.window[bar];
    result.error[bar] = fit.error / order.window[bar];
  }
  result.overlap = joint.overlap;
  result.overlap_error = joint.error;
  result.misfit = joint.misfit;
  return result;
}

}  // namespace benchgraft::align
