// The journal: one entry for every change, with each thing before and after. Only added to.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "shop/commands.hpp"
#include "shop/edits.hpp"
#include "store/connection.hpp"
#include "store/store.hpp"

namespace benchgraft::store {

/// Makes `edits` in the tables and writes them as one entry; returns its number. Inside a
/// transaction.
std::int64_t record(Connection& connection, const std::string& command, const std::string& what,
                    const shop::Edits& edits, const std::vector<std::int64_t>& takes_back,
                    const shop::Occasion& occasion);

/// Newest first; `most` = 0 gives all.
std::vector<JournalEntry> newest_entries(Connection& connection, std::size_t most);
/// Oldest first.
std::vector<JournalEntry> entries_of(Connection& connection, const std::string& sort,
                                     const std::string& id);
/// Oldest first, from `number` on.
std::vector<JournalEntry> entries_from(Connection& connection, std::int64_t number);

/// The change of one entry as values again.
Result<shop::Edits> edits_of(const JournalEntry& entry);

}  // namespace benchgraft::store
