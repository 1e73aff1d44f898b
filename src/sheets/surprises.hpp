// "Before you open it": every surprise of a rebuild, worst first.
#pragma once

#include <vector>

#include "fit/verdict.hpp"
#include "sheets/page.hpp"

namespace benchgraft::sheets {

/// Danger, will not fit, work, must come along, will be lost, must be redone, to settle; then what
/// is good to know, and one folded "look here" line for each role.
std::vector<Block> surprises(const fit::Judgement& judged);

/// The one line on top: what this rebuild is as it stands.
Line verdict_line(const fit::Judgement& judged);

}  // namespace benchgraft::sheets
