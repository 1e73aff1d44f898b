// A program that is killed in the middle leaves the shop as it was before or after a command.
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include "shop/contradiction.hpp"
#include "store/folder.hpp"
#include "store/journal.hpp"

namespace benchgraft::store {
namespace {

[[noreturn]] void work_until_killed(const std::string& path) {
  auto store = Store::open(path, Mode::write);
  for (std::uint64_t n = 1; store; ++n) {
    shop::Part part;
    part.place = "shelf";
    part.roles = {"supply", "standby"};
    (void)store.value().execute(shop::AddPart{part, ""}, support::at_the_bench(n * 2 + 100));
    const auto bundle =
        shop::sort_texts({{"sets.csv", "model,missing\nTern 50,lamp | supply\nTern 50,lamp\n"},
                          {"parts.csv", "type\nLD-20\nLD-21\nLD-22\n"}});
    (void)store.value().import(bundle.value(), support::at_the_bench(n * 2 + 101));
    shop::ChangeSet change{"H2"};
    change.note = std::to_string(n);
    (void)store.value().execute(change, support::at_the_bench(1));
  }
  _exit(1);
}

TEST(Killed, leaves_tables_and_journal_in_agreement) {
  const Folder folder;
  {
    Store store = opened(folder.file());
    must(store.execute(set_with_code("H2"), support::at_the_bench(1)));
  }
  std::size_t entries = 0;
  for (int round = 0; round < 12; ++round) {
    const pid_t child = ::fork();
    ASSERT_GE(child, 0);
    if (child == 0) work_until_killed(folder.file());
    ::usleep(static_cast<useconds_t>(20000 + round * 7919));
    ASSERT_EQ(::kill(child, SIGKILL), 0);
    int status = 0;
    ASSERT_EQ(::waitpid(child, &status, 0), child);
    ASSERT_TRUE(WIFSIGNALED(status)) << "it ended by itself";

    Store store = opened(folder.file(), Mode::write);
    Connection connection(folder.file(), Access::read, 100);
    shop::Records replayed;
    const auto all = entries_from(connection, 1);
    for (const auto& entry : all) shop::apply(must(edits_of(entry)), replayed);
    const shop::Records recorded{must(store.load()), {}};
    EXPECT_TRUE(shop::difference(replayed, recorded).empty());
    EXPECT_FALSE(shop::first_contradiction(recorded.shop).has_value());
    EXPECT_EQ(connection.whole("SELECT count(*) FROM pragma_foreign_key_check"), 0);
    EXPECT_EQ(connection.whole(
                  "SELECT count(*) FROM pragma_integrity_check WHERE integrity_check = 'ok'"),
              1);
    EXPECT_GE(all.size(), entries);
    entries = all.size();
  }
  EXPECT_GT(entries, 12U) << "the killed programs did some work";
}

}  // namespace
}  // namespace benchgraft::store
