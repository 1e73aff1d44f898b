// Whole rules about what a set remembers and how it is reached: memory made for one panel, supplies
// trimmed to a sticker, settings nobody can open without the right remote.
#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/rules.hpp"

namespace benchgraft::fit {
namespace {

// Memory follows the part it was made for. Apart = they were not set up for each other.
bool apart(const Place& a, const Place& b) {
  return (a.changed || b.changed) && a.origin() != b.origin() && &a != &b;
}

Reason& say_bound(Findings& findings, const Place& keeper, const Place& subject,
                  const std::string& says) {
  Reason& reason = findings.add("bound memory", RuleSort::whole, Verdict::fits_with_work, says,
                                keeper.position + "|" + subject.position);
  reason.roles = {keeper.roles.front(), subject.roles.front()};
  reason.types = {keeper.type->reference()};
  reason.facts = {fact_of(*keeper.type, "memory made for the " + subject.roles.front())};
  reason.would_change = "Both coming from the same set would change this.";
  return reason;
}

// Who would write over the memory at the first start; null when nobody is known to.
const Place* wiper(const Assembly& set) {
  for (const auto& place : set.places)
    if (place.type && !place.empty && place.type->wipes_memory == true) return &place;
  return nullptr;
}

void judge_keeper(Findings& findings, const Place& keeper) {
  for (const auto& role : keeper.type->memory_of) {
    const Place* subject = findings.set.filling(role);
    if (!subject || !apart(keeper, *subject)) continue;
    const Place* wipes = wiper(findings.set);
    // The old keeper is the right one where it is still here.
    const bool old_here = keeper.changed && keeper.was && !keeper.host_lost_it;
    const std::string what =
        old_here ? fmt::format("move the memory of the old {} across, or copy it", keeper.position)
                 : "write the values of this one again, by service menu or from a "
                   "copy";
    Reason& reason = say_bound(
        findings, keeper, *subject,
        fmt::format("The memory of {} was made for the {} it came with, not for this one: {}.{}",
                    keeper.type->reference(), role, what,
                    wipes
                        ? fmt::format(" {} writes over it at its first start: read it out before.",
                                      wipes->type->reference())
                        : ""));
    reason.work_minutes = 20;  // reading and writing one memory chip, common practice, no source
    reason.not_before =
        fmt::format("not before the memory of {} is read out and kept", keeper.type->reference());
    if (wipes) reason.facts.push_back(fact_of(*wipes->type, "writes over memory at first start"));
  }
}

void judge_sticker(Findings& findings, const Place& part) {
  const Place* supply = findings.set.filling("supply");
  if (!supply || !supply->type || !apart(part, *supply)) return;
  const std::string rails = listed(part.type->sticker);
  Reason& reason = findings.add(
      "sticker volts", RuleSort::whole, Verdict::fits_with_work,
      fmt::format("{} has its own volts for {} on a sticker: trim {} to them with {} unplugged, "
                  "then plug it in.",
                  part.type->reference(), rails, supply->type->reference(), part.type->reference()),
      part.position);
  reason.roles = {"supply", part.roles.front()};
  reason.types = {part.type->reference(), supply->type->reference()};
  reason.signals = part.type->sticker;
  reason.work_minutes = 15;  // two trims with a meter, common practice, no source
  reason.not_before = fmt::format("not before {} is trimmed to the sticker", rails);
  reason.facts = {fact_of(*part.type, "sticker with " + rails)};
  reason.would_change = "Panel and supply coming from the same set would change this.";
  findings.ask(
      fmt::format("What does the sticker on {} say for {}?", part.type->reference(), rails),
      part.type->reference(), "sticker", part.roles.front(), true);
}

bool works(const Place* place) { return place && place->type && !place->empty; }

// The remote or key board is there, and nothing on record says that the main board does not know
// it.
bool reaches(const Findings& findings, const std::string& role) {
  if (!works(findings.set.filling(role))) return false;
  return std::none_of(findings.out.reasons.begin(), findings.out.reasons.end(),
                      [&](const Reason& r) {
                        return r.rule == "trait clash" && r.verdict > Verdict::fits &&
                               r.verdict != Verdict::unknown && contains(r.roles, role);
                      });
}

void say_out_of_reach(Findings& findings, const std::vector<std::string>& settings,
                      const catalogue::Setting& first) {
  const std::string with = listed(first.reached_with, " or ");
  Reason& reason = findings.add(
      "out of reach", RuleSort::whole, Verdict::fits_with_work,
      fmt::format("{} cannot be set without the matching {}: have one on the bench before the old "
                  "board comes out.",
                  capitalised(listed(settings)), with),
      with);
  reason.roles = first.reached_with;
  reason.signals = settings;
  reason.facts = {{fmt::format("setting {} is reached with {}", first.name, with), first.where}};
  reason.would_change = fmt::format("A {} that this board knows would change this.", with);
  findings.out.companions.push_back({"a matching " + with,
                                     "part",
                                     "the set the board comes from",
                                     "opens the service menu",
                                     first.reached_with.front(),
                                     {},
                                     std::nullopt,
                                     reason.code});
}

void ask_for_menu(Findings& findings, const catalogue::Setting& setting) {
  const Place* keeper = findings.set.filling(setting.stored_in);
  if (!works(keeper) || !differs(*keeper) || !keeper->type->service_menu.empty()) return;
  findings.ask(fmt::format("How is the service menu of {} opened?", keeper->type->reference()),
               keeper->type->reference(), "service_menu", keeper->roles.front());
}

}  // namespace

void judge_memories(Findings& findings) {
  for (const auto& place : findings.set.places) {
    if (!place.type || place.empty) continue;
    judge_keeper(findings, place);
    if (!place.type->sticker.empty()) judge_sticker(findings, place);
  }
}

void judge_reachable_settings(Findings& findings) {
  std::vector<std::string> blocked;
  const catalogue::Setting* first = nullptr;
  for (const auto& todo : findings.out.settings) {
    if (todo.action == "travels") continue;
    const auto* setting = findings.known.setting(todo.name);
    if (!setting || setting->reached_with.empty()) continue;
    ask_for_menu(findings, *setting);
    if (std::any_of(setting->reached_with.begin(), setting->reached_with.end(),
                    [&](const std::string& role) { return reaches(findings, role); }))
      continue;
    if (!first) first = setting;
    if (setting->reached_with == first->reached_with) blocked.push_back(setting->name);
  }
  if (first) say_out_of_reach(findings, blocked, *first);
}

}  // namespace benchgraft::fit
