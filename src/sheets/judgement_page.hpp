// The pages of one rebuild: what was judged, and the build sheet for the bench.
#pragma once

#include "fit/verdict.hpp"
#include "sheets/page.hpp"
#include "steps/steps.hpp"

namespace benchgraft::sheets {

/// What the heading says beside the judgement.
struct About {
  std::string name;  ///< of the rebuild, or the host's code
  std::string currency = "EUR";
};

/// The surprises and what follows from them, without the order of work.
Page judgement_page(const fit::Judgement& judged, const About& about);

/// Surprises, what to have on the bench, what from where, connections, work in order, settings.
/// in: `work` may be null; then, or when the rebuild must not be built, no order of work is given.
Page build_page(const fit::Judgement& judged, const steps::WorkOrder* work, const About& about);

/// The order of work alone, stage by stage (the middle of the build sheet).
std::vector<Block> work_blocks(const steps::WorkOrder& work);

}  // namespace benchgraft::sheets
