#include "align/pattern_page.hpp"

#include <map>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "align/pattern_layout.hpp"
#include "align/photo_read.hpp"
#include "photo_shots.hpp"

namespace benchgraft::align {
namespace {

using Rgb = std::array<std::uint8_t, 3>;

Rgb pixel(const PagePicture& page, int x, int y) {
  const std::size_t at = 3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(page.width) +
                              static_cast<std::size_t>(x));
  return {page.rgb[at], page.rgb[at + 1], page.rgb[at + 2]};
}

const Rgb kWhite{255, 255, 255}, kBlack{0, 0, 0};

TEST(TestPages, are_the_same_bytes_every_time) {
  for (const Page page : kPages)
    EXPECT_EQ(page_png(page, 1280, 720).value(), page_png(page, 1280, 720).value())
        << page_word(page);
}

TEST(TestPages, read_back_as_they_were_drawn) {
  for (const Page page : kPages) {
    const PagePicture drawn = draw_page(page, 853, 480).value();
    const Photo read = photo_of(page_png(page, 853, 480).value());
    ASSERT_EQ(read.width, 853);
    ASSERT_EQ(read.height, 480);
    for (int y = 0; y < 480; y += 3)
      for (int x = 0; x < 853; ++x) {
        const std::uint8_t* code = read.pixel(x, y);
        ASSERT_EQ((Rgb{code[2], code[1], code[0]}), pixel(drawn, x, y))
            << page_word(page) << " at " << x << ", " << y;
      }
  }
}

TEST(TestPages, hold_only_colours_that_are_fully_on_or_off) {
  for (const Page page : kPages) {
    const PagePicture drawn = draw_page(page, 1366, 768).value();
    for (const std::uint8_t value : drawn.rgb)
      ASSERT_TRUE(value == 0 || value == 255) << page_word(page);
  }
}

TEST(TestPages, give_each_bar_its_colour_and_its_number_of_squares) {
  const PagePicture page = draw_page(Page::index_bars, 1000, 1000).value();
  const std::array<Rgb, 3> colours{Rgb{255, 0, 0}, {0, 255, 0}, {0, 0, 255}};
  for (std::size_t bar = 0; bar < 3; ++bar) {
    const int middle = static_cast<int>(1000 * index_page::kBarMiddles[bar]);
    EXPECT_EQ(pixel(page, middle, 400), colours[bar]);
    int squares = 0;
    for (int x = middle - 100; x < middle + 100; ++x)
      squares += pixel(page, x, 800) == kWhite && pixel(page, x - 1, 800) == kBlack;
    EXPECT_EQ(squares, static_cast<int>(bar) + 1);
  }
}

TEST(TestPages, put_every_one_pixel_line_on_an_even_column) {
  // Both sub-frames of a half-pixel set share a line only when it is one column; even columns keep
  // the sign of the shift the same for all lines.
  const PagePicture page = draw_page(Page::edge, 1920, 1080).value();
  int lines = 0;
  for (int x = 1; x + 1 < 1920; ++x)
    if (pixel(page, x, 100) == kWhite && pixel(page, x - 1, 100) == kBlack &&
        pixel(page, x + 1, 100) == kBlack) {
      EXPECT_EQ(x % 2, 0) << x;
      ++lines;
    }
  EXPECT_EQ(lines, 60);
}

TEST(TestPages, let_no_two_of_the_eight_standings_of_the_f_look_alike) {
  const PagePicture page = draw_page(Page::glyph, 1000, 1000).value();
  std::map<std::string, int> seen;
  for (int code = 0; code < 8; ++code) {
    std::string look;
    for (int y = 200; y < 800; y += 10)
      for (int x = 200; x < 800; x += 10) {
        int u = x, v = y;
        if ((code & 1) != 0) u = 999 - u;
        if ((code & 2) != 0) v = 999 - v;
        if ((code & 4) != 0) std::swap(u, v);
        look += pixel(page, u, v) == kBlack ? '#' : ' ';
      }
    ++seen[look];
  }
  EXPECT_EQ(seen.size(), 8u);
}

TEST(TestPages, refuse_a_resolution_no_set_has) {
  for (const auto& [width, height] : {std::pair{100, 100}, {0, 1080}, {-5, 5}, {1920, 9000}}) {
    const auto page = page_png(Page::grid, width, height);
    ASSERT_FALSE(page.ok());
    EXPECT_THAT(page.error().message, testing::HasSubstr("give the set's own resolution"));
  }
}

TEST(TestPages, name_the_nearest_page_for_a_word_mistyped) {
  EXPECT_EQ(page_from_word("grid").value(), Page::grid);
  EXPECT_EQ(page_from_word("index-bar").error().message,
            "there is no test page \"index-bar\"; \"index-bars\" is meant?");
  EXPECT_THAT(page_from_word("xyz").error().message,
              testing::HasSubstr("index-bars, white, edge, glyph and grid"));
}

}  // namespace
}  // namespace benchgraft::align
