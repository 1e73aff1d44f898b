// How deeply TOML text nests, found without building anything.
#pragma once

#include <cstddef>
#include <string_view>

namespace benchgraft::catalogue {

inline constexpr int kDeepestBrackets = 32;
inline constexpr int kLongestDottedKey = 16;

/// Line of the first bracket or dotted key that goes deeper than the limits above, or 0.
/// The TOML library itself follows a dotted key of any length and runs out of stack.
int too_deep_line(std::string_view toml);

}  // namespace benchgraft::catalogue
