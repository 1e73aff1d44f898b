// Marks on a straightened page: connected bright or dark spots, and the F among them.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "align/photo_glyph.hpp"

namespace benchgraft::align {

/// A connected spot, in pixels of the straightened picture.
struct Mark {
  double left = 0, top = 0, right = 0, bottom = 0;  ///< box; right and bottom are outside
  double area = 0;
  Point middle;  ///< weighted by how much brighter or darker than the ground it is
  bool at_border = false;
  int label = 0;
};

/// The picture's brightness (one number a pixel) and its spots.
struct Marks {
  int width = 0, height = 0;
  std::vector<Mark> marks;
  std::vector<int> labels;  ///< of each pixel; 0 is the ground
};

/// Spots brighter (`bright`) or darker than half way between the picture's dark and bright.
Marks find_marks(const LinearPicture& picture, bool bright);

struct GlyphMatch {
  Standing standing;
  double match = 0, margin = 0;
};
/// How the F that `mark` may be stands; `match` is low when it is no F.
GlyphMatch match_glyph(const Marks& marks, const Mark& mark);

/// Page directions as seen: where the page's right and down point, in screen right and down.
struct Axes {
  Point right{1, 0}, down{0, 1};
};
Axes axes_of(const Standing& standing);

}  // namespace benchgraft::align
