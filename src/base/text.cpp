#include "base/text.hpp"

#include <algorithm>
#include <numeric>

namespace benchgraft {

std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> two_back(b.size() + 1), back(b.size() + 1), now(b.size() + 1);
  std::iota(back.begin(), back.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    now[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = a[i - 1] == b[j - 1] ? 0 : 1;
      now[j] = std::min({back[j] + 1, now[j - 1] + 1, back[j - 1] + change});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        now[j] = std::min(now[j], two_back[j - 2] + 1);
    }
    std::swap(two_back, back);
    std::swap(back, now);
  }
  return back[b.size()];
}

std::string nearest_word(std::string_view word, std::span<const std::string> known) {
  std::string best;
  std::size_t best_distance = std::max<std::size_t>(1, word.size() / 3) + 1;
  for (const auto& candidate : known) {
    const std::size_t distance = edit_distance(word, candidate);
    if (distance < best_distance) {
      best_distance = distance;
      best = candidate;
    }
  }
  return best;
}

namespace {
// Length of the well-formed UTF-8 sequence at `i`, 0 when there is none (Unicode 15, table 3-7).
std::size_t utf8_length(std::string_view bytes, std::size_t i) {
  const auto byte = [&](std::size_t k) {
    return k < bytes.size() ? static_cast<unsigned char>(bytes[k]) : 0U;
  };
  const auto follows = [&](std::size_t k, unsigned low = 0x80, unsigned high = 0xBF) {
    return byte(k) >= low && byte(k) <= high;
  };
  const unsigned lead = byte(i);
  if (lead < 0x80) return 1;
  if (lead >= 0xC2 && lead <= 0xDF) return follows(i + 1) ? 2 : 0;
  if (lead >= 0xE0 && lead <= 0xEF) {
    const unsigned low = lead == 0xE0 ? 0xA0 : 0x80;
    const unsigned high = lead == 0xED ? 0x9F : 0xBF;
    return follows(i + 1, low, high) && follows(i + 2) ? 3 : 0;
  }
  if (lead >= 0xF0 && lead <= 0xF4) {
    const unsigned low = lead == 0xF0 ? 0x90 : 0x80;
    const unsigned high = lead == 0xF4 ? 0x8F : 0xBF;
    return follows(i + 1, low, high) && follows(i + 2) && follows(i + 3) ? 4 : 0;
  }
  return 0;
}
}  // namespace

std::size_t first_bad_utf8(std::string_view bytes) {
  for (std::size_t i = 0; i < bytes.size();) {
    const std::size_t length = utf8_length(bytes, i);
    if (length == 0) return i;
    i += length;
  }
  return std::string_view::npos;
}

bool contains(std::span<const std::string> words, std::string_view word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

std::string listed(std::span<const std::string> words, std::string_view last) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) text += i + 1 == words.size() ? last : std::string_view(", ");
    text += words[i];
  }
  return text;
}

std::string capitalised(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 32);
  return text;
}

std::string in_capitals(std::string text) {
  for (auto& letter : text)
    if (letter >= 'a' && letter <= 'z') letter = static_cast<char>(letter - 32);
  return text;
}

std::uint64_t stable_hash(std::string_view text) {
  std::uint64_t hash = 14695981039346656037ULL;
  for (const char c : text) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 1099511628211ULL;
  }
  return hash;
}

std::string_view trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t\r\n");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
}

std::vector<std::string> split(std::string_view text, char separator) {
  std::vector<std::string> pieces;
  for (;;) {
    const auto at = text.find(separator);
    pieces.emplace_back(text.substr(0, at));
    if (at == std::string_view::npos) return pieces;
    text.remove_prefix(at + 1);
  }
}

}  // namespace benchgraft
