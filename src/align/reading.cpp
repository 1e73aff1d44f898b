#include "align/reading.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/text.hpp"

namespace benchgraft::align {
namespace {

constexpr std::size_t kMostReadings = 200;

Error bad(std::string message) { return {ErrorKind::bad_input, std::move(message)}; }

std::vector<std::string> words_of(const catalogue::Observer& observer) {
  std::vector<std::string> words;
  for (const auto& judged : observer.words) words.push_back(judged.word);
  return words;
}

Result<void> check_answer(const catalogue::Observer& observer, const Reading& reading) {
  if (observer.words.empty()) {
    const bool error = !reading.error || (std::isfinite(*reading.error) && *reading.error > 0);
    if (reading.number && std::isfinite(*reading.number) && error) return {};
    if (!error)
      return bad(fmt::format("The error {:g} of a reading of \"{}\" cannot be; it is above 0.",
                             *reading.error, observer.name));
    return bad(fmt::format("The reading \"{}\" of \"{}\" is no number; give it in {}.",
                           reading.word, observer.name, observer.unit));
  }
  const auto known = words_of(observer);
  if (contains(known, reading.word)) return {};
  const std::string said =
      reading.number ? number_text(*reading.number) : fmt::format("\"{}\"", reading.word);
  return bad(fmt::format("The {} does not answer {}; say one of: {}.", observer.name, said,
                         listed(known, " or ")));
}

}  // namespace

double Scale::on_step(double value) const {
  const double steps = std::round((value - low) / step);
  return std::clamp(low + steps * step, low, high);
}

Result<Scale> scale_of(const Question& question) {
  const auto& setting = question.setting;
  const auto range = question.own_range ? question.own_range : setting.range;
  const auto step = question.own_step ? question.own_step : setting.step;
  if (!range)
    return bad(fmt::format(
        "The range of the setting \"{}\" is not recorded; give its lowest and highest value.",
        setting.name));
  if (!step)
    return bad(
        fmt::format("The step of the setting \"{}\" is not recorded; give the least change "
                    "the menu makes.",
                    setting.name));
  const bool finite = std::isfinite(range->low) && std::isfinite(range->high);
  if (!finite || !(range->low < range->high))
    return bad(
        fmt::format("A range from {} to {} leaves nothing to choose; the low end comes "
                    "first and below the high end.",
                    number_text(range->low), number_text(range->high)));
  const double steps = (range->high - range->low) / *step;
  if (!(*step > 0) || !(steps >= 2) || !(steps <= 1e6))
    return bad(
        fmt::format("A step of {} does not suit a range from {} to {}; it wants 2 to "
                    "1000000 steps.",
                    number_text(*step), number_text(range->low), number_text(range->high)));
  return Scale{range->low, range->high, *step};
}

Result<const catalogue::Observer*> observer_of(const catalogue::Setting& setting,
                                               const std::string& name) {
  std::vector<std::string> known;
  for (const auto& observer : setting.observers) {
    if (observer.name == name) return &observer;
    known.push_back(observer.name);
  }
  if (known.empty())
    return bad(
        fmt::format("How the setting \"{}\" is judged is not recorded; nobody can be asked "
                    "about it.",
                    setting.name));
  return bad(fmt::format("The setting \"{}\" has no observer \"{}\"; take one of: {}.",
                         setting.name, name, listed(known, " or ")));
}

Result<void> check_readings(const Question& question, const Scale& scale) {
  if (question.readings.size() > kMostReadings)
    return Error{ErrorKind::limit,
                 fmt::format("{} readings are too many; give the last {} at most.",
                             question.readings.size(), kMostReadings)};
  const double slack = scale.step / 2;
  if (question.start &&
      !(*question.start >= scale.low - slack && *question.start <= scale.high + slack))
    return bad(fmt::format("The start {} lies outside the range {} to {} of the setting \"{}\".",
                           number_text(*question.start), number_text(scale.low),
                           number_text(scale.high), question.setting.name));
  if (question.start_error && !(std::isfinite(*question.start_error) && *question.start_error > 0))
    return bad(fmt::format("The start cannot be off by {}; give a number above 0.",
                           number_text(*question.start_error)));
  for (const auto& reading : question.readings) {
    const auto observer = observer_of(question.setting, reading.observer);
    if (!observer) return observer.error();
    if (!(reading.value >= scale.low - slack) || !(reading.value <= scale.high + slack))
      return bad(fmt::format("The value {} lies outside the range {} to {} of the setting \"{}\".",
                             number_text(reading.value), number_text(scale.low),
                             number_text(scale.high), question.setting.name));
    if (const auto good = check_answer(*observer.value(), reading); !good) return good;
  }
  return {};
}

std::string number_text(double number) {
  if (!std::isfinite(number)) return "no number";
  return fmt::format("{:.6g}", number == 0 ? 0.0 : number);
}

}  // namespace benchgraft::align
