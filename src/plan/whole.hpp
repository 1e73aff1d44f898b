// The judgement of a rebuild in numbers.
#pragma once

#include "plan/room.hpp"

namespace benchgraft::plan {

/// `ground` and `host` outlive the result only by copy of what it needs.
Whole whole_of(const Ground& ground, const HostMeaning& host, const std::vector<int>& choices);

/// Everything that may be in the set as it came.
std::vector<const catalogue::PartType*> own_types(const Ground& ground, const SetHere& here);

/// Reports of success that may speak for putting this type into `host` with these parts
/// of its `own`, at most: one for each swap note that moved it there or beside one of them, half a
/// one for each that moved another of its kind within the family.
double notes_for(const Ground& ground, const SetHere& host,
                 const std::vector<const catalogue::PartType*>& own,
                 const catalogue::PartType* type);

/// How sure a rebuild with this verdict is.
Level level_of(fit::Verdict verdict);

/// What a verdict is worth before any report.
Evidence prior_of(const catalogue::Catalogue& known, fit::Verdict verdict);

}  // namespace benchgraft::plan
