// A rebuild that is begun, finished or given up.
#pragma once

#include <optional>
#include <string>

#include "tasks/room.hpp"

namespace benchgraft::tasks {

/// Claims host and parts as today's plan has them.
/// fails: not_found when the plan does not build that set; conflict when a part has to be bought
/// first or something is claimed already.
Result<Recorded> begin_rebuild(const ShopAt& at, const Knowledge& knowledge,
                               const std::string& host, const std::string& name,
                               const Progress& progress);
/// The parts go in; what comes out goes onto the shelf `old_to`.
Result<Recorded> finish_rebuild(const ShopAt& at, const std::string& name,
                                std::optional<double> work_minutes, const std::string& old_to,
                                const std::string& note);
Result<Recorded> give_up_rebuild(const ShopAt& at, const std::string& name,
                                 const std::string& note);

}  // namespace benchgraft::tasks
