// What the user insists on, as sets and parts of the inventory; contradictions are refused.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "plan/inventory.hpp"

namespace benchgraft::plan {

struct Wanted {
  std::set<int> build;  ///< sets of the inventory
  std::set<int> never_build;
  std::set<int> never_strip;
  std::map<int, int> use_in;         ///< item -> set; the set is built then
  std::set<int> keep;                ///< items
  std::vector<std::string> remarks;  ///< wishes that cannot be met at all
};

/// Fails with ErrorKind::conflict when two wishes cannot both hold, naming both.
Result<Wanted> read_wishes(const shop::Shop& room, const Inventory& inventory);

/// "The wish to build H2", "The wish to use part R3 in H2".
std::string wish_text(const shop::Wish& wish);

}  // namespace benchgraft::plan
