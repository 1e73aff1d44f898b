// Extended regular expressions by POSIX: std::regex does not compile without warnings under the
// sanitizers of g++ 12.
#pragma once

#include <string>
#include <vector>

#include <regex.h>

namespace benchgraft::fit_pattern {

/// The groups (whole match first) of every match of `pattern` in `text`, left to right.
inline std::vector<std::vector<std::string>> all_matches(const std::string& text,
                                                         const std::string& pattern) {
  regex_t compiled;
  std::vector<std::vector<std::string>> all;
  if (regcomp(&compiled, pattern.c_str(), REG_EXTENDED) != 0) return all;
  regmatch_t at[8];
  const char* from = text.c_str();
  while (regexec(&compiled, from, 8, at, from == text.c_str() ? 0 : REG_NOTBOL) == 0) {
    std::vector<std::string>& groups = all.emplace_back();
    for (const auto& group : at)
      groups.push_back(group.rm_so < 0 ? "" : std::string(from + group.rm_so, from + group.rm_eo));
    if (at[0].rm_eo == 0) break;
    from += at[0].rm_eo;
  }
  regfree(&compiled);
  return all;
}

/// The groups when the whole of `text` matches, else empty.
inline std::vector<std::string> match(const std::string& text, const std::string& pattern) {
  const auto all = all_matches(text, "^(" + pattern + ")$");
  if (all.empty()) return {};
  return {all.front().begin() + 1, all.front().end()};
}

}  // namespace benchgraft::fit_pattern
