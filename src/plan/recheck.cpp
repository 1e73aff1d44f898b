// Counts a plan again from the shop, the catalogue and the judgement alone: no number of the solver
// is trusted, none of its structures is used.
#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "plan/facts.hpp"
#include "plan/planning.hpp"

namespace benchgraft::plan {
namespace {

constexpr double kSameChance = 1e-9, kSameMinutes = 1e-6;

/// The first thing found wrong, or nothing.
using Wrong = std::optional<std::string>;

class Recount {
 public:
  Recount(const Plan& plan, const catalogue::Catalogue& known, const shop::Shop& room,
          const Prospects& prospects, const Fitting& fitting)
      : plan_(plan), known_(known), room_(room), prospects_(prospects), fitting_(fitting) {}

  Result<Money> run() {
    Wrong wrong = count_sets();
    for (const auto& rebuild : plan_.rebuilds)
      if (!wrong) wrong = count(rebuild);
    if (!wrong) wrong = compare_totals();
    if (!wrong) wrong = check_wishes();
    if (wrong)
      return Error{ErrorKind::conflict, fmt::format("The plan does not add up: {}", *wrong)};
    return value_;
  }

 private:
  // Every set has one use, and only what may be opened is.
  Wrong count_sets() {
    for (const auto& planned : plan_.sets) {
      const auto* set = room_.set_by_code(planned.code);
      if (!set || set->fate != shop::Fate::here)
        return fmt::format("the set {} is not here.", planned.code);
      if (!uses_.emplace(planned.code, planned.use).second)
        return fmt::format("the set {} has two uses.", planned.code);
      if (planned.use != Use::stripped) continue;
      if (set->consent != shop::Consent::may_strip)
        return fmt::format("the set {} may not be stripped.", planned.code);
      if (claimed_by(room_, *set)) return fmt::format("the set {} is claimed.", planned.code);
      minutes_ += minutes_to_open(kind_of(*set));
      value_ = value_ - Money{std::llround(minutes_to_open(kind_of(*set)) * per_minute())};
    }
    return {};
  }

  double per_minute() const { return static_cast<double>(room_.terms.per_hour.minor) / 60; }

  const catalogue::SetKind* kind_of(const shop::Set& set) const {
    const auto* model = set.model.empty() ? nullptr : known_.model(set.model);
    return known_.set_kind(model ? model->kind : set.kind);
  }

  Wrong count(const PlannedRebuild& rebuild) {
    const auto* host = room_.set_by_code(rebuild.host);
    if (!host || uses_.count(rebuild.host) == 0 || uses_[rebuild.host] != Use::host)
      return fmt::format("{} is built but is not a host.", rebuild.host);
    if (!built_.insert(rebuild.host).second) return fmt::format("{} is built twice.", rebuild.host);
    if (claimed_by(room_, *host)) return fmt::format("{} is claimed.", rebuild.host);
    const auto* model = known_.model(host->model);
    if (!model || model->name != rebuild.model)
      return fmt::format("{} is not a {}.", rebuild.host, rebuild.model);
    auto text = host_as_text(known_, room_, *host);
    auto foreign = std::exchange(text.parts, {});
    Sum sum;
    std::set<std::string> filled;
    for (const auto& part : rebuild.parts) {
      if (!filled.insert(part.position).second)
        return fmt::format("the {} of {} is filled twice.", part.position, rebuild.host);
      if (auto wrong = count(part, *host, *model, rebuild, sum)) return wrong;
      if (part.origin != Origin::own) text.parts.push_back(proposed(part));
    }
    for (const auto& missing : host->missing)
      if (std::none_of(text.parts.begin(), text.parts.end(),
                       [&](const auto& part) { return part.place == missing; }))
        text.missing.push_back(missing);
    keep_foreign(text, std::move(foreign));
    const auto judged = fitting_.whole(text);
    if (!judged) return judged.error().message;
    return compare(rebuild, *host, *model, judged.value(), sum);
  }

  struct Sum {
    double chance = 1, minutes = 0, salvage = 0;
    Money material;
    std::vector<std::string> provides;
  };

  Wrong count(const PlannedPart& part, const shop::Set& host, const catalogue::Model& model,
              const PlannedRebuild& rebuild, Sum& sum) {
    const auto* position = position_named(model, part.position);
    if (!position || position->name != part.position)
      return fmt::format("{} has no position {}.", rebuild.host, part.position);
    const auto* type = known_.part_type(part.type);
    if (!type && part.origin != Origin::own)
      return fmt::format("the type {} is not recorded.", part.type);
    double chance = 0;
    Wrong wrong = part.origin == Origin::bought ? bought(part, *type, chance)
                  : part.part.empty()           ? unrecorded(part, host, chance)
                                                : recorded(part, host, chance);
    if (wrong) return wrong;
    if (std::abs(chance - part.chance) > kSameChance)
      return fmt::format("the chance of the {} of {} is {}, not {}.", part.position, rebuild.host,
                         chance, part.chance);
    const auto factory = factory_part(known_, *position, variants_of(known_, model, room_, host));
    if (counts(model, host.looks, kind_of(host), *position, factory.type, type, part.roles))
      sum.chance *= chance;
    if (part.origin == Origin::bought) sum.material += *type->price;
    if (part.origin == Origin::shelf || part.origin == Origin::donor)
      sum.salvage += type->salvage ? static_cast<double>(type->salvage->minor) * chance : 0;
    if (part.origin == Origin::donor && uses_[part.donor] == Use::stripped)
      sum.minutes += handling(kind_of(*room_.set_by_code(part.donor)), type->roles).out;
    if (type && type->provides)
      sum.provides.insert(sum.provides.end(), type->provides->begin(), type->provides->end());
    return {};
  }

  Wrong bought(const PlannedPart& part, const catalogue::PartType& type, double& chance) const {
    if (!type.price) return fmt::format("nobody is known to sell {}.", part.type);
    chance = room_.terms.chance_good;
    return {};
  }

  Wrong recorded(const PlannedPart& part, const shop::Set& host, double& chance) {
    const shop::Part* what = room_.part_by_code(part.part);
    if (!what) return fmt::format("there is no part {}.", part.part);
    if (!used_.insert(part.part).second) return fmt::format("part {} is used twice.", part.part);
    if (what->state == shop::State::bad) return fmt::format("part {} is bad.", part.part);
    if (claimed_by(room_, *what)) return fmt::format("part {} is claimed.", part.part);
    for (const auto& wish : room_.wishes)
      if (wish.sort == shop::WishSort::keep_part && wish.part == part.part)
        return fmt::format("part {} is to be kept.", part.part);
    const auto* type = what->type.empty() ? nullptr : known_.part_type(what->type);
    if (type ? type->reference() != part.type : !part.type.empty())
      return fmt::format("part {} is not a {}.", part.part, part.type);
    const auto* from = what->in_set ? room_.set(*what->in_set) : nullptr;
    chance = prospects_.parts[static_cast<std::size_t>(what - room_.parts.data())].chance;
    if (part.origin == Origin::shelf)
      return from ? Wrong(fmt::format("part {} is not on a shelf.", part.part)) : Wrong();
    if (!from) return fmt::format("part {} is in no set.", part.part);
    if (part.origin == Origin::own) {
      if (from->id == host.id) return {};
      return fmt::format("part {} is not in {}.", part.part, host.code);
    }
    if (from->code != part.donor)
      return fmt::format("part {} is not in {}.", part.part, part.donor);
    return may_give(*from, what->position, part.part);
  }

  // A donor is stripped, or is built with something else in that place.
  Wrong may_give(const shop::Set& from, const std::string& place, const std::string& what) {
    if (from.consent != shop::Consent::may_strip)
      return fmt::format("{} keeps its parts, {} among them.", from.code, what);
    const auto use = uses_.find(from.code);
    if (use != uses_.end() && use->second == Use::stripped) return {};
    for (const auto& rebuild : plan_.rebuilds)
      if (rebuild.host == from.code)
        for (const auto& part : rebuild.parts)
          if (part.origin != Origin::own && is_place(from, part.position, place)) return {};
    return fmt::format("{} stays in {}, which is not opened for it.", what, from.code);
  }

  bool is_place(const shop::Set& set, const std::string& position, const std::string& place) const {
    const auto* model = known_.model(set.model);
    const auto* named = model ? position_named(*model, place) : nullptr;
    return named && named->name == position;
  }

  // A factory part nobody wrote down: it has to be one, and each is there once.
  Wrong unrecorded(const PlannedPart& part, const shop::Set& host, double& chance) {
    chance = room_.terms.chance_untested;
    const auto* from = part.origin == Origin::own ? &host : room_.set_by_code(part.donor);
    if (!from) return fmt::format("a part of {} has no code and comes from nowhere.", host.code);
    int there = 0;
    for (const auto& [position, reference] : unrecorded_in(*from)) {
      if (part.origin == Origin::own ? position != part.position : reference != part.type) continue;
      if (reference != part.type) continue;
      if (part.origin == Origin::donor && may_give(*from, position, position)) continue;
      ++there;
    }
    const std::string key = part.origin == Origin::own ? from->code + " | own | " + part.position
                                                       : from->code + " | " + part.type;
    if (++used_unrecorded_[key] > there)
      return fmt::format("there is no {} left in {} for {}.", part.type, from->code, host.code);
    return {};
  }

  std::vector<std::pair<std::string, std::string>> unrecorded_in(const shop::Set& set) const {
    std::vector<std::pair<std::string, std::string>> all;
    const auto* model = known_.model(set.model);
    if (!model) return all;
    const auto variants = variants_of(known_, *model, room_, set);
    for (const auto& position : model->positions) {
      const auto is_here = [&](const std::string& name) {
        return position_named(*model, name) == &position;
      };
      if (std::any_of(set.missing.begin(), set.missing.end(), is_here)) continue;
      const auto inside = room_.parts_in(set.id);
      if (std::any_of(inside.begin(), inside.end(),
                      [&](const shop::Part* p) { return is_here(p->position); }))
        continue;
      const auto factory = factory_part(known_, position, variants);
      if (factory.sure && !factory.type) continue;
      all.emplace_back(position.name, factory.type ? factory.type->reference() : "");
    }
    return all;
  }

  catalogue::ProposedPart proposed(const PlannedPart& part) const {
    catalogue::ProposedPart text;
    if (const auto* what = part.part.empty() ? nullptr : room_.part_by_code(part.part))
      text = as_proposed(*what, part.position);
    text.place = part.position;
    if (!part.type.empty()) text.type = part.type;
    text.from = part.origin == Origin::bought  ? "bought"
                : part.origin == Origin::donor ? part.donor
                                               : "shelf";
    return text;
  }

  Wrong compare(const PlannedRebuild& rebuild, const shop::Set& host, const catalogue::Model& model,
                const fit::Judgement& judged, const Sum& sum) {
    if (judged.verdict > fit::Verdict::fits_with_work || judged.verdict != rebuild.verdict)
      return fmt::format("{} is judged \"{}\".", rebuild.host, fit::to_text(judged.verdict));
    const double chance = sum.chance * judged.chance;
    if (std::abs(chance - rebuild.chance) > kSameChance)
      return fmt::format("{} works at {}, not {}.", rebuild.host, chance, rebuild.chance);
    const double minutes = sum.minutes + judged.work_minutes;
    if (std::abs(minutes - rebuild.work_minutes) > kSameMinutes)
      return fmt::format("{} takes {} minutes, not {}.", rebuild.host, minutes,
                         rebuild.work_minutes);
    const Money material = sum.material + judged.material;
    if (material != rebuild.material)
      return fmt::format("the material of {} costs {}, not {}.", rebuild.host, material.minor,
                         rebuild.material.minor);
    const Money price = price_again(host, model, judged, sum.provides);
    if (price != rebuild.price)
      return fmt::format("{} fetches {}, not {}.", rebuild.host, price.minor, rebuild.price.minor);
    const Money value{std::llround(static_cast<double>(price.minor) * chance -
                                   static_cast<double>(material.minor) - sum.salvage -
                                   minutes * per_minute())};
    if (value != rebuild.value)
      return fmt::format("{} is worth {}, not {}.", rebuild.host, value.minor, rebuild.value.minor);
    value_ += value;
    minutes_ += minutes;
    return {};
  }

  Money price_again(const shop::Set& host, const catalogue::Model& model,
                    const fit::Judgement& judged, std::vector<std::string> abilities) const {
    if (model.provides)
      abilities.insert(abilities.end(), model.provides->begin(), model.provides->end());
    const auto variants = variants_of(known_, model, room_, host);
    if (!variants.empty())
      for (const auto& ability : variants.front()->provides)
        if (std::all_of(variants.begin(), variants.end(),
                        [&](const auto* v) { return contains(v->provides, ability); }))
          abilities.push_back(ability);
    std::erase_if(abilities, [&](const auto& ability) { return contains(judged.lost, ability); });
    return price_of(model, host.looks, abilities);
  }

  Wrong compare_totals() const {
    for (const auto& [code, use] : uses_)
      if (use == Use::host && built_.count(code) == 0)
        return fmt::format("{} is a host but is not built.", code);
    if (room_.terms.hours && minutes_ > *room_.terms.hours * 60 + 1e-3)
      return fmt::format("it takes {:.0f} minutes of bench time, and there are {:.0f}.", minutes_,
                         *room_.terms.hours * 60);
    if (value_ != plan_.value)
      return fmt::format("it is worth {}, not {}.", value_.minor, plan_.value.minor);
    if (plan_.bound < plan_.value)
      return fmt::format("its bound {} is below its value.", plan_.bound.minor);
    return {};
  }

  // A wish is obeyed, or named among the remarks.
  Wrong check_wishes() const {
    for (const auto& wish : room_.wishes) {
      const bool built = built_.count(wish.set) > 0;
      const auto use = uses_.find(wish.set);
      const bool stripped = use != uses_.end() && use->second == Use::stripped;
      const bool broken =
          (wish.sort == shop::WishSort::build_this && !built) ||
          (wish.sort == shop::WishSort::never_build && built) ||
          (wish.sort == shop::WishSort::never_strip && stripped) ||
          (wish.sort == shop::WishSort::use_part_in && !(built && uses(wish.set, wish.part)));
      if (broken && !remarked(wish)) return "a wish about " + wish.set + " is not obeyed.";
    }
    return {};
  }

  bool uses(const std::string& host, const std::string& code) const {
    for (const auto& rebuild : plan_.rebuilds)
      if (rebuild.host == host)
        for (const auto& part : rebuild.parts)
          if (part.part == code) return true;
    return false;
  }

  bool remarked(const shop::Wish& wish) const {
    if (wish.sort == shop::WishSort::never_build || wish.sort == shop::WishSort::never_strip)
      return false;
    return std::any_of(plan_.remarks.begin(), plan_.remarks.end(), [&](const auto& remark) {
      return remark.find(wish.set) != std::string::npos;
    });
  }

  const Plan& plan_;
  const catalogue::Catalogue& known_;
  const shop::Shop& room_;
  const Prospects& prospects_;
  const Fitting& fitting_;
  Money value_;
  double minutes_ = 0;
  std::map<std::string, Use> uses_;
  std::set<std::string> built_, used_;
  std::map<std::string, int> used_unrecorded_;
};

}  // namespace

Result<Money> recheck_with(const Plan& plan, const catalogue::Catalogue& known,
                           const shop::Shop& room, const Prospects& prospects,
                           const Fitting& fitting) {
  if (prospects.parts.size() != room.parts.size())
    return Error{ErrorKind::bad_input, "The chances do not belong to the parts of this shop."};
  return Recount(plan, known, room, prospects, fitting).run();
}

Result<Money> recheck(const Plan& plan, const catalogue::Catalogue& known, const shop::Shop& room,
                      const Prospects& prospects) {
  const fit::Conditions conditions{room.terms.mains_volts, room.terms.mains_hz,
                                   room.terms.touch_profile};
  return recheck_with(plan, known, room, prospects, fitting_by_fit(known, conditions));
}

}  // namespace benchgraft::plan
