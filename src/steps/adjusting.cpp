// Settings in their order, the flip first.
#include <algorithm>

#include <fmt/format.h>

#include "base/ensure.hpp"
#include "steps/precedence.hpp"
#include "steps/stages.hpp"

namespace benchgraft::steps {
namespace {

// Usual minutes, common practice, no source; replaced by the kind's own where it has them.
constexpr double kFlipMinutes = 5;

// Settings to be done, in the order their records ask for.
std::vector<const fit::SettingToDo*> settings_in_order(const Site& site) {
  const auto& todo = site.judged().settings;
  Precedence before(todo.size());
  for (std::size_t then = 0; then < todo.size(); ++then) {
    const auto* record = site.known().setting(todo[then].name);
    if (record == nullptr) continue;
    for (const auto& earlier : record->after)
      for (std::size_t first = 0; first < todo.size(); ++first)
        if (todo[first].name == earlier) before.require(first, then);
  }
  const auto outcome = before.sorted();
  ensure(outcome.circle.empty(), "a catalogue holds no settings that wait in a circle");
  std::vector<const fit::SettingToDo*> ordered;
  for (const std::size_t i : outcome.order) ordered.push_back(&todo[i]);
  return ordered;
}

std::string setting_title(const fit::SettingToDo& todo) {
  if (todo.action == "check") return fmt::format("Check {}.", todo.name);
  if (todo.action == "set") return fmt::format("Set {}.", todo.name);
  return fmt::format("Redo {}.", todo.name);
}

std::string flip_words(const catalogue::Flip& flip) {
  if (flip.h && flip.v) return "left-right and upside-down";
  return flip.h ? "left-right" : "upside-down";
}

bool sets_the_flip(const Site& site) {
  const auto& todo = site.judged().settings;
  return std::any_of(todo.begin(), todo.end(), [&](const fit::SettingToDo& each) {
    const auto* record = site.known().setting(each.name);
    return record != nullptr && record->flip && each.action != "travels";
  });
}

void flip_first(const Site& site, Steps& steps) {
  const auto& orientation = site.judged().orientation;
  if (!orientation.known || orientation.toggle == catalogue::Flip{} || sets_the_flip(site)) return;
  auto made = step(Stage::adjust, "Put the picture the right way round.", kFlipMinutes);
  made.code = orientation.code;
  made.details.push_back(
      {fmt::format("Change this flip: {}.", flip_words(orientation.toggle)), orientation.code});
  steps.push_back(std::move(made));
}

}  // namespace

void adjust(const Site& site, Steps& steps) {
  flip_first(site, steps);
  for (const auto* each : settings_in_order(site)) {
    if (each->action == "travels") continue;
    auto made = step(Stage::adjust, setting_title(*each), each->work_minutes);
    made.code = each->code;
    made.waiting_minutes = each->waiting_minutes;
    if (!each->found_by.empty()) made.details.push_back({each->found_by, ""});
    if (!each->predicted.empty())
      made.details.push_back({fmt::format("Start with {}.", each->predicted), each->code});
    steps.push_back(std::move(made));
  }
}

}  // namespace benchgraft::steps
