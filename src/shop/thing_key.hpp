// What tells two records of the same sort apart: an id, or a name.
#pragma once

#include <string>

#include "shop/edits.hpp"

namespace benchgraft::shop {

inline std::string key_of(const Set& set) { return to_text(set.id); }
inline std::string key_of(const Part& part) { return to_text(part.id); }
inline std::string key_of(const catalogue::SwapNote& note) { return note.name; }
inline std::string key_of(const RebuildRecord& rebuild) { return to_text(rebuild.id); }
inline std::string key_of(const Wish& wish) { return to_text(wish.id); }
inline std::string key_of(const Terms&) { return ""; }
inline std::string key_of(const FamilyText& family) { return family.name; }

template <class T>
bool same_key(const T& a, const T& b) {
  if constexpr (requires { a.id; })
    return a.id == b.id;
  else
    return a.name == b.name;
}

/// The word of the journal for a sort of record.
template <class T>
constexpr const char* sort_of();
template <>
constexpr const char* sort_of<Set>() {
  return "set";
}
template <>
constexpr const char* sort_of<Part>() {
  return "part";
}
template <>
constexpr const char* sort_of<catalogue::SwapNote>() {
  return "note";
}
template <>
constexpr const char* sort_of<RebuildRecord>() {
  return "rebuild";
}
template <>
constexpr const char* sort_of<Wish>() {
  return "wish";
}
template <>
constexpr const char* sort_of<Terms>() {
  return "terms";
}
template <>
constexpr const char* sort_of<FamilyText>() {
  return "family";
}

}  // namespace benchgraft::shop
