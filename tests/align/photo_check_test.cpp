#include "align/photo_check.hpp"

#include <algorithm>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "photo_shots.hpp"

namespace benchgraft::align {
namespace {

PhotoQuality quality_of(const renderer::Phone& phone, const renderer::Room& room = {},
                        Page page = Page::index_bars) {
  const Photo photo = shot_of(page, phone, room);
  const auto screen = find_screen(photo);
  EXPECT_TRUE(screen.ok()) << (screen.ok() ? "" : screen.error().message);
  return check_photo(photo, screen.value());
}

/// The remark about `fault`, or an empty one.
PhotoRemark about(const PhotoQuality& quality, PhotoFault fault) {
  const auto found = std::find_if(quality.remarks.begin(), quality.remarks.end(),
                                  [&](const PhotoRemark& r) { return r.fault == fault; });
  return found == quality.remarks.end() ? PhotoRemark{} : *found;
}

TEST(PhotoCheck, has_nothing_to_say_against_a_good_photo) {
  renderer::Dice dice(21);
  for (const Page page : {Page::index_bars, Page::white, Page::glyph, Page::grid})
    for (int k = 0; k < 2; ++k) {
      renderer::Phone phone = renderer::some_phone(dice);
      phone.width = 1200;
      phone.height = 900;
      const auto quality = quality_of(phone, renderer::some_room(dice), page);
      EXPECT_TRUE(quality.remarks.empty())
          << page_word(page) << ": " << quality.remarks.front().sentence;
    }
}

TEST(PhotoCheck, refuses_a_clipped_photo) {
  renderer::Phone phone = small_phone();
  phone.exposure = 1.6;
  const auto quality = quality_of(phone);
  EXPECT_FALSE(quality.usable());
  EXPECT_EQ(about(quality, PhotoFault::too_bright).sentence,
            "the photo is too bright: 100 % of the screen's white is clipped; make the exposure "
            "darker by one or two steps");
}

TEST(PhotoCheck, refuses_a_photo_in_the_dark) {
  renderer::Phone phone = small_phone();
  phone.exposure = 0.03;
  const auto quality = quality_of(phone);
  EXPECT_FALSE(quality.usable());
  EXPECT_TRUE(about(quality, PhotoFault::too_dark).spoils);
}

TEST(PhotoCheck, says_how_blurred_a_photo_is) {
  renderer::Phone phone = small_phone();
  phone.blur = 6;
  EXPECT_THAT(about(quality_of(phone), PhotoFault::blurred).sentence,
              testing::HasSubstr("touch the screen in its picture to focus"));
  phone.blur = 10;
  EXPECT_TRUE(about(quality_of(phone), PhotoFault::blurred).spoils);
}

TEST(PhotoCheck, sees_noise) {
  renderer::Phone phone = small_phone();
  phone.full_well = 60;
  phone.read_noise = 5;
  EXPECT_THAT(about(quality_of(phone), PhotoFault::noisy).sentence,
              testing::HasSubstr("lower sensitivity"));
}

TEST(PhotoCheck, sees_moire) {
  renderer::Room room;
  room.pixel_grid = 0.9;
  renderer::Phone phone = small_phone();
  phone.fill = 0.78;  // 1.95 photo pixels to one image pixel
  EXPECT_THAT(about(quality_of(phone, room), PhotoFault::rippled).sentence,
              testing::HasSubstr("moire"));
}

TEST(PhotoCheck, sees_the_stripes_of_a_short_exposure_even_without_a_camera_record) {
  renderer::Phone phone = small_phone();
  phone.exposure_s = 1.0 / 500;
  phone.exposure = 0.4;
  phone.camera_record = false;
  const auto quality = quality_of(phone);
  EXPECT_FALSE(quality.frames.has_value());
  EXPECT_TRUE(about(quality, PhotoFault::striped).spoils);
  EXPECT_FALSE(quality.usable());
}

TEST(PhotoCheck, counts_the_frames_in_the_exposure) {
  renderer::Phone phone = small_phone();
  const Photo photo = shot_of(Page::white, phone);
  const auto screen = find_screen(photo);
  ASSERT_TRUE(screen.ok());
  const auto remark = [&](double seconds) {
    Photo other = photo;
    other.exposure = Seconds{seconds};
    return about(check_photo(other, screen.value()), PhotoFault::short_exposure);
  };
  EXPECT_EQ(remark(0.2).sentence, "");       // 12 frames
  EXPECT_EQ(remark(1.0 / 60).sentence, "");  // one frame
  EXPECT_EQ(remark(3.0 / 60).sentence, "");  // three
  EXPECT_FALSE(remark(2.5 / 60).spoils);
  EXPECT_THAT(remark(2.5 / 60).sentence, testing::HasSubstr("2.5 frames"));
  EXPECT_TRUE(remark(1.0 / 200).spoils);
}

}  // namespace
}  // namespace benchgraft::align
