#include "align/redo.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"

namespace benchgraft::align {
namespace {

using Settings = std::span<const catalogue::Setting>;

const catalogue::Setting* find(Settings settings, const std::string& name) {
  const auto found = std::find_if(settings.begin(), settings.end(),
                                  [&](const auto& setting) { return setting.name == name; });
  return found == settings.end() ? nullptr : &*found;
}

/// The first setting in `todo` that `setting` follows, directly or through others; "" for none.
std::string follows(Settings settings, const catalogue::Setting& setting,
                    const std::vector<std::string>& todo, std::size_t depth = 0) {
  if (depth > settings.size()) return "";
  for (const auto& before : setting.after) {
    if (contains(todo, before)) return before;
    const auto* earlier = find(settings, before);
    if (earlier == nullptr) continue;
    if (!follows(settings, *earlier, todo, depth + 1).empty()) return before;
  }
  return "";
}

/// Asked for, and what hangs on a flip that is asked for.
std::vector<ToRedo> with_followers(Settings settings, std::span<const std::string> asked) {
  std::vector<std::string> flips;
  for (const auto& name : asked)
    if (const auto* setting = find(settings, name); setting != nullptr && setting->flip)
      flips.push_back(name);
  std::vector<ToRedo> todo;
  for (const auto& setting : settings) {
    if (contains(asked, setting.name))
      todo.push_back({setting.name, "asked for", {}});
    else if (const auto flip = follows(settings, setting, flips); !flip.empty())
      todo.push_back({setting.name, flip, {}});
  }
  return todo;
}

}  // namespace

Result<std::vector<ToRedo>> to_redo(Settings settings, std::span<const std::string> asked) {
  std::vector<std::string> known;
  for (const auto& setting : settings) known.push_back(setting.name);
  for (const auto& name : asked)
    if (!contains(known, name)) {
      const auto near = nearest_word(name, known);
      return Error{ErrorKind::not_found,
                   near.empty() ? fmt::format("No setting \"{}\" is recorded.", name)
                                : fmt::format("No setting \"{}\" is recorded; did you mean \"{}\"?",
                                              name, near)};
    }
  auto waiting = with_followers(settings, asked);
  for (auto& one : waiting) {
    const auto* setting = find(settings, one.setting);
    for (const auto& other : waiting)
      if (other.setting != one.setting && !follows(settings, *setting, {other.setting}).empty())
        one.after.push_back(other.setting);
  }
  std::vector<ToRedo> ordered;
  std::vector<std::string> done;
  while (!waiting.empty()) {
    const auto ready = std::find_if(waiting.begin(), waiting.end(), [&](const ToRedo& one) {
      return std::all_of(one.after.begin(), one.after.end(),
                         [&](const std::string& before) { return contains(done, before); });
    });
    if (ready == waiting.end())
      return Error{
          ErrorKind::bad_input,
          fmt::format("The setting \"{}\" waits for itself through others; take one \"after\" "
                      "away.",
                      waiting.front().setting)};
    done.push_back(ready->setting);
    ordered.push_back(*ready);
    waiting.erase(ready);
  }
  return ordered;
}

std::optional<FoundBefore> found_before(std::span<const catalogue::SwapNote> notes,
                                        const std::string& part, const std::string& other,
                                        const std::string& setting) {
  std::optional<FoundBefore> newest;
  for (const auto& note : notes) {
    using catalogue::SwapResult;
    if (note.result == SwapResult::failed || note.result == SwapResult::damaged) continue;
    const bool pair = (contains(note.moved, part) && contains(note.stayed, other)) ||
                      (contains(note.moved, other) && contains(note.stayed, part));
    if (!pair) continue;
    for (const auto& found : note.found)
      if (found.setting == setting && (!newest || note.date > newest->date))
        newest = FoundBefore{found.value, note.name, note.date};
  }
  return newest;
}

}  // namespace benchgraft::align
