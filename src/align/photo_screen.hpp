// Where the lit screen lies in a photo, by itself or by four touches.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "align/photo_geometry.hpp"
#include "align/photo_read.hpp"
#include "base/result.hpp"

namespace benchgraft::align {

/// Linear light, three numbers a pixel (red, green, blue), row by row.
struct LinearPicture {
  int width = 0, height = 0;
  std::vector<float> light;
  [[nodiscard]] PixelLight at(int x, int y) const {
    const auto i = 3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                        static_cast<std::size_t>(x));
    return {light[i], light[i + 1], light[i + 2]};
  }
};

/// The lit screen in a photo. Screen points are shares of its width and height (0..1).
struct Screen {
  Quad corners;         ///< as seen in the photo
  Homography to_ideal;  ///< screen -> photo without lens curve
  Lens lens;
  double side_bend = 0;   ///< rms distance of the sides from straight lines left over, pixels
  double edge_width = 0;  ///< 10 to 90 % width of the lit edge, pixels; 0 after touches
  bool touched = false;

  [[nodiscard]] Point in_photo(Point on_screen) const { return lens.seen(to_ideal(on_screen)); }
  [[nodiscard]] Point on_screen(Point in_photo) const {
    return to_ideal.inverse()(lens.ideal(in_photo));
  }
};

/// Finds the one lit screen.
/// fails: no lit four-sided screen, two of them, cut off, too small, a screenshot, too skew.
/// cost: 30 ms for 12 megapixels
Result<Screen> find_screen(const Photo& photo);

/// Takes the corners from touches, in any order.
/// fails: not four corners of a screen, outside the photo, too small.
Result<Screen> screen_from_touches(const Photo& photo, const Quad& touches);

/// The screen seen from straight ahead, `width` pixels wide, in linear light.
LinearPicture straightened(const Photo& photo, const Screen& screen, int width, int height);

/// PixelLight at a place between pixels (pixel middles at whole numbers); 0 outside the photo.
PixelLight light_at(const Photo& photo, Point place);

}  // namespace benchgraft::align
