#include "base/id.hpp"

#include <charconv>

#include <fmt/format.h>

namespace benchgraft {

std::string detail::id_text(const std::array<std::uint64_t, 2>& bits) {
  return fmt::format("{:016x}{:016x}", bits[0], bits[1]);
}

Result<std::array<std::uint64_t, 2>> detail::id_bits(std::string_view text) {
  const Error bad{ErrorKind::bad_input,
                  fmt::format("\"{}\" is not an id: write 32 digits of 0-9 and a-f.", text)};
  if (text.size() != 32) return bad;
  std::array<std::uint64_t, 2> bits{};
  for (int half = 0; half < 2; ++half) {
    const char* from = text.data() + 16 * half;
    const auto read = std::from_chars(from, from + 16, bits[static_cast<std::size_t>(half)], 16);
    if (read.ec != std::errc{} || read.ptr != from + 16) return bad;
  }
  return bits;
}

std::string short_code(std::uint64_t bits, int length) {
  ensure(length >= 1 && length <= 5, "short code length");
  std::string code;
  for (int i = 0; i < length; ++i) {
    code += kCodeLetters[bits % kCodeLetters.size()];
    bits /= kCodeLetters.size();
  }
  return code;
}

bool is_short_code(std::string_view text) {
  return !text.empty() && text.size() <= 5 &&
         text.find_first_not_of(kCodeLetters) == std::string_view::npos;
}

}  // namespace benchgraft
