// What each set is for, and why.
#pragma once

#include <vector>

#include "plan/room.hpp"

namespace benchgraft::plan {

/// One line for every set that is here, in the order of the shop. `rebuilds` and `after` are those
/// of the plan; `stripped` as decided, per set of the inventory.
std::vector<PlannedSet> planned_sets(const Ground& ground, const RoomOfNumbers& room,
                                     const std::vector<char>& stripped,
                                     const std::vector<PlannedRebuild>& rebuilds,
                                     const std::vector<PlannedRebuild>& after, bool proven);

/// What has to be bought for the rebuilds.
std::vector<Purchase> purchases_for(const catalogue::Catalogue& known,
                                    const std::vector<PlannedRebuild>& rebuilds);

}  // namespace benchgraft::plan
