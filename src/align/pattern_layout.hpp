// Where things stand on the test pages: one place for those who draw and those who look.
#pragma once

#include <array>

namespace benchgraft::align {

/// A rectangle in shares of the page (0..1), or of the mark it belongs to.
struct Box {
  double left = 0, top = 0, right = 0, bottom = 0;
};

/// Index page, in shares of the page. The white frame is thick enough to stay in sight when the set
/// shows the picture a tenth too large; with the two inner strips it gives white beside every bar.
namespace index_page {
inline constexpr double kFrameAcross = 0.095, kFrameDown = 0.09;
inline constexpr std::array kBarMiddles{0.22, 0.50, 0.78};
inline constexpr double kBarHalfWidth = 0.10;
inline constexpr double kBarTop = 0.14, kBarBottom = 0.66;
/// The outer two lie in the frame.
inline constexpr std::array kStripMiddles{0.08, 0.36, 0.64, 0.92};
inline constexpr double kStripHalfWidth = 0.02;
inline constexpr std::array kGapMiddles{0.1075, 0.33, 0.39, 0.61, 0.67, 0.8925};
/// One, two and three white squares below the red, green and blue bar.
inline constexpr double kSquareMiddle = 0.80, kSquareStep = 0.055;
inline constexpr double kSquareHalfAcross = 0.02, kSquareHalfDown = 0.035;
}  // namespace index_page

/// The mark that reads as an F, in shares of its own box, whose width is 0.8 of its height.
inline constexpr std::array<Box, 3> kGlyph{
    Box{0, 0, 0.25, 1}, {0, 0, 1, 0.2}, {0, 0.42, 0.7, 0.62}};
inline constexpr double kGlyphWidth = 0.8;
inline constexpr double kGlyphHeight = 0.5;       ///< on the glyph page, of the page height
inline constexpr double kGridGlyphHeight = 0.24;  ///< on the grid page

/// Grid page: dots at (1..9)/10 of the width and (1, 3, 5, 7, 9)/10 of the height; none in the
/// middle, where the F stands.
namespace grid_page {
inline constexpr int kAcross = 9, kDown = 5;
inline constexpr double kDotRadius = 0.02;  ///< of the page height
constexpr double across(int i) { return 0.1 * (i + 1); }
constexpr double down(int j) { return 0.1 + 0.2 * j; }
}  // namespace grid_page

/// Edge page, in image pixels of one tile; tiles repeat from the page's top left corner.
/// Left half: white lines one pixel wide on black, all on even columns. Right half: white, with two
/// black squares that tell where a close-up lies and which way up it is.
namespace edge_page {
inline constexpr int kTileWidth = 96, kTileHeight = 64;
inline constexpr std::array kLines{8, 24, 40};
inline constexpr int kWhiteFrom = 48;
inline constexpr int kBigLeft = 56, kBigTop = 8, kBigSide = 12;
inline constexpr int kSmallLeft = 78, kSmallTop = 32, kSmallSide = 6;
}  // namespace edge_page

}  // namespace benchgraft::align
