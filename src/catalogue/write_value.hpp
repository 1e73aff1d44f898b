// How single values stand in TOML text, and which are written at all.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "catalogue/keys_knowledge.hpp"

namespace benchgraft::catalogue {

/// `text` in double quotes with everything escaped that TOML wants escaped.
std::string quoted(std::string_view text);
/// The same over several lines when `text` has line breaks.
std::string quoted_long(std::string_view text);
/// Shortest digits that read back as exactly `number`.
std::string number_text(double number);
/// A bare whole number when that reads back as the same text, else quoted.
std::string loose_text(const std::string& text);

// value_text: how a value stands after the "=" of an inline table. is_said: whether it is written
// at all.
inline std::string value_text(const std::string& v) { return quoted(v); }
inline std::string value_text(bool v) { return v ? "true" : "false"; }
inline std::string value_text(double v) { return number_text(v); }
inline std::string value_text(int v) { return fmt::format("{}", v); }
inline std::string value_text(const Money& v) { return fmt::format("{}", v.minor); }
std::string value_text(const Range& v);
std::string value_text(const Point& v);
inline std::string value_text(const Loose<const std::string>& v) { return loose_text(v.text); }
std::string value_text(const Joined<const std::string>& v);
std::string value_text(const std::map<std::string, std::string>& v);
template <class E, class List>
std::string value_text(const Worded<E, List>& v);
template <class L, class S>
std::string value_text(const OrName<L, S>& v);
template <class T>
std::string value_text(const std::optional<T>& v);
template <class T>
std::string value_text(const std::vector<T>& v);
template <Keyed T>
std::string value_text(const T& v);

inline bool is_said(const std::string& v, const Demand&) { return !v.empty(); }
inline bool is_said(bool v, const Demand& d) { return v != d.usual; }
inline bool is_said(const Loose<const std::string>& v, const Demand&) { return !v.text.empty(); }
template <class T>
bool is_said(const std::optional<T>& v, const Demand&) {
  return v.has_value();
}
template <class T>
bool is_said(const std::vector<T>& v, const Demand&) {
  return !v.empty();
}
template <class L, class S>
bool is_said(const OrName<L, S>& v, const Demand&) {
  return v.list != L{v.name};
}
inline bool is_said(const Connector& v, const Demand&) { return v != Connector{}; }
inline bool is_said(const std::map<std::string, std::string>& v, const Demand&) {
  return !v.empty();
}
template <class E, class List>
bool is_said(const Worded<E, List>& v, const Demand& d) {
  if constexpr (std::same_as<std::remove_const_t<E>, Source>)
    if (v.value == Source::derived)
      return false;  // "recorded without saying how" is what silence means
  if (d.must) return true;
  for (const auto& [value, word] : v.list)
    if (v.value == value) return true;
  return false;
}
template <class T>
bool is_said(const T&, const Demand&) {
  return true;
}

template <class E, class List>
std::string value_text(const Worded<E, List>& v) {
  for (const auto& [value, word] : v.list)
    if (v.value == value) return quoted(word);
  return quoted("");
}
template <class L, class S>
std::string value_text(const OrName<L, S>& v) {
  return value_text(v.list);
}
template <class T>
std::string value_text(const std::optional<T>& v) {
  return value_text(*v);
}

inline constexpr std::size_t kWidestLine = 100;

template <class T>
std::string value_text(const std::vector<T>& v) {
  std::string line, lines;
  for (const auto& one : v) {
    const std::string text = value_text(one);
    line += (line.empty() ? "" : ", ") + text;
    lines += "  " + text + ",\n";
  }
  const bool facts = Keyed<T> && !v.empty();
  return facts || line.size() > kWidestLine ? "[\n" + lines + "]" : "[" + line + "]";
}

}  // namespace benchgraft::catalogue
