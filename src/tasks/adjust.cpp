#include "tasks/adjust.hpp"

#include <charconv>

#include <fmt/format.h>

#include "align/redo.hpp"
#include "align/wheel_setting.hpp"
#include "base/text.hpp"
#include "sheets/adjust_page.hpp"
#include "tasks/room.hpp"

namespace benchgraft::tasks {
namespace {

Error bad(std::string message) { return {ErrorKind::bad_input, std::move(message)}; }

std::optional<double> number(std::string_view text) {
  text = trimmed(text);
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || text.empty()) return std::nullopt;
  return value;
}

struct Typed {
  double value = 0;
  std::string said;
};

Result<Typed> typed(const std::string& text) {
  const auto at = text.find('=');
  const auto value = at == std::string::npos ? std::nullopt : number(text.substr(0, at));
  const std::string said =
      at == std::string::npos ? "" : std::string(trimmed(std::string_view(text).substr(at + 1)));
  if (!value || said.empty())
    return bad(fmt::format(
        "\"{}\" is no reading; write the value of the setting, = and what was seen, as in "
        "40=purplish.",
        text));
  return Typed{*value, said};
}

Result<catalogue::Setting> setting_called(const catalogue::Catalogue& known,
                                          const std::string& name) {
  std::vector<std::string> names;
  for (const auto* setting : known.settings()) {
    if (setting->name == name) return *setting;
    names.push_back(setting->name);
  }
  const auto near = nearest_word(name, names);
  return Error{
      ErrorKind::not_found,
      near.empty()
          ? fmt::format("No setting \"{}\" is recorded; there are: {}.", name, listed(names))
          : fmt::format("No setting \"{}\" is recorded; did you mean \"{}\"?", name, near)};
}

align::Question question_of(const catalogue::Setting& setting, const AdjustWords& words) {
  align::Question question;
  question.setting = setting;
  question.start = words.start;
  if (words.low || words.high) {
    const auto usual = setting.range.value_or(catalogue::Range{0, 0});
    question.own_range =
        catalogue::Range{words.low.value_or(usual.low), words.high.value_or(usual.high)};
  }
  question.own_step = words.step;
  question.observer = words.observer.empty() && !setting.observers.empty()
                          ? setting.observers.front().name
                          : words.observer;
  return question;
}

Result<catalogue::Catalogue> known_to(const ShopAt& at, const Knowledge& knowledge) {
  if (at.path.empty()) return known_catalogue(knowledge);
  auto room = load_room(at, knowledge);
  if (!room) return room.error();
  return std::move(room.value().known);
}

/// The value found before with the same two parts; "" = none.
struct Before {
  std::optional<double> value;
  std::string said;
};

Result<Before> found_with(const std::vector<std::string>& parts, const std::string& setting,
                          const catalogue::Catalogue& known) {
  if (parts.empty()) return Before{};
  if (parts.size() != 2)
    return bad("A value belongs to two parts: give --part twice, once for each printed number.");
  std::vector<catalogue::SwapNote> notes;
  for (const auto* note : known.notes()) notes.push_back(*note);
  const auto found = align::found_before(notes, parts[0], parts[1], setting);
  if (!found)
    return Before{std::nullopt,
                  fmt::format("No swap note tells of a value with {} and {}.", parts[0], parts[1])};
  const std::string day = found->date.empty() ? "" : " on " + found->date;
  return Before{number(found->value),
                fmt::format("With {} and {} the value {} was found{} ({}).", parts[0], parts[1],
                            found->value, day, found->note)};
}

Answer answer_of(const sheets::Adjusted& adjusted) {
  return {sheets::adjust_page(adjusted), sheets::adjust_json(adjusted)};
}

std::vector<std::string> as_given(const std::vector<Typed>& all) {
  std::vector<std::string> lines;
  for (const auto& one : all) lines.push_back(align::number_text(one.value) + ": " + one.said);
  return lines;
}

Result<Answer> by_observer(align::Question question, const std::vector<Typed>& readings,
                           const std::string& before) {
  const auto observer = align::observer_of(question.setting, question.observer);
  if (!observer) return observer.error();
  for (const auto& one : readings) {
    const bool word = !observer.value()->words.empty();
    question.readings.push_back({question.observer, one.value, one.said,
                                 word ? std::nullopt : number(one.said), std::nullopt});
  }
  const auto found = align::estimate(question);
  if (!found) return found.error();
  sheets::Adjusted adjusted{question.setting.name,
                            question.setting.unit,
                            observer.value()->shows,
                            as_given(readings),
                            found.value(),
                            nullptr,
                            before};
  return answer_of(adjusted);
}

Result<align::Hue> bar_called(std::string_view name) {
  for (const align::Hue bar : align::kBars)
    if (align::name_of(bar) == name) return bar;
  if (name == "white") return align::Hue::white;
  return bad(fmt::format("\"{}\" is no bar; say red, green or blue.", name));
}

/// "red:orange,green:turquoise" or, as lux, "green:210,blue:31".
Result<std::vector<align::SeenBar>> bars_in(const std::string& said) {
  std::vector<align::SeenBar> bars;
  for (const auto& piece : split(said, ',')) {
    const auto at = piece.find(':');
    if (at == std::string::npos)
      return bad(
          fmt::format("\"{}\" does not say which bar it is about; write red:orange, or "
                      "green:210 for lux.",
                      piece));
    const auto bar = bar_called(trimmed(std::string_view(piece).substr(0, at)));
    if (!bar) return bar.error();
    const auto seen = trimmed(std::string_view(piece).substr(at + 1));
    align::SeenBar one{bar.value(), "", number(seen), std::nullopt};
    if (!one.lux) one.word = seen;
    bars.push_back(one);
  }
  return bars;
}

Result<align::WheelQuestion> wheel_question(const align::Question& question,
                                            const AdjustWords& words,
                                            const std::vector<Typed>& readings) {
  const auto wheel = align::wheel_of(in_capitals(words.wheel));
  if (!wheel) return wheel.error();
  const auto scale = align::scale_of(question);
  if (!scale) return scale.error();
  align::WheelQuestion asked{wheel.value(), scale.value(), std::nullopt, question.start, {}, {}};
  if (words.turns_per_second) asked.wheel.turns_per_second = *words.turns_per_second;
  const auto per_step =
      words.degrees_per_step ? words.degrees_per_step : question.setting.degrees_per_step;
  if (per_step) asked.degrees_per_unit = *per_step / scale.value().step;
  for (const auto& one : readings) {
    auto bars = bars_in(one.said);
    if (!bars) return bars.error();
    asked.looks.push_back({one.value, std::move(bars).value()});
  }
  return asked;
}

Result<Answer> by_wheel(const align::Question& question, const AdjustWords& words,
                        const std::vector<Typed>& readings, const std::string& before) {
  const auto asked = wheel_question(question, words, readings);
  if (!asked) return asked.error();
  const auto found = align::estimate_wheel(asked.value());
  if (!found) return found.error();
  sheets::Adjusted adjusted{
      question.setting.name,
      question.setting.unit,
      "Pure red, green and blue bars; say the colour of each, or hold the meter "
      "on the same spot for each.",
      as_given(readings),
      found.value().setting,
      &found.value(),
      before};
  return answer_of(adjusted);
}

}  // namespace

Result<Answer> adjust(const ShopAt& at, const Knowledge& knowledge, const AdjustWords& words) {
  const auto known = known_to(at, knowledge);
  if (!known) return known.error();
  const auto setting = setting_called(known.value(), words.setting);
  if (!setting) return setting.error();
  const auto before = found_with(words.parts, words.setting, known.value());
  if (!before) return before.error();
  std::vector<Typed> readings;
  for (const auto& text : words.readings) {
    auto one = typed(text);
    if (!one) return one.error();
    readings.push_back(std::move(one).value());
  }
  auto question = question_of(setting.value(), words);
  if (!question.start) question.start = before.value().value;
  return words.wheel.empty() ? by_observer(question, readings, before.value().said)
                             : by_wheel(question, words, readings, before.value().said);
}

}  // namespace benchgraft::tasks
