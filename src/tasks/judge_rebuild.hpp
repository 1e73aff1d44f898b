// Judges one rebuild, and makes its build sheet.
#pragma once

#include "tasks/answer.hpp"
#include "tasks/rebuild_asked.hpp"

namespace benchgraft::tasks {

/// What happens when these parts meet; an answer "destroys" is an answer, not a failure.
Result<Answer> judge_rebuild(const RebuildAsked& asked);

/// The sheet for the bench: surprises, parts, connections, work in order, settings.
Result<Answer> build_sheet(const RebuildAsked& asked);

/// The rebuild the plan makes of one host, as a rebuild file.
Result<std::string> rebuild_file(const RebuildAsked& asked);

}  // namespace benchgraft::tasks
