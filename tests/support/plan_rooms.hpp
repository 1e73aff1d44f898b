// Random rooms of plain numbers for the planner's tests and benches.
#pragma once

#include <cstdint>

#include "plan/problem.hpp"

namespace benchgraft::test {

struct RoomShape {
  int sets = 6;
  int pools = 5;
  int places = 3;
  int choices = 3;  ///< per place, at most
  int sources = 2;  ///< per choice, at most
  bool musts = false;
  bool whole = false;  ///< a whole judgement that adds to the tables
};

/// Repeatable: the same seed and shape give the same room.
plan::Problem random_room(std::uint32_t seed, const RoomShape& shape);

}  // namespace benchgraft::test
