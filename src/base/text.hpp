// Small text questions that messages and loaders ask.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace benchgraft {

/// Fewest single-letter edits (insert, delete, change, swap neighbours) from `a` to `b`.
std::size_t edit_distance(std::string_view a, std::string_view b);

/// The entry of `known` nearest to `word`, or "" when none is near (more than a third of it
/// differs).
std::string nearest_word(std::string_view word, std::span<const std::string> known);

/// Byte offset of the first byte that is not UTF-8 text, or npos. Refuses overlong forms and
/// surrogates.
std::size_t first_bad_utf8(std::string_view bytes);

/// True when `word` is one of `words`.
bool contains(std::span<const std::string> words, std::string_view word);

/// "a", "a and b", "a, b and c".
std::string listed(std::span<const std::string> words, std::string_view last = " and ");

/// `text` with its first ASCII letter made a capital.
std::string capitalised(std::string text);

/// `text` with its ASCII letters made capitals.
std::string in_capitals(std::string text);

/// 64-bit FNV-1a of `text`: same on every machine, used for statement codes, never for safety.
std::uint64_t stable_hash(std::string_view text);

/// `text` without blanks at both ends.
std::string_view trimmed(std::string_view text);

/// Pieces of `text` between `separator`s; "" gives one empty piece.
std::vector<std::string> split(std::string_view text, char separator);

}  // namespace benchgraft
