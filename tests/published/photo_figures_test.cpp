// Photos and edges whose answers were known before this program was written.
// Sources: tests/published/exif/README.md and tests/published/images/README.md.
#include <array>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>
#include <utility>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "align/photo_edge.hpp"
#include "align/photo_exif.hpp"
#include "align/photo_read.hpp"
#include "align/photo_screen.hpp"

namespace benchgraft::align {
namespace {

std::string bytes_of(const std::string& name) {
  std::ifstream file(std::string(BENCHGRAFT_SOURCE_DIR) + "/tests/published/" + name,
                     std::ios::binary);
  std::stringstream all;
  all << file.rdbuf();
  EXPECT_FALSE(all.str().empty()) << name;
  return all.str();
}

Photo photo_of(const std::string& name) {
  auto photo = read_photo(bytes_of(name), name);
  EXPECT_TRUE(photo.ok()) << name;
  return std::move(photo).value();
}

/// Mean code values, red, green, blue.
std::array<double, 3> mean_of(const Photo& photo, int left, int top, int right, int bottom) {
  std::array<double, 3> sum{};
  for (int y = top; y < bottom; ++y)
    for (int x = left; x < right; ++x)
      for (std::size_t c = 0; c < 3; ++c) sum[c] += photo.pixel(x, y)[2 - c];
  for (double& value : sum) value /= (right - left) * static_cast<double>(bottom - top);
  return sum;
}

TEST(PublishedPhotos, stand_upright_whatever_their_camera_record_says) {
  const Photo upright = photo_of("exif/Landscape_1.jpg");
  ASSERT_EQ(upright.width, 1800);
  ASSERT_EQ(upright.height, 1200);
  for (const int tag : {3, 6, 8}) {
    const std::string name = "exif/Landscape_" + std::to_string(tag) + ".jpg";
    EXPECT_EQ(read_exif(bytes_of(name)).orientation, tag);
    const Photo photo = photo_of(name);
    ASSERT_EQ(photo.width, 1800) << tag;
    ASSERT_EQ(photo.height, 1200) << tag;
    // Stored turned and coded anew, so not bit for bit; ignoring the tag gives 40 and more.
    double sum = 0;
    for (std::size_t i = 0; i < photo.code.size(); ++i)
      sum += std::abs(int{photo.code[i]} - int{upright.code[i]});
    EXPECT_LT(sum / static_cast<double>(photo.code.size()), 8) << tag;
  }
}

TEST(PublishedPhotos, show_no_screen_when_they_show_a_landscape) {
  const auto screen = find_screen(photo_of("exif/Landscape_1.jpg"));
  EXPECT_FALSE(screen.ok());
}

TEST(PublishedPhotos, keep_the_colours_of_a_published_colour_wheel) {
  // Mean code values of its three sectors, as another decoder gave them.
  const Photo photo = photo_of("images/wheel_rgb_dull_orient6.jpg");
  EXPECT_EQ(read_exif(bytes_of("images/wheel_rgb_dull_orient6.jpg")).orientation, 6);
  const std::array<std::array<double, 3>, 3> wanted{{{201, 40, 30}, {30, 170, 61}, {41, 50, 191}}};
  int found = 0;
  for (const auto& colour : wanted) {
    bool seen = false;
    for (int y = 20; y + 20 < photo.height && !seen; y += 10)
      for (int x = 20; x + 20 < photo.width && !seen; x += 10) {
        const auto mean = mean_of(photo, x - 8, y - 8, x + 8, y + 8);
        seen = std::abs(mean[0] - colour[0]) < 2 && std::abs(mean[1] - colour[1]) < 2 &&
               std::abs(mean[2] - colour[2]) < 2;
      }
    found += seen;
  }
  EXPECT_EQ(found, 3);
}

/// The grey values themselves: the pictures were made in them.
LevelPicture grey_of(const std::string& name) {
  const Photo photo = photo_of(name);
  LevelPicture picture{photo.width, photo.height, {}};
  for (std::size_t i = 0; i < photo.code.size(); i += 3) picture.level.push_back(photo.code[i]);
  return picture;
}

struct KnownEdge {
  const char* name;
  double deviation, angle, other_library;
};
constexpr KnownEdge kEdges[] = {
    {"edge_straight_5deg", 0.0, 5.0, 0.0665},
    {"edge_sine_A2_L40", 1.413944, -0.00342, 1.3852},
    {"edge_saw_A4_L80", 2.306333, 0.01432, 2.2937},
    {"edge_random_sd1p25", 1.224404, 2.53048, 1.2263},
};

TEST(PublishedEdges, have_the_raggedness_of_the_formula_they_were_drawn_from) {
  for (const KnownEdge& edge : kEdges) {
    const auto found = edge_raggedness(grey_of(std::string("images/") + edge.name + ".png"), 0.60);
    ASSERT_TRUE(found.ok()) << edge.name;
    EXPECT_NEAR(found.value().deviation, edge.deviation, 0.07 + 0.01 * edge.deviation) << edge.name;
    EXPECT_NEAR(found.value().angle_deg, edge.angle, 0.01) << edge.name;
  }
}

TEST(PublishedEdges, agree_with_the_contours_of_another_library) {
  for (const KnownEdge& edge : kEdges) {
    const auto found = edge_raggedness(grey_of(std::string("images/") + edge.name + ".png"), 0.50);
    ASSERT_TRUE(found.ok()) << edge.name;
    EXPECT_NEAR(found.value().deviation, edge.other_library, 0.05) << edge.name;
  }
}

}  // namespace
}  // namespace benchgraft::align
