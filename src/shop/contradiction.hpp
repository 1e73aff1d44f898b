// What cannot be true of a whole shop at once.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "shop/shop.hpp"

namespace benchgraft::shop {

/// One thing a contradiction is about, newest last.
struct Named {
  std::string sort;  ///< "set", "part", ... as in the journal
  std::string key;   ///< key_of the thing
  bool operator==(const Named&) const = default;
};

struct Contradiction {
  ErrorKind kind = ErrorKind::conflict;
  std::string sentence;  ///< names the things by code, and the mend
  std::vector<Named> about;
};

/// The first of: doubled id, code or name; a thing that is not there; two parts in one position; a
/// part in two places or in a position that is missing; a part or host claimed by two rebuilds; a
/// wish twice.
std::optional<Contradiction> first_contradiction(const Shop& shop);

}  // namespace benchgraft::shop
