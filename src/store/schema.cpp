#include "store/schema.hpp"

#include <array>
#include <filesystem>

#include <fmt/format.h>

namespace benchgraft::store {

namespace {

// size: the tables, one fact a line
constexpr const char* kVersion1 = R"sql(
CREATE TABLE terms (
  one             INTEGER PRIMARY KEY CHECK (one = 1),
  currency        TEXT NOT NULL CHECK (currency <> ''),
  per_hour_minor  INTEGER NOT NULL CHECK (per_hour_minor >= 0),
  hours           REAL CHECK (hours >= 0),
  mains_volts     REAL NOT NULL CHECK (mains_volts > 0),
  mains_hz        REAL NOT NULL CHECK (mains_hz > 0),
  touch_profile   TEXT NOT NULL,
  chance_untested REAL NOT NULL CHECK (chance_untested BETWEEN 0 AND 1),
  chance_good     REAL NOT NULL CHECK (chance_good BETWEEN 0 AND 1),
  chance_suspect  REAL NOT NULL CHECK (chance_suspect BETWEEN 0 AND 1),
  note            TEXT NOT NULL
) STRICT;

-- One code on tape belongs to one thing, set or part.
CREATE TABLE codes (
  code TEXT PRIMARY KEY
       CHECK (length(code) BETWEEN 1 AND 5 AND code NOT GLOB '*[^23456789ACDEFHJKMNPRTWXY]*'),
  of   TEXT NOT NULL CHECK (of IN ('set', 'part')),
  UNIQUE (code, of)
) STRICT;

CREATE TABLE sets (
  seq       INTEGER PRIMARY KEY AUTOINCREMENT,
  id        TEXT NOT NULL UNIQUE CHECK (length(id) = 32 AND id NOT GLOB '*[^0-9a-f]*'),
  code      TEXT NOT NULL UNIQUE,
  of        TEXT NOT NULL DEFAULT 'set' CHECK (of = 'set'),
  owner     TEXT NOT NULL,
  consent   TEXT NOT NULL CHECK (consent IN ('', 'may strip', 'must go back')),
  kind      TEXT NOT NULL,
  model     TEXT NOT NULL,
  variant   TEXT NOT NULL,
  looks     TEXT NOT NULL CHECK (looks IN ('', 'poor', 'fair', 'good')),
  complaint TEXT NOT NULL,
  place     TEXT NOT NULL,
  taken_in  TEXT NOT NULL,
  fate      TEXT NOT NULL CHECK (fate IN ('here', 'rebuilt', 'stripped', 'gone')),
  note      TEXT NOT NULL,
  FOREIGN KEY (code, of) REFERENCES codes (code, of) DEFERRABLE INITIALLY DEFERRED
) STRICT;

CREATE TABLE set_candidates (
  set_seq INTEGER NOT NULL REFERENCES sets (seq) ON DELETE CASCADE,
  n       INTEGER NOT NULL,
  model   TEXT NOT NULL CHECK (model <> ''),
  PRIMARY KEY (set_seq, n),
  UNIQUE (set_seq, model)
) STRICT, WITHOUT ROWID;

CREATE TABLE set_missing (
  set_seq  INTEGER NOT NULL REFERENCES sets (seq) ON DELETE CASCADE,
  n        INTEGER NOT NULL,
  position TEXT NOT NULL CHECK (position <> ''),
  PRIMARY KEY (set_seq, n),
  UNIQUE (set_seq, position)
) STRICT, WITHOUT ROWID;

-- A part is in a set or on a shelf, never both, and alone in its position.
CREATE TABLE parts (
  seq        INTEGER PRIMARY KEY AUTOINCREMENT,
  id         TEXT NOT NULL UNIQUE CHECK (length(id) = 32 AND id NOT GLOB '*[^0-9a-f]*'),
  code       TEXT NOT NULL UNIQUE,
  of         TEXT NOT NULL DEFAULT 'part' CHECK (of = 'part'),
  type       TEXT NOT NULL,
  state      TEXT NOT NULL CHECK (state IN ('untested', 'good', 'suspect', 'bad')),
  tested_how TEXT NOT NULL,
  tested_in  TEXT NOT NULL,
  tested_on  TEXT NOT NULL,
  run_hours  REAL CHECK (run_hours >= 0),
  chance     REAL CHECK (chance BETWEEN 0 AND 1),
  in_set     TEXT REFERENCES sets (id) DEFERRABLE INITIALLY DEFERRED,
  position   TEXT NOT NULL,
  place      TEXT NOT NULL,
  "from"     TEXT NOT NULL,
  note       TEXT NOT NULL,
  CHECK (in_set IS NULL OR place = ''),
  CHECK (in_set IS NOT NULL OR position = ''),
  FOREIGN KEY (code, of) REFERENCES codes (code, of) DEFERRABLE INITIALLY DEFERRED
) STRICT;
CREATE UNIQUE INDEX one_part_in_a_position ON parts (in_set, position) WHERE position <> '';
CREATE INDEX parts_of_a_set ON parts (in_set);

CREATE TABLE part_candidates (
  part_seq INTEGER NOT NULL REFERENCES parts (seq) ON DELETE CASCADE,
  n        INTEGER NOT NULL,
  type     TEXT NOT NULL CHECK (type <> ''),
  PRIMARY KEY (part_seq, n),
  UNIQUE (part_seq, type)
) STRICT, WITHOUT ROWID;

CREATE TABLE part_roles (
  part_seq INTEGER NOT NULL REFERENCES parts (seq) ON DELETE CASCADE,
  n        INTEGER NOT NULL,
  role     TEXT NOT NULL CHECK (role <> ''),
  PRIMARY KEY (part_seq, n),
  UNIQUE (part_seq, role)
) STRICT, WITHOUT ROWID;

CREATE TABLE part_changes (
  part_seq   INTEGER NOT NULL REFERENCES parts (seq) ON DELETE CASCADE,
  n          INTEGER NOT NULL,
  change     TEXT NOT NULL CHECK (change IN ('plug cut', 'contact moved', 'contact removed',
             'contact added', 'piece gone', 'piece added', 'lead replaced', 'memory changed')),
  port       TEXT NOT NULL,
  "from"     TEXT NOT NULL,
  "to"       TEXT NOT NULL,
  piece      TEXT NOT NULL,
  piece_kind TEXT NOT NULL,
  setting    TEXT NOT NULL,
  contact    TEXT,
  lead_mm    REAL CHECK (lead_mm >= 0),
  note       TEXT NOT NULL,
  PRIMARY KEY (part_seq, n)
) STRICT, WITHOUT ROWID;

CREATE TABLE notes (
  seq  INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL UNIQUE CHECK (name <> ''),
  text TEXT NOT NULL
) STRICT;

-- While a rebuild is begun, its host and its parts are nobody else's.
CREATE TABLE rebuilds (
  seq          INTEGER PRIMARY KEY AUTOINCREMENT,
  id           TEXT NOT NULL UNIQUE CHECK (length(id) = 32 AND id NOT GLOB '*[^0-9a-f]*'),
  name         TEXT NOT NULL UNIQUE CHECK (name <> ''),
  host         TEXT NOT NULL REFERENCES sets (id) DEFERRABLE INITIALLY DEFERRED,
  state        TEXT NOT NULL CHECK (state IN ('begun', 'finished', 'given up')),
  started      TEXT NOT NULL,
  finished     TEXT NOT NULL,
  work_minutes REAL CHECK (work_minutes >= 0),
  note         TEXT NOT NULL,
  UNIQUE (seq, state)
) STRICT;
CREATE INDEX rebuilds_of_a_host ON rebuilds (host);
CREATE UNIQUE INDEX one_begun_rebuild_in_a_host ON rebuilds (host) WHERE state = 'begun';

CREATE TABLE rebuild_parts (
  rebuild_seq INTEGER NOT NULL,
  state       TEXT NOT NULL,
  n           INTEGER NOT NULL,
  position    TEXT NOT NULL CHECK (position <> ''),
  part        TEXT NOT NULL REFERENCES parts (id) DEFERRABLE INITIALLY DEFERRED,
  PRIMARY KEY (rebuild_seq, n),
  UNIQUE (rebuild_seq, position),
  UNIQUE (rebuild_seq, part),
  FOREIGN KEY (rebuild_seq, state) REFERENCES rebuilds (seq, state) ON DELETE CASCADE ON UPDATE CASCADE
) STRICT, WITHOUT ROWID;
CREATE INDEX rebuilds_of_a_part ON rebuild_parts (part);
CREATE UNIQUE INDEX one_begun_rebuild_with_a_part ON rebuild_parts (part) WHERE state = 'begun';

CREATE TABLE wishes (
  seq  INTEGER PRIMARY KEY AUTOINCREMENT,
  id   TEXT NOT NULL UNIQUE CHECK (length(id) = 32 AND id NOT GLOB '*[^0-9a-f]*'),
  wish TEXT NOT NULL
       CHECK (wish IN ('build this', 'never strip', 'never build', 'use part in', 'keep part')),
  "set" TEXT REFERENCES sets (code) DEFERRABLE INITIALLY DEFERRED,
  part TEXT REFERENCES parts (code) DEFERRABLE INITIALLY DEFERRED,
  note TEXT NOT NULL,
  CHECK ((wish = 'keep part') = ("set" IS NULL)),
  CHECK ((wish IN ('keep part', 'use part in')) = (part IS NOT NULL))
) STRICT;
CREATE INDEX wishes_of_a_set ON wishes ("set");
CREATE INDEX wishes_of_a_part ON wishes (part);
CREATE UNIQUE INDEX a_wish_once ON wishes (wish, coalesce("set", ''), coalesce(part, ''));

CREATE TABLE family (
  seq  INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL UNIQUE CHECK (name <> ''),
  text TEXT NOT NULL
) STRICT;

CREATE TABLE journal (
  number  INTEGER PRIMARY KEY,
  who     TEXT NOT NULL CHECK (who <> ''),
  at      TEXT NOT NULL CHECK (at <> ''),
  command TEXT NOT NULL CHECK (command <> ''),
  what    TEXT NOT NULL CHECK (what <> '')
) STRICT;

CREATE TABLE journal_things (
  entry  INTEGER NOT NULL REFERENCES journal (number),
  n      INTEGER NOT NULL,
  sort   TEXT NOT NULL
         CHECK (sort IN ('set', 'part', 'note', 'rebuild', 'wish', 'terms', 'family')),
  id     TEXT NOT NULL,
  seq    INTEGER NOT NULL,
  before TEXT,
  after  TEXT,
  PRIMARY KEY (entry, n),
  CHECK (before IS NOT NULL OR after IS NOT NULL)
) STRICT;
CREATE INDEX journal_of_a_thing ON journal_things (sort, id, entry);

CREATE TABLE journal_taken_back (
  entry      INTEGER NOT NULL REFERENCES journal (number),
  taken_back INTEGER NOT NULL REFERENCES journal (number),
  PRIMARY KEY (entry, taken_back),
  CHECK (taken_back < entry)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER journal_grows BEFORE INSERT ON journal
  WHEN NEW.number <> (SELECT coalesce(max(number), 0) + 1 FROM journal)
  BEGIN SELECT RAISE(ABORT, 'the journal only grows, one number after the other'); END;
CREATE TRIGGER journal_stays BEFORE UPDATE ON journal
  BEGIN SELECT RAISE(ABORT, 'the journal only grows'); END;
CREATE TRIGGER journal_keeps BEFORE DELETE ON journal
  BEGIN SELECT RAISE(ABORT, 'the journal only grows'); END;
CREATE TRIGGER journal_things_grow BEFORE INSERT ON journal_things
  WHEN NEW.entry <> (SELECT max(number) FROM journal)
    OR EXISTS (SELECT 1 FROM journal_things WHERE entry = NEW.entry AND n = NEW.n)
  BEGIN SELECT RAISE(ABORT, 'the journal only grows'); END;
CREATE TRIGGER journal_things_stay BEFORE UPDATE ON journal_things
  BEGIN SELECT RAISE(ABORT, 'the journal only grows'); END;
CREATE TRIGGER journal_things_keep BEFORE DELETE ON journal_things
  BEGIN SELECT RAISE(ABORT, 'the journal only grows'); END;
CREATE TRIGGER journal_taken_back_grows BEFORE INSERT ON journal_taken_back
  WHEN NEW.entry <> (SELECT max(number) FROM journal)
  BEGIN SELECT RAISE(ABORT, 'the journal only grows'); END;
CREATE TRIGGER journal_taken_back_stays BEFORE UPDATE ON journal_taken_back
  BEGIN SELECT RAISE(ABORT, 'the journal only grows'); END;
CREATE TRIGGER journal_taken_back_keeps BEFORE DELETE ON journal_taken_back
  BEGIN SELECT RAISE(ABORT, 'the journal only grows'); END;

CREATE TABLE said (
  code TEXT PRIMARY KEY CHECK (code <> ''),
  text TEXT NOT NULL CHECK (json_valid(text)),
  at   TEXT NOT NULL
) STRICT;

-- rowid = 2 * seq for a set, 2 * seq + 1 for a part.
CREATE VIRTUAL TABLE found USING fts5 (words, tokenize = 'unicode61 remove_diacritics 2', prefix = '2 3');
)sql";

// "now has": a trait of one part that is no longer what its type says.
constexpr const char* kVersion2 = R"sql(
CREATE TABLE part_changes_2 (
  part_seq   INTEGER NOT NULL REFERENCES parts (seq) ON DELETE CASCADE,
  n          INTEGER NOT NULL,
  change     TEXT NOT NULL CHECK (change IN ('plug cut', 'contact moved', 'contact removed',
             'contact added', 'piece gone', 'piece added', 'lead replaced', 'memory changed',
             'now has')),
  port       TEXT NOT NULL,
  "from"     TEXT NOT NULL,
  "to"       TEXT NOT NULL,
  piece      TEXT NOT NULL,
  piece_kind TEXT NOT NULL,
  setting    TEXT NOT NULL,
  contact    TEXT,
  now        TEXT,
  lead_mm    REAL CHECK (lead_mm >= 0),
  note       TEXT NOT NULL,
  PRIMARY KEY (part_seq, n),
  CHECK (change <> 'now has' OR now IS NOT NULL)
) STRICT, WITHOUT ROWID;
INSERT INTO part_changes_2
  SELECT part_seq, n, change, port, "from", "to", piece, piece_kind, setting, contact, NULL, lead_mm, note
  FROM part_changes;
DROP TABLE part_changes;
ALTER TABLE part_changes_2 RENAME TO part_changes;
)sql";

constexpr std::array<Step, 2> kSteps = {{{1, kVersion1}, {2, kVersion2}}};

struct Stamp {
  std::int64_t program = 0;
  int version = 0;
  bool empty = false;
};

Stamp stamp_of(Connection& connection) {
  return {connection.whole("PRAGMA application_id").value_or(0),
          static_cast<int>(connection.whole("PRAGMA user_version").value_or(0)),
          connection.whole("SELECT count(*) FROM sqlite_schema") == 0};
}

Error refused(ErrorKind kind, const std::string& path, const std::string& sentence) {
  return {kind, fmt::format("{}: {}", path, sentence)};
}

// A name beside the shop that no file has yet.
std::string copy_name(const std::string& path, int version) {
  const std::string name = fmt::format("{}.version-{}", path, version);
  std::string free = name;
  for (int n = 2; std::filesystem::exists(free); ++n) free = fmt::format("{}-{}", name, n);
  return free;
}

void take_step(Connection& connection, const std::string& path, const Step& step) {
  const Stamp before = stamp_of(connection);
  if (before.version >= step.version) return;
  if (!before.empty) connection.copy_to(copy_name(path, before.version));
  Transaction transaction(connection, Transaction::Sort::writing);
  // Somebody else may have taken the step while this one waited.
  if (stamp_of(connection).version >= step.version) return;
  connection.run(step.sql);
  connection.run(
      fmt::format("PRAGMA application_id = {}; PRAGMA user_version = {}", kShopFile, step.version));
  if (connection.whole("SELECT count(*) FROM pragma_foreign_key_check") != 0)
    throw Failure{Fault::foreign_key, fmt::format("step to version {}", step.version)};
  transaction.commit();
}

}  // namespace

std::span<const Step> steps() { return kSteps; }

Result<void> bring_up_to_date(Connection& connection, const std::string& path, Access access,
                              std::span<const Step> steps) {
  const Stamp stamp = stamp_of(connection);
  const int newest = steps.back().version;
  const bool fresh = stamp.empty && stamp.program == 0 && stamp.version == 0;
  if (fresh && access != Access::create)
    return refused(ErrorKind::not_found, path,
                   "the file is empty and no shop; make a new shop, or give the right file.");
  if (!fresh && stamp.program != kShopFile)
    return refused(
        ErrorKind::bad_input, path,
        "this is a database of another program and was left alone; give the shop's own file.");
  if (stamp.version > newest)
    return refused(
        ErrorKind::too_new, path,
        fmt::format("the shop was written by a newer program (version {} of its tables, this one "
                    "knows {}); use the newer program.",
                    stamp.version, newest));
  const bool may_write = access == Access::create || access == Access::write;
  if (stamp.version < newest && !may_write)
    return refused(
        ErrorKind::storage, path,
        fmt::format("the shop has version {} of its tables and version {} is needed; open it once "
                    "for writing, a copy is kept.",
                    stamp.version, newest));
  for (const Step& step : steps) take_step(connection, path, step);
  return {};
}

}  // namespace benchgraft::store
