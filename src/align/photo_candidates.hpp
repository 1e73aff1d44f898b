// Lit four-sided shapes in a photo: the first, coarse half of finding the screen.
#pragma once

#include <vector>

#include "align/photo_geometry.hpp"
#include "align/photo_read.hpp"

namespace benchgraft::align {

struct LitShape {
  Quad corners;        ///< in photo pixels, to about two
  double share = 0;    ///< of the photo's area
  double fill = 0;     ///< area of the shape's hull over that of the four-sided one
  double lit_rim = 0;  ///< share of the rim, just inside, that is lit
  int borders = 0;     ///< how many of the photo's four borders it touches
  bool four_sided = false;
};

/// Lit shapes that cover at least 0.5 % of the photo, largest first, and the reduction used.
struct LitShapes {
  std::vector<LitShape> shapes;
  double reduction = 1;  ///< photo pixels per pixel looked at
};
LitShapes lit_shapes(const Photo& photo);

/// Share of the lit pixels inside `corners` that hold one of the dozen commonest colours exactly.
/// A camera spreads every colour over many values; a screenshot does not.
double share_of_few_colours(const Photo& photo, const Quad& corners);

}  // namespace benchgraft::align
