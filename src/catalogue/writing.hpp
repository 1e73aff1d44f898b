// Writes structs as TOML by walking their each_key() lists; only what is known is written.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "catalogue/write_value.hpp"

namespace benchgraft::catalogue {

/// Visits the keys of one struct and writes it as an inline table, on one line.
class InlineWriting {
 public:
  template <class F>
  void key(std::string_view name, const F& field, const Demand& demand = {}) {
    if (!is_said(field, demand)) return;
    text_ += fmt::format("{}{} = {}", text_.empty() ? "" : ", ", name, value_text(field));
  }
  /// Lists stay on the line of their table.
  template <class T>
  requires(!Keyed<T>) void key(std::string_view name, const std::vector<T>& field,
                               const Demand& = {}) {
    if (field.empty()) return;
    std::string list;
    for (const auto& one : field) list += (list.empty() ? "" : ", ") + value_text(one);
    text_ += fmt::format("{}{} = [{}]", text_.empty() ? "" : ", ", name, list);
  }
  [[nodiscard]] std::string text() const { return "{" + text_ + "}"; }

 private:
  std::string text_;
};

template <Keyed T>
std::string value_text(const T& v) {
  InlineWriting keys;
  each_key(keys, v);
  return keys.text();
}

/// Visits the keys of one struct and writes it as a table with one key a line, its sections after
/// them.
class SectionWriting {
 public:
  explicit SectionWriting(std::string path) : path_(std::move(path)) {}

  template <class F>
  void key(std::string_view name, const F& field, const Demand& demand = {}) {
    if (!is_said(field, demand)) return;
    if constexpr (requires { section(name, field); })
      if (demand.section) return section(name, field);
    line(name, value_text(field));
  }
  void key(std::string_view name, const std::string& field, const Demand& demand = {}) {
    if (is_said(field, demand)) line(name, demand.sentence ? quoted_long(field) : quoted(field));
  }
  [[nodiscard]] std::string text() const { return lines_ + sections_; }

 private:
  void line(std::string_view name, const std::string& value) {
    lines_ += fmt::format("{} = {}\n", name, value);
  }

  template <Keyed T>
  void section(std::string_view name, const std::vector<T>& field) {
    const std::string path = path_.empty() ? std::string(name) : fmt::format("{}.{}", path_, name);
    for (const auto& one : field) {
      SectionWriting keys(path);
      each_key(keys, one);
      sections_ += fmt::format("\n[[{}]]\n{}", path, keys.text());
    }
  }
  template <Keyed T>
  void section(std::string_view name, const std::optional<std::vector<T>>& field) {
    if (field->empty()) return line(name, "[]");
    section(name, *field);
  }
  void section(std::string_view name, const std::map<std::string, std::string>& field) {
    sections_ += fmt::format("[{}.{}]\n", path_, name);
    for (const auto& [key, value] : field)
      sections_ += fmt::format("{} = {}\n", quoted(key), quoted(value));
  }

  std::string path_;
  std::string lines_;
  std::string sections_;
};

/// `thing` as a whole file.
template <class T>
std::string file_text(const T& thing) {
  SectionWriting keys("");
  each_key(keys, thing);
  return keys.text();
}

}  // namespace benchgraft::catalogue
