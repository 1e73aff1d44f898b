// Pair and single rules: what parts have to agree on beyond their contacts. The traits are data
// (data/kinds/traits.toml, or a bench's own); here is only how two recorded values are compared.
#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/rules.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Trait;
using catalogue::TraitCompare;
using catalogue::TraitValue;
using catalogue::TraitVerdict;

enum class Agreement { yes, turned, no, overlaps };

const TraitValue* value_of(const std::vector<TraitValue>& values, const std::string& trait) {
  for (const auto& value : values)
    if (value.trait == trait) return &value;
  return nullptr;
}

/// A side of a trait: a part in its place, or the cabinet with what the model has on record.
struct Side {
  const Place* place = nullptr;
  const catalogue::Model* model = nullptr;
  const TraitValue* value = nullptr;

  [[nodiscard]] std::string called() const {
    if (place && place->type) return place->type->reference();
    return model ? "the cabinet of " + model->name : "the cabinet";
  }
  [[nodiscard]] bool differs_from_factory() const {
    return place && (differs(*place) || place->altered);
  }
};

std::string words_of(const Trait& trait, const TraitValue& value) {
  if (!value.number) return listed(value.words, " or ");
  return range_text(*value.number, trait.unit);
}

// "RGBW" read from another mark is "GBWR": the same round, begun elsewhere.
bool turned_round(const std::string& a, const std::string& b) {
  return a.size() == b.size() && (b + b).find(a) != std::string::npos;
}

Agreement compare_words(const Trait& trait, const TraitValue& has, const TraitValue& takes) {
  for (const auto& word : has.words)
    if (contains(takes.words, word)) return Agreement::yes;
  if (trait.compare == TraitCompare::round)
    for (const auto& word : has.words)
      if (std::any_of(takes.words.begin(), takes.words.end(),
                      [&](const std::string& other) { return turned_round(word, other); }))
        return Agreement::turned;
  return Agreement::no;
}

Agreement compare(const Trait& trait, const TraitValue& has, const TraitValue& takes) {
  if (trait.compare != TraitCompare::within) return compare_words(trait, has, takes);
  const auto &is = *has.number, &allowed = *takes.number;
  if (is.low >= allowed.low && is.high <= allowed.high) return Agreement::yes;
  return is.high < allowed.low || is.low > allowed.high ? Agreement::no : Agreement::overlaps;
}

Verdict grade(const Trait& trait) {
  switch (trait.verdict) {
    case TraitVerdict::work:
      return Verdict::fits_with_work;
    case TraitVerdict::destroys:
      return Verdict::destroys;
    case TraitVerdict::does_not_fit:
    case TraitVerdict::unknown:
      break;
  }
  return Verdict::does_not_fit;
}

void add_facts(Reason& reason, const Trait& trait, const Side& side, const char* verb) {
  if (side.value)
    reason.facts.push_back(
        {fmt::format("{} {} {} {}", side.called(), verb, trait.name, words_of(trait, *side.value)),
         side.value->where});
}

void dress(Reason& reason, const Trait& trait, const Side& has, const Side& takes) {
  reason.safety = trait.safety;
  reason.signals = {trait.name};
  for (const Side* side : {&has, &takes}) {
    if (!side->place || !side->place->type) continue;
    reason.types.push_back(side->place->type->reference());
    reason.roles.push_back(side->place->roles.front());
  }
  add_facts(reason, trait, has, "has");
  add_facts(reason, trait, takes, "takes");
  reason.facts.push_back({fmt::format("trait {} ({})", trait.name,
                                      trait.source.empty() ? "no source given" : trait.source),
                          trait.where});
  reason.would_change =
      fmt::format("Another record of the {} of either would change this.", trait.name);
}

void say_clash(Findings& findings, const Trait& trait, const Side& has, const Side& takes,
               Agreement agreement) {
  const bool turned = agreement == Agreement::turned;
  std::string text =
      fmt::format("{}: {} has {}, {} takes {}. {}", capitalised(trait.name), has.called(),
                  words_of(trait, *has.value), takes.called(), words_of(trait, *takes.value),
                  turned && !trait.turned.empty() ? trait.turned : trait.says);
  if (!turned && !trait.mend.empty()) text += " " + trait.mend;
  Reason& reason =
      findings.add("trait clash", RuleSort::pair, turned ? Verdict::fits_with_work : grade(trait),
                   text, trait.name + "|" + has.called() + "|" + takes.called());
  if (reason.verdict == Verdict::fits_with_work)
    reason.work_minutes = trait.work_minutes.value_or(0);
  dress(reason, trait, has, takes);
}

void ask_value(Findings& findings, const Trait& trait, const Side& side, bool taken,
               const Side& other) {
  const std::string role =
      side.place && !side.place->roles.empty() ? side.place->roles.front() : "cabinet";
  const std::string what =
      taken ? fmt::format("Which {} does {} work with?", trait.name, side.called())
            : fmt::format("Which {} has {}?", trait.name, side.called());
  Reason& reason = findings.unknown(
      RuleSort::pair,
      other.value ? fmt::format("{}: {} {} {}; what {} {} is not recorded. If they differ: {}",
                                capitalised(trait.name), other.called(), taken ? "has" : "takes",
                                words_of(trait, *other.value), side.called(),
                                taken ? "takes" : "has", trait.says)
                  : fmt::format("The {} of {} and {} are not recorded. If they differ: {}",
                                trait.name, side.called(), other.called(), trait.says),
      trait.how.empty() ? what : what + " " + trait.how, side.called(), taken ? "takes" : "has",
      role, trait.safety);
  reason.rule = "trait clash";
  reason.signals = {trait.name};
  add_facts(reason, trait, other, taken ? "has" : "takes");
}

// `asked`: ask even when neither side has it on record.
void judge_pair(Findings& findings, const Trait& trait, const Side& has, const Side& takes,
                bool asked) {
  if (has.value && takes.value) {
    const Agreement agreement = compare(trait, *has.value, *takes.value);
    if (agreement == Agreement::overlaps) {
      Side open = takes;
      Reason& reason = findings.unknown(
          RuleSort::pair,
          fmt::format("{}: {} has {}, {} takes {}: it may or may not do. If not: {}",
                      capitalised(trait.name), has.called(), words_of(trait, *has.value),
                      open.called(), words_of(trait, *open.value), trait.says),
          fmt::format("Find out the exact {} of {}.{}", trait.name, has.called(),
                      trait.how.empty() ? "" : " " + trait.how),
          has.called(), "has", has.place ? has.place->roles.front() : "cabinet", trait.safety);
      reason.rule = "trait clash";
      reason.signals = {trait.name};
      return;
    }
    if (agreement != Agreement::yes) say_clash(findings, trait, has, takes, agreement);
    return;
  }
  if (has.value) return ask_value(findings, trait, takes, true, has);
  if (takes.value || asked) return ask_value(findings, trait, has, false, takes);
}

Side side_of(const Assembly& set, const std::string& role, const std::string& trait, bool taken) {
  Side side;
  side.place = set.filling(role);
  if (side.place && side.place->type)
    side.value = value_of(taken ? side.place->type->takes : side.place->type->has, trait);
  if (role == "cabinet" && set.model && !side.value) {
    side.model = set.model;
    side.place = nullptr;
    side.value = taken ? nullptr : value_of(set.model->has, trait);
  }
  return side;
}

bool there(const Side& side) { return side.model || (side.place && side.place->type); }

void judge_between(Findings& findings, const Trait& trait) {
  for (const auto& owner : trait.of) {
    bool asked = trait.ask;  // of the first taker that is there; the others only where they say so
    for (const auto& taker : trait.taken_by) {
      const Side has = side_of(findings.set, owner, trait.name, false);
      const Side takes = side_of(findings.set, taker, trait.name, true);
      if (!there(has) || !there(takes)) continue;
      if (has.place && has.place == takes.place) continue;
      if (!has.differs_from_factory() && !takes.differs_from_factory()) continue;
      if (has.place && takes.place && built_together(findings.known, *has.place, *takes.place))
        continue;
      judge_pair(findings, trait, has, takes, asked);
      asked = false;
    }
  }
}

// The new part against the very one it replaces ("the fan blows the other way").
void judge_as_before(Findings& findings, const Trait& trait) {
  for (const auto& place : findings.set.places) {
    if (!differs(place) || !place.type || !place.was) continue;
    if (std::none_of(trait.of.begin(), trait.of.end(),
                     [&](const std::string& role) { return place.fills(role); }))
      continue;
    const auto *now = value_of(place.type->has, trait.name),
               *old = value_of(place.was->has, trait.name);
    if (!now || !old || compare_words(trait, *now, *old) == Agreement::yes) continue;
    Side fresh;
    fresh.place = &place;
    fresh.value = now;
    Reason& reason = findings.add(
        "trait clash", RuleSort::single, grade(trait),
        fmt::format("{}: {} has {}, the old one has {}. {}{}", capitalised(trait.name),
                    place.type->reference(), words_of(trait, *now), words_of(trait, *old),
                    trait.says, trait.mend.empty() ? "" : " " + trait.mend),
        trait.name + "|" + place.position);
    if (reason.verdict == Verdict::fits_with_work)
      reason.work_minutes = trait.work_minutes.value_or(0);
    dress(reason, trait, fresh, Side{});
    reason.facts.push_back(
        {fmt::format("{} had {}", place.was->reference(), words_of(trait, *old)), old->where});
  }
}

}  // namespace

void judge_traits(Findings& findings) {
  for (const auto* trait : findings.known.traits()) {
    if (trait->compare == TraitCompare::same_as_old)
      judge_as_before(findings, *trait);
    else
      judge_between(findings, *trait);
  }
}

}  // namespace benchgraft::fit
