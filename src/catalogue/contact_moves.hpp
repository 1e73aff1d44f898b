// Where every contact of a plug sits after a re-pin.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "catalogue/part_type.hpp"

namespace benchgraft::catalogue {

/// Old place -> new place, of the contacts that were moved and of those that had to make room: who
/// is pushed out of the last place of a chain of moves goes to the place the chain left empty.
using NewPlaces = std::map<std::string, std::string>;

/// `moves` are done at once: every "from" is a place before the first of them.
/// Fails when a contact is moved twice or two contacts are moved to one place.
Result<NewPlaces> new_places(const std::vector<const Change*>& moves);

}  // namespace benchgraft::catalogue
