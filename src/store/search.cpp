#include "store/search.hpp"

#include "base/text.hpp"
#include "shop/codes.hpp"

namespace benchgraft::store {

namespace {

bool has_letter(const std::string& word) {
  for (const char c : word) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte >= 0x80 || (byte >= '0' && byte <= '9') || (byte >= 'A' && byte <= 'Z') ||
        (byte >= 'a' && byte <= 'z'))
      return true;
  }
  return false;
}

// Each word in quotes, so that nothing in it is taken for a sign of the search language.
std::string query_of(const std::string& words) {
  std::string query;
  std::string spaced = words;
  for (char& c : spaced)
    if (c == '\t' || c == '\n' || c == '\r' || c == '\0') c = ' ';
  for (const auto& word : split(spaced, ' ')) {
    if (!has_letter(word)) continue;
    query += query.empty() ? "\"" : " \"";
    for (const char c : word) query += c == '"' ? std::string("\"\"") : std::string(1, c);
    query += "\"*";
  }
  return query;
}

}  // namespace

std::vector<Hit> find_words(Connection& connection, const std::string& words, std::size_t most) {
  std::vector<Hit> hits;
  const std::string query = query_of(words);
  if (query.empty()) return hits;
  connection.each(
      "SELECT coalesce(sets.code, parts.code), sets.code IS NULL, found.words "
      "FROM found "
      "LEFT JOIN sets ON found.rowid % 2 = 0 AND sets.seq = found.rowid / 2 "
      "LEFT JOIN parts ON found.rowid % 2 = 1 AND parts.seq = found.rowid / 2 "
      "WHERE found MATCH $1 "
      "ORDER BY coalesce(sets.code, parts.code) <> $2, bm25(found), found.rowid LIMIT $3",
      {query, shop::tape_code(std::string(trimmed(words))), static_cast<std::int64_t>(most)},
      [&](const Row& row) {
        hits.push_back({row.whole(1) != 0 ? "part" : "set", row.text(0), row.text(2)});
      });
  return hits;
}

}  // namespace benchgraft::store
