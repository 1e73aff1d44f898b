// Where a close-up lies on the edge page, from its black squares.
#pragma once

#include "align/photo_edge.hpp"
#include "align/photo_geometry.hpp"
#include "base/result.hpp"

namespace benchgraft::align {

/// Image pixels of the page (counted from the top left of one tile in sight) to photo pixels.
struct TilePlace {
  Homography to_photo;
  double scale = 0;     ///< photo pixels per image pixel, at the photo's middle
  double tilt_deg = 0;  ///< clockwise
  double left = 0, top = 0, right = 0, bottom = 0;  ///< image pixels that lie wholly in the photo
  int squares = 0;
};

/// fails: too few squares, or a picture that is mirrored or turned.
Result<TilePlace> place_tiles(const Photo& photo);

}  // namespace benchgraft::align
