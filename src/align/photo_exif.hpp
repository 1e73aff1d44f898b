// What a camera writes beside the picture, as far as adjusting needs it.
#pragma once

#include <optional>
#include <string_view>

#include "base/units.hpp"

namespace benchgraft::align {

struct ExifFacts {
  int orientation = 1;  ///< 1..8; 1 (upright) when nothing usable is written
  std::optional<Seconds> exposure;
  bool present = false;  ///< the file holds a readable camera record
};

/// Reads orientation and exposure time out of a JPEG or PNG file. Bad or missing records give the
/// defaults: they never spoil a photo that can be seen.
/// Source: CIPA DC-008 (Exif 2.3), TIFF 6.0.
ExifFacts read_exif(std::string_view file);

}  // namespace benchgraft::align
