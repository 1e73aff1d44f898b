// The tables of the shop file, and how an older file is brought up to date.
#pragma once

#include <span>
#include <string>

#include "base/result.hpp"
#include "store/connection.hpp"

namespace benchgraft::store {

/// One step forward; `version` is what the file has afterwards. Steps are never changed, only
/// added.
struct Step {
  int version;
  const char* sql;
};
std::span<const Step> steps();

inline constexpr std::int64_t kShopFile = 0x42475331;  ///< PRAGMA application_id, "BGS1"

/// Fails when the file is newer than the last step, of another program, or too old to be read only.
/// Before each step of an existing file a copy is put beside it: path.version-1, ...
Result<void> bring_up_to_date(Connection& connection, const std::string& path, Access access,
                              std::span<const Step> steps);

}  // namespace benchgraft::store
