// Planning a room with answers of one's own; make_plan() uses those of fit.
#pragma once

#include "plan/fitting.hpp"
#include "plan/plan.hpp"

namespace benchgraft::plan {

Result<Plan> make_plan_with(const catalogue::Catalogue& known, const shop::Shop& room,
                            const Prospects& prospects, const Options& options,
                            const Fitting& fitting);

/// recheck() with answers of one's own.
Result<Money> recheck_with(const Plan& plan, const catalogue::Catalogue& known,
                           const shop::Shop& room, const Prospects& prospects,
                           const Fitting& fitting);

}  // namespace benchgraft::plan
