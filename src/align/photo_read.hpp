// A photo of a screen as it comes from the phone: turned upright, ready to be read in linear light.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "base/units.hpp"

namespace benchgraft::align {

/// Red, green and blue light, linear; 1 is the most the picture can hold.
using PixelLight = std::array<float, 3>;

/// The upright photo. It keeps the 8-bit code values, three bytes a pixel, blue first, row by row;
/// `at` gives them as linear light.
struct Photo {
  int width = 0, height = 0;
  std::vector<std::uint8_t> code;
  std::optional<Seconds> exposure;  ///< as the camera wrote it
  bool from_camera = false;         ///< the file carries a camera record

  [[nodiscard]] const std::uint8_t* pixel(int x, int y) const {
    return code.data() + 3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                              static_cast<std::size_t>(x));
  }
  [[nodiscard]] PixelLight at(int x, int y) const;
};

/// Linear light of each 8-bit code value. Source: IEC 61966-2-1 (sRGB).
const std::array<float, 256>& linear_light();

/// Decodes a JPEG or PNG file and turns it upright as its camera record says.
/// fails: another sort of file, cut short, damaged, too large; `name` stands in the sentence.
Result<Photo> read_photo(std::string_view file, std::string_view name);

}  // namespace benchgraft::align
