// Where a statement stands in the records, and what it is worth.
#pragma once

#include <string>

namespace benchgraft {

/// A line of a file the user can open, or a record of the shop ("part K7R", line 0).
struct Where {
  std::string file;
  int line = 0;
  /// Two places are never compared: moving a line in a file changes no fact.
  bool operator==(const Where&) const { return true; }
};

/// How a thing is known, strongest first (design: answers keep this order).
enum class Source { measured, verified, derived, usual, assumed };

}  // namespace benchgraft
