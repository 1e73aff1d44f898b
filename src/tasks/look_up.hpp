// Lists and searches: what is here, and what the catalogue knows.
#pragma once

#include <string>
#include <vector>

#include "tasks/answer.hpp"
#include "tasks/room.hpp"

namespace benchgraft::tasks {

/// in: `what` is "sets", "parts", "wishes", "rebuilds", "terms", "types", "models" or "kinds".
/// With a shop its own catalogue, else only what ships and the folders named.
Result<Answer> list_all(const ShopAt& at, const Knowledge& knowledge, const std::string& what);

/// Everything about the set or part of that code, with its history.
Result<Answer> show_one(const ShopAt& at, const std::string& code);

/// Sets and parts of the shop (when there is one), part types, models and kinds in which every word
/// starts a word.
Result<Answer> find(const ShopAt& at, const Knowledge& knowledge, const std::string& words);

}  // namespace benchgraft::tasks
