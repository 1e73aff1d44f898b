// Taking changes back, and which later changes stand in the way.
#pragma once

#include <set>
#include <string>

#include "base/result.hpp"
#include "shop/edits.hpp"

namespace benchgraft::shop {

/// What a step touched, in words that can be compared with those of another step.
struct Traces {
  std::set<std::string>
      touched;                 ///< "set <id> note", "part <id>", "spot <set id> tuner", "code K7R"
  std::set<std::string> made;  ///< things and codes that were not there before
  std::set<std::string> removed;  ///< things and codes that are not there after
  std::set<std::string> used;     ///< things and codes that had to be there
};

Traces traces_of(const Edits& edits);

/// True when `later` cannot stay as it is once `earlier` is taken back.
bool depends(const Traces& later, const Traces& earlier);

/// `records` as if `edits` had not been made: every field they changed gets its old value.
/// Fails with conflict when a field was changed again since, or its thing is gone.
Result<Records> take_back(const Edits& edits, Records records);

}  // namespace benchgraft::shop
