// Plans a small room by trying everything: every use of every set, every rebuild that could matter.
// The slow twin of columns.hpp.
#pragma once

#include "plan/answer.hpp"

namespace benchgraft::plan {

/// The best allotment of a room that passed check(). When `limits` end the search early, the bound
/// covers what was not tried.
/// Cost: 3^sets ways to use the sets, each with the rebuilds that could still beat the best.
Answer enumerate(const Problem& problem, const Limits& limits);

}  // namespace benchgraft::plan
