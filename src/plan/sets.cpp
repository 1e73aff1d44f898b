#include "plan/sets.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "plan/why_not.hpp"

namespace benchgraft::plan {
namespace {

const PlannedRebuild* rebuild_of(const std::vector<PlannedRebuild>& rebuilds,
                                 const std::string& code) {
  for (const auto& rebuild : rebuilds)
    if (rebuild.host == code) return &rebuild;
  return nullptr;
}

/// Says what becomes of one set.
class SetWords {
 public:
  SetWords(const Ground& ground, const RoomOfNumbers& room, const std::vector<char>& stripped,
           const std::vector<PlannedRebuild>& rebuilds, const std::vector<PlannedRebuild>& after,
           bool proven)
      : ground_(ground),
        room_(room),
        stripped_(stripped),
        rebuilds_(rebuilds),
        after_(after),
        proven_(proven) {}

  PlannedSet run(std::size_t s) const {
    const auto& here = ground_.inventory.sets[s];
    PlannedSet planned{here.set->code, here.set->model, Use::kept, ""};
    if (const auto* rebuild = rebuild_of(rebuilds_, here.set->code)) {
      planned.use = Use::host;
      planned.why = built(*rebuild);
    } else if (stripped_[s]) {
      planned.use = Use::stripped;
      planned.why = gives(here.set->code);
    } else if (here.kind && !here.kind->judged) {
      planned.use = Use::not_judged;
      planned.why = here.kind->not_judged;
    } else {
      decide_rest(s, planned);
    }
    return planned;
  }

 private:
  std::string money(double minor) const { return money_words(minor, ground_.shop.terms.currency); }

  std::string built(const PlannedRebuild& rebuild) const {
    std::string why =
        fmt::format("It fetches {}, works at {:.0f} % and is worth {} after work and parts.",
                    money(static_cast<double>(rebuild.price.minor)), rebuild.chance * 100,
                    money(static_cast<double>(rebuild.value.minor)));
    const std::string given = gives(rebuild.host);
    return given.empty() ? why : why + " " + given;
  }

  std::string gives(const std::string& code) const {
    std::vector<std::string> words;
    for (const auto& rebuild : rebuilds_)
      for (const auto& part : rebuild.parts)
        if (part.origin == Origin::donor && part.donor == code)
          words.push_back(fmt::format("the {} goes into {}", part.position, rebuild.host));
    return words.empty() ? "" : capitalised(listed(words)) + ".";
  }

  void decide_rest(std::size_t s, PlannedSet& planned) const {
    const auto& here = ground_.inventory.sets[s];
    const std::string not_built = why_not(s);
    if (here.set->consent != shop::Consent::may_strip) {
      planned.why =
          fmt::format("{} {}",
                      here.set->consent == shop::Consent::must_go_back
                          ? "It must go back to its owner and gives no parts."
                          : "Nobody has said that it may be taken apart: it gives no parts.",
                      not_built);
      return;
    }
    if (rebuild_of(after_, here.set->code)) {
      planned.why = "It could be built once its questions are settled.";
      return;
    }
    if (ground_.wanted.never_strip.count(static_cast<int>(s))) {
      planned.why = "You want it never stripped. " + not_built;
      return;
    }
    const double worth = loose_worth(static_cast<int>(s));
    if (worth > 0 || claimed_by(ground_.shop, *here.set)) {
      planned.why =
          fmt::format("{} Its parts are worth {} loose, after the work.", not_built, money(worth));
      if (worth <= 0) planned.why = not_built;
      return;
    }
    planned.use = Use::left;
    planned.why = not_built +
                  " No rebuild wants its parts, and loose they are worth less than the work of "
                  "taking them out.";
  }

  std::string why_not(std::size_t s) const {
    const auto& here = ground_.inventory.sets[s];
    if (!here.not_a_host.empty()) return here.not_a_host;
    if (ground_.wanted.never_build.count(static_cast<int>(s))) return "It is not to be built.";
    return why_not_built(ground_, room_, room_.problem.sets[s].host, proven_).text;
  }

  // Salvage value of what is worth taking out, less opening the set.
  double loose_worth(int s) const {
    const auto& here = ground_.inventory.sets[static_cast<std::size_t>(s)];
    const double rate = room_.problem.money_per_minute;
    double worth = -minutes_to_open(here.kind) * rate;
    for (const auto& item : ground_.inventory.items)
      if (item.set == s && item.usable && item.type && item.type->salvage)
        worth += std::max(0.0, static_cast<double>(item.type->salvage->minor) * item.chance -
                                   handling(here.kind, item.roles).out * rate);
    return worth;
  }

  const Ground& ground_;
  const RoomOfNumbers& room_;
  const std::vector<char>& stripped_;
  const std::vector<PlannedRebuild>& rebuilds_;
  const std::vector<PlannedRebuild>& after_;
  bool proven_;
};

}  // namespace

std::vector<PlannedSet> planned_sets(const Ground& ground, const RoomOfNumbers& room,
                                     const std::vector<char>& stripped,
                                     const std::vector<PlannedRebuild>& rebuilds,
                                     const std::vector<PlannedRebuild>& after, bool proven) {
  const SetWords words(ground, room, stripped, rebuilds, after, proven);
  std::vector<PlannedSet> sets;
  for (std::size_t s = 0; s < ground.inventory.sets.size(); ++s) sets.push_back(words.run(s));
  return sets;
}

std::vector<Purchase> purchases_for(const catalogue::Catalogue& known,
                                    const std::vector<PlannedRebuild>& rebuilds) {
  std::vector<Purchase> purchases;
  for (const auto& rebuild : rebuilds)
    for (const auto& part : rebuild.parts) {
      if (part.origin != Origin::bought) continue;
      const Money price = *known.part_type(part.type)->price;
      const auto same = std::find_if(purchases.begin(), purchases.end(), [&](const Purchase& buy) {
        return buy.type == part.type && buy.for_host == rebuild.host;
      });
      if (same == purchases.end()) {
        purchases.push_back({part.type, 1, price,
                             part.roles.empty() ? part.position : part.roles.front(),
                             rebuild.host});
      } else {
        ++same->count;
        same->price += price;
      }
    }
  return purchases;
}

}  // namespace benchgraft::plan
