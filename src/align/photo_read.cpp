#include "align/photo_read.hpp"

#include <cmath>
#include <string>

#include <fmt/format.h>
#include <opencv2/core.hpp>

#include "align/photo_exif.hpp"
#include "align/photo_files.hpp"

namespace benchgraft::align {
namespace {

constexpr std::size_t kLargest = 120'000'000;  // pixels: no phone makes more, and no memory suffers
constexpr std::string_view kJpegStart = "\xFF\xD8\xFF";
constexpr std::string_view kPngStart = "\x89PNG\r\n\x1A\n";

struct Size {
  std::size_t width = 0, height = 0;
};

Error refuse(std::string_view name, std::string_view why) {
  return {ErrorKind::bad_input, fmt::format("{}: {}", name, why)};
}

std::size_t number(std::string_view bytes, std::size_t at, std::size_t size) {
  std::size_t value = 0;
  for (std::size_t i = 0; i < size; ++i)
    value = value << 8 | static_cast<unsigned char>(bytes[at + i]);
  return value;
}

bool starts_frame(unsigned marker) {
  return marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC;
}

/// Size in the header of a JPEG, and whether the picture has its end mark.
/// The decoder gives a picture without an error when the file was cut short, so we look ourselves.
Result<Size> jpeg_size(std::string_view file, std::string_view name) {
  Size size;
  std::size_t at = 2;
  while (at + 4 <= file.size() && file[at] == '\xFF') {
    const auto marker = static_cast<unsigned char>(file[at + 1]);
    if (marker == 0xFF) {  // fill byte
      ++at;
      continue;
    }
    const std::size_t length = number(file, at + 2, 2);
    if (length < 2 || at + 2 + length > file.size()) break;
    if (starts_frame(marker) && length >= 7)
      size = {number(file, at + 7, 2), number(file, at + 5, 2)};
    at += 2 + length;
    if (marker != 0xDA) continue;
    if (file.find("\xFF\xD9", at) == std::string_view::npos) break;
    return size;
  }
  return refuse(name, "the photo is cut short; copy it from the phone again");
}

Result<Size> png_size(std::string_view file, std::string_view name) {
  if (file.size() < 24 || file.substr(12, 4) != "IHDR" ||
      file.find("IEND") == std::string_view::npos)
    return refuse(name, "the picture is cut short; copy it again");
  return Size{number(file, 16, 4), number(file, 20, 4)};
}

Result<Size> stated_size(std::string_view file, std::string_view name) {
  if (file.empty()) return refuse(name, "the file is empty");
  if (file.substr(0, kJpegStart.size()) == kJpegStart) return jpeg_size(file, name);
  if (file.substr(0, kPngStart.size()) == kPngStart) return png_size(file, name);
  if (file.size() > 8 && file.substr(4, 4) == "ftyp")
    return refuse(name,
                  "this sort of photo cannot be read; set the phone's camera to JPEG "
                  "(\"most compatible\") and take it again");
  return refuse(name, "this is neither a JPEG nor a PNG picture");
}

/// Turns and mirrors as the eight orientation values of the camera record ask.
void turn_upright(Photo& photo, int orientation) {
  if (orientation == 1) return;
  const cv::Mat stored(photo.height, photo.width, CV_8UC3, photo.code.data());
  cv::Mat upright;
  switch (orientation) {
    case 2:
      cv::flip(stored, upright, 1);
      break;
    case 3:
      cv::rotate(stored, upright, cv::ROTATE_180);
      break;
    case 4:
      cv::flip(stored, upright, 0);
      break;
    case 5:
      cv::transpose(stored, upright);
      break;
    case 6:
      cv::rotate(stored, upright, cv::ROTATE_90_CLOCKWISE);
      break;
    case 7:
      cv::transpose(stored, upright);
      cv::rotate(upright, upright, cv::ROTATE_180);
      break;
    default:
      cv::rotate(stored, upright, cv::ROTATE_90_COUNTERCLOCKWISE);
      break;
  }
  photo.width = upright.cols;
  photo.height = upright.rows;
  photo.code.assign(upright.datastart, upright.dataend);
}

std::array<float, 256> srgb_table() {
  std::array<float, 256> table{};
  for (std::size_t i = 0; i < table.size(); ++i) {
    const double code = static_cast<double>(i) / 255;
    table[i] =
        static_cast<float>(code <= 0.04045 ? code / 12.92 : std::pow((code + 0.055) / 1.055, 2.4));
  }
  return table;
}

}  // namespace

const std::array<float, 256>& linear_light() {
  static const std::array<float, 256> kTable = srgb_table();
  return kTable;
}

PixelLight Photo::at(int x, int y) const {
  const std::uint8_t* here = pixel(x, y);
  const auto& light = linear_light();
  return {light[here[2]], light[here[1]], light[here[0]]};
}

Result<Photo> read_photo(std::string_view file, std::string_view name) {
  if (file.size() > 0x7FFFFFFF) return refuse(name, "the file is larger than any photo");
  const auto size = stated_size(file, name);
  if (!size) return size.error();
  const std::size_t pixels = size.value().width * size.value().height;
  if (pixels > kLargest)
    return refuse(name, fmt::format("the picture has {} x {} pixels; take it with a phone, at most "
                                    "{} megapixels",
                                    size.value().width, size.value().height, kLargest / 1'000'000));
  const bool jpeg = file.substr(0, kJpegStart.size()) == kJpegStart;
  auto block = jpeg ? jpeg_pixels(file) : png_pixels(file);
  if (!block) return refuse(name, "the picture is damaged; copy it from the phone again");
  const ExifFacts facts = read_exif(file);
  Photo photo;
  photo.width = block->width;
  photo.height = block->height;
  photo.exposure = facts.exposure;
  photo.from_camera = facts.present;
  photo.code = std::move(block->bgr);
  turn_upright(photo, facts.orientation);
  return photo;
}

}  // namespace benchgraft::align
