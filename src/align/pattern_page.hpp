// The tool's own test pages: what each holds and where, in the pixels of any set.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace benchgraft::align {

enum class Page {
  index_bars,  ///< red, green and blue bars beside white, numbered by white squares
  white,       ///< full white, to take the unevenness out of other photos
  edge,        ///< bright edges, one-pixel lines and place marks, for close-ups
  glyph,       ///< one large F
  grid,        ///< dots and a small F, for place, size, turn and keystone
};

inline constexpr std::array kPages{Page::index_bars, Page::white, Page::edge, Page::glyph,
                                   Page::grid};

/// "index-bars", "white", "edge", "glyph", "grid": file name and word of the command.
std::string_view page_word(Page page);
/// fails: not one of them; the sentence names the nearest.
Result<Page> page_from_word(std::string_view word);

/// Red, green, blue, one byte each, row by row.
struct PagePicture {
  int width = 0, height = 0;
  std::vector<std::uint8_t> rgb;
};

/// Draws `page` for a set of that resolution.
/// fails: smaller than 320 x 180 or larger than 8192 x 8192.
Result<PagePicture> draw_page(Page page, int width, int height);

/// The same as a PNG file; same page and size give the same bytes.
Result<std::string> page_png(Page page, int width, int height);

}  // namespace benchgraft::align
