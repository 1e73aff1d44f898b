// Words of closed lists as a person types them.
#pragma once

#include <string>
#include <vector>

#include <fmt/format.h>

#include "base/result.hpp"
#include "base/text.hpp"
#include "catalogue/words.hpp"

namespace benchgraft::tasks {

/// "may-strip", "may_strip" and "may strip" are the same word.
/// fails: names the word, what it was for, and the words there are.
template <class E, std::size_t N>
Result<E> read_word(const catalogue::WordList<E, N>& list, std::string word,
                    const std::string& what) {
  for (char& c : word)
    if (c == '-' || c == '_') c = ' ';
  if (const auto value = catalogue::value_of(list, word)) return *value;
  std::vector<std::string> known;
  for (const auto& [value, text] : list) known.emplace_back(text);
  return Error{ErrorKind::bad_input, fmt::format("\"{}\" is no word for {}; the words are: {}.",
                                                 word, what, listed(known))};
}

}  // namespace benchgraft::tasks
