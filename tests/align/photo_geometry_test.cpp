#include "align/photo_geometry.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include "support/renderer_light.hpp"

namespace benchgraft::align {
namespace {

Quad some_quad(renderer::Dice& dice) {
  Quad quad{Point{100, 80}, {900, 120}, {950, 700}, {60, 650}};
  for (Point& p : quad) p = p + Point{dice.between(-50, 50), dice.between(-50, 50)};
  return quad;
}

TEST(Geometry, carries_four_corners_exactly_and_back) {
  renderer::Dice dice(1);
  for (int k = 0; k < 50; ++k) {
    const Quad quad = some_quad(dice);
    const auto there = Homography::between(kUnitSquare, quad);
    ASSERT_TRUE(there.has_value());
    const Homography back = there->inverse();
    for (std::size_t i = 0; i < 4; ++i) {
      EXPECT_LT(length((*there)(kUnitSquare[i]) - quad[i]), 1e-8);
      EXPECT_LT(length(back(quad[i]) - kUnitSquare[i]), 1e-10);
    }
  }
}

TEST(Geometry, keeps_the_middle_of_a_square_where_its_diagonals_cross) {
  renderer::Dice dice(2);
  const Quad quad = some_quad(dice);
  const auto there = Homography::between(kUnitSquare, quad);
  const Line a{quad[0], (1 / length(quad[2] - quad[0])) * (quad[2] - quad[0])};
  const Line b{quad[1], (1 / length(quad[3] - quad[1])) * (quad[3] - quad[1])};
  EXPECT_LT(length((*there)({0.5, 0.5}) - *crossing(a, b)), 1e-8);
}

TEST(Geometry, finds_no_perspective_for_points_on_one_line) {
  const std::vector<Point> line{{0, 0}, {1, 1}, {2, 2}, {3, 3}};
  EXPECT_FALSE(Homography::between(line, line).has_value());
}

TEST(Geometry, takes_corners_in_any_order) {
  const Quad wanted{Point{10, 12}, {90, 5}, {95, 80}, {4, 70}};
  Quad given = wanted;
  std::size_t orders = 0;
  std::array<int, 4> order{0, 1, 2, 3};
  do {
    for (std::size_t i = 0; i < 4; ++i) given[i] = wanted[static_cast<std::size_t>(order[i])];
    const Quad found = in_order(given);
    for (std::size_t i = 0; i < 4; ++i) EXPECT_LT(length(found[i] - wanted[i]), 1e-12);
    ++orders;
  } while (std::next_permutation(order.begin(), order.end()));
  EXPECT_EQ(orders, 24u);
}

TEST(Geometry, undoes_the_lens_curve) {
  for (const double k : {-0.12, -0.03, 0.02, 0.1}) {
    const Lens lens{{800, 600}, 1000, k};
    for (const Point p : {Point{30, 20}, {800, 600}, {1500, 1100}, {400, 900}})
      EXPECT_LT(length(lens.ideal(lens.seen(p)) - p), 0.01) << k;
  }
}

TEST(Geometry, fits_a_parabola_far_from_the_origin) {
  std::vector<Point> points;
  for (int i = 0; i < 30; ++i) {
    const double x = 5000 + 10 * i;
    points.push_back({x, 3 - 0.02 * x + 1e-5 * x * x});
  }
  const Parabola fit = fit_parabola(points);
  EXPECT_NEAR(fit(5150), 3 - 0.02 * 5150 + 1e-5 * 5150 * 5150, 1e-6);
  EXPECT_NEAR(fit.c, 1e-5, 1e-9);
}

TEST(Geometry, fits_steep_lines_as_well_as_level_ones) {
  for (const double degrees : {0.0, 30.0, 89.9, 120.0}) {
    const double a = degrees * M_PI / 180;
    std::vector<Point> points;
    for (int i = 0; i < 20; ++i) points.push_back({7 + i * std::cos(a), 9 + i * std::sin(a)});
    const Line line = fit_line(points);
    for (const Point& p : points) EXPECT_LT(std::abs(line.distance(p)), 1e-9) << degrees;
  }
}

}  // namespace
}  // namespace benchgraft::align
