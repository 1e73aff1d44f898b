#include "base/ensure.hpp"

#include <cstdio>
#include <cstdlib>

namespace benchgraft {

void ensure_failed(std::string_view what, const std::source_location& where) {
  std::fprintf(stderr, "benchgraft: mistake in the program: %.*s (%s:%u)\n",
               static_cast<int>(what.size()), what.data(), where.file_name(),
               static_cast<unsigned>(where.line()));
  std::abort();
}

}  // namespace benchgraft
