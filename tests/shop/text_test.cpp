#include "shop/text.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "catalogue/text.hpp"
#include "shop/contradiction.hpp"
#include "shop/thing_text.hpp"
#include "support/some_shops.hpp"

namespace benchgraft::shop {
namespace {

using support::any_shop;
using support::repeatable;

Records merged(const Records& here, const std::vector<NamedText>& texts) {
  auto bundle = sort_texts(texts);
  RC_ASSERT(bundle.ok());
  auto result = merge(here, bundle.value(), repeatable(5));
  if (!result) RC_FAIL(result.error().message);
  return result.value().after;
}

RC_GTEST_PROP(ShopText, export_and_import_into_an_empty_shop_gives_an_equal_shop, ()) {
  const Shop shop = *any_shop();
  RC_ASSERT(!first_contradiction(shop).has_value());
  RC_ASSERT(merged({}, export_texts(shop)).shop == shop);
}

RC_GTEST_PROP(ShopText, importing_the_same_folder_again_changes_nothing, ()) {
  const Shop shop = *any_shop();
  RC_ASSERT(merged({shop, {}}, export_texts(shop)).shop == shop);
}

RC_GTEST_PROP(ShopText, a_record_as_text_reads_back_the_same, ()) {
  const Shop shop = *any_shop();
  for (const auto& set : shop.sets) {
    RC_ASSERT(thing_from_text<Set>(text_of(set), "t").value() == set);
    RC_ASSERT(thing_from_text<Set>(text_of(fields_of(set)), "t").value() == set);
  }
  for (const auto& part : shop.parts) {
    RC_ASSERT(thing_from_text<Part>(text_of(part), "t").value() == part);
    RC_ASSERT(thing_from_text<Part>(text_of(fields_of(part)), "t").value() == part);
  }
  for (const auto& note : shop.notes)
    RC_ASSERT(thing_from_text<catalogue::SwapNote>(text_of(note), "t").value() == note);
  for (const auto& rebuild : shop.rebuilds)
    RC_ASSERT(thing_from_text<RebuildRecord>(text_of(rebuild), "t").value() == rebuild);
  for (const auto& wish : shop.wishes)
    RC_ASSERT(thing_from_text<Wish>(text_of(wish), "t").value() == wish);
  RC_ASSERT(thing_from_text<Terms>(text_of(shop.terms), "t").value() == shop.terms);
}

RC_GTEST_PROP(ShopText, every_random_record_passes_its_own_check, ()) {
  Shop shop = *any_shop();
  const Shop before = shop;
  for (auto& set : shop.sets) RC_ASSERT(tidy_and_check(set, "s").ok());
  for (auto& part : shop.parts) RC_ASSERT(tidy_and_check(part, "p").ok());
  for (auto& note : shop.notes) RC_ASSERT(tidy_and_check(note, "n").ok());
  for (auto& rebuild : shop.rebuilds) RC_ASSERT(tidy_and_check(rebuild, "r").ok());
  for (auto& wish : shop.wishes) RC_ASSERT(tidy_and_check(wish, "w").ok());
  RC_ASSERT(tidy_and_check(shop.terms, "t").ok());
  RC_ASSERT(shop == before);
}

std::string sorting_fault(const std::string& path, const std::string& bytes) {
  auto bundle = sort_texts({{path, bytes}});
  return bundle ? "no fault" : bundle.error().message;
}

TEST(ShopText, names_the_nearest_column_for_an_unknown_one) {
  EXPECT_EQ(sorting_fault("x/sets.csv", "code,lokks\nK7R,good\n"),
            "x/sets.csv, line 1: \"lokks\" is not a column of this file; did you mean \"looks\"?");
  EXPECT_EQ(sorting_fault("wishes.csv", "zzzzzzzz\n"),
            "wishes.csv, line 1: \"zzzzzzzz\" is not a column of this file; its columns are id, "
            "wish, set, "
            "part and note.");
}

TEST(ShopText, refuses_a_column_that_stands_there_twice) {
  EXPECT_EQ(sorting_fault("sets.csv", "code,looks,Looks\n"),
            "sets.csv, line 1: column \"looks\" stands there twice; take one out.");
}

TEST(ShopText, refuses_a_row_with_more_cells_than_columns) {
  EXPECT_EQ(
      sorting_fault("sets.csv", "code,note\nK7R,dead, no light\n"),
      "sets.csv, line 2: there are 3 cells and only 2 columns; a cell with a comma in it stands in "
      "quotes.");
}

TEST(ShopText, refuses_an_empty_file) {
  EXPECT_EQ(sorting_fault("sets.csv", "\n\n"),
            "sets.csv: the file is empty; its first line names the columns.");
}

TEST(ShopText, names_file_line_column_value_and_mend_of_a_wrong_cell) {
  const auto fault = [](const std::string& column, const std::string& cell) {
    return sorting_fault("parts.csv", "code," + column + "\nK7R," + cell + "\n");
  };
  EXPECT_EQ(fault("state", "godo"),
            "parts.csv, line 2: column \"state\": \"godo\" is not one of untested, good, suspect "
            "and bad; did "
            "you mean \"good\"?");
  EXPECT_EQ(fault("chance", "1.2"),
            "parts.csv, line 2: column \"chance\": \"1.2\" must be between 0 and 1.");
  EXPECT_EQ(
      fault("chance", "\"0,5\""),
      "parts.csv, line 2: column \"chance\": \"0,5\" is not a number; write 0.5, with a point.");
  EXPECT_EQ(fault("chance", "nan"),
            "parts.csv, line 2: column \"chance\": \"nan\" is not a number; write digits only.");
  EXPECT_EQ(fault("run_hours", "-1"),
            "parts.csv, line 2: column \"run_hours\": \"-1\" must be 0 or more.");
  EXPECT_EQ(
      fault("run_hours", "many"),
      "parts.csv, line 2: column \"run_hours\": \"many\" is not a number; write digits only.");
  EXPECT_EQ(fault("tested_on", "31.05.2026"),
            "parts.csv, line 2: column \"tested_on\": \"31.05.2026\" is not a day; write it as "
            "2026-05-31.");
  EXPECT_EQ(fault("tested_on", "2026-02-30"),
            "parts.csv, line 2: column \"tested_on\": \"2026-02-30\" is not a day; write it as "
            "2026-05-31.");
  EXPECT_EQ(fault("in_set", "K0R"),
            "parts.csv, line 2: column \"in_set\": \"K0R\" is not a code; use 1 to 5 of "
            "23456789ACDEFHJKMNPRTWXY, which cannot be mistaken for one another on tape.");
  EXPECT_EQ(fault("id", "12"),
            "parts.csv, line 2: column \"id\": \"12\" is not an id; write 32 digits of 0-9 and "
            "a-f, or leave "
            "the cell empty.");
  EXPECT_EQ(fault("type", "\"A\nB\""),
            "parts.csv, line 2: column \"type\": \"A\nB\" must not have a line break or tab; write "
            "it on one "
            "line.");
  EXPECT_EQ(fault("note", "a\x07"),
            "parts.csv, line 2: column \"note\": \"a\x07\" has the unprintable character 0x07 at "
            "byte 1; take "
            "it out.");
  EXPECT_EQ(
      sorting_fault("wishes.csv", "wish,set\n,K7R\n"),
      "wishes.csv, line 2: column \"wish\": \"\" says no wish; write one, such as \"build this\".");
}

TEST(ShopText, takes_capitals_and_blanks_as_people_type_them) {
  auto bundle =
      sort_texts({{"my sets.csv", "Taken in, CODE ,Consent\n2026-01-02,k7r, May Strip \n"}});
  ASSERT_TRUE(bundle);
  auto result = merge({}, bundle.value(), repeatable(1));
  ASSERT_TRUE(result);
  const Set& set = result.value().after.shop.sets.at(0);
  EXPECT_EQ(set.code, "K7R");
  EXPECT_EQ(set.consent, Consent::may_strip);
  EXPECT_EQ(set.taken_in, "2026-01-02");
}

TEST(ShopText, asks_for_a_telling_name_of_a_table) {
  EXPECT_EQ(
      sorting_fault("stuff.csv", "code\n"),
      "stuff.csv: the name does not say what is in the file; end it in sets.csv, parts.csv or "
      "wishes.csv.");
}

TEST(ShopText, tells_what_is_wrong_in_the_terms) {
  EXPECT_EQ(sorting_fault("shop.toml", "format = 1\nmains_vots = 230\n"),
            "shop.toml, line 2: \"mains_vots\" is not a key of a shop file; did you mean "
            "\"mains_volts\"?");
  EXPECT_EQ(sorting_fault("shop.toml", "format = 1\nchance_good = 2\n"),
            "shop.toml, line 2: chance_good = 2 must lie between 0 and 1.");
  EXPECT_EQ(sorting_fault("shop.toml", "format = 2\nsomething_new = 1\n"),
            "shop.toml, line 1: format = 2 is newer than this program, which reads format = 1; use "
            "a newer "
            "program.");
  EXPECT_EQ(sorting_fault("shop.toml", "format = \"1\"\n"),
            "shop.toml, line 1: format = \"1\" must be 1.");
}

TEST(ShopText, calls_a_newer_file_too_new) {
  auto bundle = sort_texts({{"notes.toml", "format = 7\n"}});
  ASSERT_FALSE(bundle);
  EXPECT_EQ(bundle.error().kind, ErrorKind::too_new);
}

TEST(ShopText, says_so_when_nothing_tells_what_a_file_is) {
  EXPECT_EQ(
      sorting_fault("x.toml", "format = 1\nfamly = \"Tern\"\n"),
      "x.toml, line 2: \"famly\" is not a key of any file read here; did you mean \"family\"?");
  EXPECT_EQ(sorting_fault("x.toml", "format = 1\nzzzzzzzzzzzz = 1\n"),
            "x.toml: nothing in the file says what it is; a family file has family = \"...\", a "
            "file of swap "
            "notes [[swap_note]], the terms are called shop.toml.");
}

TEST(ShopText, sorts_files_by_what_they_hold) {
  auto bundle = sort_texts({
      {"a/tern.toml", "format = 1\nfamily = \"Tern\"\n"},
      {"a/first.toml", "format = 1\nrebuild = \"first\"\nmodel = \"Tern 50\"\n"},
      {"b/anything.toml",
       "format = 1\n[[swap_note]]\nswap_note = \"one\"\ninto = \"Tern 50\"\nresult = \"works\"\n"},
      {"b/sets.csv", "code\nK7R\n"},
  });
  ASSERT_TRUE(bundle) << bundle.error().message;
  EXPECT_EQ(bundle.value().families.size(), 1U);
  EXPECT_EQ(bundle.value().rebuilds, std::vector<std::string>{"a/first.toml"});
  auto result = merge({}, bundle.value(), repeatable(1));
  ASSERT_TRUE(result) << result.error().message;
  EXPECT_EQ(result.value().notes, (Count{1, 0, 0}));
  EXPECT_EQ(result.value().sets, (Count{1, 0, 0}));
  EXPECT_EQ(result.value().families, (Count{1, 0, 0}));
  EXPECT_EQ(result.value().after.families.at(0).name, "Tern");
}

TEST(ShopText, refuses_a_file_that_is_too_large) {
  auto bundle = sort_texts({{"sets.csv", std::string(kLargestCsv + 1, 'a')}});
  ASSERT_FALSE(bundle);
  EXPECT_EQ(bundle.error().kind, ErrorKind::limit);
  EXPECT_EQ(bundle.error().message,
            "sets.csv: the file has 67108865 bytes and at most 67108864 are read; split it.");
  bundle = sort_texts({{"notes.toml", std::string(catalogue::kLargestFile + 1, '#')}});
  ASSERT_FALSE(bundle);
  EXPECT_EQ(bundle.error().kind, ErrorKind::limit);
}

}  // namespace
}  // namespace benchgraft::shop
