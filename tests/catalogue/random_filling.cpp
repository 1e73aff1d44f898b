#include "random_filling.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>

namespace benchgraft::catalogue {

namespace {

// clang-format off
constexpr std::array<std::string_view, 36> kSentenceLetters{
    "a", "B", "7", " ", "\"", "\\", "\n", "\t", "\r", "'", "#", "=", "[", "]", "{", "}", ".", ",", ":", "/",
    std::string_view("\0", 1), "\x01", "\x1f", "\x7f", "\xc2\x85", "\xc3\xa9", "\xe4\xb8\xad", "\xe2\x80\xa8",
    "\xef\xbb\xbf", "\xef\xbf\xbe", "\xf0\x9f\x94\xa7", "\xf4\x8f\xbf\xbf", "\"\"\"", "'''", "\\u0041", "\r\n"};
constexpr std::array<std::string_view, 18> kNameLetters{
    "a", "B", "7", " ", "\"", "\\", "'", "#", "=", "[", "}", ",", "/", "-",
    "\xc3\xa9", "\xe4\xb8\xad", "\xf0\x9f\x94\xa7", "\xc2\xa0"};
constexpr std::array<double, 10> kOddNumbers{
    0.1, 1.0 / 3, 1e-7, 1e300, 5e-324, 123456789.125, 1e16, 9007199254740993.0, 0.5, 2};
// clang-format on

}  // namespace

std::string RandomFilling::sentence() {
  std::string text;
  for (int i = below(12); i > 0; --i) text += kSentenceLetters[random_() % kSentenceLetters.size()];
  return text;
}

std::string RandomFilling::name() {
  std::string text = coin() ? "x" : "9";
  for (int i = below(6); i > 0; --i) text += kNameLetters[random_() % kNameLetters.size()];
  return text + (coin() ? "y" : "3");
}

double RandomFilling::number(const Demand& demand) {
  double value =
      coin() ? kOddNumbers[random_() % kOddNumbers.size()] : std::bit_cast<double>(bits());
  if (!std::isfinite(value) || std::abs(value) > demand.high) value = 0.25;
  if (value < demand.low || (demand.above && value <= demand.low)) value = std::abs(value);
  if (value < demand.low || value == 0) return std::max(demand.low, 0.0) + 1;
  return std::min(value, demand.high);
}

}  // namespace benchgraft::catalogue
