#include "align/photo_read.hpp"

#include <array>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "align/pattern_page.hpp"
#include "align/photo_exif.hpp"
#include "photo_shots.hpp"

namespace benchgraft::align {
namespace {

using testing::HasSubstr;

/// A camera record in either byte order: orientation, and exposure `above` / `below`.
std::string record(bool big, int orientation, std::uint32_t above, std::uint32_t below) {
  std::string text = big ? std::string("MM\0*", 4) : std::string("II*\0", 4);
  const auto put = [&](std::uint32_t value, int bytes) {
    for (int i = 0; i < bytes; ++i)
      text += static_cast<char>(value >> (8 * (big ? bytes - 1 - i : i)) & 0xFF);
  };
  put(8, 4);
  put(2, 2);
  put(0x0112, 2), put(3, 2), put(1, 4), put(static_cast<std::uint32_t>(orientation), 2), put(0, 2);
  put(0x8769, 2), put(4, 2), put(1, 4), put(38, 4);
  put(0, 4);
  put(1, 2);
  put(0x829A, 2), put(5, 2), put(1, 4), put(56, 4);
  put(0, 4);
  put(above, 4), put(below, 4);
  return text;
}

std::string jpeg_with(const std::string& tiff) {
  const std::string body = std::string("Exif\0\0", 6) + tiff;
  std::string file("\xFF\xD8\xFF\xE1", 4);
  file += static_cast<char>((body.size() + 2) >> 8);
  file += static_cast<char>((body.size() + 2) & 0xFF);
  return file + body + std::string("\xFF\xD9", 2);
}

TEST(Exif, reads_orientation_and_exposure_in_both_byte_orders) {
  for (const bool big : {true, false}) {
    const auto facts = read_exif(jpeg_with(record(big, 6, 1, 8)));
    EXPECT_TRUE(facts.present);
    EXPECT_EQ(facts.orientation, 6);
    ASSERT_TRUE(facts.exposure.has_value());
    EXPECT_DOUBLE_EQ(facts.exposure->value, 0.125);
  }
}

TEST(Exif, takes_the_photo_for_upright_when_the_orientation_is_none) {
  EXPECT_EQ(read_exif(jpeg_with(record(true, 9, 1, 8))).orientation, 1);
  EXPECT_EQ(read_exif(jpeg_with(record(true, 0, 1, 8))).orientation, 1);
}

TEST(Exif, gives_no_exposure_for_a_division_by_nothing) {
  EXPECT_FALSE(read_exif(jpeg_with(record(false, 1, 1, 0))).exposure.has_value());
}

TEST(Exif, finds_nothing_in_a_file_without_a_record) {
  const auto facts = read_exif(page_png(Page::white, 320, 180).value());
  EXPECT_FALSE(facts.present);
  EXPECT_EQ(facts.orientation, 1);
}

RC_GTEST_PROP(Exif, survives_any_byte_changed_and_any_cut, (std::uint32_t seed)) {
  std::string file = jpeg_with(record(seed % 2 == 0, 6, 1, 8));
  renderer::Dice dice(seed);
  for (int k = 0; k < 3; ++k) file[dice.bits() % file.size()] = static_cast<char>(dice.bits());
  file.resize(dice.bits() % (file.size() + 1));
  const auto facts = read_exif(file);
  RC_ASSERT(facts.orientation >= 1 && facts.orientation <= 8);
  RC_ASSERT(!facts.exposure || facts.exposure->value > 0);
}

TEST(PhotoRead, gives_linear_light_of_srgb_code_values) {
  // IEC 61966-2-1: code 188 of 255 is 0.5029 linear, code 10 lies on the straight part.
  EXPECT_NEAR(linear_light()[188], 0.50289, 1e-5);
  EXPECT_NEAR(linear_light()[10], 10 / 255.0 / 12.92, 1e-7);
  EXPECT_FLOAT_EQ(linear_light()[255], 1.0F);
}

TEST(PhotoRead, reads_colours_in_the_order_red_green_blue) {
  const Photo photo = photo_of(page_png(Page::index_bars, 640, 360).value());
  const int y = 140;
  EXPECT_THAT(photo.at(140, y), testing::ElementsAre(1, 0, 0));
  EXPECT_THAT(photo.at(320, y), testing::ElementsAre(0, 1, 0));
  EXPECT_THAT(photo.at(500, y), testing::ElementsAre(0, 0, 1));
}

TEST(PhotoRead, turns_a_photo_upright_and_keeps_its_exposure) {
  renderer::Phone phone = small_phone();
  phone.exposure_s = 0.125;
  for (const int orientation : {1, 3, 6, 8}) {
    phone.orientation = orientation;
    const Photo photo = shot_of(Page::glyph, phone);
    EXPECT_EQ(photo.width, 1200) << orientation;
    EXPECT_EQ(photo.height, 900) << orientation;
    ASSERT_TRUE(photo.exposure.has_value());
    EXPECT_NEAR(photo.exposure->value, 0.125, 1e-6);
    EXPECT_TRUE(find_screen(photo).ok()) << orientation;
  }
}

TEST(PhotoRead, refuses_a_photo_that_was_cut_short) {
  const std::string file = renderer::photograph(sheet_of(Page::white), renderer::Wheel{}, 0,
                                                small_phone(), renderer::Room{}, 1);
  for (const double share : {0.3, 0.7, 0.99}) {
    const auto photo = read_photo(
        file.substr(0, static_cast<std::size_t>(share * static_cast<double>(file.size()))),
        "bars.jpg");
    ASSERT_FALSE(photo.ok()) << share;
    EXPECT_EQ(photo.error().message,
              "bars.jpg: the photo is cut short; copy it from the phone again");
  }
}

TEST(PhotoRead, says_what_a_file_is_that_it_cannot_read) {
  const auto message = [](const std::string& file) {
    const auto photo = read_photo(file, "a");
    return photo.ok() ? std::string("read") : photo.error().message;
  };
  EXPECT_THAT(message(""), HasSubstr("the file is empty"));
  EXPECT_THAT(message("abc"), HasSubstr("neither a JPEG nor a PNG"));
  EXPECT_THAT(message("\xFF\xD8\xFF"), HasSubstr("cut short"));
  EXPECT_THAT(message("\x89PNG\r\n\x1A\n"), HasSubstr("cut short"));
  EXPECT_THAT(message("GIF89a and so on"), HasSubstr("neither a JPEG nor a PNG"));
  EXPECT_THAT(message(std::string("\0\0\0\x18"
                                  "ftypheic",
                                  12)),
              HasSubstr("set the phone's camera to JPEG"));
}

TEST(PhotoRead, refuses_a_picture_larger_than_any_phone_makes_before_unpacking_it) {
  std::string file = page_png(Page::white, 320, 180).value();
  file[16] = 0, file[17] = 1, file[18] = 0, file[19] = 0;  // width 65536
  file[20] = 0, file[21] = 1, file[22] = 0, file[23] = 0;
  const auto photo = read_photo(file, "huge.png");
  ASSERT_FALSE(photo.ok());
  EXPECT_THAT(photo.error().message, HasSubstr("65536 x 65536"));
}

RC_GTEST_PROP(PhotoRead, never_fails_on_damaged_bytes_without_a_sentence, (std::uint32_t seed)) {
  static const std::string kGood = [] {
    renderer::Phone phone;
    phone.width = 320;
    phone.height = 240;
    return renderer::photograph(sheet_of(Page::glyph, 640, 360), renderer::Wheel{}, 0, phone,
                                renderer::Room{}, 1);
  }();
  std::string file = kGood;
  renderer::Dice dice(seed);
  for (int k = 0; k < 8; ++k) file[dice.bits() % file.size()] = static_cast<char>(dice.bits());
  const auto photo = read_photo(file, "damaged");
  if (photo.ok())
    RC_ASSERT(photo.value().code.size() ==
              3u * static_cast<unsigned>(photo.value().width * photo.value().height));
  else
    RC_ASSERT(photo.error().message.find("damaged: ") == 0u);
}

}  // namespace
}  // namespace benchgraft::align
