// What would it take to finish a host that cannot be finished.
#pragma once

#include <optional>

#include "fit/ways_out.hpp"
#include "tasks/answer.hpp"
#include "tasks/rebuild_asked.hpp"

namespace benchgraft::tasks {

/// in: a rebuild file, or the code of a host of the shop: then the host as it stands, without its
/// bad parts. With a shop its parts are offered, without one what is sold.
Result<Answer> ways(const RebuildAsked& asked);

/// The cheapest way out of a rebuild that was judged already; nothing when there is none within
/// `most_judgements`.
Result<std::optional<fit::Way>> cheapest_way(const RebuildAsked& asked,
                                             const catalogue::RebuildText& rebuild,
                                             std::size_t most_judgements);

}  // namespace benchgraft::tasks
