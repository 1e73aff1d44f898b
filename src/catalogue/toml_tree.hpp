// TOML text as a plain tree with the line of every value; keeps the TOML library in one source
// file.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace benchgraft::catalogue {

struct TomlEntry;

/// One value of the text. Only the member that belongs to `sort` says anything.
struct TomlNode {
  enum class Sort { text, whole, number, yes_no, date, time, list, table };
  Sort sort = Sort::table;
  int line = 0;
  std::string text;  ///< also of a date: 2026-05-31
  std::int64_t whole = 0;
  double number = 0;
  bool yes = false;
  std::vector<TomlNode> list;
  std::vector<TomlEntry> entries;  ///< in the order of their lines

  [[nodiscard]] const TomlEntry* find(std::string_view key) const;
  /// The value as a message shows it: short, on one line.
  [[nodiscard]] std::string shown() const;
};

struct TomlEntry {
  std::string key;
  int line = 0;
  TomlNode value;
};

/// Fails on text that is too large, not UTF-8, not TOML or nested without end.
Result<TomlNode> parse_toml(std::string_view text, const std::string& file);

/// `text` on one line: line breaks and other control characters become blanks.
std::string one_line(std::string text);

/// "tern.toml, line 31: "; without the line when it is 0.
std::string place(const std::string& file, int line);

}  // namespace benchgraft::catalogue
