#include "shop/csv.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "support/some_shops.hpp"

namespace benchgraft::shop {
namespace {

using Cells = std::vector<std::string>;

std::vector<Cells> cells_of(std::string_view text) {
  auto rows = parse_csv(text, "a.csv");
  EXPECT_TRUE(rows.ok()) << (rows.ok() ? "" : rows.error().message);
  std::vector<Cells> cells;
  if (rows)
    for (auto& row : rows.value()) cells.push_back(row.cells);
  return cells;
}

std::string fault_of(std::string_view text) {
  auto rows = parse_csv(text, "a.csv");
  return rows ? "no fault" : rows.error().message;
}

TEST(Csv, reads_quotes_commas_and_line_breaks_inside_a_cell) {
  EXPECT_EQ(cells_of("code,note\nK7R,\"a \"\"big\"\" one, or\ntwo\"\n"),
            (std::vector<Cells>{{"code", "note"}, {"K7R", "a \"big\" one, or\ntwo"}}));
}

TEST(Csv, takes_both_line_ends_a_byte_order_mark_and_a_missing_last_line_end) {
  const std::vector<Cells> two = {{"a", "b"}, {"1", "2"}};
  EXPECT_EQ(cells_of("a,b\r\n1,2\r\n"), two);
  EXPECT_EQ(cells_of("\xEF\xBB\xBF"
                     "a,b\n1,2"),
            two);
  EXPECT_EQ(cells_of("a,b\r1,2\r"), two);
}

TEST(Csv, takes_semicolons_or_tabs_when_the_first_line_has_them) {
  EXPECT_EQ(cells_of("a;b\n1,5;2\n"), (std::vector<Cells>{{"a", "b"}, {"1,5", "2"}}));
  EXPECT_EQ(cells_of("a\tb\n1\t2\n"), (std::vector<Cells>{{"a", "b"}, {"1", "2"}}));
  EXPECT_EQ(cells_of("\"a;x\",b\n1,2\n"), (std::vector<Cells>{{"a;x", "b"}, {"1", "2"}}));
}

TEST(Csv, leaves_out_empty_rows_and_keeps_the_line_numbers_of_the_others) {
  auto rows = parse_csv("a,b\n\n,\n\"x\ny\",1\nz,2\n", "a.csv");
  ASSERT_TRUE(rows);
  ASSERT_EQ(rows.value().size(), 3U);
  EXPECT_EQ(rows.value()[1].line, 4);
  EXPECT_EQ(rows.value()[2].line, 6);
}

TEST(Csv, says_where_a_quote_is_wrong) {
  EXPECT_EQ(fault_of("a,b\n1,\"open\n2,3\n"),
            "a.csv, line 2: a quote is opened and never closed; close it, or write it twice.");
  EXPECT_EQ(fault_of("a,b\n1,in\"side\n"),
            "a.csv, line 2: a quote stands inside the cell in\"; put the whole cell in quotes and "
            "write each "
            "quote in it twice.");
  EXPECT_EQ(fault_of("a,b\n1,\"x\"y\n"),
            "a.csv, line 2: \"x\" goes on after its closing quote; write each quote inside a cell "
            "twice.");
}

TEST(Csv, says_where_bytes_are_no_text) {
  EXPECT_EQ(fault_of("a,b\n1,2\n\xE9,3\n"),
            "a.csv, line 3: byte 0xe9 is not UTF-8 text; save the file as UTF-8.");
}

RC_GTEST_PROP(Csv, gives_back_every_row_that_was_written, ()) {
  const auto size = *rc::gen::inRange<std::size_t>(2, 5);
  std::string text;
  std::vector<Cells> rows;
  for (int n = *rc::gen::inRange(1, 5); n > 0; --n) {
    Cells row = {"x"};  // a row of empty cells is no row
    while (row.size() < size)
      row.push_back(
          *rc::gen::container<std::string>(rc::gen::elementOf(std::string("ab ,;\t\"\n\r|\\'="))));
    add_csv_row(text, row);
    rows.push_back(row);
  }
  // The first line decides what stands between the cells.
  std::string headed;
  add_csv_row(headed, Cells(size, "h"));
  auto read = parse_csv(headed + text, "a.csv");
  RC_ASSERT(read.ok());
  RC_ASSERT(read.value().size() == rows.size() + 1);
  for (std::size_t i = 0; i < rows.size(); ++i) RC_ASSERT(read.value()[i + 1].cells == rows[i]);
}

TEST(ListCell, keeps_bars_and_backslashes_inside_words) {
  EXPECT_EQ(list_cell({"a|b", "c\\d", "e"}), "a\\|b | c\\\\d | e");
  EXPECT_EQ(words_of_cell("a\\|b | c\\\\d | e"), (Cells{"a|b", "c\\d", "e"}));
  EXPECT_EQ(words_of_cell("lamp|driver |  | "), (Cells{"lamp", "driver"}));
  EXPECT_EQ(words_of_cell("C:\\temp"), (Cells{"C:\\temp"}));
}

RC_GTEST_PROP(ListCell, gives_back_every_list_that_was_written, ()) {
  Cells words;
  for (int n = *rc::gen::inRange(0, 5); n > 0; --n)
    if (std::string word = support::any_name(); !word.empty()) words.push_back(word);
  RC_ASSERT(words_of_cell(list_cell(words)) == words);
}

}  // namespace
}  // namespace benchgraft::shop
