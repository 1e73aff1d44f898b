// Short answers of commands that do or count something, in words and as JSON.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "tasks/check_catalogue.hpp"
#include "tasks/move_files.hpp"

namespace benchgraft::cli {

std::string as_words(const tasks::Recorded& done);
std::string as_words(const tasks::Imported& done);
std::string as_words(const tasks::Checked& checked);
std::string as_words(const std::vector<std::string>& files);

std::string as_json(const tasks::Recorded& done);
std::string as_json(const tasks::Imported& done);
std::string as_json(const tasks::Checked& checked);
std::string as_json(const std::vector<std::string>& files);

/// Writes a file whole or not at all.
Result<void> write_whole(const std::string& path, const std::string& text);

}  // namespace benchgraft::cli
