// The closed word lists of the shop, as written in text files, tables and on screen.
#pragma once

#include "catalogue/words.hpp"
#include "shop/shop.hpp"

namespace benchgraft::shop {

using catalogue::value_of;
using catalogue::word_of;
using catalogue::WordList;

inline constexpr WordList<Consent, 2> kConsentWords{
    {{Consent::may_strip, "may strip"}, {Consent::must_go_back, "must go back"}}};
inline constexpr WordList<Looks, 3> kLooksWords{
    {{Looks::poor, "poor"}, {Looks::fair, "fair"}, {Looks::good, "good"}}};
inline constexpr WordList<State, 4> kStateWords{{{State::untested, "untested"},
                                                 {State::good, "good"},
                                                 {State::suspect, "suspect"},
                                                 {State::bad, "bad"}}};
inline constexpr WordList<Fate, 4> kFateWords{{{Fate::here, "here"},
                                               {Fate::rebuilt, "rebuilt"},
                                               {Fate::stripped, "stripped"},
                                               {Fate::gone, "gone"}}};
inline constexpr WordList<WishSort, 5> kWishWords{{{WishSort::build_this, "build this"},
                                                   {WishSort::never_strip, "never strip"},
                                                   {WishSort::never_build, "never build"},
                                                   {WishSort::use_part_in, "use part in"},
                                                   {WishSort::keep_part, "keep part"}}};

inline constexpr std::string_view kBegun = "begun";
inline constexpr std::string_view kFinished = "finished";
inline constexpr std::string_view kGivenUp = "given up";

/// True for a wish of `sort` that says nothing without a set, or without a part.
constexpr bool needs_set(WishSort sort) { return sort != WishSort::keep_part; }
constexpr bool needs_part(WishSort sort) {
  return sort == WishSort::keep_part || sort == WishSort::use_part_in;
}

}  // namespace benchgraft::shop
