#include "shop/columns.hpp"

#include <charconv>
#include <cmath>
#include <limits>
#include <optional>
#include <type_traits>

#include <fmt/format.h>

#include "base/text.hpp"
#include "shop/codes.hpp"
#include "shop/csv.hpp"
#include "shop/dates.hpp"
#include "shop/tidy.hpp"
#include "shop/words.hpp"

namespace benchgraft::shop {

namespace {

std::string lowered(std::string text) {
  for (char& c : text)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c + 32);
  return text;
}

// read_*: what is wrong, or "".

std::string read_sentence(const std::string& cell, std::string& out) {
  out = cell;
  tidy(out);
  return bad_bytes(out);
}

std::string read_name(const std::string& cell, std::string& out) {
  if (cell.find_first_of("\r\n\t") != std::string::npos)
    return "must not have a line break or tab; write it on one line.";
  return read_sentence(cell, out);
}

std::string read_words(const std::string& cell, std::vector<std::string>& out) {
  out = words_of_cell(cell);
  tidy(out);
  for (const auto& word : out)
    if (std::string name, wrong = read_name(word, name); !wrong.empty()) return wrong;
  return "";
}

std::string read_code(const std::string& cell, std::string& out) {
  out = tape_code(cell);
  return out.empty() || is_short_code(out) ? "" : not_a_code(out).substr(out.size() + 3);
}

std::string read_date(const std::string& cell, std::string& out) {
  out = cell;
  return out.empty() || is_date(out) ? "" : "is not a day; write it as 2026-05-31.";
}

std::string read_number(const std::string& cell, std::optional<double>& out, double high,
                        const char* bounds) {
  out.reset();
  if (cell.empty()) return "";
  double number = 0;
  const auto read = std::from_chars(cell.data(), cell.data() + cell.size(), number);
  if (read.ec != std::errc{} || read.ptr != cell.data() + cell.size() || !std::isfinite(number))
    return cell.find(',') != std::string::npos ? "is not a number; write 0.5, with a point."
                                               : "is not a number; write digits only.";
  if (number < 0 || number > high) return fmt::format("must be {}.", bounds);
  out = number + 0.0;
  return "";
}

template <class E, class List>
std::string read_word(const std::string& cell, const List& list, E when_empty, E& out) {
  out = when_empty;
  if (cell.empty()) return "";
  const std::string word = lowered(cell);
  std::vector<std::string> known;
  for (const auto& [value, text] : list) {
    if (text == word) {
      out = value;
      return "";
    }
    known.emplace_back(text);
  }
  const std::string near = nearest_word(word, known);
  return fmt::format("is not one of {}{}", listed(known),
                     near.empty() ? "." : fmt::format("; did you mean \"{}\"?", near));
}

template <class Tag>
std::string read_id(const std::string& cell, Id<Tag>& out) {
  out = {};
  if (cell.empty()) return "";
  auto id = id_from_text<Tag>(lowered(cell));
  if (!id || id.value().empty())
    return "is not an id; write 32 digits of 0-9 and a-f, or leave the cell empty.";
  out = id.value();
  return "";
}

std::string number_cell(const std::optional<double>& number) {
  return number ? fmt::format("{}", *number) : "";
}
template <class Tag>
std::string id_cell(const Id<Tag>& id) {
  return id.empty() ? "" : to_text(id);
}

constexpr double kAnyHigh = std::numeric_limits<double>::max();

}  // namespace

// size: a table, one column a line
const std::vector<Column<Set>>& set_columns() {
  using Cell = const std::string&;
  static const std::vector<Column<Set>> kColumns = {
      {"code", [](const Set& s) { return s.code; },
       [](Cell c, Set& s) { return read_code(c, s.code); }},
      {"id", [](const Set& s) { return id_cell(s.id); },
       [](Cell c, Set& s) { return read_id(c, s.id); }},
      {"owner", [](const Set& s) { return s.owner; },
       [](Cell c, Set& s) { return read_name(c, s.owner); }},
      {"consent", [](const Set& s) { return std::string(word_of(kConsentWords, s.consent)); },
       [](Cell c, Set& s) { return read_word(c, kConsentWords, Consent::unknown, s.consent); }},
      {"kind", [](const Set& s) { return s.kind; },
       [](Cell c, Set& s) { return read_name(c, s.kind); }},
      {"model", [](const Set& s) { return s.model; },
       [](Cell c, Set& s) { return read_name(c, s.model); }},
      {"variant", [](const Set& s) { return s.variant; },
       [](Cell c, Set& s) { return read_name(c, s.variant); }},
      {"candidates", [](const Set& s) { return list_cell(s.candidates); },
       [](Cell c, Set& s) { return read_words(c, s.candidates); }},
      {"looks", [](const Set& s) { return std::string(word_of(kLooksWords, s.looks)); },
       [](Cell c, Set& s) { return read_word(c, kLooksWords, Looks::unknown, s.looks); }},
      {"missing", [](const Set& s) { return list_cell(s.missing); },
       [](Cell c, Set& s) { return read_words(c, s.missing); }},
      {"complaint", [](const Set& s) { return s.complaint; },
       [](Cell c, Set& s) { return read_sentence(c, s.complaint); }},
      {"place", [](const Set& s) { return s.place; },
       [](Cell c, Set& s) { return read_name(c, s.place); }},
      {"taken_in", [](const Set& s) { return s.taken_in; },
       [](Cell c, Set& s) { return read_date(c, s.taken_in); }},
      {"fate", [](const Set& s) { return std::string(word_of(kFateWords, s.fate)); },
       [](Cell c, Set& s) { return read_word(c, kFateWords, Fate::here, s.fate); }},
      {"note", [](const Set& s) { return s.note; },
       [](Cell c, Set& s) { return read_sentence(c, s.note); }},
  };
  return kColumns;
}

// size: a table, one column a line
const std::vector<Column<PartOnPaper>>& part_columns() {
  using Cell = const std::string&;
  using Paper = PartOnPaper;
  static const std::vector<Column<Paper>> kColumns = {
      {"code", [](const Paper& p) { return p.part.code; },
       [](Cell c, Paper& p) { return read_code(c, p.part.code); }},
      {"id", [](const Paper& p) { return id_cell(p.part.id); },
       [](Cell c, Paper& p) { return read_id(c, p.part.id); }},
      {"type", [](const Paper& p) { return p.part.type; },
       [](Cell c, Paper& p) { return read_name(c, p.part.type); }},
      {"candidates", [](const Paper& p) { return list_cell(p.part.candidates); },
       [](Cell c, Paper& p) { return read_words(c, p.part.candidates); }},
      {"roles", [](const Paper& p) { return list_cell(p.part.roles); },
       [](Cell c, Paper& p) { return read_words(c, p.part.roles); }},
      {"state", [](const Paper& p) { return std::string(word_of(kStateWords, p.part.state)); },
       [](Cell c, Paper& p) { return read_word(c, kStateWords, State::untested, p.part.state); }},
      {"tested_how", [](const Paper& p) { return p.part.tested_how; },
       [](Cell c, Paper& p) { return read_sentence(c, p.part.tested_how); }},
      {"tested_in", [](const Paper& p) { return p.part.tested_in; },
       [](Cell c, Paper& p) { return read_name(c, p.part.tested_in); }},
      {"tested_on", [](const Paper& p) { return p.part.tested_on; },
       [](Cell c, Paper& p) { return read_date(c, p.part.tested_on); }},
      {"run_hours", [](const Paper& p) { return number_cell(p.part.run_hours); },
       [](Cell c, Paper& p) { return read_number(c, p.part.run_hours, kAnyHigh, "0 or more"); }},
      {"chance", [](const Paper& p) { return number_cell(p.part.chance); },
       [](Cell c, Paper& p) { return read_number(c, p.part.chance, 1, "between 0 and 1"); }},
      {"in_set", [](const Paper& p) { return p.in_set; },
       [](Cell c, Paper& p) { return read_code(c, p.in_set); }},
      {"position", [](const Paper& p) { return p.part.position; },
       [](Cell c, Paper& p) { return read_name(c, p.part.position); }},
      {"place", [](const Paper& p) { return p.part.place; },
       [](Cell c, Paper& p) { return read_name(c, p.part.place); }},
      {"from", [](const Paper& p) { return p.part.from; },
       [](Cell c, Paper& p) { return read_name(c, p.part.from); }},
      {"note", [](const Paper& p) { return p.part.note; },
       [](Cell c, Paper& p) { return read_sentence(c, p.part.note); }},
  };
  return kColumns;
}

const std::vector<Column<Wish>>& wish_columns() {
  using Cell = const std::string&;
  static const std::vector<Column<Wish>> kColumns = {
      {"id", [](const Wish& w) { return id_cell(w.id); },
       [](Cell c, Wish& w) { return read_id(c, w.id); }},
      {"wish", [](const Wish& w) { return std::string(word_of(kWishWords, w.sort)); },
       [](Cell c, Wish& w) {
         if (c.empty()) return std::string("says no wish; write one, such as \"build this\".");
         return read_word(c, kWishWords, WishSort::build_this, w.sort);
       }},
      {"set", [](const Wish& w) { return w.set; },
       [](Cell c, Wish& w) { return read_code(c, w.set); }},
      {"part", [](const Wish& w) { return w.part; },
       [](Cell c, Wish& w) { return read_code(c, w.part); }},
      {"note", [](const Wish& w) { return w.note; },
       [](Cell c, Wish& w) { return read_sentence(c, w.note); }},
  };
  return kColumns;
}

}  // namespace benchgraft::shop
