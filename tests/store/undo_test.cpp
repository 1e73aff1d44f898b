#include <gtest/gtest.h>

#include "store/folder.hpp"

namespace benchgraft::store {
namespace {

/// A store, and its commands with a new seed each.
class Undo : public testing::Test {
 protected:
  std::int64_t done(const shop::Command& command) {
    return must(store_.execute(command, support::at_the_bench(++seed_))).entry;
  }
  TakenBack undo(std::int64_t entry, bool and_later = false) {
    return must(store_.undo(entry, and_later, support::at_the_bench(++seed_)));
  }
  std::string undo_fault(std::int64_t entry) {
    return fault(store_.undo(entry, true, support::at_the_bench(++seed_)));
  }
  shop::Shop shop() { return must(store_.load()); }
  static std::vector<std::int64_t> numbers(const std::vector<JournalEntry>& entries) {
    std::vector<std::int64_t> all;
    for (const auto& entry : entries) all.push_back(entry.number);
    return all;
  }

  Folder folder_;
  Store store_ = opened(folder_.file());
  std::uint64_t seed_ = 0;
};

TEST_F(Undo, is_a_new_entry_that_restores_what_was_before) {
  done(set_with_code("H2"));
  const shop::Shop before = shop();
  shop::ChangeSet change{"H2"};
  change.missing = std::vector<std::string>{"lamp", "supply"};
  change.place = std::string("bench");
  const auto entry = done(change);
  const TakenBack back = undo(entry);
  EXPECT_EQ(shop(), before);
  EXPECT_EQ(back.done.entry, entry + 1);
  EXPECT_EQ(back.done.what, "took back: changed set H2: missing and place");
  const auto entries = must(store_.journal());
  EXPECT_EQ(entries[0].command, "undo");
  EXPECT_EQ(entries[0].takes_back, std::vector<std::int64_t>{entry});
  EXPECT_EQ(entries[1].taken_back_by, entry + 1);
}

TEST_F(Undo, names_the_later_entries_that_depend_on_it_and_does_nothing) {
  const auto taking_in = done(set_with_code("H2"));
  done(set_with_code("D3"));
  const auto adding = done(part_in("HA", "H2", "supply"));
  const auto moving = done(shop::MovePart{"HA", "", "", "shelf"});
  const shop::Shop before = shop();
  const TakenBack back = undo(taking_in);
  EXPECT_EQ(back.done.entry, 0);
  EXPECT_EQ(numbers(back.in_the_way), (std::vector<std::int64_t>{moving, adding}));
  EXPECT_EQ(back.in_the_way[1].what, "added part HA (LD-20) in set H2, supply");
  EXPECT_EQ(shop(), before);
  EXPECT_EQ(must(store_.journal()).size(), 4U);
}

TEST_F(Undo, takes_the_later_ones_back_too_when_asked_and_leaves_the_others) {
  const auto taking_in = done(set_with_code("H2"));
  done(set_with_code("D3"));
  done(part_in("HA", "H2", "supply"));
  done(shop::MovePart{"HA", "", "", "shelf"});
  const TakenBack back = undo(taking_in, true);
  EXPECT_TRUE(back.in_the_way.empty());
  EXPECT_EQ(back.done.what, "took back: took in set H2 (Tern 50), and 2 later");
  EXPECT_EQ(shop().sets.size(), 1U);
  EXPECT_TRUE(shop().parts.empty());
  EXPECT_EQ(must(store_.journal())[0].takes_back, (std::vector<std::int64_t>{1, 3, 4}));
}

TEST_F(Undo, can_itself_be_taken_back) {
  const auto taking_in = done(set_with_code("H2"));
  done(part_in("HA", "H2", "supply"));
  const shop::Shop before = shop();
  const auto back = undo(taking_in, true).done.entry;
  EXPECT_TRUE(shop().sets.empty());
  undo(back);
  EXPECT_EQ(shop(), before);
  const auto entries = must(store_.journal());
  EXPECT_FALSE(entries[3].taken_back_by.has_value()) << "what was taken back counts again";
  EXPECT_EQ(entries[1].taken_back_by, back + 1);
}

TEST_F(Undo, of_the_same_entry_is_refused_the_second_time) {
  const auto entry = done(set_with_code("H2"));
  undo(entry);
  EXPECT_EQ(undo_fault(entry), "entry 1 was already taken back by entry 2.");
  EXPECT_EQ(undo_fault(99), "the journal has no entry 99; look up its number in the journal.");
  EXPECT_EQ(undo_fault(0), "the journal has no entry 0; look up its number in the journal.");
}

TEST_F(Undo, sees_past_later_changes_that_were_taken_back) {
  done(set_with_code("H2"));
  shop::ChangeSet change{"H2"};
  change.place = std::string("one");
  const auto first = done(change);
  change.place = std::string("two");
  const auto second = done(change);
  EXPECT_EQ(numbers(undo(first).in_the_way), std::vector<std::int64_t>{second});
  undo(second);
  EXPECT_TRUE(undo(first).in_the_way.empty());
  EXPECT_EQ(shop().sets[0].place, "");
}

TEST_F(Undo, puts_a_thing_back_where_it_stood) {
  done(set_with_code("H2"));
  done(set_with_code("D3"));
  done(shop::AddWish{{{}, shop::WishSort::build_this, "H2", "", ""}});
  done(shop::AddWish{{{}, shop::WishSort::never_strip, "D3", "", ""}});
  const shop::Shop before = shop();
  const auto withdrawing = done(shop::WithdrawWish{before.wishes[0].id});
  EXPECT_EQ(shop().wishes.size(), 1U);
  undo(withdrawing);
  EXPECT_EQ(shop(), before) << "the first wish is the first again";
}

TEST_F(Undo, of_a_code_that_was_given_anew_finds_the_new_owner_in_the_way) {
  const auto taking_in = done(set_with_code("H2"));
  const auto back = undo(taking_in).done.entry;
  const auto again = done(set_with_code("H2"));
  EXPECT_EQ(numbers(undo(back).in_the_way), std::vector<std::int64_t>{again});
  undo(back, true);
  EXPECT_EQ(shop().sets.size(), 1U);
}

TEST_F(Undo, of_an_undo_finds_what_it_needs_was_taken_away_meanwhile) {
  const auto taking_in = done(set_with_code("H2"));
  const auto adding = done(part_in("HA", "H2", "supply"));
  const auto back = undo(adding).done.entry;
  const auto without_set = undo(taking_in).done.entry;
  EXPECT_EQ(numbers(undo(back).in_the_way), std::vector<std::int64_t>{without_set});
  undo(back, true);
  EXPECT_EQ(shop().sets.size(), 1U);
  EXPECT_EQ(shop().parts.at(0).position, "supply");
}

TEST_F(Undo, takes_shelf_and_set_for_one_place) {
  done(set_with_code("H2"));
  done(part_in("HA"));
  const auto back = undo(done(shop::MovePart{"HA", "", "", "shelf"})).done.entry;
  const auto moving = done(shop::MovePart{"HA", "H2", "supply", ""});
  EXPECT_EQ(numbers(undo(back).in_the_way), std::vector<std::int64_t>{moving});
  undo(back, true);
  EXPECT_EQ(shop().parts.at(0).place, "shelf");
  EXPECT_FALSE(shop().parts.at(0).in_set.has_value());
}

TEST_F(Undo, takes_a_finished_rebuild_apart_again) {
  done(set_with_code("H2"));
  done(set_with_code("D3"));
  done(part_in("HA", "H2", "supply"));
  done(part_in("DA", "D3", "supply"));
  done(shop::BeginRebuild{"first", "H2", {{"supply", "DA"}}, ""});
  const shop::Shop before = shop();
  const auto finishing = done(shop::FinishRebuild{"first", "", 30.0, "", "scrap"});
  EXPECT_NE(shop(), before);
  undo(finishing);
  EXPECT_EQ(shop(), before);
}

TEST_F(Undo, of_an_import_takes_everything_back_at_once) {
  done(set_with_code("H2"));
  const shop::Shop before = shop();
  const auto bundle = must(shop::sort_texts(
      {{"sets.csv", "code,place\nH2,bench\nD3,wall\n"}, {"parts.csv", "code,in_set\nDA,D3\n"}}));
  const auto importing = must(store_.import(bundle, support::at_the_bench(50))).done.entry;
  undo(importing);
  EXPECT_EQ(shop(), before);
}

}  // namespace
}  // namespace benchgraft::store
