#include "align/posterior.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace benchgraft::align {
namespace {

constexpr std::size_t kCentres = 129, kStates = 384;
constexpr int kMostPasses = 5;
constexpr double kNothing = 1e-5;  // share of belief that may be left outside when closing in
// The right value may lie outside what can be set; that has to be said, not forced inside.
constexpr double kBeyond = 0.08;
// Nobody is sure of a hunch: this much belief stays spread over the whole range.
constexpr double kNoHunch = 0.15;

using Models = std::vector<std::unique_ptr<ResponseModel>>;

/// Log sum of all shapes of one model at one centre; the shapes' own parts go to `each`.
double over_shapes(const ResponseModel& model, double centre, std::vector<double>& each) {
  each.resize(model.shapes());
  double most = -INFINITY;
  for (std::size_t shape = 0; shape < each.size(); ++shape) {
    each[shape] = model.log_prior(shape) + model.log_chance(centre, shape);
    most = std::max(most, each[shape]);
  }
  double sum = 0;
  for (double& part : each) sum += part = std::exp(part - most);
  for (double& part : each) part /= sum;
  return most + std::log(sum);
}

double log_hunch(double centre, const Scale& scale, const std::optional<Hunch>& hunch) {
  if (!hunch) return 0;
  const double off = (centre - hunch->value) / hunch->error;
  return std::log((1 - kNoHunch) * std::exp(-off * off / 2) / (2.5066 * hunch->error) +
                  kNoHunch / scale.span());
}

/// Chances of all centres, and of the asked model's shapes at each.
struct Grid {
  std::vector<double> centres, chances;
  std::vector<std::vector<double>> shapes;
};

Grid judged(const Models& models, const Scale& scale, const std::optional<Hunch>& hunch,
            const catalogue::Range& stretch) {
  Grid grid;
  std::vector<double> unused;
  for (std::size_t i = 0; i < kCentres; ++i) {
    const double share = static_cast<double>(i) / (kCentres - 1);
    const double centre = stretch.low + share * (stretch.high - stretch.low);
    double chance = log_hunch(centre, scale, hunch);
    for (std::size_t m = 0; m < models.size(); ++m)
      chance += over_shapes(*models[m], centre, m == 0 ? grid.shapes.emplace_back() : unused);
    grid.centres.push_back(centre);
    grid.chances.push_back(chance);
  }
  const double most = *std::max_element(grid.chances.begin(), grid.chances.end());
  double sum = 0;
  for (double& chance : grid.chances) sum += chance = std::exp(chance - most);
  for (double& chance : grid.chances) chance /= sum;
  return grid;
}

/// The part of the grid that holds all belief but kNothing, with two cells to spare at each end.
catalogue::Range closed_in(const Grid& grid, const catalogue::Range& within) {
  const auto count = static_cast<int>(grid.centres.size());
  int first = 0, last = count - 1;
  for (double out = 0; first < last && (out += grid.chances[first]) < kNothing;) ++first;
  for (double out = 0; last > first && (out += grid.chances[last]) < kNothing;) --last;
  const double cell = grid.centres[1] - grid.centres[0];
  return {std::max(within.low, grid.centres[first] - 2 * cell),
          std::min(within.high, grid.centres[last] + 2 * cell)};
}

/// Equally likely states: a comb of kStates teeth through the summed-up belief.
std::vector<State> states_of(const Grid& grid) {
  std::vector<State> states;
  double passed = 0;
  for (std::size_t i = 0; i < grid.centres.size(); ++i)
    for (std::size_t shape = 0; shape < grid.shapes[i].size(); ++shape) {
      passed += grid.chances[i] * grid.shapes[i][shape];
      while (states.size() < kStates && passed * kStates > static_cast<double>(states.size()) + 0.5)
        states.push_back({grid.centres[i], shape});
    }
  while (states.size() < kStates) states.push_back(states.back());
  return states;
}

State most_likely(const Grid& grid) {
  State best;
  double most = -1;
  for (std::size_t i = 0; i < grid.centres.size(); ++i)
    for (std::size_t shape = 0; shape < grid.shapes[i].size(); ++shape)
      if (const double chance = grid.chances[i] * grid.shapes[i][shape]; chance > most)
        most = chance, best = {grid.centres[i], shape};
  return best;
}

}  // namespace

double Belief::quantile(double part) const {
  double below = 0;
  for (std::size_t i = 0; i < centres.size(); ++i) {
    if (below + chances[i] >= part) {
      // Each centre stands for the cell around it.
      const double cell = centres[1] - centres[0];
      const double share = chances[i] > 0 ? (part - below) / chances[i] : 0.5;
      return std::clamp(centres[i] + (share - 0.5) * cell, centres.front(), centres.back());
    }
    below += chances[i];
  }
  return centres.back();
}

Belief believe(const Models& models, const Scale& scale, const std::optional<Hunch>& hunch) {
  const double beyond = kBeyond * scale.span();
  const catalogue::Range whole{scale.low - beyond, scale.high + beyond};
  catalogue::Range stretch = whole;
  Grid grid = judged(models, scale, hunch, stretch);
  for (int pass = 1; pass < kMostPasses; ++pass) {
    const catalogue::Range closer = closed_in(grid, whole);
    const double cell = (stretch.high - stretch.low) / (kCentres - 1);
    if (closer.high - closer.low > 0.6 * (stretch.high - stretch.low) || cell < scale.step / 16)
      break;
    stretch = closer;
    grid = judged(models, scale, hunch, stretch);
  }
  return {grid.centres, grid.chances, states_of(grid), most_likely(grid)};
}

}  // namespace benchgraft::align
