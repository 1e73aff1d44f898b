// Text search over sets and parts.
#pragma once

#include <string>
#include <vector>

#include "store/connection.hpp"
#include "store/store.hpp"

namespace benchgraft::store {

/// Things in whose line every word of `words` starts a word; the named code first, then the best
/// match.
std::vector<Hit> find_words(Connection& connection, const std::string& words, std::size_t most);

}  // namespace benchgraft::store
