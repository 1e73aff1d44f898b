// Comma-separated text (RFC 4180) with the line of every cell; also takes ';' or tabs between the
// cells.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace benchgraft::shop {

struct CsvRow {
  int line = 0;  ///< of its first cell
  std::vector<std::string> cells;
};

/// Rows with at least one cell that is not empty. A byte-order mark is skipped. What stands between
/// the cells is taken from the first line. Fails on a quote that is not closed or stands inside a
/// bare cell.
Result<std::vector<CsvRow>> parse_csv(std::string_view text, const std::string& file);

/// Adds `cells` as one line; quotes only where they are needed.
void add_csv_row(std::string& text, const std::vector<std::string>& cells);

/// Words in one cell, between " | "; a '|' or '\' inside a word is written "\|" and "\\".
std::string list_cell(const std::vector<std::string>& words);
std::vector<std::string> words_of_cell(std::string_view cell);

}  // namespace benchgraft::shop
