#include "align/photo_candidates.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <functional>
#include <unordered_map>

#include <opencv2/core.hpp>
#include <opencv2/imgproc.hpp>

namespace benchgraft::align {
namespace {

constexpr int kLongSide = 1000;        // of the reduced picture: corners to a pixel, in 20 ms
constexpr double kLeastShare = 0.005;  // smaller ones are lamps and reflections
constexpr double kLeastStep = 1.3;     // of code values, lit over dark
constexpr double kRimInside = 0.02;    // of the way to the middle: inside the white frame

cv::Mat brightest_channel(const Photo& photo, double& reduction) {
  const cv::Mat whole(photo.height, photo.width, CV_8UC3,
                      const_cast<std::uint8_t*>(photo.code.data()));  // NOLINT: only read
  reduction = std::max(1.0, static_cast<double>(std::max(photo.width, photo.height)) / kLongSide);
  cv::Mat small;
  const cv::Size size(std::max(1, static_cast<int>(photo.width / reduction)),
                      std::max(1, static_cast<int>(photo.height / reduction)));
  // Every second pixel is enough: what lies between is averaged with it anyway.
  if (reduction >= 4)
    cv::resize(whole, small, size * 2, 0, 0, cv::INTER_NEAREST);
  else
    small = whole;
  cv::resize(small, small, size, 0, 0, cv::INTER_AREA);
  std::vector<cv::Mat> channels;
  cv::split(small, channels);
  cv::Mat most;
  cv::max(channels[0], channels[1], most);
  cv::max(most, channels[2], most);
  cv::GaussianBlur(most, most, cv::Size(3, 3), 0);
  return most;
}

/// The four-sided shape nearest to a hull: the outline is simplified until four corners are left.
bool four_corners(const std::vector<cv::Point>& hull, Quad& corners) {
  const double around = cv::arcLength(hull, true);
  for (double tolerance = 0.008; tolerance < 0.08; tolerance += 0.004) {
    std::vector<cv::Point> few;
    cv::approxPolyDP(hull, few, tolerance * around, true);
    if (few.size() < 4) return false;
    if (few.size() > 4) continue;
    for (std::size_t i = 0; i < 4; ++i)
      corners[i] = {static_cast<double>(few[i].x), static_cast<double>(few[i].y)};
    corners = in_order(corners);
    return convex(corners);
  }
  return false;
}

double rim_lit(const cv::Mat& lit, const Quad& corners) {
  const Point middle = 0.25 * (corners[0] + corners[1] + corners[2] + corners[3]);
  int on = 0, all = 0;
  for (std::size_t side = 0; side < 4; ++side)
    for (int k = 0; k < 100; ++k) {
      const double t = (k + 0.5) / 100;
      const Point edge = (1 - t) * corners[side] + t * corners[(side + 1) % 4];
      const Point p = edge + kRimInside * (middle - edge);
      const int x = std::clamp(static_cast<int>(std::lround(p.x)), 0, lit.cols - 1);
      const int y = std::clamp(static_cast<int>(std::lround(p.y)), 0, lit.rows - 1);
      on += lit.at<std::uint8_t>(y, x) != 0;
      ++all;
    }
  return static_cast<double>(on) / all;
}

int borders_touched(const cv::Rect& box, const cv::Mat& picture) {
  return (box.x <= 1) + (box.y <= 1) + (box.x + box.width >= picture.cols - 1) +
         (box.y + box.height >= picture.rows - 1);
}

/// Middle of a reduced pixel in photo pixels.
Point enlarged(Point p, double reduction) {
  return {(p.x + 0.5) * reduction - 0.5, (p.y + 0.5) * reduction - 0.5};
}

}  // namespace

LitShapes lit_shapes(const Photo& photo) {
  LitShapes found;
  const cv::Mat most = brightest_channel(photo, found.reduction);
  cv::Mat lit;
  const double level = cv::threshold(most, lit, 0, 255, cv::THRESH_BINARY | cv::THRESH_OTSU);
  const double bright = cv::mean(most, lit)[0], dark = cv::mean(most, ~lit)[0];
  // Noise is split in two as well, but its halves lie close together.
  if (level < 8 || bright < kLeastStep * dark + 8) return found;
  std::vector<std::vector<cv::Point>> outlines;
  cv::findContours(lit, outlines, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_SIMPLE);
  const double whole = static_cast<double>(most.cols) * most.rows;
  for (const auto& outline : outlines) {
    std::vector<cv::Point> hull;
    cv::convexHull(outline, hull);
    LitShape shape;
    const double hull_area = cv::contourArea(hull);
    shape.share = hull_area / whole;
    if (shape.share < kLeastShare) continue;
    shape.borders = borders_touched(cv::boundingRect(hull), most);
    Quad corners{};
    if (four_corners(hull, corners)) {
      shape.four_sided = true;
      shape.fill = hull_area / std::max(area(corners), 1.0);
      shape.lit_rim = rim_lit(lit, corners);
      for (std::size_t i = 0; i < 4; ++i) shape.corners[i] = enlarged(corners[i], found.reduction);
    }
    found.shapes.push_back(shape);
  }
  std::sort(found.shapes.begin(), found.shapes.end(),
            [](const LitShape& a, const LitShape& b) { return a.share > b.share; });
  return found;
}

double share_of_few_colours(const Photo& photo, const Quad& corners) {
  constexpr int kSamples = 300;  // across and down
  constexpr std::size_t kFew = 12;
  const auto inside = Homography::between(kUnitSquare, corners);
  if (!inside) return 0;
  std::unordered_map<std::uint32_t, int> counts;
  int lit = 0;
  for (int j = 0; j < kSamples; ++j)
    for (int i = 0; i < kSamples; ++i) {
      const Point p = (*inside)({(i + 0.5) / kSamples, (j + 0.5) / kSamples});
      const int x = static_cast<int>(std::lround(p.x)), y = static_cast<int>(std::lround(p.y));
      if (x < 0 || y < 0 || x >= photo.width || y >= photo.height) continue;
      const std::uint8_t* here = photo.pixel(x, y);
      if (std::max({here[0], here[1], here[2]}) < 40) continue;
      ++lit;
      ++counts[static_cast<std::uint32_t>(here[0]) | static_cast<std::uint32_t>(here[1]) << 8 |
               static_cast<std::uint32_t>(here[2]) << 16];
    }
  std::vector<int> most;
  for (const auto& [colour, count] : counts) most.push_back(count);
  std::sort(most.begin(), most.end(), std::greater<>());
  int common = 0;
  for (std::size_t i = 0; i < std::min(kFew, most.size()); ++i) common += most[i];
  return lit == 0 ? 0 : static_cast<double>(common) / lit;
}

}  // namespace benchgraft::align
