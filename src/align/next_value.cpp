#include <algorithm>
#include <cmath>
#include <limits>

#include "align/estimate.hpp"

namespace benchgraft::align {
namespace {

constexpr std::size_t kOverAll = 40, kNear = 30;  // values tried: a wide comb and a closer one
constexpr std::size_t kEvery = 3;                 // a third of the states is enough to rank values
constexpr std::size_t kOutcomes = 12;             // numbers a reading may show, by their quantiles

/// What one outcome would tell: how far it shifts belief away from all states being alike (nats).
struct Shift {
  double weight = 0, weight_log = 0;
  void add(double w, double log_w) { weight += w, weight_log += w * log_w; }
  [[nodiscard]] double told(std::size_t states) const {
    return weight_log / weight - std::log(weight / static_cast<double>(states));
  }
};

/// One forecast for each state.
using Outlook = std::vector<Forecast>;

double told_by_a_word(const Outlook& outlook) {
  double told = 0;
  for (std::size_t word = 0; word < outlook.front().words.size(); ++word) {
    Shift shift;
    for (const auto& forecast : outlook)
      if (const double chance = forecast.words[word]; chance > 0)
        shift.add(chance, std::log(chance));
    if (shift.weight > 0)
      told += shift.weight / static_cast<double>(outlook.size()) * shift.told(outlook.size());
  }
  return told;
}

double told_by_a_number(const Outlook& outlook) {
  std::vector<double> means, logs;
  for (const auto& forecast : outlook) {
    means.push_back(forecast.mean);
    logs.push_back(std::log(forecast.variance));
  }
  std::sort(means.begin(), means.end());
  double told = 0;
  for (std::size_t k = 0; k < kOutcomes; ++k) {
    const double number = means[(2 * k + 1) * means.size() / (2 * kOutcomes)];
    Shift shift;
    for (std::size_t i = 0; i < outlook.size(); ++i) {
      const double off = number - outlook[i].mean;
      const double log_weight = -0.5 * (off * off / outlook[i].variance + logs[i]);
      shift.add(std::exp(log_weight) + 1e-300, log_weight);
    }
    told += shift.told(outlook.size()) / kOutcomes;
  }
  return told;
}

bool is_read(double value, const Scale& scale, const std::vector<Look>& looks) {
  return std::any_of(looks.begin(), looks.end(), [&](const Look& look) {
    return std::abs(look.value - value) < scale.step / 2;
  });
}

/// Values worth trying: two combs over where the centre may be, and a little beyond.
std::vector<double> candidates(const ResponseModel& asked, const Belief& belief, const Scale& scale,
                               const std::vector<Look>& looks) {
  std::vector<double> values;
  const auto comb = [&](double low, double high, std::size_t count) {
    for (std::size_t i = 0; i < count; ++i)
      values.push_back(scale.on_step(low + (high - low) * (static_cast<double>(i) + 0.5) /
                                               static_cast<double>(count)));
  };
  const double low = belief.quantile(0.05), high = belief.quantile(0.95);
  const auto around = [&](double margin, std::size_t count) {
    comb(std::max(scale.low, low - margin), std::min(scale.high, high + margin), count);
  };
  // Nobody is sent far outside of where the right value may be, even if that told a little more.
  around(0.25 * (high - low) + 4 * scale.step, kOverAll);
  around(0.05 * (high - low) + 2 * scale.step, kNear);
  std::sort(values.begin(), values.end());
  values.erase(std::unique(values.begin(), values.end()), values.end());
  // The same word at the same value would be said again.
  if (asked.by_word())
    std::erase_if(values, [&](double value) { return is_read(value, scale, looks); });
  return values;
}

}  // namespace

double next_value(const ResponseModel& asked, const Belief& belief, const Scale& scale,
                  const std::vector<Look>& looks) {
  const auto values = candidates(asked, belief, scale, looks);
  std::vector<Outlook> outlooks(values.size());
  std::vector<Forecast> row(values.size());
  for (std::size_t i = 0; i < belief.states.size(); i += kEvery) {
    asked.forecast(values, belief.states[i].centre, belief.states[i].shape, row);
    for (std::size_t v = 0; v < values.size(); ++v) outlooks[v].push_back(row[v]);
  }
  double best = scale.on_step(belief.quantile(0.5)), most = -std::numeric_limits<double>::max();
  for (std::size_t v = 0; v < values.size(); ++v) {
    const double told =
        asked.by_word() ? told_by_a_word(outlooks[v]) : told_by_a_number(outlooks[v]);
    if (told > most + 1e-12) most = told, best = values[v];
  }
  return best;
}

}  // namespace benchgraft::align
