// What could be built besides, once questions are settled: never part of the value.
#pragma once

#include "plan/decision.hpp"

namespace benchgraft::plan {

/// Rebuilds with the verdict `unknown` out of what the decision leaves over.
std::vector<PlannedRebuild> after_questions(const catalogue::Catalogue& known,
                                            const shop::Shop& shop, const Inventory& inventory,
                                            Answers& answers, const Decision& decided,
                                            double seconds);

}  // namespace benchgraft::plan
