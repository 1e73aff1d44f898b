#include "plan/whole.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "fit/notes.hpp"

namespace benchgraft::plan {
namespace {

bool good(catalogue::SwapResult result) {
  return result == catalogue::SwapResult::works || result == catalogue::SwapResult::works_with;
}

bool is_cured(const fit::Judgement& judged, const std::string& code) {
  return std::any_of(judged.adaptations.begin(), judged.adaptations.end(),
                     [&](const auto& work) { return contains(work.codes, code); });
}

Finding finding(const std::string& what) {
  Finding one;
  one.code = stable_hash(what);
  return one;
}

// Everything the judgement charges for, item by item, and everything that speaks against it.
std::vector<Finding> findings_of(const fit::Judgement& judged, fit::Verdict worst_allowed) {
  std::vector<Finding> all;
  for (const auto& reason : judged.reasons) {
    if (!reason.will) continue;
    Finding one = finding("reason " + reason.code);
    one.refuses = reason.verdict > worst_allowed;
    one.level = level_of(reason.verdict);
    if (!is_cured(judged, reason.code)) one.minutes = reason.work_minutes;
    if (one.refuses || one.level != Level::plain || one.minutes > 0) all.push_back(one);
  }
  for (const auto& work : judged.adaptations) {
    Finding one = finding("adaptation " + work.name);
    one.minutes = work.work_minutes;
    one.money = static_cast<double>(work.material.minor);
    all.push_back(one);
  }
  for (const auto& setting : judged.settings) {
    if (setting.work_minutes <= 0) continue;
    Finding one = finding("setting " + setting.name);
    one.minutes = setting.work_minutes;
    all.push_back(one);
  }
  for (const auto& companion : judged.companions) {
    // A whole part that has to come along is not in the plan: another choice has to bring it.
    Finding one = finding("companion " + companion.what + companion.role);
    one.refuses = companion.sort == "part";
    one.money = companion.price ? static_cast<double>(companion.price->minor) : 0;
    if (one.refuses || one.money > 0) all.push_back(one);
  }
  return all;
}

// The same rebuild without what the variant says already, so that like sets share one judgement.
catalogue::RebuildText shortened(const Ground& ground, const SetHere& here,
                                 catalogue::RebuildText text) {
  if (here.variants.size() != 1) return text;
  text.variant = here.variants.front()->name;
  std::erase_if(text.seen, [&](const catalogue::ProposedPart& seen) {
    const auto* position = position_named(*here.model, seen.place);
    if (!position || !seen.changes.empty()) return false;
    const auto factory = factory_part(ground.known, *position, here.variants);
    return factory.type && ground.known.part_type(seen.type) == factory.type;
  });
  return text;
}

}  // namespace

Whole whole_of(const Ground& ground, const HostMeaning& host, const std::vector<int>& choices) {
  const auto worst_allowed =
      ground.allow_unknown ? fit::Verdict::unknown : fit::Verdict::fits_with_work;
  Whole whole;
  const auto& set = ground.inventory.sets[static_cast<std::size_t>(host.set)];
  const auto& judged = ground.answers.whole(shortened(ground, set, as_text(ground, host, choices)));
  if (!judged) {
    whole.allowed = false;
    return whole;
  }
  const auto& all = judged.value();
  whole.findings = findings_of(all, worst_allowed);
  whole.allowed =
      all.verdict <= worst_allowed && std::none_of(whole.findings.begin(), whole.findings.end(),
                                                   [](const Finding& one) { return one.refuses; });
  whole.minutes = all.work_minutes;
  whole.money = static_cast<double>(all.material.minor);
  whole.chance = all.chance;
  std::vector<const catalogue::PartType*> parts;
  for (std::size_t p = 0; p < choices.size(); ++p)
    parts.push_back(host.places[p][static_cast<std::size_t>(choices[p])].type);
  whole.price = static_cast<double>(
      price_of(*set.model, set.set->looks, abilities_of(set, parts, all.lost)).minor);
  return whole;
}

std::vector<const catalogue::PartType*> own_types(const Ground& ground, const SetHere& here) {
  std::vector<const catalogue::PartType*> own;
  for (const auto& seat : here.seats)
    if (seat.has == Seat::Has::part)
      if (const auto* type = ground.inventory.items[static_cast<std::size_t>(seat.item)].type)
        own.push_back(type);
  for (const auto* variant : here.variants)
    for (const auto& [position, reference] : variant->parts)
      if (const auto* type = ground.known.part_type(reference)) own.push_back(type);
  return own;
}

double notes_for(const Ground& ground, const SetHere& host,
                 const std::vector<const catalogue::PartType*>& own,
                 const catalogue::PartType* type) {
  double sum = 0;
  if (!type) return sum;
  const auto& known = ground.known;
  const auto& model = *host.model;
  const auto before_slash = [](const std::string& name) { return name.substr(0, name.find('/')); };
  for (const auto* note : known.notes()) {
    if (!good(note->result) || note->came_back == true) continue;
    const bool here =
        before_slash(note->into) == model.name ||
        std::any_of(note->stayed.begin(), note->stayed.end(), [&](const auto& stayed) {
          return std::any_of(own.begin(), own.end(),
                             [&](const auto* part) { return fit::means(stayed, *part); });
        });
    const bool family = known.family_of(before_slash(note->into)) == known.family_of(model.name);
    double weight = 0;
    for (const auto& reference : note->moved) {
      const auto revisions = known.revisions(before_slash(reference));
      if (here && fit::means(reference, *type))
        weight = 1;
      else if (family && !revisions.empty() && revisions.front()->kind == type->kind)
        weight = std::max(weight, 0.5);
    }
    sum += weight;
  }
  return sum;
}

Evidence prior_of(const catalogue::Catalogue& known, fit::Verdict verdict) {
  const auto prior = fit::prior_for(known, verdict);
  return {prior.works, prior.fails};
}

Level level_of(fit::Verdict verdict) {
  return verdict >= fit::Verdict::unknown          ? Level::unsure
         : verdict == fit::Verdict::fits_with_work ? Level::work
                                                   : Level::plain;
}

}  // namespace benchgraft::plan
