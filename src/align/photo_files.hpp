// JPEG and PNG bytes to pixels and back, without a word printed.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace benchgraft::align {

/// 8-bit pixels, blue, green, red, row by row.
struct PixelBlock {
  int width = 0, height = 0;
  std::vector<std::uint8_t> bgr;
};

/// Nothing when the bytes are damaged anywhere.
std::optional<PixelBlock> jpeg_pixels(std::string_view file);
std::optional<PixelBlock> png_pixels(std::string_view file);
/// The same pixels give the same bytes.
std::optional<std::string> png_file(const PixelBlock& pixels);

}  // namespace benchgraft::align
