// Plans a large room: rebuilds are made only when they pay at the prices of the parts (column
// generation), an integer program chooses among them, and branching closes what is left open.
//
// The bound needs no trust in the choice: it is the worth of a room in which sets may be cut into
// fractions, which no real plan can beat.
#pragma once

#include "base/result.hpp"
#include "plan/answer.hpp"

namespace benchgraft::plan {

/// The best allotment found and its bound, for a room that passed check(). `start` may be empty.
/// Fails only when the solver does.
Result<Answer> plan_by_columns(const Problem& problem, const Limits& limits,
                               const Allotment& start = {});

}  // namespace benchgraft::plan
