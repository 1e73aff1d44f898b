#include "store/tables.hpp"

namespace benchgraft::store {

namespace {

Seq remove_by(Connection& connection, const std::string& table, const std::string& column,
              const std::string& key) {
  const Seq seq =
      connection.whole("SELECT seq FROM " + table + " WHERE " + column + " = $1", {key});
  if (seq) connection.execute("DELETE FROM " + table + " WHERE seq = $1", {*seq});
  return seq;
}

}  // namespace

Seq remove(Connection& connection, const shop::Set& set) {
  const Seq seq = remove_by(connection, "sets", "id", to_text(set.id));
  connection.execute("DELETE FROM codes WHERE code = $1", {set.code});
  if (seq) connection.execute("DELETE FROM found WHERE rowid = $1", {2 * *seq});
  return seq;
}

Seq remove(Connection& connection, const shop::Part& part) {
  const Seq seq = remove_by(connection, "parts", "id", to_text(part.id));
  connection.execute("DELETE FROM codes WHERE code = $1", {part.code});
  if (seq) connection.execute("DELETE FROM found WHERE rowid = $1", {2 * *seq + 1});
  return seq;
}

Seq remove(Connection& connection, const catalogue::SwapNote& note) {
  return remove_by(connection, "notes", "name", note.name);
}

Seq remove(Connection& connection, const shop::RebuildRecord& rebuild) {
  return remove_by(connection, "rebuilds", "id", to_text(rebuild.id));
}

Seq remove(Connection& connection, const shop::Wish& wish) {
  return remove_by(connection, "wishes", "id", to_text(wish.id));
}

Seq remove(Connection& connection, const shop::Terms&) {
  return connection.execute("DELETE FROM terms") > 0 ? Seq(1) : std::nullopt;
}

Seq remove(Connection& connection, const shop::FamilyText& family) {
  return remove_by(connection, "family", "name", family.name);
}

}  // namespace benchgraft::store
