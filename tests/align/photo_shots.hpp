// Test photos: pages drawn by the program, photographed by the renderer.
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>

#include <gtest/gtest.h>

#include "align/pattern_page.hpp"
#include "align/photo_read.hpp"
#include "align/photo_screen.hpp"
#include "support/renderer.hpp"

namespace benchgraft::align {

inline renderer::Sheet sheet_of(Page page, int width = 1920, int height = 1080) {
  auto drawn = draw_page(page, width, height);
  EXPECT_TRUE(drawn.ok());
  return {width, height, std::move(drawn.value().rgb)};
}

/// A phone small enough for tests to be quick.
inline renderer::Phone small_phone() {
  renderer::Phone phone;
  phone.width = 1200;
  phone.height = 900;
  return phone;
}

inline Photo photo_of(const std::string& file) {
  auto photo = read_photo(file, "test photo");
  EXPECT_TRUE(photo.ok()) << (photo.ok() ? "" : photo.error().message);
  return std::move(photo).value();
}

inline Photo shot_of(Page page, const renderer::Phone& phone, const renderer::Room& room = {},
                     double delay_deg = 0, std::uint64_t seed = 1) {
  return photo_of(
      renderer::photograph(sheet_of(page), renderer::Wheel{}, delay_deg, phone, room, seed));
}

/// A photo painted by hand, all of one code value to begin with.
inline Photo painted(int width, int height, std::uint8_t value) {
  Photo photo;
  photo.width = width;
  photo.height = height;
  photo.code.assign(
      std::size_t{3} * static_cast<std::size_t>(width) * static_cast<std::size_t>(height), value);
  return photo;
}

inline void paint(Photo& photo, int left, int top, int right, int bottom, std::uint8_t value) {
  for (int y = top; y < bottom; ++y)
    for (int x = left; x < right; ++x)
      for (int c = 0; c < 3; ++c)
        photo.code[3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(photo.width) +
                        static_cast<std::size_t>(x)) +
                   static_cast<std::size_t>(c)] = value;
}

/// A camera spreads every colour: a slow slope and a little noise.
inline void grain(Photo& photo, std::uint64_t seed = 1) {
  renderer::Dice dice(seed);
  for (std::size_t i = 0; i < photo.code.size(); ++i) {
    const double x =
        static_cast<double>(i / 3 % static_cast<std::size_t>(photo.width)) / photo.width;
    photo.code[i] = static_cast<std::uint8_t>(
        std::clamp(photo.code[i] * (1 - 0.1 * x) + dice.between(-3, 3), 0.0, 255.0));
  }
}

}  // namespace benchgraft::align
