#include "shop/codes.hpp"

#include <fmt/format.h>

#include "base/text.hpp"

namespace benchgraft::shop {

std::string not_a_code(const std::string& code) {
  return fmt::format(
      "\"{}\" is not a code; use 1 to 5 of {}, which cannot be mistaken for one "
      "another on tape.",
      code, kCodeLetters);
}

std::string draw_code(const std::function<bool(const std::string&)>& taken,
                      const RandomBits& random) {
  // 13,824 codes of three letters; a room that has used most of them up goes on with longer ones.
  constexpr int kShortest = 3, kLongest = 5, kTries = 40;
  for (int length = kShortest; length <= kLongest; ++length)
    for (int i = 0; i < kTries; ++i)
      if (std::string code = short_code(random(), length); !taken(code)) return code;
  for (std::uint64_t bits = random();; ++bits)
    if (std::string code = short_code(bits, kLongest); !taken(code)) return code;
}

std::string tape_code(std::string code) {
  for (char& c : code)
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 32);
  return code;
}

}  // namespace benchgraft::shop
