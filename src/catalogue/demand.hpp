// What a key asks of its value, and the few ways a field is written other than as itself.
// Reader, writer and the list of known keys all walk the same each_key() functions (keys_*.hpp).
#pragma once

#include <concepts>
#include <limits>
#include <string>
#include <type_traits>
#include <vector>

#include "catalogue/part_type.hpp"

namespace benchgraft::catalogue {

struct Demand {
  bool must = false;      ///< the key has to be there
  bool sentence = false;  ///< free text; otherwise a name: no blanks at its ends, no line breaks
  bool usual = false;     ///< value of a yes/no key that is left out
  bool section = false;   ///< written as [[...]] of its own rather than inline
  double low = -std::numeric_limits<double>::infinity();
  double high = std::numeric_limits<double>::infinity();
  bool above = false;  ///< more than `low`, not `low` itself
};

inline constexpr Demand kMust{.must = true};
inline constexpr Demand kSentence{.sentence = true};
inline constexpr Demand kMustSentence{.must = true, .sentence = true};
inline constexpr Demand kSections{.section = true};
inline constexpr Demand kNotNegative{.low = 0};
inline constexpr Demand kMustNotNegative{.must = true, .low = 0};
inline constexpr Demand kPositive{.low = 0, .above = true};
inline constexpr Demand kAtLeastOne{.low = 1};
inline constexpr Demand kChance{.low = 0, .high = 1};

/// A field written as one word of a closed list.
template <class E, class List>
struct Worded {
  E& value;
  const List& list;
};
template <class E, class List>
Worded<E, List> words(E& value, const List& list) {
  return {value, list};
}

/// Text that may also be written as a bare number or date: contact 3, value 35, 2026-05-31.
template <class S>
struct Loose {
  S& text;
};
template <class S>
Loose<S> loose(S& text) {
  return {text};
}

/// Two names written as one: "CN1.3", "LD-20:CN1".
template <class S>
struct Joined {
  S& first;
  S& second;
  char between;
  const char* form;  ///< how a message shows the right form
  bool second_must;
};
template <class S>
Joined<S> joined(S& first, S& second, char between, const char* form, bool second_must) {
  return {first, second, between, form, second_must};
}

/// A list that says only its owner's name when nothing is written.
template <class L, class S>
struct OrName {
  L& list;
  S& name;
};
template <class L, class S>
OrName<L, S> or_name(L& list, S& name) {
  return {list, name};
}

inline constexpr std::array<std::pair<Flip, std::string_view>, 4> kFlipWords{
    {{Flip{false, false}, "none"},
     {Flip{true, false}, "left-right"},
     {Flip{false, true}, "upside-down"},
     {Flip{true, true}, "both"}}};

/// `S` is `T`, or a `T` that is only looked at.
template <class S, class T>
concept Of = std::same_as<std::remove_const_t<S>, T>;

/// What a struct is called in messages; its first key is its name.
template <class T>
struct Thing;

/// True for the structs that are written as tables.
template <class T>
concept Keyed = requires {
  Thing<std::remove_const_t<T>>::kCalled;
};

}  // namespace benchgraft::catalogue
