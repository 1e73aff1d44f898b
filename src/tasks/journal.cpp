#include "tasks/journal.hpp"

#include <fmt/format.h>

#include "base/text.hpp"

namespace benchgraft::tasks {
namespace {

std::vector<sheets::JournalLine> lines_of(const std::vector<store::JournalEntry>& entries) {
  std::vector<sheets::JournalLine> lines;
  for (const auto& entry : entries)
    lines.push_back({entry.number, entry.when, entry.who, entry.command, entry.what,
                     entry.taken_back_by.value_or(0)});
  return lines;
}

// An undo is not undone by itself: what stands is the newest entry that is neither.
Result<std::int64_t> newest_standing(const store::Store& store) {
  auto entries = store.journal();
  if (!entries) return entries.error();
  for (const auto& entry : entries.value())
    if (!entry.taken_back_by && entry.takes_back.empty()) return entry.number;
  return Error{ErrorKind::not_found, "There is nothing in the journal to take back."};
}

Error in_the_way(std::int64_t entry, const std::vector<store::JournalEntry>& later) {
  std::vector<std::string> words;
  for (const auto& each : later) words.push_back(fmt::format("{} ({})", each.number, each.what));
  return {ErrorKind::conflict,
          fmt::format("Entry {0} cannot be taken back alone: {1} came after it and {2} it; take "
                      "them all back with: benchgraft undo {0} --and-later",
                      entry, listed(words), words.size() == 1 ? "needs" : "need")};
}

}  // namespace

Result<Answer> journal(const ShopAt& at, std::size_t most) {
  auto store = open_shop(at, store::Mode::read);
  if (!store) return store.error();
  auto entries = store.value().journal(most);
  if (!entries) return entries.error();
  const auto lines = lines_of(entries.value());
  return Answer{sheets::journal_page(lines), sheets::journal_json(lines)};
}

Result<std::vector<sheets::JournalLine>> history(const store::Store& store, const std::string& sort,
                                                 const std::string& id) {
  auto entries = store.history(sort, id);
  if (!entries) return entries.error();
  return lines_of(entries.value());
}

Result<Recorded> take_back(const ShopAt& at, std::int64_t entry, bool and_later) {
  auto store = open_shop(at, store::Mode::write);
  if (!store) return store.error();
  if (entry == 0) {
    auto newest = newest_standing(store.value());
    if (!newest) return newest.error();
    entry = newest.value();
  }
  auto taken = store.value().undo(entry, and_later, occasion(at));
  if (!taken) return taken.error();
  if (!taken.value().in_the_way.empty()) return in_the_way(entry, taken.value().in_the_way);
  const auto& done = taken.value().done;
  return Recorded{done.entry, done.what, done.made};
}

}  // namespace benchgraft::tasks
