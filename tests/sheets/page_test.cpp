#include "sheets/page.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "sheets/words.hpp"

namespace benchgraft::sheets {
namespace {

using testing::HasSubstr;
using testing::Not;

Page page_of(Line line, bool folded = false) {
  Block block;
  block.heading = "Look here";
  block.folded = folded;
  block.lines = {std::move(line)};
  Page page;
  page.title = "A sheet";
  page.blocks = {block};
  return page;
}

Line line_of(const std::string& text) {
  Line line;
  line.text = text;
  return line;
}

TEST(TextPage, ends_each_statement_with_its_code_in_brackets) {
  auto line = line_of("The plug is the wrong one.");
  line.code = "K7R";
  EXPECT_THAT(as_text(page_of(line)), HasSubstr("- The plug is the wrong one. [K7R]\n"));
}

TEST(TextPage, breaks_long_lines_between_words_and_sets_them_in) {
  const auto text = as_text(page_of(line_of("one two three four five six")), {false, 16});
  EXPECT_THAT(text, HasSubstr("- one two three\n  four five six\n"));
}

TEST(TextPage, keeps_a_number_and_its_unit_on_one_line) {
  const auto text = as_text(page_of(line_of("it gives them 5 V here")), {false, 17});
  EXPECT_THAT(text, HasSubstr("- it gives them\n  5 V here\n"));
}

TEST(TextPage, paints_only_when_it_is_asked_to) {
  auto line = line_of("It destroys.");
  line.mark = "Danger";
  line.tone = Tone::danger;
  EXPECT_THAT(as_text(page_of(line)), Not(HasSubstr("\033")));
  EXPECT_THAT(as_text(page_of(line), {true, 80}), HasSubstr("\033[1;31m"));
}

TEST(TextPage, says_in_words_what_colour_says) {
  auto line = line_of("It destroys.");
  line.mark = "Danger";
  line.tone = Tone::danger;
  EXPECT_THAT(as_text(page_of(line)), HasSubstr("- Danger: It destroys."));
}

TEST(TextPage, lines_columns_up_by_characters_and_not_by_bytes) {
  Page page;
  Block block;
  block.table = {{"A", "B"}, {{"Ä", "x"}, {"bb", "y"}}};
  page.blocks = {block};
  EXPECT_THAT(as_text(page), HasSubstr("A   B\nÄ   x\nbb  y\n"));
}

RC_GTEST_PROP(TextPage, never_goes_beyond_its_width_between_words,
              (const std::vector<bool>& bits)) {
  std::string text;
  for (const bool bit : bits) text += bit ? "word " : "a ";
  const auto made = as_text(page_of(line_of(text)), {false, 30});
  std::size_t from = 0;
  for (std::size_t at = made.find('\n'); at != std::string::npos;
       from = at + 1, at = made.find('\n', from)) {
    RC_ASSERT(at - from <= 30U);
    RC_ASSERT(at == from || made[at - 1] != ' ');
  }
}

TEST(HtmlPage, needs_no_script_and_fetches_nothing) {
  const auto html = as_html(page_of(line_of("x")));
  for (const char* reaching_out :
       {"<script", "http:", "https:", "src=", "<link", "@import", "url("})
    EXPECT_THAT(html, Not(HasSubstr(reaching_out)));
}

TEST(HtmlPage, writes_what_was_typed_as_text_and_never_as_markup) {
  auto line = line_of("<script>alert(1)</script> & \"so\"");
  line.code = "<b>";
  line.mark = "<i>";
  const auto html = as_html(page_of(line));
  EXPECT_THAT(html, Not(HasSubstr("<script")));
  EXPECT_THAT(html, Not(HasSubstr("<b>")));
  EXPECT_THAT(html, Not(HasSubstr("<i>")));
  EXPECT_THAT(html, HasSubstr("&lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;so&quot;"));
}

TEST(HtmlPage, folds_what_may_be_so) {
  EXPECT_THAT(as_html(page_of(line_of("x"), true)),
              HasSubstr("<details>\n<summary>Look here</summary>"));
}

TEST(HtmlPage, gives_a_step_a_box_to_tick) {
  auto line = line_of("Unplug it.");
  line.tick = true;
  EXPECT_THAT(as_html(page_of(line)), HasSubstr("<label><input type=\"checkbox\">"));
}

TEST(HtmlPage, is_for_phone_paper_light_and_dark) {
  const auto html = as_html(page_of(line_of("x")));
  for (const char* part : {"width=device-width", "size:A4", "prefers-color-scheme:dark"})
    EXPECT_THAT(html, HasSubstr(part));
}

TEST(Words, write_minutes_as_people_say_them) {
  EXPECT_EQ(minutes_text(0), "0 min");
  EXPECT_EQ(minutes_text(59.6), "1 h");
  EXPECT_EQ(minutes_text(60), "1 h");
  EXPECT_EQ(minutes_text(331), "5 h 31 min");
}

TEST(Words, never_call_something_certain_that_is_not) {
  EXPECT_EQ(percent_text(0.996), "over 99 %");
  EXPECT_EQ(percent_text(0.004), "under 1 %");
  EXPECT_EQ(percent_text(1), "100 %");
  EXPECT_EQ(percent_text(0), "0 %");
  EXPECT_EQ(percent_text(0.624), "62 %");
}

TEST(Words, write_money_in_its_currency) {
  EXPECT_EQ(money_text({1250}, "EUR"), "12.50 EUR");
  EXPECT_EQ(money_text({-7}, "EUR"), "-0.07 EUR");
  EXPECT_EQ(money_text({1250}, "JPY"), "1250 JPY");
}

}  // namespace
}  // namespace benchgraft::sheets
