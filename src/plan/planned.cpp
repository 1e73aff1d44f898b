#include "plan/planned.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/text.hpp"

namespace benchgraft::plan {
namespace {

Money rounded(double minor) { return {std::llround(minor)}; }

class Draft {
 public:
  Draft(const Ground& ground, const RoomOfNumbers& room, const Built& built,
        const std::vector<int>& parts)
      : ground_(ground),
        room_(room),
        built_(built),
        parts_(parts),
        meaning_(room.hosts[static_cast<std::size_t>(built.host)]),
        here_(ground.inventory.sets[static_cast<std::size_t>(meaning_.set)]) {}

  Drafted run() {
    auto& rebuild = out_.rebuild;
    rebuild.host = here_.set->code;
    rebuild.model = here_.model->name;
    rebuild.variant = here_.variants.size() == 1 ? here_.variants.front()->name : "";
    text_ = as_text(ground_, meaning_, built_.choices);
    std::size_t put = 0;
    rebuild.chance = 1;
    for (const bool changed : {true, false})
      for (std::size_t p = 0; p < built_.choices.size(); ++p) {
        const bool is_put = meaning(p).sits == Sits::put;
        if (is_put == changed && (is_put || own_item(p))) add(p, put);
      }
    judge();
    rebuild.value = value_of(rebuild, ground_.shop.terms.per_hour, salvage_);
    out_.value = static_cast<double>(rebuild.price.minor) * rebuild.chance -
                 static_cast<double>(rebuild.material.minor) - salvage_ -
                 rebuild.work_minutes * static_cast<double>(ground_.shop.terms.per_hour.minor) / 60;
    rebuild.why = why();
    return std::move(out_);
  }

 private:
  const Meaning& meaning(std::size_t p) const {
    return meaning_.places[p][static_cast<std::size_t>(built_.choices[p])];
  }
  const Source& source(std::size_t p) const {
    return room_.problem.hosts[static_cast<std::size_t>(built_.host)]
        .places[p]
        .choices[static_cast<std::size_t>(built_.choices[p])]
        .sources[static_cast<std::size_t>(built_.sources[p])];
  }
  const Item* own_item(std::size_t p) const {
    const auto& seat = here_.seats[p];
    if (meaning(p).sits != Sits::stays || seat.has != Seat::Has::part) return nullptr;
    return &ground_.inventory.items[static_cast<std::size_t>(seat.item)];
  }

  void add(std::size_t p, std::size_t& put) {
    const auto& position = here_.model->positions[p];
    const bool is_put = meaning(p).sits == Sits::put;
    const Item* item =
        is_put ? (parts_[p] < 0 ? nullptr
                                : &ground_.inventory.items[static_cast<std::size_t>(parts_[p])])
               : own_item(p);
    PlannedPart part;
    part.position = position.name;
    part.roles = meaning(p).type ? meaning(p).type->roles : item ? item->roles : position.roles;
    part.type = meaning(p).type ? meaning(p).type->reference() : "";
    out_.rebuild.chance *= source(p).chance;
    part.chance = item ? item->chance : ground_.shop.terms.chance_good;
    if (item) part.part = item->code;
    if (is_put) {
      part.origin = !item ? Origin::bought : item->set < 0 ? Origin::shelf : Origin::donor;
      if (part.origin == Origin::donor)
        part.donor = ground_.inventory.sets[static_cast<std::size_t>(item->set)].set->code;
      pay(p, part.origin);
      tell(text_.parts[put++], part, item);
    }
    out_.rebuild.parts.push_back(std::move(part));
  }

  void pay(std::size_t p, Origin origin) {
    out_.rebuild.work_minutes += source(p).minutes;
    if (origin == Origin::bought)
      out_.rebuild.material += *meaning(p).type->price;
    else
      salvage_ += source(p).money;
  }

  void tell(catalogue::ProposedPart& text, const PlannedPart& part, const Item* item) const {
    text.from = part.origin == Origin::bought  ? "bought"
                : part.origin == Origin::donor ? part.donor
                                               : "shelf";
    if (!item || item->part == kUnrecorded) return;
    const auto recorded = as_proposed(ground_.shop.parts[item->part], text.place);
    text.run_hours = recorded.run_hours;
    text.known_good = recorded.known_good;
  }

  void judge() {
    auto& rebuild = out_.rebuild;
    const auto& judged = ground_.answers.whole(text_);
    if (!judged) {
      out_.allowed = false;
      return;
    }
    const auto& all = judged.value();
    rebuild.verdict = all.verdict;
    out_.allowed = all.verdict <=
                   (ground_.allow_unknown ? fit::Verdict::unknown : fit::Verdict::fits_with_work);
    rebuild.chance *= all.chance;
    rebuild.work_minutes += all.work_minutes;
    rebuild.material += all.material;
    std::vector<const catalogue::PartType*> types;
    for (std::size_t p = 0; p < built_.choices.size(); ++p) types.push_back(meaning(p).type);
    rebuild.price = price_of(*here_.model, here_.set->looks, abilities_of(here_, types, all.lost));
    if (all.verdict == fit::Verdict::unknown)
      for (const auto& question : all.questions) rebuild.questions.push_back(question.text);
  }

  std::string why() const {
    std::vector<std::string> words;
    for (const auto& part : out_.rebuild.parts) {
      if (part.origin == Origin::own) continue;
      const std::string from = part.origin == Origin::donor   ? "comes out of " + part.donor
                               : part.origin == Origin::shelf ? "comes from the shelf"
                                                              : "is bought";
      words.push_back(fmt::format("the {} {}", part.position, from));
    }
    std::vector<std::string> without;
    for (std::size_t p = 0; p < built_.choices.size(); ++p)
      if (meaning(p).sits == Sits::nothing)
        without.push_back("a working " + here_.model->positions[p].name);
    const std::string gap = without.empty() ? "" : " It does without " + listed(without) + ".";
    if (words.empty()) return "Nothing has to be changed: every part of it is its own." + gap;
    return capitalised(listed(words)) + "; everything else is its own." + gap;
  }

  const Ground& ground_;
  const RoomOfNumbers& room_;
  const Built& built_;
  const std::vector<int>& parts_;
  const HostMeaning& meaning_;
  const SetHere& here_;
  catalogue::RebuildText text_;
  double salvage_ = 0;
  Drafted out_;
};

}  // namespace

Money value_of(const PlannedRebuild& rebuild, Money per_hour, double salvage) {
  return rounded(static_cast<double>(rebuild.price.minor) * rebuild.chance -
                 static_cast<double>(rebuild.material.minor) - salvage -
                 rebuild.work_minutes * static_cast<double>(per_hour.minor) / 60);
}

Drafted draft(const Ground& ground, const RoomOfNumbers& room, const Built& built,
              const std::vector<int>& parts) {
  return Draft(ground, room, built, parts).run();
}

}  // namespace benchgraft::plan
