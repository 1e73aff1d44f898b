// The judgement of a rebuild in numbers.
#pragma once

#include "plan/room.hpp"

namespace benchgraft::plan {

/// `ground` and `host` outlive the result only by copy of what it needs.
Whole whole_of(const Ground& ground, const HostMeaning& host, const std::vector<int>& choices);

/// At most this much evidence speaks for any rebuild of a host into which parts of these types may
/// go: the prior of the verdict, and every note of success that could count.
double most_evidence(const catalogue::Catalogue& known, fit::Verdict verdict,
                     const std::vector<const catalogue::PartType*>& types);

}  // namespace benchgraft::plan
