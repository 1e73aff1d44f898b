#include "tasks/offers.hpp"

#include <algorithm>
#include <map>
#include <tuple>

#include <fmt/format.h>

#include "plan/inventory.hpp"
#include "tasks/plan_room.hpp"

namespace benchgraft::tasks {
namespace {

using fit::Offer;

bool wished(const Room& room, shop::WishSort sort, const std::string& set,
            const std::string& part) {
  return std::any_of(room.shop.wishes.begin(), room.shop.wishes.end(), [&](const auto& wish) {
    return wish.sort == sort && (set.empty() || wish.set == set) &&
           (part.empty() || wish.part == part);
  });
}

// Why a part of that set must not be taken; "" when it may.
std::string refusal(const Room& room, const plan::SetHere& donor) {
  const auto& code = donor.set->code;
  if (donor.set->consent == shop::Consent::must_go_back)
    return fmt::format("set {} must go back to its owner", code);
  if (donor.set->consent == shop::Consent::unknown)
    return fmt::format("nobody said that set {} may be stripped", code);
  if (wished(room, shop::WishSort::never_strip, code, ""))
    return fmt::format("set {} is never to be stripped, by your wish", code);
  if (const auto* record = plan::claimed_by(room.shop, *donor.set))
    return fmt::format("set {} is being rebuilt ({})", code, record->name);
  return "";
}

class Offering {
 public:
  Offering(const Room& room, const plan::Inventory& stock, const std::string& host)
      : room_(room), stock_(stock), host_(host) {}

  std::vector<Offer> all() {
    for (const auto& item : stock_.items) consider(item);
    std::vector<Offer> offers;
    for (auto& [key, alike] : alike_)
      for (auto& offer : alike) offers.push_back(std::move(offer));
    return offers;
  }

 private:
  void consider(const plan::Item& item) {
    const auto* part = item.part == plan::kUnrecorded ? nullptr : &room_.shop.parts[item.part];
    const auto* donor = item.set < 0 ? nullptr : &stock_.sets[static_cast<std::size_t>(item.set)];
    if (!item.usable || (donor && donor->set->code == host_)) return;
    if (!item.type && (!part || part->candidates.empty())) return;
    if (part && elsewhere_wished(part->code)) return;
    Offer offer;
    if (part) offer.part = plan::as_proposed(*part, "");
    if (!part) offer.part.type = item.type->reference();
    offer.part.from = donor ? donor->set->code : "shelf";
    offer.part.where.file = part ? "part " + part->code : "set " + donor->set->code;
    offer.called = item.code;
    offer.chance = item.chance;
    if (donor) {
      offer.work_minutes =
          plan::minutes_to_open(donor->kind) + plan::handling(donor->kind, item.roles).out;
      offer.refused = refusal(room_, *donor);
    }
    if (part && wished(room_, shop::WishSort::keep_part, "", part->code))
      offer.refused = fmt::format("part {} is to be kept, by your wish", part->code);
    keep(item.key, std::move(offer));
  }

  [[nodiscard]] bool elsewhere_wished(const std::string& part) const {
    return wished(room_, shop::WishSort::use_part_in, "", part) &&
           !wished(room_, shop::WishSort::use_part_in, host_, part);
  }

  // Of parts that judge alike: the one with the least minutes and the one with the best chance.
  void keep(const std::string& key, Offer offer) {
    auto& alike = alike_[key + (offer.refused.empty() ? "" : "|refused")];
    alike.push_back(std::move(offer));
    const auto nearest =
        *std::min_element(alike.begin(), alike.end(), [](const auto& a, const auto& b) {
          return std::tie(a.work_minutes, b.chance) < std::tie(b.work_minutes, a.chance);
        });
    const auto surest =
        *std::min_element(alike.begin(), alike.end(), [](const auto& a, const auto& b) {
          return std::tie(b.chance, a.work_minutes) < std::tie(a.chance, b.work_minutes);
        });
    alike = {nearest};
    if (surest.chance > nearest.chance) alike.push_back(surest);
  }

  const Room& room_;
  const plan::Inventory& stock_;
  std::string host_;
  std::map<std::string, std::vector<Offer>> alike_;
};

}  // namespace

std::vector<Offer> offers_to_buy(const catalogue::Catalogue& known, double chance) {
  std::vector<Offer> offers;
  for (const auto* type : known.part_types()) {
    if (!type->price) continue;
    Offer offer;
    offer.part.type = type->reference();
    offer.part.from = "bought";
    offer.part.where = type->where;
    offer.called = type->reference();
    offer.bought = true;
    offer.money = *type->price;
    offer.chance = chance;
    offer.delivery_days = type->delivery_days;
    offers.push_back(std::move(offer));
  }
  return offers;
}

Result<std::vector<Offer>> offers_of(const Room& room, const std::string& host) {
  auto stock = plan::take_stock(room.known, room.shop, prospects(room.shop));
  if (!stock) return stock.error();
  auto offers = Offering(room, stock.value(), host).all();
  for (auto& offer : offers_to_buy(room.known, room.shop.terms.chance_good))
    offers.push_back(std::move(offer));
  return offers;
}

}  // namespace benchgraft::tasks
