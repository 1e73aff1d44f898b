#include "plan/wishes.hpp"

#include <fmt/format.h>

namespace benchgraft::plan {
namespace {

using shop::Wish;
using shop::WishSort;

bool wants_built(const Wish& wish) {
  return wish.sort == WishSort::build_this || wish.sort == WishSort::use_part_in;
}

// Two wishes, in either order, that no plan can meet both of.
bool against(const shop::Shop& room, const Wish& a, const Wish& b) {
  if (wants_built(a) && b.sort == WishSort::never_build) return a.set == b.set;
  if (a.sort == WishSort::use_part_in && b.sort == WishSort::keep_part) return a.part == b.part;
  if (a.sort == WishSort::use_part_in && b.sort == WishSort::use_part_in)
    return a.part == b.part && a.set != b.set;
  if (a.sort == WishSort::use_part_in && b.sort == WishSort::never_strip) {
    // A part comes out of a set that is stripped, or is freed by a set that is built.
    const auto* part = room.part_by_code(a.part);
    const auto* from = part && part->in_set ? room.set(*part->in_set) : nullptr;
    if (!from || from->code != b.set || from->code == a.set) return false;
    for (const auto& wish : room.wishes)
      if (wish.sort == WishSort::never_build && wish.set == b.set) return true;
  }
  return false;
}

Result<void> refuse_contradictions(const shop::Shop& room) {
  for (const auto& a : room.wishes)
    for (const auto& b : room.wishes)
      if (&a != &b && against(room, a, b))
        return Error{ErrorKind::conflict,
                     fmt::format("{} and t{} contradict each other; withdraw one of them.",
                                 wish_text(a), wish_text(b).substr(1))};
  return {};
}

int set_named(const Inventory& inventory, const std::string& code) {
  for (std::size_t s = 0; s < inventory.sets.size(); ++s)
    if (inventory.sets[s].set->code == code) return static_cast<int>(s);
  return -1;
}

int item_named(const Inventory& inventory, const std::string& code) {
  for (std::size_t i = 0; i < inventory.items.size(); ++i)
    if (inventory.items[i].part != kUnrecorded && inventory.items[i].code == code)
      return static_cast<int>(i);
  return -1;
}

void cannot(Wanted& wanted, const Wish& wish, const std::string& why) {
  wanted.remarks.push_back(fmt::format("{} cannot be met: {}", wish_text(wish), why));
}

void add_use(Wanted& wanted, const Inventory& inventory, const Wish& wish) {
  const int set = set_named(inventory, wish.set), item = item_named(inventory, wish.part);
  if (set < 0) return cannot(wanted, wish, fmt::format("no set {} is here.", wish.set));
  if (item < 0) return cannot(wanted, wish, fmt::format("no part {} is here.", wish.part));
  const auto& part = inventory.items[static_cast<std::size_t>(item)];
  const auto& host = inventory.sets[static_cast<std::size_t>(set)];
  if (!part.usable)
    return cannot(wanted, wish, fmt::format("part {} is bad or claimed.", wish.part));
  if (!part.type)
    return cannot(wanted, wish, fmt::format("nobody knows yet what part {} is.", wish.part));
  if (!host.not_a_host.empty()) return cannot(wanted, wish, host.not_a_host);
  if (part.set >= 0 && part.set != set && !inventory.sets[static_cast<std::size_t>(part.set)].ours)
    return cannot(wanted, wish,
                  fmt::format("it is in {}, which must go back to its owner.",
                              inventory.sets[static_cast<std::size_t>(part.set)].set->code));
  wanted.use_in[item] = set;
}

void add(Wanted& wanted, const Inventory& inventory, const Wish& wish) {
  if (wish.sort == WishSort::use_part_in) return add_use(wanted, inventory, wish);
  if (wish.sort == WishSort::keep_part) {
    const int item = item_named(inventory, wish.part);
    if (item >= 0) wanted.keep.insert(item);
    return;
  }
  const int set = set_named(inventory, wish.set);
  if (wish.sort == WishSort::never_build) wanted.never_build.insert(set);
  if (wish.sort == WishSort::never_strip) wanted.never_strip.insert(set);
  if (wish.sort != WishSort::build_this) return;
  if (set < 0) return cannot(wanted, wish, fmt::format("no set {} is here.", wish.set));
  const auto& objection = inventory.sets[static_cast<std::size_t>(set)].not_a_host;
  if (!objection.empty()) return cannot(wanted, wish, objection);
  wanted.build.insert(set);
}

}  // namespace

std::string wish_text(const Wish& wish) {
  switch (wish.sort) {
    case WishSort::build_this:
      return fmt::format("The wish to build {}", wish.set);
    case WishSort::never_strip:
      return fmt::format("The wish never to strip {}", wish.set);
    case WishSort::never_build:
      return fmt::format("The wish never to build {}", wish.set);
    case WishSort::use_part_in:
      return fmt::format("The wish to use part {} in {}", wish.part, wish.set);
    case WishSort::keep_part:
      return fmt::format("The wish to keep part {}", wish.part);
  }
  return "The wish";
}

Result<Wanted> read_wishes(const shop::Shop& room, const Inventory& inventory) {
  if (auto good = refuse_contradictions(room); !good) return good.error();
  Wanted wanted;
  for (const auto& wish : room.wishes) add(wanted, inventory, wish);
  return wanted;
}

}  // namespace benchgraft::plan
