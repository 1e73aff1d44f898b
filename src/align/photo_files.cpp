#include "align/photo_files.hpp"

#include <memory>

#include <png.h>
#include <turbojpeg.h>

namespace benchgraft::align {
namespace {

std::size_t bytes_of(int width, int height) {
  return std::size_t{3} * static_cast<std::size_t>(width) * static_cast<std::size_t>(height);
}

}  // namespace

std::optional<PixelBlock> jpeg_pixels(std::string_view file) {
  const std::unique_ptr<void, int (*)(void*)> decoder(tjInitDecompress(), tjDestroy);
  const auto* bytes = reinterpret_cast<const unsigned char*>(file.data());
  PixelBlock block;
  int sampling = 0, colours = 0;
  if (!decoder || tjDecompressHeader3(decoder.get(), bytes, file.size(), &block.width,
                                      &block.height, &sampling, &colours) != 0)
    return std::nullopt;
  block.bgr.resize(bytes_of(block.width, block.height));
  // A damaged stretch would be read as colours: no picture is better than a wrong one.
  if (tjDecompress2(decoder.get(), bytes, file.size(), block.bgr.data(), block.width, 0,
                    block.height, TJPF_BGR, TJFLAG_STOPONWARNING | TJFLAG_LIMITSCANS) != 0)
    return std::nullopt;
  return block;
}

std::optional<PixelBlock> png_pixels(std::string_view file) {
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  if (png_image_begin_read_from_memory(&image, file.data(), file.size()) == 0) return std::nullopt;
  image.format = PNG_FORMAT_BGR;
  PixelBlock block{static_cast<int>(image.width), static_cast<int>(image.height), {}};
  block.bgr.resize(bytes_of(block.width, block.height));
  const png_color black{0, 0, 0};  // behind see-through pixels
  const bool read = png_image_finish_read(&image, &black, block.bgr.data(), 0, nullptr) != 0;
  png_image_free(&image);
  if (!read) return std::nullopt;
  return block;
}

std::optional<std::string> png_file(const PixelBlock& pixels) {
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  image.width = static_cast<png_uint_32>(pixels.width);
  image.height = static_cast<png_uint_32>(pixels.height);
  image.format = PNG_FORMAT_BGR;
  png_alloc_size_t size = PNG_IMAGE_PNG_SIZE_MAX(image);
  std::string file(size, '\0');
  if (png_image_write_to_memory(&image, file.data(), &size, 0, pixels.bgr.data(), 0, nullptr) == 0)
    return std::nullopt;
  file.resize(size);
  return file;
}

}  // namespace benchgraft::align
