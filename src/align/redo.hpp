// Which settings must be gone through again after a rebuild, in which order, and where to begin.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "catalogue/knowledge.hpp"

namespace benchgraft::align {

/// One setting to go through.
struct ToRedo {
  std::string setting;
  std::string why;                 ///< "asked for", or the setting it must follow
  std::vector<std::string> after;  ///< settings of this list that come before it
};

/// Those of `asked`, and every setting that comes after a changed flip, so that none undoes an
/// earlier one; where nothing is said, in the order of `settings`. fails: a setting nobody
/// recorded; settings that wait for each other in a circle.
Result<std::vector<ToRedo>> to_redo(std::span<const catalogue::Setting> settings,
                                    std::span<const std::string> asked);

/// A value found before with the same two parts. Newest note first; notes of swaps that failed do
/// not count.
struct FoundBefore {
  std::string value;  ///< as written
  std::string note;   ///< name of the swap note
  std::string date;
};
std::optional<FoundBefore> found_before(std::span<const catalogue::SwapNote> notes,
                                        const std::string& part, const std::string& other,
                                        const std::string& setting);

}  // namespace benchgraft::align
