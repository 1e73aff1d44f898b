#include "store/journal.hpp"

#include <gtest/gtest.h>

#include "shop/thing_text.hpp"
#include "store/folder.hpp"

namespace benchgraft::store {
namespace {

using support::at_the_bench;

TEST(Journal, says_who_when_what_and_each_thing_before_and_after) {
  const Folder folder;
  Store store = opened(folder.file());
  must(store.execute(set_with_code("H2"), at_the_bench(1)));
  shop::ChangeSet change{"H2"};
  change.place = std::string("bench 1");
  const Done done =
      must(store.execute(change, {"robin", "2026-06-01T08:00:00Z", support::repeatable(2)}));
  EXPECT_EQ(done.entry, 2);
  const auto entries = must(store.journal());
  ASSERT_EQ(entries.size(), 2U);
  EXPECT_EQ(entries[0].number, 2);
  EXPECT_EQ(entries[0].who, "robin");
  EXPECT_EQ(entries[0].when, "2026-06-01T08:00:00Z");
  EXPECT_EQ(entries[0].command, "change set");
  EXPECT_EQ(entries[0].what, "changed set H2: place");
  ASSERT_EQ(entries[0].things.size(), 1U);
  const shop::Set now = must(store.load()).sets.at(0);
  EXPECT_EQ(entries[0].things[0].sort, "set");
  EXPECT_EQ(entries[0].things[0].id, to_text(now.id));
  EXPECT_EQ(entries[0].things[0].after, shop::text_of(now));
  EXPECT_EQ(entries[0].things[0].before, entries[1].things.at(0).after);
  EXPECT_EQ(entries[1].things[0].before, "");
  EXPECT_EQ(must(store.journal(1)).size(), 1U);
}

TEST(Journal, tells_the_history_of_one_part) {
  const Folder folder;
  Store store = opened(folder.file());
  must(store.execute(set_with_code("H2"), at_the_bench(1)));
  must(store.execute(part_in("HA", "H2", "supply"), at_the_bench(2)));
  must(store.execute(part_in("RA"), at_the_bench(3)));
  must(store.execute(shop::MovePart{"HA", "", "", "shelf"}, at_the_bench(4)));
  const std::string id = to_text(must(store.load()).part_by_code("HA")->id);
  const auto entries = must(store.history("part", id));
  ASSERT_EQ(entries.size(), 2U);
  EXPECT_EQ(entries[0].what, "added part HA (LD-20) in set H2, supply");
  EXPECT_EQ(entries[1].what, "moved part HA from set H2, supply to shelf \"shelf\"");
}

TEST(Journal, has_no_entry_for_a_command_that_changes_nothing_or_is_refused) {
  const Folder folder;
  Store store = opened(folder.file());
  must(store.execute(set_with_code("H2"), at_the_bench(1)));
  EXPECT_EQ(must(store.execute(shop::ChangeSet{"H2"}, at_the_bench(2))).entry, 0);
  EXPECT_FALSE(store.execute(shop::ChangeSet{"D3"}, at_the_bench(3)));
  EXPECT_FALSE(store.execute(set_with_code("X2"), {"", "2026-05-31", support::repeatable(4)}));
  EXPECT_EQ(must(store.journal()).size(), 1U);
}

// A trigger that fails in the middle stands for a disk that does.
void fail_at(const std::string& path, const std::string& table, const std::string& when = "true") {
  Connection(path, Access::write, 100)
      .run("CREATE TRIGGER fails BEFORE INSERT ON " + table + " WHEN " + when +
           " BEGIN SELECT RAISE(ABORT, 'failed'); END");
}

TEST(Journal, is_written_together_with_the_tables_or_not_at_all) {
  for (const std::string table : {"journal", "journal_things", "parts", "part_roles", "codes"}) {
    const Folder folder;
    Store store = opened(folder.file());
    must(store.execute(set_with_code("H2"), at_the_bench(1)));
    const shop::Shop before = must(store.load());
    fail_at(folder.file(), table);
    shop::AddPart command = part_in("HA", "H2", "supply");
    command.part.roles = {"supply"};
    auto done = store.execute(command, at_the_bench(2));
    ASSERT_FALSE(done) << table;
    EXPECT_EQ(done.error().message, folder.file() +
                                        ": the change is against a rule of the shop's tables and "
                                        "was not made (failed).");
    EXPECT_EQ(must(store.load()), before) << table;
    EXPECT_EQ(must(store.journal()).size(), 1U) << table;
    EXPECT_TRUE(must(store.search("HA")).empty()) << table;
    Connection(folder.file(), Access::write, 100).run("DROP TRIGGER fails");
    EXPECT_TRUE(store.execute(command, at_the_bench(3))) << table;
  }
}

TEST(Import, is_taken_whole_or_not_at_all) {
  const Folder folder;
  Store store = opened(folder.file());
  const auto good = shop::sort_texts(
      {{"sets.csv", "code\nH2\nD3\n"}, {"parts.csv", "code,type\nHA,LD-20\nHC,LD-20\n"}});
  fail_at(folder.file(), "parts", "NEW.code = 'HC'");
  EXPECT_FALSE(store.import(good.value(), at_the_bench()));
  EXPECT_EQ(must(store.load()), shop::Shop{});
  EXPECT_TRUE(must(store.journal()).empty());
}

}  // namespace
}  // namespace benchgraft::store
