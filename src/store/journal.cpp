#include "store/journal.hpp"

#include <map>

#include <fmt/format.h>

#include "shop/thing_key.hpp"
#include "shop/thing_text.hpp"
#include "store/tables.hpp"

namespace benchgraft::store {

namespace {

/// The edits of one entry on their way into tables and journal.
class Recording {
 public:
  Recording(Connection& connection, std::int64_t entry) : connection_(connection), entry_(entry) {}

  // Everything out before anything goes in: things may change places with one another.
  template <class T>
  void take_out(const std::vector<shop::Edit<T>>& edits) {
    for (const auto& edit : edits)
      if (edit.before)
        if (const Seq seq = remove(connection_, *edit.before))
          places_[{shop::sort_of<T>(), shop::key_of(*edit.before)}] = *seq;
  }

  template <class T>
  void put_in(const std::vector<shop::Edit<T>>& edits) {
    for (const auto& edit : edits) {
      const std::string sort = shop::sort_of<T>();
      const std::string key = shop::key_of(edit.after ? *edit.after : *edit.before);
      Seq seq = place_of(sort, key);
      if (edit.after) seq = insert(connection_, *edit.after, seq);
      const auto text = [](const std::optional<T>& thing) {
        return thing ? Value(shop::text_of(*thing)) : Value(nullptr);
      };
      connection_.execute(
          "INSERT INTO journal_things (entry, n, sort, id, seq, before, after) "
          "VALUES ($1, $2, $3, $4, $5, $6, $7)",
          {entry_, n_++, sort, key, seq.value_or(0), text(edit.before), text(edit.after)});
    }
  }

 private:
  // A thing that comes back stands where it stood in the recorded order.
  Seq place_of(const std::string& sort, const std::string& key) {
    if (const auto at = places_.find({sort, key}); at != places_.end()) return at->second;
    return connection_.whole(
        "SELECT seq FROM journal_things WHERE sort = $1 AND id = $2 ORDER BY entry DESC LIMIT 1",
        {sort, key});
  }

  Connection& connection_;
  std::int64_t entry_;
  std::int64_t n_ = 0;
  std::map<std::pair<std::string, std::string>, std::int64_t> places_;
};

template <class Step>
void for_each_sort(const shop::Edits& edits, Step step) {
  step(edits.sets);
  step(edits.parts);
  step(edits.notes);
  step(edits.rebuilds);
  step(edits.wishes);
  step(edits.terms);
  step(edits.families);
}

constexpr const char* kColumns = "SELECT number, who, at, command, what FROM journal ";

JournalEntry entry_of(const Row& row) {
  JournalEntry entry;
  entry.number = row.whole(0);
  entry.who = row.text(1);
  entry.when = row.text(2);
  entry.command = row.text(3);
  entry.what = row.text(4);
  return entry;
}

void add_details(Connection& connection, JournalEntry& entry) {
  connection.each("SELECT sort, id, before, after FROM journal_things WHERE entry = $1 ORDER BY n",
                  {entry.number}, [&](const Row& row) {
                    entry.things.push_back({row.text(0), row.text(1), row.text(2), row.text(3)});
                  });
  connection.each("SELECT taken_back FROM journal_taken_back WHERE entry = $1 ORDER BY taken_back",
                  {entry.number},
                  [&](const Row& row) { entry.takes_back.push_back(row.whole(0)); });
}

// An undo that was itself taken back no longer counts.
void mark_taken_back(Connection& connection, std::vector<JournalEntry>& entries) {
  std::map<std::int64_t, std::vector<std::int64_t>> undos;
  connection.each("SELECT entry, taken_back FROM journal_taken_back ORDER BY entry DESC", {},
                  [&](const Row& row) { undos[row.whole(0)].push_back(row.whole(1)); });
  std::map<std::int64_t, std::int64_t> taken_back_by;
  for (auto undo = undos.rbegin(); undo != undos.rend(); ++undo)
    if (!taken_back_by.contains(undo->first))
      for (const auto number : undo->second) taken_back_by[number] = undo->first;
  for (auto& entry : entries)
    if (const auto at = taken_back_by.find(entry.number); at != taken_back_by.end())
      entry.taken_back_by = at->second;
}

std::vector<JournalEntry> entries(Connection& connection, const std::string& rest,
                                  const std::vector<Value>& values) {
  std::vector<JournalEntry> found;
  connection.each(kColumns + rest, values, [&](const Row& row) { found.push_back(entry_of(row)); });
  for (auto& entry : found) add_details(connection, entry);
  mark_taken_back(connection, found);
  return found;
}

template <class T>
Result<std::optional<T>> thing_of(const std::string& text, const std::string& id) {
  if (text.empty()) return std::optional<T>{};
  if constexpr (std::is_same_v<T, shop::FamilyText>) {
    return std::optional<T>{T{id, text}};
  } else {
    auto read = shop::thing_from_text<T>(text, fmt::format("{} {}", shop::sort_of<T>(), id));
    if (!read) return read.error();
    return std::optional<T>{std::move(read.value())};
  }
}

template <class T>
Result<void> add_edit(const Touched& touched, std::vector<shop::Edit<T>>& edits) {
  auto before = thing_of<T>(touched.before, touched.id);
  if (!before) return before.error();
  auto after = thing_of<T>(touched.after, touched.id);
  if (!after) return after.error();
  edits.push_back({std::move(before.value()), std::move(after.value())});
  return {};
}

Result<void> add_touched(const Touched& touched, shop::Edits& edits) {
  if (touched.sort == "set") return add_edit(touched, edits.sets);
  if (touched.sort == "part") return add_edit(touched, edits.parts);
  if (touched.sort == "note") return add_edit(touched, edits.notes);
  if (touched.sort == "rebuild") return add_edit(touched, edits.rebuilds);
  if (touched.sort == "wish") return add_edit(touched, edits.wishes);
  if (touched.sort == "terms") return add_edit(touched, edits.terms);
  return add_edit(touched, edits.families);
}

}  // namespace

std::int64_t record(Connection& connection, const std::string& command, const std::string& what,
                    const shop::Edits& edits, const std::vector<std::int64_t>& takes_back,
                    const shop::Occasion& occasion) {
  const std::int64_t number =
      connection.whole("SELECT coalesce(max(number), 0) + 1 FROM journal").value_or(1);
  connection.execute(
      "INSERT INTO journal (number, who, at, command, what) VALUES ($1, $2, $3, $4, $5)",
      {number, occasion.who, occasion.when, command, what});
  Recording recording(connection, number);
  for_each_sort(edits, [&](const auto& one) { recording.take_out(one); });
  for_each_sort(edits, [&](const auto& one) { recording.put_in(one); });
  for (const auto entry : takes_back)
    connection.execute("INSERT INTO journal_taken_back (entry, taken_back) VALUES ($1, $2)",
                       {number, entry});
  return number;
}

std::vector<JournalEntry> newest_entries(Connection& connection, std::size_t most) {
  const auto limit = most == 0 ? std::int64_t{-1} : static_cast<std::int64_t>(most);
  return entries(connection, "ORDER BY number DESC LIMIT $1", {limit});
}

std::vector<JournalEntry> entries_of(Connection& connection, const std::string& sort,
                                     const std::string& id) {
  return entries(connection,
                 "WHERE number IN (SELECT entry FROM journal_things WHERE sort = $1 AND id = $2) "
                 "ORDER BY number",
                 {sort, id});
}

std::vector<JournalEntry> entries_from(Connection& connection, std::int64_t number) {
  return entries(connection, "WHERE number >= $1 ORDER BY number", {number});
}

Result<shop::Edits> edits_of(const JournalEntry& entry) {
  shop::Edits edits;
  for (const auto& touched : entry.things)
    if (auto added = add_touched(touched, edits); !added) return added.error();
  return edits;
}

}  // namespace benchgraft::store
