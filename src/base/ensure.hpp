// Stops the program on a programming mistake, never on bad input.
#pragma once

#include <source_location>
#include <string_view>

namespace benchgraft {

[[noreturn]] void ensure_failed(std::string_view what, const std::source_location& where);

/// Aborts with file, line and `what` when `holds` is false.
inline void ensure(bool holds, std::string_view what,
                   const std::source_location& where = std::source_location::current()) {
  if (!holds) ensure_failed(what, where);
}

}  // namespace benchgraft
