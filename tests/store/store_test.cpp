#include "store/store.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "catalogue/text.hpp"
#include "store/connection.hpp"
#include "store/folder.hpp"

namespace benchgraft::store {
namespace {

using support::at_the_bench;

Imported import_texts(Store& store, const std::vector<shop::NamedText>& texts,
                      std::uint64_t seed = 1) {
  return must(store.import(must(shop::sort_texts(texts)), at_the_bench(seed)));
}

RC_GTEST_PROP(Store, gives_back_every_shop_that_was_put_in, ()) {
  const shop::Shop shop = *support::any_shop();
  const Folder folder;
  {
    Store store = opened(folder.file());
    import_texts(store, shop::export_texts(shop));
    RC_ASSERT(must(store.load()) == shop);
    // A second time there is nothing to do, and nothing is written.
    RC_ASSERT(import_texts(store, shop::export_texts(shop), 2).done.entry == 0);
  }
  RC_ASSERT(must(opened(folder.file(), Mode::read).load()) == shop);
}

TEST(Store, says_what_an_import_brought) {
  const Folder folder;
  Store store = opened(folder.file());
  const Imported imported = import_texts(store, {{"sets.csv", "code\nH2\nD3\n"},
                                                 {"parts.csv", "code\nHA\n"},
                                                 {"shop.toml", "hours = 10\n"},
                                                 {"tern.toml", "format = 1\nfamily = \"Tern\"\n"}});
  EXPECT_EQ(imported.done.what,
            "imported 2 sets (2 new), 1 part (1 new), 1 family (1 new) and the terms");
  EXPECT_EQ(imported.done.made, (std::vector<std::string>{"H2", "D3", "HA"}));
  EXPECT_EQ(imported.sets, (shop::Count{2, 0, 0}));
  EXPECT_TRUE(imported.terms_changed);
  EXPECT_EQ(must(store.journal()).at(0).things.size(), 5U);
}

TEST(Store, lets_two_parts_change_places_in_one_import) {
  const Folder folder;
  Store store = opened(folder.file());
  import_texts(store, {{"sets.csv", "code\nH2\n"},
                       {"parts.csv", "code,in_set,position\nHA,H2,supply\nHC,H2,second supply\n"}});
  import_texts(store, {{"parts.csv", "code,in_set,position\nHA,H2,second supply\nHC,H2,supply\n"}},
               2);
  const shop::Shop shop = must(store.load());
  EXPECT_EQ(shop.part_by_code("HA")->position, "second supply");
  EXPECT_EQ(shop.part_by_code("HC")->position, "supply");
  EXPECT_EQ(shop.parts[0].code, "HA") << "the recorded order stays";
}

catalogue::Family family(const std::string& name, const std::string& note) {
  return must(catalogue::read_family(
      "format = 1\nfamily = \"" + name + "\"\nnote = \"" + note + "\"\n", "f"));
}

TEST(Families, are_replaced_by_name_and_come_back_in_order) {
  const Folder folder;
  Store store = opened(folder.file());
  must(store.replace_families({family("Tern", "first"), family("Wren", "first")}, at_the_bench(1)));
  const Done done = must(store.replace_families({family("Tern", "second")}, at_the_bench(2)));
  EXPECT_EQ(done.what, "imported 1 family (0 new)");
  const auto families = must(store.families());
  ASSERT_EQ(families.size(), 2U);
  EXPECT_EQ(families[0], family("Tern", "second"));
  EXPECT_EQ(families[1], family("Wren", "first"));
  const auto entries = must(store.history("family", "Tern"));
  ASSERT_EQ(entries.size(), 2U);
  EXPECT_EQ(entries[1].things.at(0).before, catalogue::write_family(family("Tern", "first")));
  must(store.undo(done.entry, false, at_the_bench(3)));
  EXPECT_EQ(must(store.families())[0], family("Tern", "first"));
}

TEST(Families, that_cannot_be_read_any_more_are_named) {
  const Folder folder;
  Store store = opened(folder.file());
  must(store.replace_families({family("Tern", "")}, at_the_bench(1)));
  Connection(folder.file(), Access::write, 100).run("UPDATE family SET text = 'format = 1'");
  EXPECT_EQ(fault(store.families()),
            "family \"Tern\" in the shop, line 1: a family file has no \"family\"; add it.");
}

TEST(Store, says_which_value_of_the_file_it_cannot_read) {
  const Folder folder;
  Store store = opened(folder.file());
  shop::AddNote command;
  command.note.name = "first";
  command.note.into = "Tern 50";
  must(store.execute(command, at_the_bench(1)));
  Connection(folder.file(), Access::write, 100).run("UPDATE notes SET text = 'nothing = 1'");
  EXPECT_EQ(fault(store.load()),
            "swap note \"first\" of the shop file cannot be read; something else than this "
            "program changed the file: go back to your newest good copy.");
}

std::vector<std::string> codes(const std::vector<Hit>& hits) {
  std::vector<std::string> found;
  for (const auto& hit : hits) found.push_back(hit.sort + " " + hit.code);
  return found;
}

TEST(Search, finds_sets_and_parts_by_the_beginnings_of_words) {
  const Folder folder;
  Store store = opened(folder.file());
  import_texts(
      store,
      {{"sets.csv", "code,model,complaint\nH2,Tern 50,colours gone\nD3,Wren 46,\"dead, Café\"\n"},
       {"parts.csv",
        "code,type,note,place\nHA,LD-20/B,colour wheel rattles,shelf 2\n"
        "RA,QM-30,\"says \"\"ok\"\"\",shelf 2\n"}});
  using Codes = std::vector<std::string>;
  EXPECT_EQ(codes(must(store.search("tern"))), Codes{"set H2"});
  EXPECT_EQ(codes(must(store.search("colour"))), (Codes{"set H2", "part HA"}));
  EXPECT_EQ(codes(must(store.search("wheel colour"))), Codes{"part HA"});
  EXPECT_EQ(codes(must(store.search("ld-20"))), Codes{"part HA"});
  EXPECT_EQ(codes(must(store.search("cafe"))), Codes{"set D3"});
  EXPECT_EQ(codes(must(store.search("\"ok\""))), Codes{"part RA"});
  EXPECT_EQ(codes(must(store.search("ra"))).front(), "part RA");
  EXPECT_TRUE(must(store.search("nothing like it")).empty());
  EXPECT_TRUE(must(store.search("")).empty());
  EXPECT_EQ(must(store.search("shelf")).size(), 2U);
  EXPECT_EQ(must(store.search("shelf", 1)).size(), 1U);
  EXPECT_EQ(must(store.search("tern")).at(0).text, "H2, Tern 50, colours gone");
}

TEST(Search, takes_no_sign_of_a_search_language) {
  const Folder folder;
  Store store = opened(folder.file());
  import_texts(store, {{"parts.csv", "code,note\nHA,a NEAR b\n"}});
  for (const std::string words :
       {"*", "\"", "a*", "NOT", "NEAR(a b)", "a OR zzz", "col:a", "-a", "^a", "a\"b"})
    EXPECT_TRUE(store.search(words)) << words;
  EXPECT_EQ(codes(must(store.search("a NEAR"))), std::vector<std::string>{"part HA"});
  EXPECT_TRUE(must(store.search("a OR zzz")).empty());
}

TEST(Search, follows_every_change) {
  const Folder folder;
  Store store = opened(folder.file());
  must(store.execute(set_with_code("H2"), at_the_bench(1)));
  shop::ChangeSet change{"H2"};
  change.model = std::string("Wren 46");
  const Done done = must(store.execute(change, at_the_bench(2)));
  EXPECT_TRUE(must(store.search("tern")).empty());
  EXPECT_EQ(must(store.search("wren")).size(), 1U);
  must(store.undo(done.entry, false, at_the_bench(3)));
  EXPECT_EQ(must(store.search("tern")).size(), 1U);
  EXPECT_TRUE(must(store.search("wren")).empty());
}

TEST(Said, is_kept_overwritten_by_code_and_not_journalled) {
  const Folder folder;
  Store store = opened(folder.file());
  ASSERT_TRUE(store.remember(
      {{"A1", "{\"rule\": \"rail high\"}", "2026-05-31"}, {"A2", "[]", "2026-05-31"}}));
  ASSERT_TRUE(store.remember({{"A1", "{}", "2026-06-01"}}));
  auto said = must(store.said("A1"));
  ASSERT_TRUE(said.has_value());
  EXPECT_EQ(said->text, "{}");
  EXPECT_EQ(said->at, "2026-06-01");
  EXPECT_EQ(must(store.said("A2"))->text, "[]");
  EXPECT_FALSE(must(store.said("A3")).has_value());
  EXPECT_TRUE(must(store.journal()).empty());
  EXPECT_FALSE(store.remember({{"A4", "{}", "now"}, {"A5", "no json", "now"}}));
  EXPECT_FALSE(must(store.said("A4")).has_value());
}

}  // namespace
}  // namespace benchgraft::store
