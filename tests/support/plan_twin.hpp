// Slow twin of the planner: tries every rebuild of every host with every use of every set.
// Shares nothing with the planner but the description of the room.
#pragma once

#include "plan/problem.hpp"

namespace benchgraft::test {

struct TwinAnswer {
  double value = 0;
  int unmet = 0;  ///< hosts wished for that no allotment can build together
};

/// The highest worth of the room: as many wished-for hosts as possible first, then money.
TwinAnswer plan_by_trying_everything(const plan::Problem& room);

/// What the tables say about these choices, worked out anew; also the level and the reports it
/// rests on, when asked.
plan::Whole by_hand(const plan::Problem& room, int host, const std::vector<int>& choices,
                    plan::Level* level = nullptr, double* notes = nullptr);

}  // namespace benchgraft::test
