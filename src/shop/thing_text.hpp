// One record as text and back, its fields apart, and the check that it can be written and read.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "shop/edits.hpp"

namespace benchgraft::shop {

std::string text_of(const Set& set);
std::string text_of(const Part& part);
std::string text_of(const catalogue::SwapNote& note);
std::string text_of(const RebuildRecord& rebuild);
std::string text_of(const Wish& wish);
std::string text_of(const Terms& terms);
std::string text_of(const FamilyText& family);

/// thing_from_text<T>(text_of(thing), "") == thing.
template <class T>
Result<T> thing_from_text(std::string_view text, const std::string& file);

/// A change of a part, or a contact, as the text the tables keep.
std::string contact_text(const catalogue::Contact& contact);
std::string trait_text(const catalogue::TraitValue& trait);
Result<catalogue::TraitValue> trait_from_text(std::string_view text, const std::string& file);
Result<catalogue::Contact> contact_from_text(std::string_view text, const std::string& file);

/// One field that says something.
struct Field {
  std::string name;
  std::string text;                              ///< as TOML
  std::optional<std::vector<std::string>> list;  ///< when it is a list of words
  bool operator==(const Field&) const = default;
};
using Fields = std::vector<Field>;

Fields fields_of(const Set& set);
Fields fields_of(const Part& part);
Fields fields_of(const catalogue::SwapNote& note);
Fields fields_of(const RebuildRecord& rebuild);
Fields fields_of(const Wish& wish);
Fields fields_of(const Terms& terms);
Fields fields_of(const FamilyText& family);

Field word_list_field(const std::string& name, const std::vector<std::string>& words);

/// The text that thing_from_text reads back.
std::string text_of(const Fields& fields);

/// Takes blanks off the ends of texts and empty and doubled words out of lists, then checks every
/// value alone. `called` names the thing in the message: "set K7R".
Result<void> tidy_and_check(Set& set, const std::string& called);
Result<void> tidy_and_check(Part& part, const std::string& called);
Result<void> tidy_and_check(catalogue::SwapNote& note, const std::string& called);
Result<void> tidy_and_check(RebuildRecord& rebuild, const std::string& called);
Result<void> tidy_and_check(Wish& wish, const std::string& called);
Result<void> tidy_and_check(Terms& terms, const std::string& called);

/// "set K7R" and the like: what messages and journal call a thing.
std::string called(const Set& set);
std::string called(const Part& part);

}  // namespace benchgraft::shop
