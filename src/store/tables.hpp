// The records of the shop in their tables: taken out, put in, read in recorded order.
#pragma once

#include <cstdint>
#include <optional>

#include "shop/edits.hpp"
#include "store/connection.hpp"

namespace benchgraft::store {

/// Place in the recorded order; nothing = after all others.
using Seq = std::optional<std::int64_t>;

// insert: returns the place that was given.
std::int64_t insert(Connection& connection, const shop::Set& set, Seq seq);
std::int64_t insert(Connection& connection, const shop::Part& part, Seq seq);
std::int64_t insert(Connection& connection, const catalogue::SwapNote& note, Seq seq);
std::int64_t insert(Connection& connection, const shop::RebuildRecord& rebuild, Seq seq);
std::int64_t insert(Connection& connection, const shop::Wish& wish, Seq seq);
std::int64_t insert(Connection& connection, const shop::Terms& terms, Seq seq);
std::int64_t insert(Connection& connection, const shop::FamilyText& family, Seq seq);

// remove: returns the place it had, nothing when it was not there.
Seq remove(Connection& connection, const shop::Set& set);
Seq remove(Connection& connection, const shop::Part& part);
Seq remove(Connection& connection, const catalogue::SwapNote& note);
Seq remove(Connection& connection, const shop::RebuildRecord& rebuild);
Seq remove(Connection& connection, const shop::Wish& wish);
Seq remove(Connection& connection, const shop::Terms& terms);
Seq remove(Connection& connection, const shop::FamilyText& family);

/// Fails (storage) on a row that no program of this version wrote.
Result<shop::Shop> load_shop(Connection& connection);
std::vector<shop::FamilyText> load_families(Connection& connection);

/// The line that text search looks through, and shows.
std::string search_line(const shop::Set& set);
std::string search_line(const shop::Part& part);

}  // namespace benchgraft::store
