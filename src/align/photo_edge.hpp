// Raggedness of a bright edge after ISO/IEC 13660, and the signed shift between odd and even rows.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "align/photo_geometry.hpp"
#include "align/photo_read.hpp"
#include "base/result.hpp"

namespace benchgraft::align {

/// One brightness a pixel, proportional to light.
struct LevelPicture {
  int width = 0, height = 0;
  std::vector<float> level;
  [[nodiscard]] double at(Point place) const;  ///< pixel middles at whole numbers; 0 outside
};
LevelPicture level_picture(const Photo& photo);

/// Contour of an edge at one share of the step, and how it strays from a straight line.
struct Raggedness {
  double deviation = 0;    ///< of the distances from the fitted line, in pixels
  double angle_deg = 0;    ///< of that line: 0 is along a row, 90 along a column
  double width_10_90 = 0;  ///< mean distance of the 10 % and 90 % contours, pixels
  int points = 0;
};

/// The one edge that crosses the whole picture. `from_bright`: 0.60 is the R60 contour, Rmax - 0.60
/// (Rmax - Rmin). Nothing is taken out but the straight line.
/// fails: no edge, too little contrast, too few points.
/// source: ISO/IEC 13660:2001, wording from memory
Result<Raggedness> edge_raggedness(const LevelPicture& picture, double from_bright);

/// What a close-up of the edge page says of the half-pixel shift; lengths in image pixels p.
struct EdgeReading {
  double r60 = 0, r75 = 0, r50 = 0;  ///< r50 is blind to the shift: it shows what else is rough
  double width = 0;                  ///< 10 to 90 % of the bright edges
  double shift = 0;                  ///< D: mean place of odd rows less even rows, right is plus
  double shift_error = 0;            ///< one standard deviation
  double balance = 0;                ///< (odd - even) / (odd + even) of the rows' light
  double scale = 0;                  ///< photo pixels per p
  double tilt_deg = 0;
  int edges = 0, rows = 0;  ///< that were measured
};

/// Measures a close-up in which at least two by two tiles of the edge page can be seen upright.
/// fails: not that page, picture mirrored or turned, too far off, clipped, blurred, exposure that
/// caught one sub-frame more than the other.
/// cost: 250 ms for 12 megapixels
Result<EdgeReading> measure_edge_page(const Photo& photo);

}  // namespace benchgraft::align
