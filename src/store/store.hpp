// The shop on disk: one SQLite file with its journal. Tables: docs/formats/shop.md.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "catalogue/catalogue.hpp"
#include "shop/commands.hpp"
#include "shop/text.hpp"

namespace benchgraft::store {

enum class Mode {
  create,  ///< made when it is not there
  write,   ///< must be there
  read,    ///< must be there; nothing is written
};

/// One thing as one entry changed it; text is TOML, "" where the thing was not there.
struct Touched {
  std::string sort;  ///< "set", "part", "note", "rebuild", "wish", "terms", "family"
  std::string id;    ///< id as text, or name
  std::string before, after;
};

struct JournalEntry {
  std::int64_t number = 0;
  std::string who, when;
  std::string command;  ///< "move part", "import", "undo", ...
  std::string what;     ///< one sentence
  std::vector<Touched> things;
  std::vector<std::int64_t> takes_back;  ///< entries an undo took back
  std::optional<std::int64_t> taken_back_by;
};

/// What was recorded; `entry` is 0 when there was nothing to change.
struct Done {
  std::int64_t entry = 0;
  std::string what;
  std::vector<std::string> made;  ///< codes (or names) of new things
};

struct Imported {
  Done done;
  shop::Count sets, parts, notes, rebuilds, wishes, families;
  bool terms_changed = false;
};

/// Either done, or stopped by later entries that depend on the one to be taken back.
struct TakenBack {
  Done done;
  std::vector<JournalEntry> in_the_way;  ///< newest first; empty when done
};

struct Hit {
  std::string sort;  ///< "set" or "part"
  std::string code;
  std::string text;  ///< what matched, one line
};

/// A statement that was shown, kept so that it can be explained later.
struct Said {
  std::string code;
  std::string text;  ///< JSON
  std::string at;
};

/// For one thread at a time; several stores, in one program or many, may have the same file open.
class Store {
 public:
  /// Fails on a newer file (too_new), one that is not a shop, is locked, cannot be read or written.
  /// Waits up to `wait_ms` when another one is writing, here and later.
  static Result<Store> open(const std::string& path, Mode mode, int wait_ms = 5000);
  Store(Store&&) noexcept;
  Store& operator=(Store&&) noexcept;
  ~Store();

  [[nodiscard]] Result<shop::Shop> load() const;
  [[nodiscard]] Result<std::vector<catalogue::Family>> families() const;

  /// Checks `command` against what is recorded now, changes it and writes the journal, all or
  /// nothing.
  Result<Done> execute(const shop::Command& command, const shop::Occasion& occasion);
  /// Everything of `bundle`, families too, as one entry; a family of the same name is replaced.
  Result<Imported> import(const shop::Bundle& bundle, const shop::Occasion& occasion);
  /// Families replaced by name as one entry; others stay.
  Result<Done> replace_families(const std::vector<catalogue::Family>& families,
                                const shop::Occasion& occasion);
  /// Takes `entry` back. Where later entries depend on it nothing is done and they are named,
  /// unless `and_later`: then they are taken back too.
  Result<TakenBack> undo(std::int64_t entry, bool and_later, const shop::Occasion& occasion);

  /// Newest first; `most` = 0 gives all.
  [[nodiscard]] Result<std::vector<JournalEntry>> journal(std::size_t most = 0) const;
  /// Entries that touched one thing, oldest first. `id` as in Touched.
  [[nodiscard]] Result<std::vector<JournalEntry>> history(const std::string& sort,
                                                          const std::string& id) const;
  /// Sets and parts in which every word of `words` starts a word; at most `most`.
  [[nodiscard]] Result<std::vector<Hit>> search(const std::string& words,
                                                std::size_t most = 50) const;

  Result<void> remember(const std::vector<Said>& statements);
  [[nodiscard]] Result<std::optional<Said>> said(const std::string& code) const;

 private:
  struct Inside;
  explicit Store(std::unique_ptr<Inside> inside);
  std::unique_ptr<Inside> inside_;
};

}  // namespace benchgraft::store
