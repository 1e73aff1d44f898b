#include "align/centring.hpp"

#include <cmath>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace benchgraft::align {
namespace {

using ::testing::HasSubstr;

constexpr ScreenSize kScreen{1107, 623};  // 50 inches, in millimetres

/// Nine points of a grid at 80 % of the screen, moved by `where`.
template <class Where>
std::vector<SpotPair> grid(Where where) {
  std::vector<SpotPair> points;
  for (const double x : {-0.4, 0.0, 0.4})
    for (const double y : {-0.4, 0.0, 0.4}) {
      const Spot wanted{x * kScreen.width, y * kScreen.height};
      points.push_back({wanted, where(wanted)});
    }
  return points;
}

TEST(Centring, of_a_right_picture_is_nothing_to_do) {
  const Centring found = centring_of(grid([](Spot at) { return at; }), kScreen).value();
  EXPECT_NEAR(found.left_over, 0, 1e-9);
  EXPECT_TRUE(corrections(found, kScreen, "mm").empty());
}

// A picture turned, stretched and moved by geometry of its own.
RC_GTEST_PROP(Centring, finds_what_was_done_to_the_picture, ()) {
  const auto part = [](int least, int most) { return *rc::gen::inRange(least, most + 1) / 10.0; };
  const double right = part(-300, 300), up = part(-300, 300), turn = part(-30, 30);
  const double wide = 1 + part(-10, 10) / 10, tall = 1 + part(-10, 10) / 10;
  const double angle = turn * 3.14159265358979 / 180;
  const auto points = grid([&](Spot at) {
    const double x = wide * at.x, y = tall * at.y;
    return Spot{right + std::cos(angle) * x - std::sin(angle) * y,
                up + std::sin(angle) * x + std::cos(angle) * y};
  });
  const Centring found = centring_of(points, kScreen).value();
  RC_ASSERT(std::abs(found.left_right - right) < 1e-6);
  RC_ASSERT(std::abs(found.up_down - up) < 1e-6);
  RC_ASSERT(std::abs(found.size_x - wide) < 1e-9);
  RC_ASSERT(std::abs(found.size_y - tall) < 1e-9);
  RC_ASSERT(std::abs(found.turn_degrees - turn) < 1e-6);
  RC_ASSERT(std::abs(found.lean_degrees) < 1e-6);
  RC_ASSERT(found.left_over < 1e-6);
}

// A true projection, as a projector tilted up by a little makes it: keystone is found to first
// order.
TEST(Centring, finds_the_keystone_of_a_tilted_projector) {
  for (const double tilt : {-0.04, 0.02, 0.04}) {
    const auto points = grid([&](Spot at) {
      const double far = 1 + tilt * at.y / (kScreen.height / 2);
      return Spot{at.x * far, at.y * far};
    });
    const Centring found = centring_of(points, kScreen).value();
    EXPECT_NEAR(found.keystone_x, tilt, 0.002) << tilt;
    EXPECT_NEAR(found.keystone_y, 0, 0.002) << tilt;
    EXPECT_NEAR(found.turn_degrees, 0, 0.01) << tilt;
  }
}

TEST(Centring, says_what_each_service_value_should_change) {
  const auto points = grid([](Spot at) { return Spot{12 + 1.03 * at.x, -8 + 0.98 * at.y}; });
  const Centring found = centring_of(points, kScreen).value();
  const StepEffect effect = effect_of("left-right place", 10, 12, 14, 4).value();
  EXPECT_NEAR(effect.per_step, -2, 1e-12);
  const auto todo = corrections(found, kScreen, "mm", 0.004, std::array{effect});
  ASSERT_EQ(todo.size(), 4U);
  EXPECT_EQ(todo[0].sentence, "width: 2.9 % narrower.");
  EXPECT_EQ(todo[1].sentence, "height: 2.0 % taller.");
  EXPECT_EQ(todo[2].sentence, "left-right place: 12.0 mm to the left. That is +6 steps.");
  EXPECT_EQ(todo[3].sentence, "up-down place: 8.0 mm up.");
}

TEST(Centring, turns_before_it_moves) {
  const auto points = grid([](Spot at) {
    return Spot{20 + at.x - 0.03 * at.y, 0.03 * at.x + at.y};
  });
  const auto todo = corrections(centring_of(points, kScreen).value(), kScreen, "mm");
  ASSERT_EQ(todo.size(), 2U);
  EXPECT_EQ(todo[0].sentence, "turn of the picture: 1.7 degrees clockwise.");
  EXPECT_EQ(todo[1].what, "left-right place");
}

TEST(Centring, refuses_points_that_do_not_carry_the_answer) {
  const auto told = [](const std::vector<SpotPair>& points) {
    const auto found = centring_of(points, kScreen);
    return found.ok() ? "" : found.error().message;
  };
  EXPECT_THAT(told({}), HasSubstr("at least four"));
  EXPECT_THAT(told(std::vector<SpotPair>(6, {{1, 1}, {1, 1}})), HasSubstr("in one line"));
  EXPECT_THAT(told(grid([](Spot at) {
                return Spot{-at.x, at.y};
              })),
              HasSubstr("put the picture flip right first"));
  EXPECT_THAT(told(grid([](Spot) { return Spot{std::nan(""), 0}; })), HasSubstr("no place"));
  EXPECT_FALSE(centring_of(grid([](Spot at) { return at; }), {0, 5}).ok());
  EXPECT_FALSE(effect_of("width", 3, 1, 3, 2).ok());
  EXPECT_THAT(effect_of("width", 3, 1, 4, 1).error().message, HasSubstr("changed nothing"));
}

}  // namespace
}  // namespace benchgraft::align
