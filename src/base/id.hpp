// Random 128-bit ids that stay unique across benches, and the short codes written on tape.
#pragma once

#include <array>
#include <compare>
#include <cstdint>
#include <functional>
#include <string>
#include <string_view>

#include "base/result.hpp"

namespace benchgraft {

/// Source of 64 random bits at a time; handed in by the caller so that core code stays repeatable.
using RandomBits = std::function<std::uint64_t()>;

/// 128 bits written as 32 hexadecimal digits; `Tag` keeps ids of different things apart.
template <class Tag>
struct Id {
  std::array<std::uint64_t, 2> bits{};
  auto operator<=>(const Id&) const = default;
  [[nodiscard]] bool empty() const { return bits[0] == 0 && bits[1] == 0; }
};

namespace detail {
std::string id_text(const std::array<std::uint64_t, 2>& bits);
Result<std::array<std::uint64_t, 2>> id_bits(std::string_view text);
}  // namespace detail

template <class Tag>
Id<Tag> new_id(const RandomBits& random) {
  return {{random(), random()}};
}
template <class Tag>
std::string to_text(const Id<Tag>& id) {
  return detail::id_text(id.bits);
}
/// Fails on anything but 32 hexadecimal digits.
template <class Tag>
Result<Id<Tag>> id_from_text(std::string_view text) {
  auto bits = detail::id_bits(text);
  if (!bits) return bits.error();
  return Id<Tag>{bits.value()};
}

/// Letters and digits that cannot be mistaken for one another in handwriting.
inline constexpr std::string_view kCodeLetters = "23456789ACDEFHJKMNPRTWXY";

/// `length` (1..5) letters of kCodeLetters drawn from `bits`.
std::string short_code(std::uint64_t bits, int length);
/// True when `text` is 1 to 5 letters of kCodeLetters.
bool is_short_code(std::string_view text);

}  // namespace benchgraft
