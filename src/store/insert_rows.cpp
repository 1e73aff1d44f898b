#include <fmt/format.h>

#include "catalogue/words.hpp"
#include "shop/thing_text.hpp"
#include "shop/words.hpp"
#include "store/tables.hpp"

namespace benchgraft::store {

namespace {

using shop::word_of;

template <class E, class List>
std::string word(const List& list, E value) {
  return std::string(word_of(list, value));
}

Value value(const std::optional<double>& number) {
  if (number) return *number;
  return nullptr;
}
Value value(const Seq& seq) {
  if (seq) return *seq;
  return nullptr;
}
template <class Tag>
Value value(const std::optional<Id<Tag>>& id) {
  if (id) return to_text(*id);
  return nullptr;
}
Value said(const std::string& text) {
  if (!text.empty()) return text;
  return nullptr;
}

// One row for each word of a list, in its order.
void insert_list(Connection& connection, const std::string& sql, std::int64_t seq,
                 const std::vector<std::string>& words) {
  std::int64_t n = 0;
  for (const auto& one : words) connection.execute(sql, {seq, n++, one});
}

std::string joined(const std::vector<std::string>& texts) {
  std::string line;
  for (const auto& text : texts)
    if (!text.empty()) line += (line.empty() ? "" : ", ") + text;
  return line;
}

void insert_changes(Connection& connection, std::int64_t seq,
                    const std::vector<catalogue::Change>& changes) {
  std::int64_t n = 0;
  for (const auto& c : changes)
    connection.execute(
        "INSERT INTO part_changes (part_seq, n, change, port, \"from\", \"to\", piece, piece_kind, "
        "setting, contact, now, lead_mm, note) "
        "VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13)",
        {seq, n++, word(catalogue::kChangeSortWords, c.sort), c.port, c.from, c.to, c.piece,
         c.piece_kind, c.setting,
         c.contact ? Value(shop::contact_text(*c.contact)) : Value(nullptr),
         c.now ? Value(shop::trait_text(*c.now)) : Value(nullptr), value(c.lead_mm), c.note});
}

}  // namespace

std::string search_line(const shop::Set& set) {
  return joined({set.code, set.model, set.variant, joined(set.candidates), set.kind, set.complaint,
                 set.place, set.owner, set.note});
}

std::string search_line(const shop::Part& part) {
  return joined({part.code, part.type, joined(part.candidates), joined(part.roles), part.position,
                 part.place, part.from, part.tested_how, part.note});
}

std::int64_t insert(Connection& connection, const shop::Set& set, Seq at) {
  connection.execute("INSERT INTO codes (code, of) VALUES ($1, 'set')", {set.code});
  connection.execute(
      "INSERT INTO sets (seq, id, code, owner, consent, kind, model, variant, looks, complaint, "
      "place, "
      "taken_in, fate, note) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14)",
      {value(at), to_text(set.id), set.code, set.owner, word(shop::kConsentWords, set.consent),
       set.kind, set.model, set.variant, word(shop::kLooksWords, set.looks), set.complaint,
       set.place, set.taken_in, word(shop::kFateWords, set.fate), set.note});
  const std::int64_t seq = connection.last_row();
  insert_list(connection, "INSERT INTO set_candidates (set_seq, n, model) VALUES ($1, $2, $3)", seq,
              set.candidates);
  insert_list(connection, "INSERT INTO set_missing (set_seq, n, position) VALUES ($1, $2, $3)", seq,
              set.missing);
  connection.execute("INSERT INTO found (rowid, words) VALUES ($1, $2)",
                     {2 * seq, search_line(set)});
  return seq;
}

std::int64_t insert(Connection& connection, const shop::Part& part, Seq at) {
  connection.execute("INSERT INTO codes (code, of) VALUES ($1, 'part')", {part.code});
  connection.execute(
      "INSERT INTO parts (seq, id, code, type, state, tested_how, tested_in, tested_on, run_hours, "
      "chance, "
      "in_set, position, place, \"from\", note) "
      "VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15)",
      {value(at), to_text(part.id), part.code, part.type, word(shop::kStateWords, part.state),
       part.tested_how, part.tested_in, part.tested_on, value(part.run_hours), value(part.chance),
       value(part.in_set), part.position, part.place, part.from, part.note});
  const std::int64_t seq = connection.last_row();
  insert_list(connection, "INSERT INTO part_candidates (part_seq, n, type) VALUES ($1, $2, $3)",
              seq, part.candidates);
  insert_list(connection, "INSERT INTO part_roles (part_seq, n, role) VALUES ($1, $2, $3)", seq,
              part.roles);
  insert_changes(connection, seq, part.changes);
  connection.execute("INSERT INTO found (rowid, words) VALUES ($1, $2)",
                     {2 * seq + 1, search_line(part)});
  return seq;
}

std::int64_t insert(Connection& connection, const catalogue::SwapNote& note, Seq at) {
  connection.execute("INSERT INTO notes (seq, name, text) VALUES ($1, $2, $3)",
                     {value(at), note.name, shop::text_of(note)});
  return connection.last_row();
}

std::int64_t insert(Connection& connection, const shop::RebuildRecord& rebuild, Seq at) {
  connection.execute(
      "INSERT INTO rebuilds (seq, id, name, host, state, started, finished, work_minutes, note) "
      "VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9)",
      {value(at), to_text(rebuild.id), rebuild.name, to_text(rebuild.host), rebuild.state,
       rebuild.started, rebuild.finished, value(rebuild.work_minutes), rebuild.note});
  const std::int64_t seq = connection.last_row();
  std::int64_t n = 0;
  for (const auto& one : rebuild.parts)
    connection.execute(
        "INSERT INTO rebuild_parts (rebuild_seq, state, n, position, part) VALUES ($1, $2, $3, $4, "
        "$5)",
        {seq, rebuild.state, n++, one.position, to_text(one.part)});
  return seq;
}

std::int64_t insert(Connection& connection, const shop::Wish& wish, Seq at) {
  connection.execute(
      "INSERT INTO wishes (seq, id, wish, \"set\", part, note) VALUES ($1, $2, $3, $4, $5, $6)",
      {value(at), to_text(wish.id), word(shop::kWishWords, wish.sort), said(wish.set),
       said(wish.part), wish.note});
  return connection.last_row();
}

std::int64_t insert(Connection& connection, const shop::Terms& terms, Seq) {
  connection.execute(
      "INSERT INTO terms (one, currency, per_hour_minor, hours, mains_volts, mains_hz, "
      "touch_profile, "
      "chance_untested, chance_good, chance_suspect, note) "
      "VALUES (1, $1, $2, $3, $4, $5, $6, $7, $8, $9, $10)",
      {terms.currency, terms.per_hour.minor, value(terms.hours), terms.mains_volts, terms.mains_hz,
       terms.touch_profile, terms.chance_untested, terms.chance_good, terms.chance_suspect,
       terms.note});
  return 1;
}

std::int64_t insert(Connection& connection, const shop::FamilyText& family, Seq at) {
  connection.execute("INSERT INTO family (seq, name, text) VALUES ($1, $2, $3)",
                     {value(at), family.name, family.text});
  return connection.last_row();
}

}  // namespace benchgraft::store
