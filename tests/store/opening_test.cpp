#include <gtest/gtest.h>
#include <unistd.h>

#include "store/folder.hpp"
#include "store/schema.hpp"

namespace benchgraft::store {
namespace {

namespace fs = std::filesystem;

std::string opening_fault(const std::string& path, Mode mode) {
  return fault(Store::open(path, mode));
}

void put_set_in(const std::string& path) {
  Store store = opened(path);
  ASSERT_TRUE(store.execute(set_with_code("H2"), support::at_the_bench()));
}

TEST(Opening, makes_an_empty_shop_and_finds_it_again) {
  const Folder folder;
  EXPECT_EQ(must(opened(folder.file()).load()), shop::Shop{});
  put_set_in(folder.file());
  EXPECT_EQ(must(opened(folder.file(), Mode::write).load()).sets.size(), 1U);
  EXPECT_EQ(must(opened(folder.file(), Mode::read).load()).sets.size(), 1U);
}

TEST(Opening, says_that_there_is_no_file_or_folder) {
  const Folder folder;
  const std::string path = folder.file();
  EXPECT_EQ(opening_fault(path, Mode::write),
            path + ": there is no such file; make a new shop, or correct the path.");
  EXPECT_EQ(Store::open(path, Mode::read).error().kind, ErrorKind::not_found);
  EXPECT_EQ(opening_fault("", Mode::create), "no shop file is named; give its path.");
  EXPECT_EQ(opening_fault(folder.path(), Mode::create),
            folder.path() + ": this is a folder; give a file in it.");
  const std::string deeper = folder.file("away/loft.shop");
  EXPECT_EQ(opening_fault(deeper, Mode::create),
            deeper + ": the folder " + folder.file("away") + " is not there; make it first.");
  folder.write("plain", "text");
  const std::string inside = folder.file("plain/loft.shop");
  EXPECT_EQ(
      opening_fault(inside, Mode::create),
      inside + ": " + folder.file("plain") + " is a file and no folder; choose another place.");
  EXPECT_FALSE(fs::exists(path));
}

TEST(Opening, leaves_a_file_that_is_no_database_alone) {
  const Folder folder;
  const std::string text(5000, 'x');
  folder.write("loft.shop", text);
  for (const Mode mode : {Mode::create, Mode::write, Mode::read})
    EXPECT_EQ(
        opening_fault(folder.file(), mode),
        folder.file() + ": this is not a shop file; give the file that was made by this program.");
  EXPECT_EQ(fs::file_size(folder.file()), text.size());
}

TEST(Opening, leaves_the_database_of_another_program_alone) {
  const Folder folder;
  Connection(folder.file(), Access::create, 100).run("CREATE TABLE songs (name TEXT)");
  for (const Mode mode : {Mode::create, Mode::write, Mode::read})
    EXPECT_EQ(opening_fault(folder.file(), mode), folder.file() +
                                                      ": this is a database of another program and "
                                                      "was left alone; give the shop's own file.");
  Connection look(folder.file(), Access::read, 100);
  EXPECT_EQ(look.whole("SELECT count(*) FROM sqlite_schema"), 1);
}

TEST(Opening, takes_an_empty_file_for_a_shop_only_when_asked_to_make_one) {
  const Folder folder;
  folder.write("loft.shop", "");
  EXPECT_EQ(
      opening_fault(folder.file(), Mode::write),
      folder.file() + ": the file is empty and no shop; make a new shop, or give the right file.");
  EXPECT_EQ(
      opening_fault(folder.file(), Mode::read),
      folder.file() + ": the file is empty and no shop; make a new shop, or give the right file.");
  EXPECT_EQ(opening_fault(folder.file(), Mode::create), "no fault");
}

TEST(Opening, calls_a_shop_of_a_newer_program_too_new_and_leaves_it_alone) {
  const Folder folder;
  put_set_in(folder.file());
  Connection(folder.file(), Access::write, 100).run("PRAGMA user_version = 99");
  for (const Mode mode : {Mode::create, Mode::write, Mode::read}) {
    auto store = Store::open(folder.file(), mode);
    ASSERT_FALSE(store);
    EXPECT_EQ(store.error().kind, ErrorKind::too_new);
    EXPECT_EQ(store.error().message,
              folder.file() +
                  ": the shop was written by a newer program (version 99 of its tables, this one "
                  "knows 2); use the newer program.");
  }
  Connection look(folder.file(), Access::read, 100);
  EXPECT_EQ(look.whole("PRAGMA user_version"), 99);
}

constexpr Step kOneTable[] = {{1, "CREATE TABLE one (x TEXT NOT NULL) STRICT"}};
constexpr Step kTwoTables[] = {{1, "CREATE TABLE one (x TEXT NOT NULL) STRICT"},
                               {2, "CREATE TABLE two (x TEXT NOT NULL) STRICT"},
                               {3, "INSERT INTO two SELECT x || '!' FROM one"}};
constexpr Step kBrokenStep[] = {
    {1, "CREATE TABLE one (x TEXT NOT NULL) STRICT"},
    {2, "CREATE TABLE two (x TEXT NOT NULL) STRICT; INSERT INTO nowhere VALUES (1)"}};

TEST(Steps, go_forward_one_by_one_with_a_copy_before_each) {
  const Folder folder;
  Connection connection(folder.file(), Access::create, 100);
  ASSERT_TRUE(bring_up_to_date(connection, folder.file(), Access::create, kOneTable));
  EXPECT_FALSE(fs::exists(folder.file("loft.shop.version-0")));
  connection.run("INSERT INTO one VALUES ('a')");
  folder.write("loft.shop.version-1", "taken");
  ASSERT_TRUE(bring_up_to_date(connection, folder.file(), Access::write, kTwoTables));
  EXPECT_EQ(connection.whole("PRAGMA user_version"), 3);
  EXPECT_EQ(connection.whole("SELECT count(*) FROM two WHERE x = 'a!'"), 1);
  Connection first(folder.file("loft.shop.version-1-2"), Access::read, 100);
  EXPECT_EQ(first.whole("PRAGMA user_version"), 1);
  EXPECT_EQ(first.whole("SELECT count(*) FROM one"), 1);
  Connection second(folder.file("loft.shop.version-2"), Access::read, 100);
  EXPECT_EQ(second.whole("PRAGMA user_version"), 2);
  EXPECT_EQ(second.whole("SELECT count(*) FROM two"), 0);
  // Up to date: no further copy.
  ASSERT_TRUE(bring_up_to_date(connection, folder.file(), Access::write, kTwoTables));
  EXPECT_FALSE(fs::exists(folder.file("loft.shop.version-3")));
}

TEST(Steps, leave_the_file_as_it_was_when_one_fails) {
  const Folder folder;
  Connection connection(folder.file(), Access::create, 100);
  ASSERT_TRUE(bring_up_to_date(connection, folder.file(), Access::create, kOneTable));
  EXPECT_THROW((void)bring_up_to_date(connection, folder.file(), Access::write, kBrokenStep),
               Failure);
  EXPECT_EQ(connection.whole("PRAGMA user_version"), 1);
  EXPECT_EQ(connection.whole("SELECT count(*) FROM sqlite_schema WHERE name = 'two'"), 0);
}

TEST(Steps, are_not_taken_when_the_shop_is_only_read) {
  const Folder folder;
  Connection connection(folder.file(), Access::create, 100);
  ASSERT_TRUE(bring_up_to_date(connection, folder.file(), Access::create, kOneTable));
  EXPECT_EQ(fault(bring_up_to_date(connection, folder.file(), Access::read, kTwoTables)),
            folder.file() +
                ": the shop has version 1 of its tables and version 3 is needed; open it once for "
                "writing, a copy is kept.");
}

TEST(Opening, changes_nothing_when_opened_for_reading) {
  const Folder folder;
  put_set_in(folder.file());
  Store store = opened(folder.file(), Mode::read);
  EXPECT_EQ(
      fault(store.execute(set_with_code("D3"), support::at_the_bench(2))),
      folder.file() + ": the shop was opened for reading only; open it for writing to change it.");
  EXPECT_EQ(
      fault(store.remember({{"A", "{}", "now"}})),
      folder.file() + ": the shop was opened for reading only; open it for writing to change it.");
}

/// Gives up the rights of the super-user for a while: those ignore permissions.
class PlainUser {
 public:
  PlainUser() : was_(::geteuid()) {
    if (was_ == 0) worked_ = ::seteuid(kNobody) == 0;
  }
  ~PlainUser() {
    if (was_ == 0 && worked_) worked_ = ::seteuid(0) == 0;
  }
  [[nodiscard]] bool worked() const { return worked_; }

 private:
  static constexpr uid_t kNobody = 65534;
  uid_t was_;
  bool worked_ = true;
};

TEST(Opening, reads_a_shop_in_a_folder_that_cannot_be_written_and_says_so_when_it_should_write) {
  const Folder folder;
  put_set_in(folder.file());
  ASSERT_FALSE(fs::exists(folder.file("loft.shop-wal")));
  fs::permissions(folder.file(), fs::perms(0444));
  fs::permissions(folder.path(), fs::perms(0555));
  std::string writing, creating;
  std::size_t sets = 0;
  {
    const PlainUser user;
    if (!user.worked()) GTEST_SKIP() << "no other user can be taken on here";
    sets = must(opened(folder.file(), Mode::read).load()).sets.size();
    writing = fault(Store::open(folder.file(), Mode::write));
    creating = fault(Store::open(folder.file("new.shop"), Mode::create));
  }
  EXPECT_EQ(sets, 1U);
  EXPECT_EQ(writing, folder.file() +
                         ": the shop cannot be written; give yourself the right to write the file "
                         "and its folder, or copy it to a folder of your own.");
  EXPECT_EQ(creating, folder.file("new.shop") +
                          ": the file cannot be opened; check that the folder is there "
                          "and that you may read and write in it.");
}

TEST(Opening, says_that_a_file_cannot_be_read) {
  const Folder folder;
  put_set_in(folder.file());
  fs::permissions(folder.file(), fs::perms(0000));
  fs::permissions(folder.path(), fs::perms(0755));
  std::string reading, hidden;
  {
    const PlainUser user;
    if (!user.worked()) GTEST_SKIP() << "no other user can be taken on here";
    reading = fault(Store::open(folder.file(), Mode::read));
  }
  fs::permissions(folder.path(), fs::perms(0700));
  {
    const PlainUser user;
    hidden = fault(Store::open(folder.file(), Mode::read));
  }
  const bool super_user = ::geteuid() == 0;
  EXPECT_EQ(super_user ? hidden : reading, reading);
  EXPECT_EQ(reading, folder.file() +
                         ": the file cannot be opened; check that the folder is there and that you "
                         "may read and write in it.");
}

void spoil(const std::string& path, std::size_t from) {
  const std::size_t size = fs::file_size(path);
  std::fstream file(path, std::ios::in | std::ios::out | std::ios::binary);
  file.seekp(static_cast<std::streamoff>(from));
  file << std::string(size - from, '\x5A');
}

TEST(Opening, says_that_a_file_is_damaged) {
  const Folder folder;
  put_set_in(folder.file());
  spoil(folder.file(), 4096);
  auto store = Store::open(folder.file(), Mode::write);
  const std::string told = store ? fault(store.value().load()) : fault(store);
  EXPECT_EQ(told, folder.file() +
                      ": the file is damaged; keep a copy of it and go back to your newest good "
                      "copy.");
}

TEST(Opening, says_that_a_file_was_cut_off) {
  const Folder folder;
  put_set_in(folder.file());
  fs::resize_file(folder.file(), 8192);
  auto store = Store::open(folder.file(), Mode::write);
  const std::string told = store ? fault(store.value().load()) : fault(store);
  EXPECT_EQ(told, folder.file() +
                      ": the file is damaged; keep a copy of it and go back to your newest good "
                      "copy.");
}

TEST(TwoAtOnce, see_each_others_changes) {
  const Folder folder;
  Store one = opened(folder.file()), two = opened(folder.file());
  ASSERT_TRUE(one.execute(set_with_code("H2"), support::at_the_bench(1)));
  ASSERT_TRUE(two.execute(set_with_code("D3"), support::at_the_bench(2)));
  EXPECT_EQ(must(one.load()).sets.size(), 2U);
  EXPECT_EQ(fault(one.execute(set_with_code("D3"), support::at_the_bench(3))),
            "code D3 is on two sets; give one of them another code.");
}

TEST(TwoAtOnce, wait_and_then_say_that_the_other_one_is_writing) {
  const Folder folder;
  Store store = opened(folder.file(), Mode::create, 50);
  Connection other(folder.file(), Access::write, 50);
  {
    Transaction writing(other, Transaction::Sort::writing);
    auto done = store.execute(set_with_code("H2"), support::at_the_bench());
    ASSERT_FALSE(done);
    EXPECT_EQ(done.error().kind, ErrorKind::storage);
    EXPECT_EQ(done.error().message,
              folder.file() +
                  ": another program or page is writing to the shop just now; "
                  "try again in a moment.");
    // Reading goes on meanwhile.
    EXPECT_TRUE(must(store.load()).sets.empty());
  }
  EXPECT_TRUE(store.execute(set_with_code("H2"), support::at_the_bench()));
}

}  // namespace
}  // namespace benchgraft::store
