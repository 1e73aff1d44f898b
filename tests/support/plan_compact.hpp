// The whole room as one integer program, handed to the solver as it is: the plain way to do it, and
// the peer of the planner's figures. No whole judgement: tables only.
//
// Binaries: host built, source taken, set stripped, price reached, piece of log chance. The product
// of chances is bounded from above by chords over pieces of the sum of their logarithms, so the
// bound holds; the value is counted again from the solution.
#pragma once

#include "base/result.hpp"
#include "plan/answer.hpp"

namespace benchgraft::test {

/// `pieces` of log chance per host and price: more are slower and closer.
Result<plan::Answer> plan_by_one_program(const plan::Problem& room, int pieces, double seconds);

}  // namespace benchgraft::test
