// Files sorted by what they hold, each checked alone.
#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "catalogue/check_family.hpp"
#include "catalogue/text.hpp"
#include "shop/columns.hpp"
#include "shop/csv.hpp"
#include "shop/paper_keys.hpp"
#include "shop/text.hpp"

namespace benchgraft::shop {

namespace {

using catalogue::place;
using catalogue::TomlNode;

std::string base_name(const std::string& path) { return path.substr(path.find_last_of('/') + 1); }

std::string key_form(const std::string& header) {
  std::string key;
  for (const char c : trimmed(header))
    key += c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c == ' ' || c == '-' ? '_' : c;
  return key;
}

Error in_cell(const std::string& file, int line, const std::string& column, const std::string& cell,
              const std::string& wrong) {
  return {ErrorKind::bad_input,
          fmt::format("{}column \"{}\": \"{}\" {}", place(file, line), column, cell, wrong)};
}

// For each cell of the header the column it names.
template <class T>
Result<std::vector<std::size_t>> header_columns(const CsvRow& header,
                                                const std::vector<Column<T>>& columns,
                                                const std::string& file) {
  std::vector<std::string> known;
  for (const auto& column : columns) known.emplace_back(column.name);
  std::vector<std::size_t> order;
  for (const auto& cell : header.cells) {
    const std::string key = key_form(cell);
    const auto at = std::find(known.begin(), known.end(), key);
    if (at == known.end()) {
      const std::string near = nearest_word(key, known);
      return Error{ErrorKind::bad_input,
                   fmt::format("{}\"{}\" is not a column of this file; {}",
                               place(file, header.line), trimmed(cell),
                               near.empty() ? fmt::format("its columns are {}.", listed(known))
                                            : fmt::format("did you mean \"{}\"?", near))};
    }
    const auto index = static_cast<std::size_t>(at - known.begin());
    if (std::find(order.begin(), order.end(), index) != order.end())
      return Error{ErrorKind::bad_input,
                   fmt::format("{}column \"{}\" stands there twice; take one out.",
                               place(file, header.line), key)};
    order.push_back(index);
  }
  return order;
}

template <class T>
Result<void> read_rows(const NamedText& text, const std::vector<Column<T>>& columns,
                       std::vector<Row>& rows) {
  const std::string& file = text.path;
  auto read = parse_csv(text.bytes, file);
  if (!read) return read.error();
  const auto& lines = read.value();
  if (lines.empty())
    return Error{
        ErrorKind::bad_input,
        fmt::format("{}the file is empty; its first line names the columns.", place(file, 0))};
  auto order = header_columns(lines.front(), columns, file);
  if (!order) return order.error();
  for (std::size_t i = 1; i < lines.size(); ++i) {
    const CsvRow& line = lines[i];
    if (line.cells.size() > order.value().size())
      return Error{
          ErrorKind::bad_input,
          fmt::format("{}there are {} cells and only {} columns; a cell with a comma in it stands "
                      "in quotes.",
                      place(file, line.line), line.cells.size(), order.value().size())};
    Row row{{file, line.line}, std::vector<std::optional<std::string>>(columns.size())};
    T scratch{};
    for (std::size_t k = 0; k < line.cells.size(); ++k) {
      const auto& column = columns[order.value()[k]];
      std::string cell(trimmed(line.cells[k]));
      if (const std::string wrong = column.read(cell, scratch); !wrong.empty())
        return in_cell(file, line.line, column.name, cell, wrong);
      row.cells[order.value()[k]] = std::move(cell);
    }
    rows.push_back(std::move(row));
  }
  return {};
}

Result<void> take_format(TomlNode& root, const std::string& file) {
  const auto at = std::find_if(root.entries.begin(), root.entries.end(),
                               [](const auto& entry) { return entry.key == "format"; });
  if (at == root.entries.end()) return {};
  const TomlNode& value = at->value;
  const bool whole = value.sort == TomlNode::Sort::whole;
  if (whole && value.whole > 1)
    return Error{
        ErrorKind::too_new,
        fmt::format("{}format = {} is newer than this program, which reads format = 1; use a newer "
                    "program.",
                    place(file, value.line), value.whole)};
  if (!whole || value.whole != 1)
    return Error{ErrorKind::bad_input,
                 fmt::format("{}format = {} must be 1.", place(file, value.line), value.shown())};
  root.entries.erase(at);
  return {};
}

template <class T>
Result<T> read_root(const TomlNode& root, const std::string& file) {
  catalogue::Reading reading(file);
  T thing{};
  catalogue::read_value(reading, root, "", thing, catalogue::Demand{});
  if (reading.failed()) return reading.error();
  return thing;
}

Result<void> take_changes(const TomlNode& root, const std::string& file, ShopRows& rows) {
  auto read = read_root<ChangesPaper>(root, file);
  if (!read) return read.error();
  for (auto& part : read.value().parts) {
    if (auto sound = catalogue::check(part.changes); !sound) return sound;
    rows.changes.push_back(std::move(part));
  }
  return {};
}

Result<void> take_notes(const TomlNode& root, const std::string& file, ShopRows& rows) {
  auto read = read_root<catalogue::SwapNoteFile>(root, file);
  if (!read) return read.error();
  for (auto& note : read.value().notes) {
    if (auto sound = catalogue::check(note); !sound) return sound;
    rows.notes.push_back(std::move(note));
  }
  return {};
}

Result<void> take_rebuilds(const TomlNode& root, const std::string& file, ShopRows& rows) {
  auto read = read_root<RebuildsPaper>(root, file);
  if (!read) return read.error();
  for (auto& rebuild : read.value().rebuilds) rows.rebuilds.push_back(std::move(rebuild));
  return {};
}

Result<void> take_terms(TomlNode root, const std::string& file, ShopRows& rows) {
  auto read = read_root<Terms>(root, file);
  if (!read) return read.error();
  rows.terms.push_back({std::move(root), file});
  return {};
}

Error not_known(const TomlNode& root, const std::string& file) {
  std::vector<std::string> known = {"family", "rebuild", "part", "swap_note"};
  const auto& terms = catalogue::key_names<Terms>();
  known.insert(known.end(), terms.begin(), terms.end());
  for (const auto& entry : root.entries)
    if (const std::string near = nearest_word(entry.key, known); !near.empty())
      return {ErrorKind::bad_input,
              fmt::format("{}\"{}\" is not a key of any file read here; did you mean "
                          "\"{}\"?",
                          place(file, entry.line), entry.key, near)};
  return {
      ErrorKind::bad_input,
      fmt::format(
          "{}nothing in the file says what it is; a family file has family = \"...\", a file of "
          "swap notes [[swap_note]], the terms are called shop.toml.",
          place(file, 0))};
}

Result<void> take_toml(const NamedText& text, Bundle& bundle, ShopRows& rows) {
  const std::string& file = text.path;
  auto root = catalogue::parse_toml(text.bytes, file);
  if (!root) return root.error();
  const auto* rebuild = root.value().find("rebuild");
  if (root.value().find("family") != nullptr) {
    auto family = catalogue::read_family(text.bytes, file);
    if (!family) return family.error();
    bundle.families.push_back(std::move(family.value()));
    return {};
  }
  if (rebuild != nullptr && rebuild->value.sort == TomlNode::Sort::text) {
    bundle.rebuilds.push_back(file);
    return {};
  }
  if (auto format = take_format(root.value(), file); !format) return format;
  const TomlNode& node = root.value();
  const std::string name = base_name(file);
  if (rebuild != nullptr || name == "rebuilds.toml") return take_rebuilds(node, file, rows);
  if (node.find("swap_note") != nullptr || name == "notes.toml")
    return take_notes(node, file, rows);
  if (node.find("part") != nullptr || name == "changes.toml") return take_changes(node, file, rows);
  const auto& terms = catalogue::key_names<Terms>();
  const bool has_term =
      std::any_of(node.entries.begin(), node.entries.end(), [&](const auto& entry) {
        return std::find(terms.begin(), terms.end(), entry.key) != terms.end();
      });
  if (has_term || name == "shop.toml") return take_terms(node, file, rows);
  return not_known(node, file);
}

Result<void> take_csv(const NamedText& text, ShopRows& rows) {
  const std::string name = key_form(base_name(text.path));
  if (name.ends_with("sets.csv")) return read_rows(text, set_columns(), rows.sets);
  if (name.ends_with("parts.csv")) return read_rows(text, part_columns(), rows.parts);
  if (name.ends_with("wishes.csv")) return read_rows(text, wish_columns(), rows.wishes);
  return Error{
      ErrorKind::bad_input,
      fmt::format("{}the name does not say what is in the file; end it in sets.csv, parts.csv or "
                  "wishes.csv.",
                  place(text.path, 0))};
}

Result<void> check_size(const NamedText& text, std::size_t most) {
  if (text.bytes.size() <= most) return {};
  return Error{ErrorKind::limit,
               fmt::format("{}the file has {} bytes and at most {} are read; split it.",
                           place(text.path, 0), text.bytes.size(), most)};
}

}  // namespace

Result<Bundle> sort_texts(const std::vector<NamedText>& texts) {
  Bundle bundle;
  auto rows = std::make_shared<ShopRows>();
  for (const auto& text : texts) {
    const bool csv = key_form(text.path).ends_with(".csv");
    if (auto fits = check_size(text, csv ? kLargestCsv : catalogue::kLargestFile); !fits)
      return fits.error();
    auto taken = csv ? take_csv(text, *rows) : take_toml(text, bundle, *rows);
    if (!taken) return taken.error();
  }
  bundle.rows = std::move(rows);
  return bundle;
}

}  // namespace benchgraft::shop
