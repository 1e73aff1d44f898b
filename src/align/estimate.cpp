#include "align/estimate.hpp"

#include <algorithm>
#include <cmath>

namespace benchgraft::align {
namespace {

// A start is where the setting stands: the right value is within a quarter of the range as a rule.
constexpr double kNearStart = 0.25;

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

bool is_good(const catalogue::Observer& observer, const Reading& reading) {
  if (reading.number) {
    const double off = std::abs(*reading.number - observer.wanted.value_or(0));
    return off <= std::max(observer.tolerance.value_or(0), 2 * reading_error(observer, reading));
  }
  return std::any_of(observer.words.begin(), observer.words.end(), [&](const auto& judged) {
    return judged.word == reading.word && judged.means == catalogue::Meaning::good;
  });
}

/// The readings of the asked observer. Numbers lead past values that would do, on to the best; only
/// words hold the answer where they were good.
std::vector<Look> looks_of(const Question& question, const catalogue::Observer& observer) {
  std::vector<Look> looks;
  for (const auto& reading : question.readings)
    if (reading.observer == observer.name)
      looks.push_back({reading.value, !reading.number && is_good(observer, reading),
                       reading.number ? number_text(*reading.number) : reading.word});
  return looks;
}

/// What was never seen good is not settled. A measured peak has no mark for good: three readings.
bool seen_good(const Question& question, const catalogue::Observer& observer,
               std::size_t readings) {
  if (observer.words.empty() && observer.response == catalogue::Response::peak)
    return readings >= 3;
  return std::any_of(question.readings.begin(), question.readings.end(),
                     [&](const Reading& reading) {
                       return reading.observer == observer.name && is_good(observer, reading);
                     });
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
  const Belief belief = believe(models, scale.value(), hunch_of(question, scale.value()));
  const auto looks = looks_of(question, *observer.value());
  Estimate out = read_off(*models.front(), belief, scale.value(), looks,
                          seen_good(question, *observer.value(), looks.size()));
  // Where nothing was seen yet: where it stands, else the middle.
  if (looks.empty())
    out.next = scale.value().on_step(
        question.start.value_or((scale.value().low + scale.value().high) / 2));
  return out;
}

}  // namespace benchgraft::align
