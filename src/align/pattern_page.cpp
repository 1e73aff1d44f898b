#include "align/pattern_page.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "align/pattern_layout.hpp"
#include "align/photo_files.hpp"
#include "base/text.hpp"

namespace benchgraft::align {
namespace {

constexpr int kLeastWidth = 320, kLeastHeight = 180, kMost = 8192;
constexpr std::array<std::string_view, kPages.size()> kWords{"index-bars", "white", "edge", "glyph",
                                                             "grid"};

using Colour = std::array<std::uint8_t, 3>;
constexpr Colour kWhite{255, 255, 255}, kBlack{0, 0, 0};
constexpr std::array<Colour, 3> kBarColours{Colour{255, 0, 0}, {0, 255, 0}, {0, 0, 255}};

class Canvas {
 public:
  Canvas(int width, int height, Colour ground) : width_(width), height_(height) {
    picture_.width = width;
    picture_.height = height;
    picture_.rgb.resize(std::size_t{3} * static_cast<std::size_t>(width) *
                        static_cast<std::size_t>(height));
    pixels(0, 0, width, height, ground);
  }

  /// From (left, top) up to but without (right, bottom); cut at the page's border.
  void pixels(int left, int top, int right, int bottom, Colour colour) {
    for (int y = std::max(top, 0); y < std::min(bottom, height_); ++y)
      for (int x = std::max(left, 0); x < std::min(right, width_); ++x) set(x, y, colour);
  }

  void box(const Box& b, Colour colour) {
    pixels(across(b.left), down(b.top), across(b.right), down(b.bottom), colour);
  }

  void dot(double x, double y, double radius, Colour colour) {
    const double cx = x * width_, cy = y * height_, r = radius * height_;
    for (int j = static_cast<int>(cy - r) - 1; j <= static_cast<int>(cy + r) + 1; ++j)
      for (int i = static_cast<int>(cx - r) - 1; i <= static_cast<int>(cx + r) + 1; ++i)
        if (std::hypot(i + 0.5 - cx, j + 0.5 - cy) <= r && i >= 0 && j >= 0 && i < width_ &&
            j < height_)
          set(i, j, colour);
  }

  /// The F of `height` (of the page height), middle of its box on the middle of the page.
  void glyph(double height, Colour colour) {
    const double tall = height, wide = kGlyphWidth * height * height_ / width_;
    const double left = 0.5 - wide / 2, top = 0.5 - tall / 2;
    for (const Box& b : kGlyph)
      box({left + b.left * wide, top + b.top * tall, left + b.right * wide, top + b.bottom * tall},
          colour);
  }

  [[nodiscard]] PagePicture take() && { return std::move(picture_); }

 private:
  [[nodiscard]] int across(double share) const {
    return static_cast<int>(std::lround(share * width_));
  }
  [[nodiscard]] int down(double share) const {
    return static_cast<int>(std::lround(share * height_));
  }
  void set(int x, int y, Colour colour) {
    const auto at = 3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(width_) +
                         static_cast<std::size_t>(x));
    std::copy(colour.begin(), colour.end(), picture_.rgb.begin() + static_cast<std::ptrdiff_t>(at));
  }

  int width_, height_;
  PagePicture picture_;
};

PagePicture draw_index_bars(int width, int height) {
  using namespace index_page;
  Canvas canvas(width, height, kWhite);
  canvas.box({kFrameAcross, kFrameDown, 1 - kFrameAcross, 1 - kFrameDown}, kBlack);
  for (const double x : {kStripMiddles[1], kStripMiddles[2]})
    canvas.box({x - kStripHalfWidth, kBarTop, x + kStripHalfWidth, kBarBottom}, kWhite);
  for (std::size_t bar = 0; bar < kBarMiddles.size(); ++bar) {
    const double middle = kBarMiddles[bar];
    canvas.box({middle - kBarHalfWidth, kBarTop, middle + kBarHalfWidth, kBarBottom},
               kBarColours[bar]);
    for (std::size_t k = 0; k <= bar; ++k) {
      const double x =
          middle + (static_cast<double>(k) - static_cast<double>(bar) / 2) * kSquareStep;
      canvas.box({x - kSquareHalfAcross, kSquareMiddle - kSquareHalfDown, x + kSquareHalfAcross,
                  kSquareMiddle + kSquareHalfDown},
                 kWhite);
    }
  }
  return std::move(canvas).take();
}

PagePicture draw_edge(int width, int height) {
  using namespace edge_page;
  Canvas canvas(width, height, kBlack);
  for (int top = 0; top < height; top += kTileHeight)
    for (int left = 0; left < width; left += kTileWidth) {
      for (const int x : kLines)
        canvas.pixels(left + x, top, left + x + 1, top + kTileHeight, kWhite);
      canvas.pixels(left + kWhiteFrom, top, left + kTileWidth, top + kTileHeight, kWhite);
      canvas.pixels(left + kBigLeft, top + kBigTop, left + kBigLeft + kBigSide,
                    top + kBigTop + kBigSide, kBlack);
      canvas.pixels(left + kSmallLeft, top + kSmallTop, left + kSmallLeft + kSmallSide,
                    top + kSmallTop + kSmallSide, kBlack);
    }
  return std::move(canvas).take();
}

PagePicture draw_glyph(int width, int height) {
  Canvas canvas(width, height, kWhite);
  canvas.glyph(kGlyphHeight, kBlack);
  return std::move(canvas).take();
}

PagePicture draw_grid(int width, int height) {
  using namespace grid_page;
  Canvas canvas(width, height, kWhite);
  for (int j = 0; j < kDown; ++j)
    for (int i = 0; i < kAcross; ++i)
      if (i != kAcross / 2 || j != kDown / 2) canvas.dot(across(i), down(j), kDotRadius, kBlack);
  canvas.glyph(kGridGlyphHeight, kBlack);
  return std::move(canvas).take();
}

}  // namespace

std::string_view page_word(Page page) { return kWords[static_cast<std::size_t>(page)]; }

Result<Page> page_from_word(std::string_view word) {
  for (const Page page : kPages)
    if (page_word(page) == word) return page;
  const std::vector<std::string> words(kWords.begin(), kWords.end());
  const std::string near = nearest_word(word, words);
  return Error{ErrorKind::not_found,
               fmt::format("there is no test page \"{}\"; {}", word,
                           near.empty() ? fmt::format("the pages are {}", listed(words))
                                        : fmt::format("\"{}\" is meant?", near))};
}

Result<PagePicture> draw_page(Page page, int width, int height) {
  if (width < kLeastWidth || height < kLeastHeight || width > kMost || height > kMost)
    return Error{ErrorKind::bad_input,
                 fmt::format("a test page of {} x {} pixels cannot be drawn; give the set's own "
                             "resolution, from {} x {} to {} x {}",
                             width, height, kLeastWidth, kLeastHeight, kMost, kMost)};
  switch (page) {
    case Page::index_bars:
      return draw_index_bars(width, height);
    case Page::edge:
      return draw_edge(width, height);
    case Page::glyph:
      return draw_glyph(width, height);
    case Page::grid:
      return draw_grid(width, height);
    case Page::white:
      break;
  }
  return Canvas(width, height, kWhite).take();
}

Result<std::string> page_png(Page page, int width, int height) {
  auto drawn = draw_page(page, width, height);
  if (!drawn) return drawn.error();
  auto& picture = drawn.value();
  for (std::size_t i = 0; i < picture.rgb.size(); i += 3)
    std::swap(picture.rgb[i], picture.rgb[i + 2]);  // the encoder wants blue first
  const auto file = png_file({width, height, std::move(picture.rgb)});
  if (!file) return Error{ErrorKind::limit, "the test page could not be written as PNG"};
  return *file;
}

}  // namespace benchgraft::align
