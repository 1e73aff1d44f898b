#include "align/photo_exif.hpp"

#include <cstddef>
#include <cstdint>

namespace benchgraft::align {
namespace {

constexpr std::string_view kJpegStart = "\xFF\xD8";
constexpr std::string_view kPngStart = "\x89PNG\r\n\x1A\n";
constexpr std::string_view kExifName{"Exif\0\0", 6};
constexpr std::uint32_t kOrientation = 0x0112, kCameraRecord = 0x8769, kExposureTime = 0x829A;
constexpr std::uint32_t kShort = 3, kLong = 4, kRational = 5;

/// Numbers out of a TIFF block; a place outside the block reads as nothing.
class TiffBlock {
 public:
  explicit TiffBlock(std::string_view bytes) : bytes_(bytes) {
    if (bytes_.substr(0, 4) == std::string_view("II*\0", 4)) order_ = Order::little;
    if (bytes_.substr(0, 4) == std::string_view("MM\0*", 4)) order_ = Order::big;
  }

  [[nodiscard]] bool good() const { return order_ != Order::unknown; }

  [[nodiscard]] std::optional<std::uint32_t> number(std::size_t at, std::size_t size) const {
    if (at > bytes_.size() || bytes_.size() - at < size) return std::nullopt;
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < size; ++i) {
      const std::size_t place = order_ == Order::big ? at + i : at + size - 1 - i;
      value = value << 8 | static_cast<unsigned char>(bytes_[place]);
    }
    return value;
  }

  struct Entry {
    std::uint32_t type = 0;
    std::size_t value_at = 0;  ///< of the four bytes that hold the value or its offset
  };

  /// The entry `tag` of the directory at `at`.
  [[nodiscard]] std::optional<Entry> entry(std::size_t at, std::uint32_t tag) const {
    const auto count = number(at, 2);
    for (std::uint32_t i = 0; count && i < *count; ++i) {
      const std::size_t here = at + 2 + std::size_t{12} * i;
      const auto found = number(here, 2);
      if (!found) return std::nullopt;
      if (*found == tag) return Entry{number(here + 2, 2).value_or(0), here + 8};
    }
    return std::nullopt;
  }

 private:
  enum class Order { unknown, little, big };
  std::string_view bytes_;
  Order order_ = Order::unknown;
};

/// A big-endian number of a JPEG or PNG header.
std::size_t big_number(std::string_view bytes, std::size_t at, std::size_t size) {
  std::size_t value = 0;
  for (std::size_t i = 0; i < size; ++i)
    value = value << 8 | static_cast<unsigned char>(bytes[at + i]);
  return value;
}

std::string_view exif_of_jpeg(std::string_view file) {
  std::size_t at = 2;
  while (at + 4 <= file.size() && file[at] == '\xFF') {
    const auto marker = static_cast<unsigned char>(file[at + 1]);
    if (marker == 0xDA || marker == 0xD9) break;  // the picture begins; nothing of use follows
    const std::size_t length = big_number(file, at + 2, 2);
    if (length < 2 || file.size() - at - 2 < length) break;
    const auto body = file.substr(at + 4, length - 2);
    if (marker == 0xE1 && body.substr(0, kExifName.size()) == kExifName)
      return body.substr(kExifName.size());
    at += 2 + length;
  }
  return {};
}

std::string_view exif_of_png(std::string_view file) {
  std::size_t at = kPngStart.size();
  while (at + 12 <= file.size()) {
    const std::size_t length = big_number(file, at, 4);
    if (file.size() - at - 12 < length) break;
    if (file.substr(at + 4, 4) == "eXIf") return file.substr(at + 8, length);
    at += 12 + length;
  }
  return {};
}

std::optional<Seconds> exposure_in(const TiffBlock& block, std::size_t record) {
  const auto entry = block.entry(record, kExposureTime);
  if (!entry || entry->type != kRational) return std::nullopt;
  const auto at = block.number(entry->value_at, 4);
  if (!at) return std::nullopt;
  const auto above = block.number(*at, 4);
  const auto below = block.number(std::size_t{*at} + 4, 4);
  if (!above || !below || *above == 0 || *below == 0) return std::nullopt;
  return Seconds{static_cast<double>(*above) / *below};
}

}  // namespace

ExifFacts read_exif(std::string_view file) {
  ExifFacts facts;
  std::string_view bytes;
  if (file.substr(0, 2) == kJpegStart) bytes = exif_of_jpeg(file);
  if (file.substr(0, kPngStart.size()) == kPngStart) bytes = exif_of_png(file);
  const TiffBlock block(bytes);
  const auto first = block.good() ? block.number(4, 4) : std::nullopt;
  if (!first) return facts;
  facts.present = true;
  if (const auto entry = block.entry(*first, kOrientation); entry && entry->type == kShort) {
    const auto value = block.number(entry->value_at, 2).value_or(1);
    if (value >= 1 && value <= 8) facts.orientation = static_cast<int>(value);
  }
  if (const auto entry = block.entry(*first, kCameraRecord); entry && entry->type == kLong)
    if (const auto record = block.number(entry->value_at, 4))
      facts.exposure = exposure_in(block, *record);
  return facts;
}

}  // namespace benchgraft::align
