#include "shop/thing_text.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "catalogue/check_family.hpp"
#include "catalogue/toml_tree.hpp"
#include "shop/codes.hpp"
#include "shop/dates.hpp"
#include "shop/tidy.hpp"

namespace benchgraft::shop {

namespace {

using catalogue::TomlNode;

/// Visits the keys of one struct and notes those that say something.
class FieldList {
 public:
  template <class F>
  void key(std::string_view name, const F& field, const catalogue::Demand& demand = {}) {
    using catalogue::is_said;
    using catalogue::value_text;
    if (!is_said(field, demand)) return;
    Field& one = fields.emplace_back(Field{std::string(name), value_text(field), std::nullopt});
    if constexpr (std::is_same_v<F, std::vector<std::string>>) one.list = field;
  }
  Fields fields;
};

template <class T>
Fields listed_fields(const T& thing) {
  FieldList list;
  each_key(list, thing);
  return std::move(list.fields);
}

template <class T>
Result<T> read_tree(const TomlNode& root, const std::string& file) {
  catalogue::Reading reading(file);
  T thing{};
  catalogue::read_value(reading, root, "", thing, catalogue::Demand{});
  if (reading.failed()) return reading.error();
  return thing;
}

// A record that never stood in a file has no lines to point at.
void forget_lines(TomlNode& node) {
  node.line = 0;
  for (auto& one : node.list) forget_lines(one);
  for (auto& entry : node.entries) {
    entry.line = 0;
    forget_lines(entry.value);
  }
}

Error wrong(const std::string& called, const std::string& sentence) {
  return {ErrorKind::bad_input, called + ": " + sentence};
}

// What is written and read again has to be the same: nothing may get lost on paper.
template <class T>
Result<void> check_written(const T& thing, const std::string& called) {
  auto root = catalogue::parse_toml(catalogue::file_text(thing), called);
  if (!root) return root.error();
  forget_lines(root.value());
  auto read = read_tree<T>(root.value(), called);
  if (!read) return read.error();
  if (read.value() != thing)
    return wrong(called,
                 "one of its values cannot be written as text and read again; look for a "
                 "':' in a printed number.");
  return {};
}

template <class T>
Result<void> tidied(T& thing, const std::string& called) {
  Tidying tidying;
  each_key(tidying, thing);
  if (!tidying.fault.empty()) return wrong(called, tidying.fault);
  return check_written(thing, called);
}

Result<void> check_date(const std::string& date, const std::string& key,
                        const std::string& called) {
  if (date.empty() || is_date(date)) return {};
  return wrong(called, fmt::format("{} = \"{}\" is not a day; write it as 2026-05-31.", key, date));
}

Result<void> check_code(const std::string& code, const std::string& called) {
  if (is_short_code(code)) return {};
  return wrong(called, not_a_code(code));
}

}  // namespace

std::string bad_bytes(const std::string& text) {
  if (const std::size_t at = first_bad_utf8(text); at != std::string::npos)
    return fmt::format("is not UTF-8 text at byte {} (0x{:02x}); write it anew.", at,
                       static_cast<unsigned>(static_cast<unsigned char>(text[at])));
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    if ((byte < 0x20 && byte != '\n' && byte != '\t') || byte == 0x7F)
      return fmt::format("has the unprintable character 0x{:02x} at byte {}; take it out.",
                         static_cast<unsigned>(byte), i);
  }
  return "";
}

void tidy(std::string& text) {
  std::string clean;
  const std::string_view within = trimmed(text);
  clean.reserve(within.size());
  for (std::size_t i = 0; i < within.size(); ++i)
    if (within[i] != '\r')
      clean += within[i];
    else if (i + 1 == within.size() || within[i + 1] != '\n')
      clean += '\n';
  text = std::move(clean);
}

void tidy(std::vector<std::string>& words) {
  std::vector<std::string> kept;
  for (auto& word : words) {
    tidy(word);
    if (!word.empty() && std::find(kept.begin(), kept.end(), word) == kept.end())
      kept.push_back(std::move(word));
  }
  words = std::move(kept);
}

std::string text_of(const Set& set) { return catalogue::file_text(set); }
std::string text_of(const Part& part) { return catalogue::file_text(part); }
std::string text_of(const catalogue::SwapNote& note) { return catalogue::file_text(note); }
std::string text_of(const RebuildRecord& rebuild) { return catalogue::file_text(rebuild); }
std::string text_of(const Wish& wish) { return catalogue::file_text(wish); }
std::string text_of(const Terms& terms) { return catalogue::file_text(terms); }
std::string text_of(const FamilyText& family) { return family.text; }

Field word_list_field(const std::string& name, const std::vector<std::string>& words) {
  return {name, catalogue::value_text(words), words};
}

std::string text_of(const Fields& fields) {
  std::string text;
  for (const auto& field : fields) text += fmt::format("{} = {}\n", field.name, field.text);
  return text;
}

template <class T>
Result<T> thing_from_text(std::string_view text, const std::string& file) {
  auto root = catalogue::parse_toml(text, file);
  if (!root) return root.error();
  return read_tree<T>(root.value(), file);
}
template Result<Set> thing_from_text(std::string_view, const std::string&);
template Result<Part> thing_from_text(std::string_view, const std::string&);
template Result<catalogue::SwapNote> thing_from_text(std::string_view, const std::string&);
template Result<RebuildRecord> thing_from_text(std::string_view, const std::string&);
template Result<Wish> thing_from_text(std::string_view, const std::string&);
template Result<Terms> thing_from_text(std::string_view, const std::string&);

std::string contact_text(const catalogue::Contact& contact) {
  return catalogue::file_text(contact);
}

std::string trait_text(const catalogue::TraitValue& trait) { return catalogue::file_text(trait); }

Result<catalogue::TraitValue> trait_from_text(std::string_view text, const std::string& file) {
  return thing_from_text<catalogue::TraitValue>(text, file);
}

Result<catalogue::Contact> contact_from_text(std::string_view text, const std::string& file) {
  return thing_from_text<catalogue::Contact>(text, file);
}

Fields fields_of(const Set& set) { return listed_fields(set); }
Fields fields_of(const Part& part) { return listed_fields(part); }
Fields fields_of(const catalogue::SwapNote& note) { return listed_fields(note); }
Fields fields_of(const RebuildRecord& rebuild) { return listed_fields(rebuild); }
Fields fields_of(const Wish& wish) { return listed_fields(wish); }
Fields fields_of(const Terms& terms) { return listed_fields(terms); }
Fields fields_of(const FamilyText& family) { return {{"text", family.text, std::nullopt}}; }

Result<void> tidy_and_check(Set& set, const std::string& called) {
  if (auto sound = tidied(set, called); !sound) return sound;
  if (auto sound = check_code(set.code, called); !sound) return sound;
  return check_date(set.taken_in, "taken_in", called);
}

Result<void> tidy_and_check(Part& part, const std::string& called) {
  if (auto sound = tidied(part, called); !sound) return sound;
  if (auto sound = check_code(part.code, called); !sound) return sound;
  for (auto& change : part.changes) change.where = {called, 0};
  if (auto sound = catalogue::check(part.changes); !sound) return sound;
  return check_date(part.tested_on, "tested_on", called);
}

Result<void> tidy_and_check(catalogue::SwapNote& note, const std::string& called) {
  if (auto sound = tidied(note, called); !sound) return sound;
  note.where = {called, 0};
  return catalogue::check(note);
}

Result<void> tidy_and_check(RebuildRecord& rebuild, const std::string& called) {
  if (auto sound = tidied(rebuild, called); !sound) return sound;
  if (rebuild.state != kBegun && rebuild.state != kFinished && rebuild.state != kGivenUp)
    return wrong(called, fmt::format("state = \"{}\" must be one of {}, {} and {}.", rebuild.state,
                                     kBegun, kFinished, kGivenUp));
  if (auto sound = check_date(rebuild.started, "started", called); !sound) return sound;
  return check_date(rebuild.finished, "finished", called);
}

Result<void> tidy_and_check(Wish& wish, const std::string& called) { return tidied(wish, called); }

Result<void> tidy_and_check(Terms& terms, const std::string& called) {
  tidy(terms.currency);
  if (terms.currency.empty())
    return wrong(called, "currency is empty; write a short name such as \"EUR\".");
  return tidied(terms, called);
}

std::string called(const Set& set) { return "set " + set.code; }
std::string called(const Part& part) { return "part " + part.code; }

}  // namespace benchgraft::shop
