#include "align/estimate.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace benchgraft::align {
namespace {

constexpr double kSure = 0.9;      // of every value in the band
constexpr double kSettled = 0.95;  // of the value to set
constexpr double kAlike = 0.02;    // chances that differ by less are the same
constexpr double kContradicts = 0.06;
constexpr std::size_t kCurvePoints = 64;
// A start is where the setting stands: the right value is within a quarter of the range as a rule.
constexpr double kNearStart = 0.25;

double chance_of(double value, const ResponseModel& asked, const Belief& belief) {
  std::size_t good = 0;
  for (const auto& state : belief.states)
    if (asked.good(value, state.centre, state.shape)) ++good;
  return static_cast<double>(good) / static_cast<double>(belief.states.size());
}

/// The observer asked next: the one named, else the one asked last, else the first of the setting.
std::string asked_name(const Question& question) {
  if (!question.observer.empty()) return question.observer;
  if (!question.readings.empty()) return question.readings.back().observer;
  return question.setting.observers.empty() ? "" : question.setting.observers.front().name;
}

std::vector<std::unique_ptr<ResponseModel>> models_of(const Question& question,
                                                      const catalogue::Observer& asked,
                                                      const Scale& scale) {
  std::vector<std::unique_ptr<ResponseModel>> models;
  models.push_back(response_of(asked, question.setting, scale, question.readings));
  for (const auto& observer : question.setting.observers) {
    const bool answered =
        std::any_of(question.readings.begin(), question.readings.end(),
                    [&](const Reading& reading) { return reading.observer == observer.name; });
    if (answered && observer.name != asked.name)
      models.push_back(response_of(observer, question.setting, scale, question.readings));
  }
  return models;
}

std::vector<Reading> own_readings(const Question& question, const std::string& observer) {
  std::vector<Reading> own;
  for (const auto& reading : question.readings)
    if (reading.observer == observer) own.push_back(reading);
  return own;
}

bool is_good(const catalogue::Observer& observer, const Reading& reading) {
  if (reading.number) {
    const double off = std::abs(*reading.number - observer.wanted.value_or(0));
    return off <= std::max(observer.tolerance.value_or(0), 2 * reading_error(observer, reading));
  }
  return std::any_of(observer.words.begin(), observer.words.end(), [&](const auto& judged) {
    return judged.word == reading.word && judged.means == catalogue::Meaning::good;
  });
}

/// What was never seen good is not settled. A measured peak has no mark for good: three readings.
bool seen_good(const catalogue::Observer& observer, const std::vector<Reading>& own) {
  if (observer.words.empty() && observer.response == catalogue::Response::peak)
    return own.size() >= 3;
  return std::any_of(own.begin(), own.end(),
                     [&](const Reading& reading) { return is_good(observer, reading); });
}

/// The stretch of values seen good, left out those that contradict the rest; nothing where none
/// was.
std::optional<catalogue::Range> seen_stretch(const catalogue::Observer& observer,
                                             const ResponseModel& asked, const Belief& belief,
                                             const std::vector<Reading>& own) {
  std::optional<catalogue::Range> stretch;
  if (observer.words.empty()) return stretch;
  for (std::size_t i = 0; i < own.size(); ++i) {
    if (!is_good(observer, own[i])) continue;
    if (asked.agreement(i, belief.best.centre, belief.best.shape) < kContradicts) continue;
    if (!stretch) stretch = catalogue::Range{own[i].value, own[i].value};
    stretch = {std::min(stretch->low, own[i].value), std::max(stretch->high, own[i].value)};
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
                              const std::vector<Reading>& own) {
  if (own.size() < 2) return;
  for (std::size_t i = 0; i < own.size(); ++i) {
    if (asked.agreement(i, belief.best.centre, belief.best.shape) >= kContradicts) continue;
    const std::string said = own[i].number ? number_text(*own[i].number) : own[i].word;
    out.remarks.push_back(
        fmt::format("\"{}\" at {} does not go with the other readings; look again.", said,
                    number_text(own[i].value)));
  }
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

std::optional<Hunch> hunch_of(const Question& question, const Scale& scale) {
  if (!question.start) return std::nullopt;
  return Hunch{*question.start, question.start_error.value_or(kNearStart * scale.span())};
}

}  // namespace

Result<Estimate> estimate(const Question& question) {
  const auto scale = scale_of(question);
  if (!scale) return scale.error();
  const auto observer = observer_of(question.setting, asked_name(question));
  if (!observer) return observer.error();
  if (const auto good = check_readings(question, scale.value()); !good) return good.error();

  const auto models = models_of(question, *observer.value(), scale.value());
  const auto own = own_readings(question, observer.value()->name);
  const Belief belief = believe(models, scale.value(), hunch_of(question, scale.value()));
  const ResponseModel& asked = *models.front();

  Estimate out;
  out.value = value_to_set(asked, belief, scale.value(),
                           seen_stretch(*observer.value(), asked, belief, own));
  out.interval = {belief.quantile(0.05), belief.quantile(0.95)};
  out.chance = chance_of(out.value, asked, belief);
  out.band = band_around(out.value, asked, belief, scale.value());
  const bool seen = seen_good(*observer.value(), own);
  out.settled = out.chance >= kSettled && seen;
  out.next = next_value(asked, belief, scale.value(), own);
  if (own.empty() && question.start) out.next = scale.value().on_step(*question.start);
  if (out.chance >= kSettled && !seen) out.next = out.value;  // to see it good
  out.slope = asked.slope();
  remark_on_contradictions(out, asked, belief, own);
  remark_on_ends(out, belief, scale.value());
  for (std::size_t i = 0; i <= kCurvePoints; ++i) {
    const double at =
        scale.value().low + scale.value().span() * static_cast<double>(i) / kCurvePoints;
    out.curve.push_back(
        {scale.value().on_step(at), chance_of(scale.value().on_step(at), asked, belief)});
  }
  return out;
}

}  // namespace benchgraft::align
