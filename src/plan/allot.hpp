// Which physical part goes where, once it is decided how many of each kind are used.
#pragma once

#include <vector>

#include "plan/room.hpp"

namespace benchgraft::plan {

/// Per rebuild and place: the item of the inventory that is put in, -1 when none of the room is.
using Parts = std::vector<std::vector<int>>;

/// Gives every rebuild its parts, from as few different sets as it can.
/// Fails when a pool is overdrawn.
Result<Parts> allot(const RoomOfNumbers& room, const Inventory& inventory,
                    const Allotment& allotment);

}  // namespace benchgraft::plan
