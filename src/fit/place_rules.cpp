// What sits in each place: known at all, seated, doing every job the set needs, with the fellows it
// asks for.
#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/rules.hpp"

namespace benchgraft::fit {
namespace {

bool needed(const Assembly& set, const std::string& role) {
  if (set.kind)
    for (const auto& usual : set.kind->roles)
      if (usual.role == role) return !usual.optional;
  const Place* factory = set.factory(role);
  return factory && !factory->optional;
}

// Jobs that keep people and the set from harm: a set without them is never built.
bool protects(const std::string& role) {
  return role == "door switch" || role == "thermal switch" || role == "mains inlet" ||
         role == "lamp fan" || role == "exhaust fan" || role == "cabinet";
}

void say_missing(Findings& findings, const std::string& role, const Place* factory) {
  Reason& reason = findings.add(
      "missing part", RuleSort::whole, Verdict::does_not_fit,
      fmt::format("Nothing does the job of {}: {}.", role,
                  factory && factory->host_lost_it ? "the host has lost its own"
                                                   : "the part that did it is taken out"),
      role);
  reason.roles = {role};
  reason.safety = protects(role);
  if (factory && factory->was)
    reason.facts = {fact_of(*factory->was, "does the job of " + role)};
  else if (findings.set.model)
    reason.facts = {fact_of(*findings.set.model, "needs " + role)};
  reason.would_change = "A part put in for it would change this.";
  // Only the lost part's own make is known to be right; any other has to be judged first.
  std::vector<std::string> types;
  if (factory && factory->host_lost_it && factory->was) types = {factory->was->reference()};
  Companion companion{
      "a part for " + role, "part",       "find or buy one", "nothing does this job", role,
      std::move(types),     std::nullopt, reason.code};
  findings.out.companions.push_back(companion);
}

// A job the kind can do without, and this set could do until now.
void say_lost_job(Findings& findings, const std::string& role, const Place* factory) {
  if (!factory || !factory->was || factory->was->is_lead()) return;
  Reason& reason = findings.add(
      "capability", RuleSort::whole, Verdict::fits,
      fmt::format("Nothing does the job of {} any more: tell the customer.", role), "job|" + role);
  reason.roles = {role};
  reason.facts = {fact_of(*factory->was, "does the job of " + role)};
  reason.would_change = "A part put in for it would change this.";
  if (!contains(findings.out.lost, role)) findings.out.lost.push_back(role);
}

void say_taken_over(Findings& findings, const Place& place) {
  Reason& reason = findings.add(
      "several jobs", RuleSort::whole, Verdict::fits_with_work,
      fmt::format("{} already does the job of {}: the old {} comes out or stays unplugged.",
                  capitalised(place.taken_over_by), listed(place.roles), place.position),
      place.position);
  reason.roles = place.roles;
  reason.work_minutes = 2;
  if (place.was) reason.facts = {fact_of(*place.was, "fills " + listed(place.was->roles))};
}

// Two parts that do one job: the set uses one of them.
void judge_doubled(Findings& findings, const std::string& role) {
  std::vector<std::string> called;
  bool news = false;
  for (const auto& place : findings.set.places) {
    if (!place.fills(role) || !place.type || place.type->is_lead()) continue;
    called.push_back(place.called());
    news = news || differs(place);
  }
  if (called.size() < 2 || !news) return;
  Reason& reason = findings.add(
      "several jobs", RuleSort::whole, Verdict::fits_with_work,
      fmt::format("{} all do the job of {}: the set uses one, the other stays idle there.",
                  capitalised(listed(called)), role),
      "doubled|" + role);
  if (called.size() == 2)
    reason.says =
        fmt::format("{} both do the job of {}: the set uses one, the other stays idle there.",
                    capitalised(listed(called)), role);
  reason.roles = {role};
  reason.work_minutes = 2;
  for (const auto& place : findings.set.places)
    if (place.fills(role) && place.type)
      reason.facts.push_back(fact_of(*place.type, "does the job of " + role));
  findings.ask(fmt::format("Which of {} does the job of {} here?", listed(called), role),
               listed(called), "roles", role);
}

void judge_mount(Findings& findings, const Place& place) {
  const auto& mount = place.type->mount;
  const bool like_before = place.was && mount && place.was->mount == mount;
  if (like_before) return;
  const auto* seats = place.place && place.place->seats ? &*place.place->seats : nullptr;
  const bool old_known = place.was && place.was->mount;
  if (!mount || (!seats && !old_known)) {
    Reason& reason = findings.unknown(
        RuleSort::single,
        fmt::format("Not recorded whether {} sits on the holes of the {}.", place.type->reference(),
                    place.position),
        fmt::format("Does {} sit on the holes and stand-offs of the {}? Look under the board for "
                    "an extra stand-off.",
                    place.type->reference(), place.position),
        place.type->reference(), mount ? "seats of the position" : "mount", place.roles.front());
    reason.facts = {fact_of(*place.type, mount ? "mount " + *mount : "mount not recorded")};
    return;
  }
  if (seats ? contains(*seats, *mount) : false) return;
  Reason& reason =
      findings.add("mount", RuleSort::single, Verdict::does_not_fit,
                   fmt::format("{} is made for {}, the {} takes {}.", place.type->reference(),
                               *mount, place.position, seats ? listed(*seats) : *place.was->mount),
                   place.position + "|" + place.type->reference());
  reason.roles = place.roles;
  reason.types = {place.type->reference()};
  reason.facts = {fact_of(*place.type, "mount " + *mount)};
  if (place.place)
    reason.facts.push_back(
        {place.position + " takes " + (seats ? listed(*seats) : *place.was->mount),
         place.place->where});
  reason.would_change = "An adapter plate, or another record of the mount, would change this.";
}

bool means_any(const std::vector<std::string>& references, const Place& place) {
  return place.type &&
         std::any_of(references.begin(), references.end(),
                     [&](const std::string& reference) { return means(reference, *place.type); });
}

void say_fellow(Findings& findings, const Place& owner, const catalogue::Fellow& fellow,
                const Place* there) {
  const std::string wanted = listed(fellow.types);
  const bool chosen_here = there && there->to_get && means_any(fellow.types, *there);
  const std::string found = there && there->type ? there->type->reference() : "nothing known";
  Reason& reason = findings.add(
      "fellow part", RuleSort::pair, chosen_here ? Verdict::fits_with_work : Verdict::does_not_fit,
      chosen_here
          ? fmt::format("The {} follows {}: it takes {}{}.", fellow.role, owner.type->reference(),
                        wanted, fellow.why.empty() ? "" : " (" + fellow.why + ")")
          : fmt::format("{} needs {} as its {}, but {} is there{}.", owner.type->reference(),
                        wanted, fellow.role, found,
                        fellow.why.empty() ? "" : " (" + fellow.why + ")"),
      owner.type->reference() + "|" + fellow.role);
  if (chosen_here) reason.before = Verdict::does_not_fit;
  reason.safety = fellow.safety;
  reason.roles = {owner.roles.front(), fellow.role};
  reason.types = {owner.type->reference()};
  reason.facts = {
      {fmt::format("{} asks for {} in the role {}", owner.type->reference(), wanted, fellow.role),
       fellow.where}};
  reason.would_change = "Another record of what it takes would change this.";
  if (!chosen_here) return;
  Companion companion{there->type->reference(),
                      "part",
                      "",
                      fmt::format("follows {}", owner.type->reference()),
                      fellow.role,
                      fellow.types,
                      there->type->price,
                      reason.code};
  companion.from = owner.from == "host" ? "find or buy" : owner.from + " or buy";
  findings.out.companions.push_back(companion);
}

}  // namespace

void judge_unknown_types(Findings& findings) {
  for (const auto& place : findings.set.places) {
    if (place.type || place.empty) continue;
    if (!place.changed) continue;
    findings.unknown(RuleSort::single,
                     fmt::format("Nobody knows which part goes in as the {}.", place.position),
                     fmt::format("Read the printed number and revision on the {}.", place.position),
                     place.position, "type", place.roles.front());
  }
}

void judge_known_bad(Findings& findings) {
  for (const auto& place : findings.set.places) {
    if (!place.changed || place.known_good != false) continue;
    Reason& reason = findings.add(
        "known bad", RuleSort::single, Verdict::does_not_fit,
        fmt::format("{} was tested and found bad: it does not go in.", capitalised(place.called())),
        place.position);
    reason.source = Source::measured;
    reason.roles = place.roles;
    reason.facts = {{"known_good = false", place.where}};
    reason.would_change = "A test that finds it good, or another part, would change this.";
  }
}

void judge_mounts(Findings& findings) {
  for (const auto& place : findings.set.places)
    if (differs(place) && place.type && !place.type->is_lead()) judge_mount(findings, place);
}

void judge_missing_parts(Findings& findings) {
  std::vector<std::string> roles;
  for (const auto& place : findings.set.places) {
    const auto& had = place.was ? place.was->roles : place.roles;
    for (const auto& role : had)
      if (!contains(roles, role)) roles.push_back(role);
    if (place.taken_over) say_taken_over(findings, place);
  }
  for (const auto& role : roles) {
    judge_doubled(findings, role);
    if (findings.set.filling(role)) continue;
    const Place* factory = findings.set.factory(role);
    if (factory && !factory->changed && !factory->host_lost_it && !factory->taken_over) continue;
    if (needed(findings.set, role))
      say_missing(findings, role, factory);
    else
      say_lost_job(findings, role, factory);
  }
}

void judge_fellows(Findings& findings) {
  for (const auto& place : findings.set.places) {
    if (!place.type || place.empty) continue;
    for (const auto& fellow : place.type->fellows) {
      const Place* there = findings.set.filling(fellow.role);
      const bool concerned = differs(place) || (there && differs(*there));
      if (!concerned) continue;
      if (!there || there->to_get || !means_any(fellow.types, *there))
        say_fellow(findings, place, fellow, there);
    }
  }
}

}  // namespace benchgraft::fit
