// A rebuild of numbers as the technician reads it, judged with the parts it really takes.
#pragma once

#include "plan/allot.hpp"

namespace benchgraft::plan {

struct Drafted {
  PlannedRebuild rebuild;
  double value = 0;  ///< not rounded
  bool allowed = true;
};

/// `parts` = what allot() gave this rebuild, per place.
Drafted draft(const Ground& ground, const RoomOfNumbers& room, const Built& built,
              const std::vector<int>& parts);

/// Rebuild value in minor units: price x chance - labour - material - salvage given up.
Money value_of(const PlannedRebuild& rebuild, Money per_hour, double salvage);

}  // namespace benchgraft::plan
