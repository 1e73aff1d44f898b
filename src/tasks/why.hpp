// Answers "why" for the code of any statement, set or part.
#pragma once

#include "tasks/answer.hpp"
#include "tasks/rebuild_asked.hpp"

namespace benchgraft::tasks {

/// With `asked.named`: judged again and looked up there. Else with a shop: what was said under that
/// code is derived again from today's facts; a set's or part's code is looked up in today's plan.
/// fails: not_found when nothing has that code (any more).
Result<Answer> why(const RebuildAsked& asked, const std::string& code);

}  // namespace benchgraft::tasks
