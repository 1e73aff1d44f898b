// What could be put into a host: loose parts, parts of sets, and what is sold.
#pragma once

#include <string>
#include <vector>

#include "fit/ways_out.hpp"
#include "tasks/room.hpp"

namespace benchgraft::tasks {

/// Every part type with a price.
std::vector<fit::Offer> offers_to_buy(const catalogue::Catalogue& known, double chance);

/// The room's loose parts and the parts of its other sets, then what is sold. Parts of a set that
/// must go back, or that somebody wishes to keep, are there and say that they are refused. Of parts
/// that are alike only the nearest and the surest are offered.
Result<std::vector<fit::Offer>> offers_of(const Room& room, const std::string& host);

}  // namespace benchgraft::tasks
