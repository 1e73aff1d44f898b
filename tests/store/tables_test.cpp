// Straight SQL against the tables: what must never be true is refused by the database itself.
#include <gtest/gtest.h>

#include "store/connection.hpp"
#include "store/folder.hpp"

namespace benchgraft::store {
namespace {

/// Sets H2 and D3, part HA in H2's supply, part RA on a shelf, a begun rebuild of H2 with RA.
class Tables : public testing::Test {
 protected:
  void SetUp() override {
    Store store = opened(folder_.file());
    std::uint64_t seed = 0;
    for (const auto& command : std::vector<shop::Command>{
             set_with_code("H2"), set_with_code("D3"), part_in("HA", "H2", "supply"), part_in("RA"),
             shop::BeginRebuild{"first", "H2", {{"lamp", "RA"}}, ""},
             shop::AddWish{{{}, shop::WishSort::build_this, "H2", "", ""}}})
      must(store.execute(command, support::at_the_bench(++seed)));
  }

  /// How the database takes `sql` as a transaction of its own.
  std::string taken(const std::string& sql) {
    Connection connection(folder_.file(), Access::write, 100);
    connection.run("PRAGMA foreign_keys = ON");
    try {
      Transaction transaction(connection, Transaction::Sort::writing);
      connection.run(sql);
      transaction.commit();
      return "taken";
    } catch (const Failure& failure) {
      switch (failure.fault) {
        case Fault::unique:
          return "unique";
        case Fault::not_null:
          return "not null";
        case Fault::foreign_key:
          return "foreign key";
        case Fault::check:
          return "check";
        default:
          return "other: " + failure.text;
      }
    }
  }

  std::string set_row(const std::string& code, const std::string& id = std::string(32, 'a')) {
    return "INSERT OR IGNORE INTO codes VALUES ('" + code +
           "', 'set');"
           "INSERT INTO sets (id, code, owner, consent, kind, model, variant, looks, complaint, "
           "place, "
           "taken_in, fate, note) VALUES ('" +
           id + "', '" + code +
           "', '', '', '', '', '', '', '', '', '', "
           "'here', '')";
  }
  std::string part_row(const std::string& code, const std::string& in_set,
                       const std::string& position, const std::string& place) {
    return "INSERT OR IGNORE INTO codes VALUES ('" + code +
           "', 'part');"
           "INSERT INTO parts (id, code, type, state, tested_how, tested_in, tested_on, in_set, "
           "position, place, "
           "\"from\", note) VALUES ('" +
           std::string(32, 'b') + "', '" + code + "', '', 'good', '', '', '', " + in_set + ", '" +
           position + "', '" + place + "', '', '')";
  }

  Folder folder_;
  const std::string h2_ = "(SELECT id FROM sets WHERE code = 'H2')";
};

TEST_F(Tables, take_a_sound_row) {
  EXPECT_EQ(taken(set_row("X2")), "taken");
  EXPECT_EQ(taken(part_row("XA", h2_, "lamp fan", "")), "taken");
}

TEST_F(Tables, keep_codes_unique_over_sets_and_parts) {
  EXPECT_EQ(taken(set_row("H2")), "unique");
  EXPECT_EQ(taken(set_row("HA")), "foreign key");
  EXPECT_EQ(taken(part_row("H2", "NULL", "", "shelf")), "foreign key");
  EXPECT_EQ(taken("INSERT INTO codes VALUES ('H2', 'part')"), "unique");
  EXPECT_EQ(taken(set_row("O1")),
            "foreign key");  // OR IGNORE left the code out: look-alikes are refused
  EXPECT_EQ(taken("INSERT INTO codes VALUES ('O1', 'set')"), "check");
  EXPECT_EQ(taken("INSERT INTO codes VALUES ('K7R234', 'set')"), "check");
}

TEST_F(Tables, keep_a_part_in_one_place) {
  EXPECT_EQ(taken(part_row("XA", h2_, "lamp fan", "shelf")), "check");
  EXPECT_EQ(taken(part_row("XA", "NULL", "lamp fan", "")), "check");
  EXPECT_EQ(taken(part_row("XA", h2_, "supply", "")), "unique");
  EXPECT_EQ(taken(part_row("XA", "'" + std::string(32, 'f') + "'", "", "")), "foreign key");
  EXPECT_EQ(taken("UPDATE parts SET place = 'shelf' WHERE code = 'HA'"), "check");
  EXPECT_EQ(taken("UPDATE parts SET in_set = NULL WHERE code = 'HA'"), "check");
}

TEST_F(Tables, keep_ids_unique_and_whole) {
  EXPECT_EQ(taken("UPDATE sets SET id = (SELECT id FROM sets WHERE code = 'H2') WHERE code = 'D3'"),
            "unique");
  EXPECT_EQ(taken("UPDATE sets SET id = 'short' WHERE code = 'D3'"), "check");
  EXPECT_EQ(taken("UPDATE sets SET id = NULL WHERE code = 'D3'"), "not null");
  EXPECT_EQ(taken("UPDATE parts SET run_hours = 'many' WHERE code = 'HA'"), "check");
}

TEST_F(Tables, keep_words_in_their_lists_and_numbers_in_their_bounds) {
  EXPECT_EQ(taken("UPDATE sets SET fate = 'sold' WHERE code = 'H2'"), "check");
  EXPECT_EQ(taken("UPDATE sets SET consent = 'maybe' WHERE code = 'H2'"), "check");
  EXPECT_EQ(taken("UPDATE parts SET state = 'fine' WHERE code = 'HA'"), "check");
  EXPECT_EQ(taken("UPDATE parts SET chance = 1.5 WHERE code = 'HA'"), "check");
  EXPECT_EQ(taken("UPDATE parts SET run_hours = -1 WHERE code = 'HA'"), "check");
}

TEST_F(Tables, let_one_begun_rebuild_claim_a_part_and_a_host) {
  const std::string second =
      "INSERT INTO rebuilds (id, name, host, state, started, finished, note) VALUES ('" +
      std::string(32, 'c') +
      "', 'second', (SELECT id FROM sets WHERE code = 'D3'), 'begun', '', '', '');";
  const std::string claim =
      "INSERT INTO rebuild_parts SELECT seq, state, 0, 'lamp', (SELECT id FROM parts WHERE code = "
      "'RA') FROM "
      "rebuilds WHERE name = 'second'";
  EXPECT_EQ(taken(second + claim), "unique");
  EXPECT_EQ(
      taken("INSERT INTO rebuilds (id, name, host, state, started, finished, note) VALUES ('" +
            std::string(32, 'c') + "', 'second', " + h2_ + ", 'begun', '', '', '')"),
      "unique");
  // A begun rebuild cannot be passed off as finished on the side of its parts.
  EXPECT_EQ(taken("UPDATE rebuild_parts SET state = 'finished'"), "foreign key");
  EXPECT_EQ(taken("UPDATE rebuilds SET state = 'given up' WHERE name = 'first';" + second + claim),
            "taken");
  EXPECT_EQ(taken("UPDATE rebuilds SET state = 'begun' WHERE name = 'first'"), "unique");
}

TEST_F(Tables, keep_what_others_need) {
  EXPECT_EQ(taken("DELETE FROM sets WHERE code = 'H2'"), "foreign key");
  EXPECT_EQ(taken("DELETE FROM parts WHERE code = 'RA'"), "foreign key");
  EXPECT_EQ(taken("DELETE FROM codes WHERE code = 'H2'"), "foreign key");
}

TEST_F(Tables, keep_wishes_about_something_and_once) {
  const auto wish = [](const std::string& sort, const std::string& set, const std::string& part) {
    return "INSERT INTO wishes (id, wish, \"set\", part, note) VALUES ('" + std::string(32, 'd') +
           "', '" + sort + "', " + set + ", " + part + ", '')";
  };
  EXPECT_EQ(taken(wish("build this", "'H2'", "NULL")), "unique");
  EXPECT_EQ(taken(wish("build this", "NULL", "NULL")), "check");
  EXPECT_EQ(taken(wish("keep part", "'H2'", "'HA'")), "check");
  EXPECT_EQ(taken(wish("use part in", "'H2'", "NULL")), "check");
  EXPECT_EQ(taken(wish("never strip", "'HA'", "NULL")), "foreign key");
  EXPECT_EQ(taken(wish("use part in", "'H2'", "'HA'")), "taken");
}

TEST_F(Tables, never_change_or_lose_a_line_of_the_journal) {
  EXPECT_EQ(taken("UPDATE journal SET who = 'somebody else'"), "check");
  EXPECT_EQ(taken("DELETE FROM journal WHERE number = 6"), "check");
  EXPECT_EQ(taken("INSERT INTO journal VALUES (3, 'kim', 'now', 'x', 'x')"), "check");
  EXPECT_EQ(taken("INSERT OR REPLACE INTO journal VALUES (3, 'kim', 'now', 'x', 'x')"), "check");
  EXPECT_EQ(taken("INSERT INTO journal VALUES (9, 'kim', 'now', 'x', 'x')"), "check");
  EXPECT_EQ(taken("UPDATE journal_things SET after = ''"), "check");
  EXPECT_EQ(taken("DELETE FROM journal_things"), "check");
  EXPECT_EQ(taken("INSERT INTO journal_things VALUES (2, 7, 'set', 'x', 1, NULL, 'x')"), "check");
  EXPECT_EQ(taken("INSERT OR REPLACE INTO journal_things VALUES (6, 0, 'set', 'x', 1, NULL, 'x')"),
            "check");
  EXPECT_EQ(taken("INSERT INTO journal_taken_back VALUES (2, 1)"), "check");
}

TEST_F(Tables, keep_what_was_said_as_json) {
  EXPECT_EQ(taken("INSERT INTO said VALUES ('A1', 'no json', 'now')"), "check");
  EXPECT_EQ(taken("INSERT INTO said VALUES ('A1', '{\"a\": 1}', 'now')"), "taken");
}

}  // namespace
}  // namespace benchgraft::store
