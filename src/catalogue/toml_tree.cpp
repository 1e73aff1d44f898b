#include "catalogue/toml_tree.hpp"

#include <algorithm>

#include <fmt/format.h>
#include <toml++/toml.h>

#include "base/text.hpp"
#include "catalogue/text.hpp"
#include "catalogue/toml_depth.hpp"

namespace benchgraft::catalogue {

namespace {

int line_of(const toml::source_region& region) { return static_cast<int>(region.begin.line); }

TomlNode node_of(const toml::node& from);

void take_list(const toml::array& from, TomlNode& node) {
  node.sort = TomlNode::Sort::list;
  node.list.reserve(from.size());
  for (const auto& value : from) node.list.push_back(node_of(value));
}

void take_table(const toml::table& from, TomlNode& node) {
  node.sort = TomlNode::Sort::table;
  node.entries.reserve(from.size());
  for (const auto& [key, value] : from)
    node.entries.push_back({std::string(key.str()), line_of(key.source()), node_of(value)});
  std::stable_sort(node.entries.begin(), node.entries.end(),
                   [](const auto& a, const auto& b) { return a.line < b.line; });
}

void take_value(const toml::node& from, TomlNode& node) {
  using Sort = TomlNode::Sort;
  if (const auto* text = from.as_string()) {
    node.sort = Sort::text;
    node.text = text->get();
  } else if (const auto* whole = from.as_integer()) {
    node.sort = Sort::whole;
    node.whole = whole->get();
  } else if (const auto* number = from.as_floating_point()) {
    node.sort = Sort::number;
    node.number = number->get();
  } else if (const auto* yes = from.as_boolean()) {
    node.sort = Sort::yes_no;
    node.yes = yes->get();
  } else if (const auto* date = from.as_date()) {
    node.sort = Sort::date;
    const toml::date& day = date->get();
    node.text = fmt::format("{:04}-{:02}-{:02}", day.year, day.month, day.day);
  } else {
    node.sort = Sort::time;
  }
}

TomlNode node_of(const toml::node& from) {
  TomlNode node;
  node.line = line_of(from.source());
  if (const auto* list = from.as_array())
    take_list(*list, node);
  else if (const auto* table = from.as_table())
    take_table(*table, node);
  else
    take_value(from, node);
  return node;
}

Error not_utf8(std::string_view text, std::size_t at, const std::string& file) {
  const auto line =
      1 + std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n');
  return {ErrorKind::bad_input,
          fmt::format("{}byte {} (0x{:02x}) is not UTF-8 text; save the file as UTF-8.",
                      place(file, static_cast<int>(line)), at,
                      static_cast<unsigned>(static_cast<unsigned char>(text[at])))};
}

Result<TomlNode> parse_checked(std::string_view text, const std::string& file) {
  try {
    const toml::table root = toml::parse(text, std::string_view(file));
    TomlNode node = node_of(root);
    node.line = 1;
    return node;
  } catch (const toml::parse_error& broken) {
    return Error{
        ErrorKind::bad_input,
        fmt::format(
            "{}the text cannot be read from column {} on ({}); look for a missing or doubled "
            "key, quote, comma or bracket there.",
            place(file, line_of(broken.source())), broken.source().begin.column,
            one_line(std::string(broken.description())))};
  }
}

std::string quoted_short(const std::string& text) {
  constexpr std::size_t kShown = 40;
  std::string shown = "\"";
  std::size_t letters = 0;
  for (const char c : text) {
    const bool starts_letter = (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    if (starts_letter && ++letters > kShown) return one_line(shown) + "...\"";
    shown += c;
  }
  return one_line(shown) + "\"";
}

}  // namespace

std::string one_line(std::string text) {
  for (char& c : text)
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) c = ' ';
  return text;
}

std::string place(const std::string& file, int line) {
  if (line <= 0) return file + ": ";
  return fmt::format("{}, line {}: ", file, line);
}

const TomlEntry* TomlNode::find(std::string_view key) const {
  for (const auto& entry : entries)
    if (entry.key == key) return &entry;
  return nullptr;
}

std::string TomlNode::shown() const {
  switch (sort) {
    case Sort::text:
      return quoted_short(text);
    case Sort::whole:
      return fmt::format("{}", whole);
    case Sort::number:
      return fmt::format("{}", number);
    case Sort::yes_no:
      return yes ? "true" : "false";
    case Sort::date:
      return text;
    case Sort::time:
      return "(a time)";
    case Sort::table:
      return entries.empty() ? "{}" : "{...}";
    case Sort::list:
      break;
  }
  if (list.empty()) return "[]";
  std::string all;
  for (const auto& one : list) {
    all += all.empty() ? "" : ", ";
    all += one.sort == Sort::list ? "[...]" : one.shown();
    if (all.size() > 60) return "[...]";
  }
  return "[" + all + "]";
}

Result<TomlNode> parse_toml(std::string_view text, const std::string& file) {
  if (text.size() > kLargestFile)
    return Error{
        ErrorKind::limit,
        fmt::format("{}the file has {} bytes and at most {} are read; split it into families.",
                    place(file, 0), text.size(), kLargestFile)};
  if (const std::size_t bad = first_bad_utf8(text); bad != std::string_view::npos)
    return not_utf8(text, bad, file);
  if (const int line = too_deep_line(text); line > 0)
    return Error{ErrorKind::limit,
                 place(file, line) +
                     "lists, tables or dotted keys are nested deeper than any fact needs; "
                     "look for a missing closing bracket."};
  return parse_checked(text, file);
}

}  // namespace benchgraft::catalogue
