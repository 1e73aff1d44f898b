#include "plan/inventory.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace benchgraft::plan {
namespace {

Error out_of_range(std::string message) { return {ErrorKind::bad_input, std::move(message)}; }

bool is_chance(double chance) { return chance >= 0 && chance <= 1; }

Result<void> check_terms(const shop::Terms& terms) {
  if (terms.per_hour.minor < 0)
    return out_of_range(
        fmt::format("An hour at the bench costs {}; write 0 or more in the shop's terms.",
                    terms.per_hour.minor));
  if (terms.hours && !(*terms.hours >= 0))
    return out_of_range(
        fmt::format("There are {} bench hours to plan for; write 0 or more.", *terms.hours));
  for (const double chance : {terms.chance_untested, terms.chance_good, terms.chance_suspect})
    if (!is_chance(chance))
      return out_of_range(fmt::format(
          "A chance in the shop's terms is {}; it has to lie between 0 and 1.", chance));
  return {};
}

Result<void> check_prices(const catalogue::Catalogue& known) {
  for (const auto* model : known.models())
    for (const auto& price : model->prices)
      if (price.price.minor < 0)
        return out_of_range(fmt::format("The price of {} is {}; a price cannot be negative.",
                                        model->name, price.price.minor));
  for (const auto* type : known.part_types())
    for (const auto& money : {type->price, type->salvage})
      if (money && money->minor < 0)
        return out_of_range(fmt::format("A price of {} is {}; a price cannot be negative.",
                                        type->reference(), money->minor));
  return {};
}

Result<void> check_numbers(const catalogue::Catalogue& known, const shop::Shop& room,
                           const Prospects& prospects) {
  if (prospects.parts.size() != room.parts.size())
    return out_of_range(fmt::format("There are chances for {} parts, but {} parts are here.",
                                    prospects.parts.size(), room.parts.size()));
  for (std::size_t i = 0; i < room.parts.size(); ++i)
    if (!is_chance(prospects.parts[i].chance))
      return out_of_range(
          fmt::format("The chance that part {} works is {}; it has to lie between 0 and 1.",
                      room.parts[i].code, prospects.parts[i].chance));
  if (auto good = check_terms(room.terms); !good) return good;
  return check_prices(known);
}

class Stocktaking {
 public:
  Stocktaking(const catalogue::Catalogue& known, const shop::Shop& room, const Prospects& prospects)
      : known_(known), room_(room), prospects_(prospects) {}

  Inventory run() {
    for (std::size_t s = 0; s < room_.sets.size(); ++s)
      if (room_.sets[s].fate == shop::Fate::here) add_set(s);
    for (std::size_t i = 0; i < room_.parts.size(); ++i) add_part(i);
    for (std::size_t s = 0; s < out_.sets.size(); ++s) fill_seats(static_cast<int>(s));
    return std::move(out_);
  }

 private:
  void add_set(std::size_t index) {
    SetHere here;
    here.index = index;
    here.set = &room_.sets[index];
    here.ours = here.set->consent == shop::Consent::may_strip;
    here.model = here.set->model.empty() ? nullptr : known_.model(here.set->model);
    here.kind = known_.set_kind(here.model ? here.model->kind : here.set->kind);
    if (here.model) {
      here.variants = variants_of(known_, *here.model, room_, *here.set);
      here.seats.resize(here.model->positions.size());
    }
    here.not_a_host = objection(here);
    out_.sets.push_back(std::move(here));
  }

  std::string objection(const SetHere& here) const {
    if (const auto* record = claimed_by(room_, *here.set))
      return fmt::format("It is being rebuilt already ({}).", record->name);
    if (here.kind && !here.kind->judged) return here.kind->not_judged;
    if (here.set->model.empty())
      return "Its model is not known: find the label, or compare it with the pictures of its kind.";
    if (!here.model)
      return fmt::format("Its model {} is not in the catalogue: load or write its family file.",
                         here.set->model);
    if (here.model->positions.empty())
      return fmt::format("No positions are recorded for {}: write down what sits where.",
                         here.model->name);
    if (here.variants.empty() && !here.model->variants.empty())
      return fmt::format(
          "What was seen in it fits no recorded variant of {}: correct what was seen, or record "
          "the variant.",
          here.model->name);
    if (here.model->prices.empty())
      return fmt::format("No price is recorded for a working {}.", here.model->name);
    return "";
  }

  void add_part(std::size_t index) {
    const auto& part = room_.parts[index];
    Item item;
    item.part = index;
    item.code = part.code;
    item.type = part.type.empty() ? nullptr : known_.part_type(part.type);
    item.roles = item.type ? item.type->roles : part.roles;
    item.key =
        item.type ? effective_key(item.type->reference(), part.changes) : "unknown " + part.code;
    item.chance = prospects_.parts[index].chance;
    item.usable =
        part.state != shop::State::bad && item.chance > 0 && claimed_by(room_, part) == nullptr;
    if (!part.type.empty() && !item.type)
      out_.remarks.push_back(
          fmt::format("Part {}: the type {} is not recorded, or has several revisions; it counts "
                      "as unknown.",
                      part.code, part.type));
    if (part.in_set && !locate(item, part)) return;
    out_.items.push_back(std::move(item));
  }

  // Which set it is in, and where; false when that set is gone.
  bool locate(Item& item, const shop::Part& part) {
    for (std::size_t s = 0; s < out_.sets.size(); ++s) {
      auto& here = out_.sets[s];
      if (here.set->id != *part.in_set) continue;
      item.set = static_cast<int>(s);
      if (!here.model || part.position.empty()) return true;
      const auto* position = position_named(*here.model, part.position);
      if (!position) return true;
      const auto p = static_cast<std::size_t>(position - here.model->positions.data());
      if (here.seats[p].has == Seat::Has::part) return true;
      item.position = static_cast<int>(p);
      here.seats[p] = {Seat::Has::part, static_cast<int>(out_.items.size())};
      return true;
    }
    return false;
  }

  // Positions nobody wrote a part for: the factory's part, unless it is missing.
  void fill_seats(int s) {
    auto& here = out_.sets[static_cast<std::size_t>(s)];
    for (std::size_t p = 0; p < here.seats.size(); ++p) {
      if (here.seats[p].has == Seat::Has::part) continue;
      const auto& position = here.model->positions[p];
      if (missing(here, position)) continue;
      const auto factory = factory_part(known_, position, here.variants);
      if (factory.sure && !factory.type) {
        here.seats[p].has = Seat::Has::left_empty;
        continue;
      }
      Item item;
      item.type = factory.type;
      item.roles = factory.type ? factory.type->roles : position.roles;
      item.key = factory.type ? factory.type->reference() : "unknown";
      item.chance = room_.terms.chance_untested;
      item.usable = item.chance > 0;
      item.set = s;
      item.position = static_cast<int>(p);
      here.seats[p] = {Seat::Has::part, static_cast<int>(out_.items.size())};
      out_.items.push_back(std::move(item));
    }
  }

  static bool missing(const SetHere& here, const catalogue::Position& position) {
    return std::any_of(
        here.set->missing.begin(), here.set->missing.end(),
        [&](const std::string& name) { return position_named(*here.model, name) == &position; });
  }

  const catalogue::Catalogue& known_;
  const shop::Shop& room_;
  const Prospects& prospects_;
  Inventory out_;
};

}  // namespace

Result<Inventory> take_stock(const catalogue::Catalogue& known, const shop::Shop& room,
                             const Prospects& prospects) {
  if (auto good = check_numbers(known, room, prospects); !good) return good.error();
  return Stocktaking(known, room, prospects).run();
}

}  // namespace benchgraft::plan
