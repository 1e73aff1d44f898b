// Reads catalogue folders as the program would and says what is in them and what is not yet known.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "tasks/knowledge.hpp"

namespace benchgraft::tasks {

struct Checked {
  std::size_t families = 0, part_types = 0, models = 0, adaptations = 0, settings = 0, notes = 0;
  struct Unknown {
    std::string what;                ///< "ports", "mount", ...
    std::vector<std::string> whose;  ///< references or model names
  };
  std::vector<Unknown> unknown;
};

/// Counts only what the named folders add to the shipped kinds.
/// fails: as loading does.
Result<Checked> check_catalogue(const Knowledge& knowledge);

}  // namespace benchgraft::tasks
