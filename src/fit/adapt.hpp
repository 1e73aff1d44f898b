// The cheapest set of adaptations that makes good what can be made good. Exact: they interact.
#pragma once

#include <vector>

#include "fit/findings.hpp"

namespace benchgraft::fit {

/// Money one minute at the bench is taken as when work and material are weighed (assumed: 30 an
/// hour).
inline constexpr double kMinorPerMinute = 50;

/// Chooses among the catalogue's adaptations and the offered work by branch and bound: every
/// finding that some work can cure is cured if that is possible at all, at the least minutes and
/// material; `needs` and `excludes` are obeyed. Cured reasons become fits_with_work and keep
/// `not_before`. They come out in the order they are done in: what another needs comes before it.
/// What they ask to have on the bench becomes a companion. Cost: exponential only in the number of
/// curable findings' alternatives (a handful).
void choose_adaptations(Findings& findings);

}  // namespace benchgraft::fit
