#include "align/photo_marks.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include <opencv2/core.hpp>
#include <opencv2/imgproc.hpp>

#include "align/pattern_layout.hpp"

namespace benchgraft::align {
namespace {

constexpr int kCells = 40;  // across and down, of the box an F is compared in

/// Whether the F covers a place of its box (0..1).
bool in_glyph(double x, double y) {
  return std::any_of(kGlyph.begin(), kGlyph.end(), [&](const Box& b) {
    return x >= b.left && x < b.right && y >= b.top && y < b.bottom;
  });
}

/// The place of the upright F that is seen at (x, y) when it stands so.
Point standing_back(const Standing& standing, double x, double y) {
  if (standing.left_right) x = 1 - x;
  if (standing.upside_down) y = 1 - y;
  if (standing.axes_exchanged) std::swap(x, y);
  return {x, y};
}

double overlap(const std::vector<double>& covered, const Standing& standing) {
  double both = 0, either = 0;
  for (int j = 0; j < kCells; ++j)
    for (int i = 0; i < kCells; ++i) {
      const Point p = standing_back(standing, (i + 0.5) / kCells, (j + 0.5) / kCells);
      const double f = in_glyph(p.x, p.y) ? 1 : 0;
      const double seen = covered[static_cast<std::size_t>(j * kCells + i)];
      both += std::min(f, seen);
      either += std::max(f, seen);
    }
  return either > 0 ? both / either : 0;
}

}  // namespace

Marks find_marks(const LinearPicture& picture, bool bright) {
  cv::Mat level(picture.height, picture.width, CV_32FC1);
  for (int y = 0; y < picture.height; ++y)
    for (int x = 0; x < picture.width; ++x) {
      const PixelLight light = picture.at(x, y);
      level.at<float>(y, x) = (light[0] + light[1] + light[2]) / 3;
    }
  // A dot is small: the ground and the marks are taken apart by the picture's own two levels.
  std::vector<float> sorted(level.begin<float>(), level.end<float>());
  const auto at_share = [&](double share) {
    const auto place = sorted.begin() +
                       static_cast<std::ptrdiff_t>(share * static_cast<double>(sorted.size() - 1));
    std::nth_element(sorted.begin(), place, sorted.end());
    return *place;
  };
  const float low = at_share(0.01), high = at_share(0.90), half = (low + high) / 2;
  cv::Mat mask = bright ? level > half : level < half;
  cv::Mat labels, stats, centres;
  const int count = cv::connectedComponentsWithStats(mask, labels, stats, centres, 8, CV_32S);
  Marks found{picture.width, picture.height, {}, {}};
  found.labels.assign(labels.begin<int>(), labels.end<int>());
  for (int i = 1; i < count; ++i) {
    Mark mark;
    mark.label = i;
    mark.left = stats.at<int>(i, cv::CC_STAT_LEFT);
    mark.top = stats.at<int>(i, cv::CC_STAT_TOP);
    mark.right = mark.left + stats.at<int>(i, cv::CC_STAT_WIDTH);
    mark.bottom = mark.top + stats.at<int>(i, cv::CC_STAT_HEIGHT);
    mark.area = stats.at<int>(i, cv::CC_STAT_AREA);
    mark.at_border = mark.left <= 0 || mark.top <= 0 || mark.right >= picture.width ||
                     mark.bottom >= picture.height;
    double weight = 0;
    const int margin = 2;
    for (int y = std::max(0, static_cast<int>(mark.top) - margin);
         y < std::min(picture.height, static_cast<int>(mark.bottom) + margin); ++y)
      for (int x = std::max(0, static_cast<int>(mark.left) - margin);
           x < std::min(picture.width, static_cast<int>(mark.right) + margin); ++x) {
        const float value = level.at<float>(y, x);
        const double w = std::max(0.0, static_cast<double>(bright ? value - half : half - value));
        if (labels.at<int>(y, x) != i) continue;
        mark.middle = mark.middle + w * Point{x + 0.5, y + 0.5};
        weight += w;
      }
    if (weight > 0) mark.middle = (1 / weight) * mark.middle;
    found.marks.push_back(mark);
  }
  return found;
}

GlyphMatch match_glyph(const Marks& marks, const Mark& mark) {
  std::vector<double> covered(std::size_t{kCells} * kCells);
  std::vector<int> looked(covered.size());
  const double wide = mark.right - mark.left, tall = mark.bottom - mark.top;
  for (int y = static_cast<int>(mark.top); y < static_cast<int>(mark.bottom); ++y)
    for (int x = static_cast<int>(mark.left); x < static_cast<int>(mark.right); ++x) {
      const int i = static_cast<int>((x + 0.5 - mark.left) / wide * kCells);
      const int j = static_cast<int>((y + 0.5 - mark.top) / tall * kCells);
      const auto cell = static_cast<std::size_t>(j * kCells + i);
      ++looked[cell];
      covered[cell] +=
          marks.labels[static_cast<std::size_t>(y) * static_cast<std::size_t>(marks.width) +
                       static_cast<std::size_t>(x)] == mark.label;
    }
  for (std::size_t i = 0; i < covered.size(); ++i)
    if (looked[i] > 0) covered[i] /= looked[i];
  GlyphMatch best;
  double second = 0;
  for (int code = 0; code < 8; ++code) {
    const Standing standing{(code & 4) != 0, (code & 1) != 0, (code & 2) != 0};
    const double match = overlap(covered, standing);
    if (match > best.match) {
      second = best.match;
      best.match = match;
      best.standing = standing;
    } else {
      second = std::max(second, match);
    }
  }
  best.margin = best.match - second;
  return best;
}

Axes axes_of(const Standing& standing) {
  Axes axes;
  if (standing.axes_exchanged) std::swap(axes.right, axes.down);
  for (Point* axis : {&axes.right, &axes.down}) {
    if (standing.left_right) axis->x = -axis->x;
    if (standing.upside_down) axis->y = -axis->y;
  }
  return axes;
}

}  // namespace benchgraft::align
