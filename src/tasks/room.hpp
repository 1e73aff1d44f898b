// The whole room in memory: what is known and what is here.
#pragma once

#include <functional>
#include <string>

#include "tasks/knowledge.hpp"
#include "tasks/shop_at.hpp"

namespace benchgraft::tasks {

/// Told what is being worked on; may be empty.
using Progress = std::function<void(const std::string&)>;

struct Room {
  catalogue::Catalogue known;
  shop::Shop shop;
};

/// Shipped kinds, `knowledge.folders`, the shop's families and its swap notes.
/// fails: no shop, a newer one, a catalogue that does not hold together.
Result<Room> load_room(const ShopAt& at, const Knowledge& knowledge);

}  // namespace benchgraft::tasks
