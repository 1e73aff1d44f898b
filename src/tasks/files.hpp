// Reads the text files of folders and writes a folder of them.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "shop/text.hpp"

namespace benchgraft::tasks {

/// Every .toml and .csv file of `paths`; of a folder, those in it and below, sorted by name.
/// A file named directly may have any ending. Fails on a path that is not there or cannot be read,
/// and with `limit` above 64 MB for .csv and 8 MB for everything else.
Result<std::vector<shop::NamedText>> read_files(const std::vector<std::string>& paths);

/// Writes `texts` into `folder` (made when missing), replacing files of the same name, each whole
/// or not at all.
Result<void> write_files(const std::string& folder, const std::vector<shop::NamedText>& texts);

}  // namespace benchgraft::tasks
