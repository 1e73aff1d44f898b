// Which way round the picture stands, and where: from a photo of the glyph or the grid page.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "align/photo_geometry.hpp"
#include "align/photo_read.hpp"
#include "align/photo_screen.hpp"
#include "base/result.hpp"

namespace benchgraft::align {

/// One of the eight ways a picture can stand: first the axes are exchanged (or not), then what is
/// left is mirrored as seen.
struct Standing {
  bool axes_exchanged = false;  ///< with one mirror this is a quarter turn
  bool left_right = false;
  bool upside_down = false;
  bool operator==(const Standing&) const = default;
};

/// "the right way round", "mirrored left to right", "turned by a quarter to the right", ...
std::string standing_words(const Standing& standing);

struct SeenGlyph {
  Standing standing;
  Point middle;       ///< of the F's box, in shares of the screen
  double match = 0;   ///< overlap with the F standing so, 0..1
  double margin = 0;  ///< ahead of the next best of the eight
};

/// Reads the F of the glyph page.
/// fails: no F in sight, or not clear enough to tell the eight apart.
Result<SeenGlyph> see_glyph(const Photo& photo, const Screen& screen);

/// The picture against the screen, everything in shares of the screen unless said otherwise.
struct SeenGrid {
  Standing standing;
  Quad picture;  ///< corners of the whole picture as seen; may lie outside the screen
  Point offset;  ///< middle of the picture from the middle of the screen: right, down
  double width = 1, height = 1;  ///< of the picture, along its middles
  double turned_deg = 0;         ///< clockwise as seen
  double narrow_top = 0;         ///< (bottom - top) / mean of the picture's widths
  double narrow_left = 0;        ///< (right - left) / mean of the picture's heights
  double error = 0;              ///< one standard deviation of a place, from the dots' misfit
  int dots = 0;                  ///< that were used, of 44
  /// Top, right, bottom, left: there the lit edge is the picture's own, so the screen may go on in
  /// the dark and its corners must be touched.
  std::array<bool, 4> own_edge{};
};

/// Measures the grid page on a screen of `aspect` (width over height).
/// fails: not the grid page, too few dots in sight.
Result<SeenGrid> measure_grid(const Photo& photo, const Screen& screen, double aspect = 16.0 / 9);

}  // namespace benchgraft::align
