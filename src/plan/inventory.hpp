// What is in the room and may be used: every set, every part, also those nobody wrote down.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/facts.hpp"
#include "plan/plan.hpp"

namespace benchgraft::plan {

inline constexpr std::size_t kUnrecorded = static_cast<std::size_t>(-1);

/// One part. A factory part that nobody has written down or missed is there, untested.
struct Item {
  std::size_t part = kUnrecorded;             ///< index in Shop::parts
  std::string code;                           ///< "" when unrecorded
  const catalogue::PartType* type = nullptr;  ///< null: nobody knows
  std::vector<std::string> roles;             ///< what it does
  std::string key;                            ///< of its effective type
  double chance = 0;
  bool usable = false;  ///< may go into a rebuild: not bad, kept or claimed
  int set = -1;         ///< index in Inventory::sets; -1 on a shelf
  int position = -1;    ///< index in the positions of that set's model; -1 elsewhere in it
};

/// What sits in one position of a set.
struct Seat {
  enum class Has { part, left_empty, nothing };
  Has has = Has::nothing;
  int item = -1;  ///< when it is known or guessed which
};

struct SetHere {
  std::size_t index = 0;  ///< in Shop::sets
  const shop::Set* set = nullptr;
  const catalogue::Model* model = nullptr;
  const catalogue::SetKind* kind = nullptr;
  std::vector<const catalogue::Variant*> variants;  ///< it may still be
  std::vector<Seat> seats;                          ///< per position of the model
  bool ours = false;                                ///< may be taken apart
  std::string not_a_host;                           ///< why it cannot be built; "" = it may
};

struct Inventory {
  std::vector<SetHere> sets;  ///< those still here, in the order of the shop
  std::vector<Item> items;    ///< recorded parts first, in the order of the shop
  std::vector<std::string> remarks;
};

/// Fails on numbers out of range: a chance outside 0..1, a negative price or wage.
Result<Inventory> take_stock(const catalogue::Catalogue& known, const shop::Shop& room,
                             const Prospects& prospects);

}  // namespace benchgraft::plan
