// Picks the way of solving by the size of the room.
#pragma once

#include <string>

#include "plan/answer.hpp"

namespace benchgraft::plan {

struct Solved {
  Answer answer;
  std::string method;  ///< "trying every use of 7 sets; 412 rebuilds judged"
};

/// Tries everything up to `enumerate_up_to` sets that matter; column generation above, and where
/// trying everything did not come to its end. Fails on numbers out of range.
Result<Solved> solve(const Problem& problem, const Limits& limits, std::size_t enumerate_up_to);

}  // namespace benchgraft::plan
