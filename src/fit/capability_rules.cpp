// Whole rule: what the finished set can do that the host could not, and the other way about.
#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/rules.hpp"

namespace benchgraft::fit {
namespace {

using Abilities = std::set<std::string>;

void add(Abilities& all, const catalogue::PartType* type) {
  if (type && type->provides) all.insert(type->provides->begin(), type->provides->end());
}

Abilities by_cabinet(const Assembly& set) {
  Abilities all;
  if (set.model && set.model->provides)
    all.insert(set.model->provides->begin(), set.model->provides->end());
  if (set.variant) all.insert(set.variant->provides.begin(), set.variant->provides.end());
  return all;
}

void say(Findings& findings, const std::string& ability, bool lost) {
  Reason& reason = findings.add(
      "capability", RuleSort::whole, Verdict::fits,
      lost ? fmt::format("The finished set has no {} any more: tell the customer.", ability)
           : fmt::format("The finished set gains {}.", ability),
      (lost ? "lost|" : "gained|") + ability);
  reason.signals = {ability};
  for (const auto& place : findings.set.places) {
    const auto* type = lost ? place.was : place.type;
    if (!place.changed && !place.taken_over && !place.host_lost_it) continue;
    if (!type || !type->provides) continue;
    if (std::find(type->provides->begin(), type->provides->end(), ability) == type->provides->end())
      continue;
    reason.facts.push_back(fact_of(*type, "provides " + ability));
    reason.roles.push_back(place.roles.front());
  }
  reason.would_change =
      "Another part that provides it, or another record of what these provide, would change this.";
}

// A new part with nothing recorded does a job of this one: perhaps it can do the same.
bool taker_is_silent(const Assembly& set, const Place& gone) {
  if (!gone.was) return false;
  return std::any_of(set.places.begin(), set.places.end(), [&](const Place& place) {
    if (!differs(place) || place.empty || !place.type || place.type->provides) return false;
    return std::any_of(gone.was->roles.begin(), gone.was->roles.end(),
                       [&](const auto& role) { return place.fills(role); });
  });
}

void ask(Findings& findings, const Place& place) {
  if (!place.was || !place.was->provides || place.was->provides->empty()) return;
  const std::string called = place.type ? place.type->reference() : "the new " + place.position;
  findings.ask(fmt::format("Which of these can {} do: {}?", called, listed(*place.was->provides)),
               called, "provides", place.roles.front());
}

void ask_taker(Findings& findings, const Place& gone, Abilities& perhaps) {
  perhaps.insert(gone.was->provides->begin(), gone.was->provides->end());
  findings.ask(
      fmt::format("Which of these can {} do: {}?", gone.taken_over_by, listed(*gone.was->provides)),
      gone.taken_over_by, "provides", gone.roles.front());
}

}  // namespace

void judge_capabilities(Findings& findings) {
  Abilities before = by_cabinet(findings.set), after = before, perhaps;
  for (const auto& place : findings.set.places) {
    add(before, place.was);
    if (place.type && !place.empty) add(after, place.type);
    if (place.taken_over && taker_is_silent(findings.set, place) && place.was->provides)
      ask_taker(findings, place, perhaps);
    const bool told = place.type && place.type->provides;
    if (!differs(place) || place.empty || told || !place.was || !place.was->provides) continue;
    perhaps.insert(place.was->provides->begin(), place.was->provides->end());
    ask(findings, place);
  }
  for (const auto& ability : before)
    if (!after.count(ability) && !perhaps.count(ability))
      findings.out.lost.push_back(ability), say(findings, ability, true);
  for (const auto& ability : after)
    if (!before.count(ability))
      findings.out.gained.push_back(ability), say(findings, ability, false);
}

}  // namespace benchgraft::fit
