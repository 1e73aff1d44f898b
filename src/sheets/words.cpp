#include "sheets/words.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <string_view>

#include <fmt/format.h>

#include "base/text.hpp"

namespace benchgraft::sheets {

std::string money_text(Money money, const std::string& currency) {
  // ISO 4217 currencies without minor units that a shop is likely to meet; from memory.
  constexpr std::array<std::string_view, 6> kWhole{"JPY", "KRW", "ISK", "CLP", "VND", "XOF"};
  for (const auto whole : kWhole)
    if (currency == whole) return fmt::format("{} {}", money.minor, currency);
  const auto minor = std::abs(money.minor);
  return fmt::format("{}{}.{:02} {}", money.minor < 0 ? "-" : "", minor / 100, minor % 100,
                     currency);
}

std::string verdict_mark(fit::Verdict verdict) {
  switch (verdict) {
    case fit::Verdict::destroys:
      return "Destroys";
    case fit::Verdict::does_not_fit:
      return "Does not fit";
    case fit::Verdict::unknown:
      return "Not known yet";
    case fit::Verdict::fits_with_work:
      return "Fits with work";
    case fit::Verdict::fits:
      return "Fits";
  }
  return "";
}

Tone tone_of(fit::Verdict verdict) {
  switch (verdict) {
    case fit::Verdict::destroys:
      return Tone::danger;
    case fit::Verdict::does_not_fit:
      return Tone::bad;
    case fit::Verdict::unknown:
      return Tone::ask;
    case fit::Verdict::fits_with_work:
      return Tone::work;
    case fit::Verdict::fits:
      return Tone::good;
  }
  return Tone::plain;
}

std::string counted(std::size_t count, const std::string& one, const std::string& many) {
  return count == 1 ? "one " + one : fmt::format("{} {}", count, many);
}

std::string lower_first(std::string text) {
  if (!text.empty() && text[0] >= 'A' && text[0] <= 'Z') text[0] = static_cast<char>(text[0] + 32);
  return text;
}

std::string sentence(std::string text) {
  text = capitalised(std::move(text));
  if (text.empty() || text.back() == '.' || text.back() == '?' || text.back() == '!') return text;
  return text + ".";
}

std::string bind_units(const std::string& text) {
  constexpr std::array<std::string_view, 17> kUnits{"V",   "A", "mA",  "W",   "Hz", "mm",
                                                    "cm",  "m", "kg",  "nF",  "h",  "s",
                                                    "min", "%", "ohm", "EUR", "mm2"};
  std::string bound;
  for (const auto& word : split(text, ' ')) {
    const auto bare = std::string_view(word).substr(0, word.find_first_of(".,;:)"));
    const bool after_number = !bound.empty() && bound.back() >= '0' && bound.back() <= '9';
    const bool unit = std::find(kUnits.begin(), kUnits.end(), bare) != kUnits.end();
    if (!bound.empty()) bound += after_number && unit ? "\u00A0" : " ";
    bound += word;
  }
  return bound;
}

std::vector<std::string> safety_foot() {
  return {
      "This is a forecast from what is on record, not a permission. Local codes and licensed "
      "practice come first; who is not trained for mains and lamps leaves them alone.",
      "Ask why about any line by the letters in brackets: benchgraft why CODE."};
}

}  // namespace benchgraft::sheets
