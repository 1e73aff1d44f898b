// One brightness a pixel, and the raggedness of the one edge in a picture.
#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "align/photo_edge.hpp"

namespace benchgraft::align {
namespace {

Error refuse(std::string_view why) { return {ErrorKind::bad_input, std::string(why)}; }

/// The picture read along lines that cross the edge: columns when the edge lies along the rows.
class Across {
 public:
  Across(const LevelPicture& picture, bool by_columns)
      : picture_(picture), by_columns_(by_columns) {}
  [[nodiscard]] int lines() const { return by_columns_ ? picture_.width : picture_.height; }
  [[nodiscard]] int places() const { return by_columns_ ? picture_.height : picture_.width; }
  [[nodiscard]] double level(int line, int place) const {
    const int x = by_columns_ ? line : place, y = by_columns_ ? place : line;
    return picture_.level[static_cast<std::size_t>(y) * static_cast<std::size_t>(picture_.width) +
                          static_cast<std::size_t>(x)];
  }
  [[nodiscard]] Point point(int line, double place) const {
    return by_columns_ ? Point{static_cast<double>(line), place}
                       : Point{place, static_cast<double>(line)};
  }

 private:
  const LevelPicture& picture_;
  bool by_columns_;
};

double share_of(std::vector<float> values, double share) {
  const auto at =
      values.begin() + static_cast<std::ptrdiff_t>(share * static_cast<double>(values.size() - 1));
  std::nth_element(values.begin(), at, values.end());
  return *at;
}

/// Dark and bright: the middles of the darker and of the brighter half of the pixels far from the
/// step.
struct Step {
  double dark = 0, bright = 0;
};

Step step_of(const LevelPicture& picture) {
  const double middle = (share_of(picture.level, 0.02) + share_of(picture.level, 0.98)) / 2;
  std::vector<float> below, above;
  for (const float v : picture.level) (v < middle ? below : above).push_back(v);
  if (below.empty() || above.empty()) return {};
  return {share_of(below, 0.5), share_of(above, 0.5)};
}

/// The crossing of `level` on one line that lies nearest to `expected`.
std::optional<double> crossing_near(const Across& across, int line, double level, double expected) {
  std::optional<double> best;
  for (int i = 1; i < across.places(); ++i) {
    const double a = across.level(line, i - 1), b = across.level(line, i);
    if ((a < level) == (b < level)) continue;
    const double at = i - 1 + (level - a) / (b - a);
    if (!best || std::abs(at - expected) < std::abs(*best - expected)) best = at;
  }
  return best;
}

/// Where the step lies on a line, from its total light: robust, good to a few pixels.
double rough_place(const Across& across, int line, const Step& step) {
  double light = 0;
  for (int i = 0; i < across.places(); ++i)
    light += std::clamp((across.level(line, i) - step.dark) / (step.bright - step.dark), 0.0, 1.0);
  const int quarter = across.places() / 4;
  double first = 0, last = 0;
  for (int i = 0; i < quarter; ++i) {
    first += across.level(line, i);
    last += across.level(line, across.places() - 1 - i);
  }
  return first > last ? light : across.places() - light;
}

std::vector<Point> contour(const Across& across, const Step& step, double from_bright) {
  const double level = step.bright - from_bright * (step.bright - step.dark);
  std::vector<Point> points;
  for (int line = 0; line < across.lines(); ++line)
    if (const auto at = crossing_near(across, line, level, rough_place(across, line, step)))
      points.push_back(across.point(line, *at));
  return points;
}

bool edge_along_rows(const LevelPicture& p) {
  double down = 0, right = 0;
  for (int y = 1; y < p.height; ++y)
    for (int x = 1; x < p.width; ++x) {
      const auto i = static_cast<std::size_t>(y) * static_cast<std::size_t>(p.width) +
                     static_cast<std::size_t>(x);
      down += p.level[i] - p.level[i - static_cast<std::size_t>(p.width)];
      right += p.level[i] - p.level[i - 1];
    }
  return std::abs(down) > std::abs(right);
}

}  // namespace

double LevelPicture::at(Point place) const {
  const double left = std::floor(place.x), top = std::floor(place.y);
  const int x = static_cast<int>(left), y = static_cast<int>(top);
  if (x < 0 || y < 0 || x + 1 >= width || y + 1 >= height) return 0;
  const double fx = place.x - left, fy = place.y - top;
  const float* row = level.data() + static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                     static_cast<std::size_t>(x);
  const float* below = row + width;
  return (1 - fy) * ((1 - fx) * row[0] + fx * row[1]) + fy * ((1 - fx) * below[0] + fx * below[1]);
}

LevelPicture level_picture(const Photo& photo) {
  LevelPicture picture{photo.width, photo.height, {}};
  picture.level.resize(photo.code.size() / 3);
  const auto& light = linear_light();
  const std::uint8_t* code = photo.code.data();
  for (float& level : picture.level) {
    level = (light[code[0]] + light[code[1]] + light[code[2]]) / 3;
    code += 3;
  }
  return picture;
}

Result<Raggedness> edge_raggedness(const LevelPicture& picture, double from_bright) {
  if (picture.width < 20 || picture.height < 20)
    return refuse("the picture is too small for an edge to be measured");
  const Step step = step_of(picture);
  if (step.bright - step.dark < 0.02 * std::max(step.bright, 1e-9))
    return refuse("there is no edge between dark and bright in this picture");
  const Across across(picture, edge_along_rows(picture));
  const auto points = contour(across, step, from_bright);
  if (points.size() < 0.8 * across.lines())
    return refuse(
        fmt::format("the edge can be followed on {} of {} lines only; it must cross the "
                    "whole picture",
                    points.size(), across.lines()));
  const Line line = fit_line(points);
  Raggedness result;
  double squares = 0;
  for (const Point& p : points) squares += line.distance(p) * line.distance(p);
  result.points = static_cast<int>(points.size());
  result.deviation = std::sqrt(squares / static_cast<double>(points.size()));
  result.angle_deg = std::atan2(line.along.y, line.along.x) * 180 / M_PI;
  const Line dark = fit_line(contour(across, step, 0.9));
  result.width_10_90 = std::abs(dark.distance(fit_line(contour(across, step, 0.1)).through));
  return result;
}

}  // namespace benchgraft::align
