// One file being read: its first fault, and how single values are taken. Whole structs:
// read_keys.hpp.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "catalogue/keys_knowledge.hpp"
#include "catalogue/toml_tree.hpp"

namespace benchgraft::catalogue {

/// One file being read. After the first fault every further step does nothing.
class Reading {
 public:
  explicit Reading(const std::string& file) : file_(file) {}

  [[nodiscard]] const std::string& file() const { return file_; }
  [[nodiscard]] bool failed() const { return error_.has_value(); }
  [[nodiscard]] const Error& error() const { return *error_; }

  void fault(int line, const std::string& sentence);
  /// `key = value must be ...`
  void wrong(const TomlNode& node, std::string_view key, std::string_view must);
  void not_a_word(const TomlNode& node, std::string_view key,
                  const std::vector<std::string>& known);
  void missing(const TomlNode& table, std::string_view thing, std::string_view key);
  /// Faults the first key of `table` that is not in `known`.
  void refuse_unknown(const TomlNode& table, std::string_view thing,
                      const std::vector<std::string>& known);

 private:
  const std::string& file_;
  std::optional<Error> error_;
};

void read_value(Reading& r, const TomlNode& node, std::string_view key, std::string& out,
                const Demand& d);
void read_value(Reading& r, const TomlNode& node, std::string_view key, bool& out, const Demand& d);
void read_value(Reading& r, const TomlNode& node, std::string_view key, double& out,
                const Demand& d);
void read_value(Reading& r, const TomlNode& node, std::string_view key, int& out, const Demand& d);
void read_value(Reading& r, const TomlNode& node, std::string_view key, Money& out,
                const Demand& d);
void read_value(Reading& r, const TomlNode& node, std::string_view key, Range& out,
                const Demand& d);
void read_value(Reading& r, const TomlNode& node, std::string_view key, Point& out,
                const Demand& d);
void read_value(Reading& r, const TomlNode& node, std::string_view key, Loose<std::string> out,
                const Demand& d);
void read_value(Reading& r, const TomlNode& node, std::string_view key, Joined<std::string> out,
                const Demand& d);
void read_value(Reading& r, const TomlNode& node, std::string_view key,
                std::map<std::string, std::string>& out, const Demand& d);

}  // namespace benchgraft::catalogue
