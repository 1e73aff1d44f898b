// What was done, and taking it back.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "sheets/shop_pages.hpp"
#include "tasks/answer.hpp"
#include "tasks/shop_at.hpp"

namespace benchgraft::tasks {

/// Newest first; `most` = 0 gives all.
Result<Answer> journal(const ShopAt& at, std::size_t most);

/// Entries that touched one set ("set") or part ("part"), oldest first.
Result<std::vector<sheets::JournalLine>> history(const store::Store& store, const std::string& sort,
                                                 const std::string& id);

/// Takes back `entry`, or with 0 the newest that stands.
/// fails: conflict, naming the later entries that depend on it, unless `and_later`.
Result<Recorded> take_back(const ShopAt& at, std::int64_t entry, bool and_later);

}  // namespace benchgraft::tasks
