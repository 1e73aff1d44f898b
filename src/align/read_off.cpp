// Reads the answers off a belief: the value, its interval and band, and where to look next.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "align/estimate.hpp"

namespace benchgraft::align {
namespace {

constexpr double kSure = 0.9;      // of every value in the band
constexpr double kSettled = 0.95;  // of the value to set
constexpr double kAlike = 0.02;    // chances that differ by less are the same
constexpr double kContradicts = 0.06;
constexpr std::size_t kCurvePoints = 64;

double chance_of(double value, const ResponseModel& asked, const Belief& belief) {
  std::size_t good = 0;
  for (const auto& state : belief.states)
    if (asked.good(value, state.centre, state.shape)) ++good;
  return static_cast<double>(good) / static_cast<double>(belief.states.size());
}

bool contradicts(std::size_t look, const ResponseModel& asked, const Belief& belief) {
  return asked.agreement(look, belief.best.centre, belief.best.shape) < kContradicts;
}

/// The stretch of values seen good, left out those that contradict the rest; nothing where none
/// was.
std::optional<catalogue::Range> seen_stretch(const ResponseModel& asked, const Belief& belief,
                                             const std::vector<Look>& looks) {
  std::optional<catalogue::Range> stretch;
  for (std::size_t i = 0; i < looks.size(); ++i) {
    if (!looks[i].good || contradicts(i, asked, belief)) continue;
    if (!stretch) stretch = catalogue::Range{looks[i].value, looks[i].value};
    stretch = {std::min(stretch->low, looks[i].value), std::max(stretch->high, looks[i].value)};
  }
  return stretch;
}

/// The value most likely to do; of those that are alike, the one nearest to the middle of what is
/// believed. Where words said "good" already, nobody is sent to a value outside that stretch.
double value_to_set(const ResponseModel& asked, const Belief& belief, const Scale& scale,
                    const std::optional<catalogue::Range>& seen) {
  const catalogue::Range within =
      seen.value_or(catalogue::Range{belief.quantile(0.02), belief.quantile(0.98)});
  const double middle = std::clamp(belief.quantile(0.5), within.low, within.high);
  std::vector<Chance> tried{{scale.on_step(middle), 0}};
  for (int i = 0; i <= 40; ++i)
    tried.push_back({scale.on_step(within.low + (within.high - within.low) * i / 40), 0});
  double most = 0;
  for (auto& [value, chance] : tried)
    most = std::max(most, chance = chance_of(value, asked, belief));
  Chance best{tried.front().value, -1};
  for (const auto& one : tried) {
    if (one.chance < most - kAlike) continue;
    const bool nearer = std::abs(one.value - middle) < std::abs(best.value - middle);
    if (best.chance < 0 || nearer) best = one;
  }
  return best.value;
}

std::optional<catalogue::Range> band_around(double value, const ResponseModel& asked,
                                            const Belief& belief, const Scale& scale) {
  if (chance_of(value, asked, belief) < kSure) return std::nullopt;
  // At most 100 looks each way: a coarser stride where the range has very many steps.
  const double stride = scale.step * std::max(1.0, std::floor(scale.span() / scale.step / 512));
  catalogue::Range band{value, value};
  while (band.low - stride >= scale.low && chance_of(band.low - stride, asked, belief) >= kSure)
    band.low -= stride;
  while (band.high + stride <= scale.high && chance_of(band.high + stride, asked, belief) >= kSure)
    band.high += stride;
  return band;
}

void remark_on_contradictions(Estimate& out, const ResponseModel& asked, const Belief& belief,
                              const std::vector<Look>& looks) {
  if (looks.size() < 2) return;
  for (std::size_t i = 0; i < looks.size(); ++i)
    if (contradicts(i, asked, belief))
      out.remarks.push_back(
          fmt::format("\"{}\" at {} does not go with the other readings; look again.",
                      looks[i].said, number_text(looks[i].value)));
}

void remark_on_ends(Estimate& out, const Belief& belief, const Scale& scale) {
  double outside = 0;
  for (std::size_t i = 0; i < belief.centres.size(); ++i)
    if (belief.centres[i] < scale.low || belief.centres[i] > scale.high)
      outside += belief.chances[i];
  if (outside > 0.5)
    out.remarks.push_back(
        fmt::format("The best value seems to lie beyond the end of the range {} to {}.",
                    number_text(scale.low), number_text(scale.high)));
}

std::vector<Chance> curve_of(const ResponseModel& asked, const Belief& belief, const Scale& scale) {
  std::vector<Chance> curve;
  for (std::size_t i = 0; i <= kCurvePoints; ++i) {
    const double share = static_cast<double>(i) / kCurvePoints;
    const double value = scale.on_step(scale.low + scale.span() * share);
    curve.push_back({value, chance_of(value, asked, belief)});
  }
  return curve;
}

}  // namespace

Estimate read_off(const ResponseModel& asked, const Belief& belief, const Scale& scale,
                  const std::vector<Look>& looks, bool seen) {
  Estimate out;
  out.value = value_to_set(asked, belief, scale, seen_stretch(asked, belief, looks));
  out.interval = {belief.quantile(0.05), belief.quantile(0.95)};
  out.chance = chance_of(out.value, asked, belief);
  out.band = band_around(out.value, asked, belief, scale);
  out.settled = out.chance >= kSettled && seen;
  out.next = next_value(asked, belief, scale, looks);
  if (out.chance >= kSettled && !seen) out.next = out.value;  // to see it good
  out.slope = asked.slope();
  remark_on_contradictions(out, asked, belief, looks);
  remark_on_ends(out, belief, scale);
  out.curve = curve_of(asked, belief, scale);
  return out;
}

}  // namespace benchgraft::align
