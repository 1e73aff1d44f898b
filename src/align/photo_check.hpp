// Whether a photo of a whole test page can carry the answer, and how to take a better one.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "align/photo_read.hpp"
#include "align/photo_screen.hpp"

namespace benchgraft::align {

enum class PhotoFault { too_bright, too_dark, blurred, noisy, rippled, striped, short_exposure };

struct PhotoRemark {
  PhotoFault fault = PhotoFault::too_bright;
  bool spoils = false;   ///< no number may be taken from the photo; else it only widens the error
  std::string sentence;  ///< what is wrong and what to do about it
};

/// Measured on the white that every page photographed whole has along its edge.
struct PhotoQuality {
  double white = 0;       ///< brightest channel, 1 is the end of the scale
  double clipped = 0;     ///< share of that white at the end of the scale
  double edge_width = 0;  ///< 10 to 90 % of the screen's edge, share of its width
  double noise = 0;       ///< deviation from pixel to pixel over the level
  double ripple = 0;      ///< strongest wave along the white, amplitude over the level (moire)
  double stripes = 0;     ///< strongest wave that runs with the photo's rows on both sides alike
  std::optional<double> frames;  ///< exposure in frames of the picture, when the camera wrote it
  std::vector<PhotoRemark> remarks;
  [[nodiscard]] bool usable() const;
};

/// `frame`: how long the set shows one frame. A set shows its colours one after another, so an
/// exposure must hold 8 frames or a whole number of them.
/// cost: 15 ms
PhotoQuality check_photo(const Photo& photo, const Screen& screen, Seconds frame = {1.0 / 60});

}  // namespace benchgraft::align
