#include "store/store.hpp"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "base/text.hpp"
#include "catalogue/text.hpp"
#include "shop/contradiction.hpp"
#include "shop/thing_key.hpp"
#include "shop/undo.hpp"
#include "store/journal.hpp"
#include "store/opening.hpp"
#include "store/search.hpp"
#include "store/tables.hpp"

namespace benchgraft::store {

using shop::Edits;
using shop::Occasion;
using shop::Records;

namespace {

/// What a change would make of the records.
struct Change {
  std::string command, what;
  Records after;
  std::vector<std::int64_t> takes_back;
};

std::vector<std::string> new_names(const Edits& edits) {
  std::vector<std::string> names;
  for (const auto& edit : edits.sets)
    if (!edit.before) names.push_back(edit.after->code);
  for (const auto& edit : edits.parts)
    if (!edit.before) names.push_back(edit.after->code);
  for (const auto& edit : edits.notes)
    if (!edit.before) names.push_back(edit.after->name);
  for (const auto& edit : edits.rebuilds)
    if (!edit.before) names.push_back(edit.after->name);
  for (const auto& edit : edits.wishes)
    if (!edit.before) names.push_back(to_text(edit.after->id));
  return names;
}

std::string counted(const shop::Count& count, const char* one, const char* many) {
  const std::size_t all = count.made + count.changed;
  if (all == 0) return "";
  return fmt::format("{} {} ({} new)", all, all == 1 ? one : many, count.made);
}

std::string import_text(const shop::Merged& merged) {
  std::vector<std::string> pieces;
  for (auto& piece :
       {counted(merged.sets, "set", "sets"), counted(merged.parts, "part", "parts"),
        counted(merged.notes, "swap note", "swap notes"),
        counted(merged.rebuilds, "rebuild", "rebuilds"), counted(merged.wishes, "wish", "wishes"),
        counted(merged.families, "family", "families"),
        std::string(merged.terms_changed ? "the terms" : "")})
    if (!piece.empty()) pieces.push_back(piece);
  return pieces.empty() ? "imported nothing new" : "imported " + listed(pieces);
}

/// One live entry with its traces.
struct Step {
  JournalEntry entry;
  Edits edits;
  shop::Traces traces;
};

// True for an undo that reaches back before `first`: with it, more changed since than what it took
// back.
bool reaches_before(const JournalEntry& entry, std::int64_t first) {
  return std::any_of(entry.takes_back.begin(), entry.takes_back.end(),
                     [&](std::int64_t number) { return number < first; });
}

// The entries from `first` on that changed something which is still so. An entry that was taken
// back and the undo that did so cancel out, unless that undo reaches back before `first`.
std::vector<JournalEntry> still_counting(std::vector<JournalEntry> entries, std::int64_t first) {
  std::set<std::int64_t> far_reaching;
  for (const auto& entry : entries)
    if (reaches_before(entry, first)) far_reaching.insert(entry.number);
  std::erase_if(entries, [&](const JournalEntry& entry) {
    if (entry.taken_back_by) return !far_reaching.contains(*entry.taken_back_by);
    return entry.number != first && !entry.takes_back.empty() &&
           !far_reaching.contains(entry.number);
  });
  return entries;
}

Result<std::vector<Step>> steps_from(Connection& connection, std::int64_t number) {
  std::vector<Step> steps;
  for (auto& entry : still_counting(entries_from(connection, number), number)) {
    auto edits = edits_of(entry);
    if (!edits) return edits.error();
    auto traces = shop::traces_of(edits.value());
    steps.push_back({std::move(entry), std::move(edits.value()), std::move(traces)});
  }
  return steps;
}

// The first step and all later ones that cannot stay without it, oldest first.
std::vector<const Step*> bound_together(const std::vector<Step>& steps) {
  std::vector<const Step*> bound = {&steps.front()};
  for (std::size_t i = 1; i < steps.size(); ++i)
    if (std::any_of(bound.begin(), bound.end(),
                    [&](const Step* earlier) { return depends(steps[i].traces, earlier->traces); }))
      bound.push_back(&steps[i]);
  return bound;
}

Result<Change> take_back(const std::vector<const Step*>& bound, const Records& now) {
  Change change{"undo", fmt::format("took back: {}", bound.front()->entry.what), now, {}};
  for (auto step = bound.rbegin(); step != bound.rend(); ++step) {
    auto before = shop::take_back((*step)->edits, std::move(change.after));
    if (!before) return before.error();
    change.after = std::move(before.value());
    change.takes_back.push_back((*step)->entry.number);
  }
  if (bound.size() > 1) change.what += fmt::format(", and {} later", bound.size() - 1);
  if (auto wrong = shop::first_contradiction(change.after.shop))
    return Error{wrong->kind, "it cannot be taken back: " + wrong->sentence};
  return change;
}

}  // namespace

struct Store::Inside {
  Connection connection;
  std::string path;
  Mode mode;

  // Runs `work`; a failure of the database becomes a sentence about the file.
  template <class Work>
  auto guarded(Work work) -> decltype(work()) {
    try {
      return work();
    } catch (const Failure& failure) {
      return error_of(failure, path);
    }
  }

  [[nodiscard]] Result<void> check_writable() const {
    if (mode != Mode::read) return {};
    return Error{
        ErrorKind::storage,
        fmt::format("{}: the shop was opened for reading only; open it for writing to change it.",
                    path)};
  }

  // The one way to change anything: look at what is recorded now, let `make` decide, write tables
  // and journal, commit.
  template <class Make>
  Result<Done> change(const Occasion& occasion, bool with_families, Make make) {
    if (auto sound = check_writable(); !sound) return sound.error();
    if (auto sound = shop::check_occasion(occasion); !sound) return sound.error();
    return guarded([&]() -> Result<Done> {
      Transaction transaction(connection, Transaction::Sort::writing);
      auto shop = load_shop(connection);
      if (!shop) return shop.error();
      Records now{std::move(shop.value()), {}};
      if (with_families) now.families = load_families(connection);
      Result<Change> change = make(now);
      if (!change) return change.error();
      const Edits edits = shop::difference(now, change.value().after);
      if (edits.empty()) return Done{0, change.value().what, {}};
      const std::int64_t entry = record(connection, change.value().command, change.value().what,
                                        edits, change.value().takes_back, occasion);
      transaction.commit();
      return Done{entry, change.value().what, new_names(edits)};
    });
  }
};

Store::Store(std::unique_ptr<Inside> inside) : inside_(std::move(inside)) {}
Store::Store(Store&&) noexcept = default;
Store& Store::operator=(Store&&) noexcept = default;
Store::~Store() = default;

Result<Store> Store::open(const std::string& path, Mode mode, int wait_ms) {
  auto connection = open_shop(path, mode, wait_ms);
  if (!connection) return connection.error();
  return Store(std::make_unique<Inside>(Inside{std::move(connection.value()), path, mode}));
}

Result<shop::Shop> Store::load() const {
  return inside_->guarded([&]() -> Result<shop::Shop> {
    Transaction transaction(inside_->connection, Transaction::Sort::reading);
    return load_shop(inside_->connection);
  });
}

Result<std::vector<catalogue::Family>> Store::families() const {
  return inside_->guarded([&]() -> Result<std::vector<catalogue::Family>> {
    std::vector<catalogue::Family> families;
    for (const auto& [name, text] : load_families(inside_->connection)) {
      auto family = catalogue::read_family(text, fmt::format("family \"{}\" in the shop", name));
      if (!family) return family.error();
      families.push_back(std::move(family.value()));
    }
    return families;
  });
}

Result<Done> Store::execute(const shop::Command& command, const Occasion& occasion) {
  return inside_->change(occasion, false, [&](const Records& now) -> Result<Change> {
    auto effect = shop::effect_of(command, now.shop, occasion);
    if (!effect) return effect.error();
    return Change{
        effect.value().command, effect.value().what, {std::move(effect.value().after), {}}, {}};
  });
}

Result<Imported> Store::import(const shop::Bundle& bundle, const Occasion& occasion) {
  Imported imported;
  auto done = inside_->change(occasion, true, [&](const Records& now) -> Result<Change> {
    auto merged = shop::merge(now, bundle, occasion.random);
    if (!merged) return merged.error();
    const shop::Merged& all = merged.value();
    imported = {{},           all.sets,   all.parts,    all.notes,
                all.rebuilds, all.wishes, all.families, all.terms_changed};
    std::string what = import_text(all);
    return Change{"import", std::move(what), std::move(merged.value().after), {}};
  });
  if (!done) return done.error();
  imported.done = std::move(done.value());
  return imported;
}

Result<Done> Store::replace_families(const std::vector<catalogue::Family>& families,
                                     const Occasion& occasion) {
  auto sorted = shop::sort_texts({});
  if (!sorted) return sorted.error();
  sorted.value().families = families;
  auto imported = import(sorted.value(), occasion);
  if (!imported) return imported.error();
  return std::move(imported.value().done);
}

Result<TakenBack> Store::undo(std::int64_t entry, bool and_later, const Occasion& occasion) {
  TakenBack result;
  auto done = inside_->change(occasion, true, [&](const Records& now) -> Result<Change> {
    const auto found = entries_from(inside_->connection, entry);
    if (entry < 1 || found.empty() || found.front().number != entry)
      return Error{
          ErrorKind::not_found,
          fmt::format("the journal has no entry {}; look up its number in the journal.", entry)};
    if (found.front().taken_back_by)
      return Error{ErrorKind::conflict, fmt::format("entry {} was already taken back by entry {}.",
                                                    entry, *found.front().taken_back_by)};
    auto steps = steps_from(inside_->connection, entry);
    if (!steps) return steps.error();
    const auto bound = bound_together(steps.value());
    if (bound.size() > 1 && !and_later) {
      for (auto step = bound.rbegin(); *step != bound.front(); ++step)
        result.in_the_way.push_back((*step)->entry);
      return Change{"undo", "took back nothing", now, {}};
    }
    return take_back(bound, now);
  });
  if (!done) return done.error();
  result.done = std::move(done.value());
  return result;
}

Result<std::vector<JournalEntry>> Store::journal(std::size_t most) const {
  return inside_->guarded([&]() -> Result<std::vector<JournalEntry>> {
    Transaction transaction(inside_->connection, Transaction::Sort::reading);
    return newest_entries(inside_->connection, most);
  });
}

Result<std::vector<JournalEntry>> Store::history(const std::string& sort,
                                                 const std::string& id) const {
  return inside_->guarded([&]() -> Result<std::vector<JournalEntry>> {
    Transaction transaction(inside_->connection, Transaction::Sort::reading);
    return entries_of(inside_->connection, sort, id);
  });
}

Result<std::vector<Hit>> Store::search(const std::string& words, std::size_t most) const {
  return inside_->guarded(
      [&]() -> Result<std::vector<Hit>> { return find_words(inside_->connection, words, most); });
}

Result<void> Store::remember(const std::vector<Said>& statements) {
  if (auto sound = inside_->check_writable(); !sound) return sound;
  return inside_->guarded([&]() -> Result<void> {
    Transaction transaction(inside_->connection, Transaction::Sort::writing);
    for (const auto& one : statements)
      inside_->connection.execute(
          "INSERT INTO said (code, text, at) VALUES ($1, $2, $3) "
          "ON CONFLICT (code) DO UPDATE SET text = excluded.text, at = excluded.at",
          {one.code, one.text, one.at});
    transaction.commit();
    return {};
  });
}

Result<std::optional<Said>> Store::said(const std::string& code) const {
  return inside_->guarded([&]() -> Result<std::optional<Said>> {
    std::optional<Said> found;
    inside_->connection.each("SELECT text, at FROM said WHERE code = $1", {code},
                             [&](const Row& row) {
                               found = Said{code, row.text(0), row.text(1)};
                             });
    return found;
  });
}

}  // namespace benchgraft::store
