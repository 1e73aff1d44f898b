#include "align/photo_screen.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "align/photo_candidates.hpp"

namespace benchgraft::align {
namespace {

constexpr double kLeastFill = 0.93, kLeastRim = 0.85;
constexpr double kOther = 0.2;        // a second screen of this share of the first spoils the photo
constexpr double kLeastSide = 240;    // pixels
constexpr double kLeastShare = 0.05;  // of the photo
constexpr double kMostSkew = 0.6;     // shorter over longer of two facing sides
constexpr double kFewColours = 0.9;
constexpr int kPlaces = 80;  // looked at along one side

Error refuse(std::string_view why) { return {ErrorKind::bad_input, std::string(why)}; }

bool good(const LitShape& shape) {
  return shape.four_sided && shape.fill >= kLeastFill && shape.lit_rim >= kLeastRim;
}

bool lies_square(const Quad& q) {
  return std::abs(q[0].y - q[1].y) < 0.75 && std::abs(q[2].y - q[3].y) < 0.75 &&
         std::abs(q[0].x - q[3].x) < 0.75 && std::abs(q[1].x - q[2].x) < 0.75;
}

Quad whole_photo(const Photo& photo) {
  const double right = photo.width - 1, bottom = photo.height - 1;
  return {Point{0, 0}, {right, 0}, {right, bottom}, {0, bottom}};
}

std::optional<Error> wrong_size_or_view(const Photo& photo, const Quad& q) {
  const double top = length(q[1] - q[0]), right = length(q[2] - q[1]);
  const double bottom = length(q[3] - q[2]), left = length(q[0] - q[3]);
  const double share = area(q) / (static_cast<double>(photo.width) * photo.height);
  if (std::min({top, right, bottom, left}) < kLeastSide || share < kLeastShare)
    return refuse(
        fmt::format("the screen is too small in the photo: its shortest side has {:.0f} "
                    "pixels, at least {:.0f} are needed; go nearer",
                    std::min({top, right, bottom, left}), kLeastSide));
  if (std::min(top, bottom) < kMostSkew * std::max(top, bottom) ||
      std::min(left, right) < kMostSkew * std::max(left, right))
    return refuse("the photo was taken from too far aside; stand straight in front of the screen");
  return std::nullopt;
}

Error no_good_shape(const Photo& photo, const LitShapes& lit) {
  if (lit.shapes.empty())
    return refuse(
        "there is no lit screen in this photo; put the test page on the screen, darken "
        "the room and take it again");
  const LitShape& most = lit.shapes.front();
  if (most.borders == 4 && share_of_few_colours(photo, whole_photo(photo)) > kFewColours)
    return refuse(
        "this is a screenshot, not a photo: it shows what the set was sent, not what it "
        "shows; photograph the screen");
  // A screen that runs out of the photo still shows straight, lit sides.
  if (most.borders > 0 && most.share > 0.15 && most.four_sided && most.fill > 0.85)
    return refuse(
        "the screen is cut off by the edge of the photo; step back until all four "
        "corners are in it");
  return refuse(
      "there is no lit screen with four straight sides in this photo; put the test page "
      "on the screen, darken the room, or touch the four corners");
}

Result<LitShape> one_shape(const Photo& photo) {
  const LitShapes lit = lit_shapes(photo);
  std::vector<LitShape> screens;
  for (const LitShape& shape : lit.shapes)
    if (good(shape) && shape.borders == 0) screens.push_back(shape);
  const bool larger_at_border =
      !lit.shapes.empty() && lit.shapes.front().borders > 0 && good(lit.shapes.front()) &&
      (screens.empty() || lit.shapes.front().share > 2 * screens.front().share);
  if (screens.empty() || larger_at_border) return no_good_shape(photo, lit);
  if (screens.size() > 1 && screens[1].share > kOther * screens[0].share)
    return refuse(
        "there are two lit screens in this photo; switch one off or cover it, or touch "
        "the four corners of the right one");
  return screens.front();
}

/// Brightness across the side at one place, from outside to inside.
struct Crossing {
  Point place;
  double width = 0;  ///< 10 to 90 %
};

double brightest(const PixelLight& light) { return std::max({light[0], light[1], light[2]}); }

std::optional<Crossing> cross_side(const Photo& photo, Point at, Point inwards, double reach) {
  constexpr double kStep = 0.5;
  const int count = 2 * static_cast<int>(reach / kStep) + 1;
  std::vector<double> profile(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i)
    profile[static_cast<std::size_t>(i)] =
        brightest(light_at(photo, at + (-reach + i * kStep) * inwards));
  const double low = *std::min_element(profile.begin(), profile.end());
  const double high = *std::max_element(profile.begin(), profile.end());
  if (high - low < 0.02) return std::nullopt;
  const auto first_above = [&](double share) -> double {
    const double level = low + share * (high - low);
    for (std::size_t i = 1; i < profile.size(); ++i)
      if (profile[i - 1] < level && profile[i] >= level)
        return -reach + kStep * (static_cast<double>(i) - 1 +
                                 (level - profile[i - 1]) / (profile[i] - profile[i - 1]));
    return reach;
  };
  const double half = first_above(0.5);
  if (half >= reach) return std::nullopt;
  return Crossing{at + half * inwards, first_above(0.9) - first_above(0.1)};
}

double median(std::vector<double> values) {
  if (values.empty()) return 0;
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

/// Points of one side to a part of a pixel, without those that stray.
std::vector<Point> side_points(const Photo& photo, Point from, Point to, double reach,
                               std::vector<double>& widths) {
  const Point along = (1 / length(to - from)) * (to - from);
  const Point inwards{-along.y, along.x};  // corners run clockwise as seen
  std::vector<Point> points;
  for (int k = 0; k < kPlaces; ++k) {
    const double t = 0.05 + 0.9 * (k + 0.5) / kPlaces;
    const auto found = cross_side(photo, (1 - t) * from + t * to, inwards, reach);
    if (!found) continue;
    points.push_back(found->place);
    widths.push_back(found->width);
  }
  for (int round = 0; round < 2 && points.size() > 8; ++round) {
    std::vector<Point> turned;
    for (const Point& p : points) turned.push_back({dot(p - from, along), cross(along, p - from)});
    const Parabola fit = fit_parabola(turned);
    std::vector<double> off;
    for (const Point& p : turned) off.push_back(std::abs(p.y - fit(p.x)));
    const double limit = std::max(0.5, 4 * median(off));
    std::vector<Point> kept;
    for (std::size_t i = 0; i < points.size(); ++i)
      if (off[i] <= limit) kept.push_back(points[i]);
    points = std::move(kept);
  }
  return points;
}

using Sides = std::array<std::vector<Point>, 4>;

/// Sum of the squared distances of the sides from straight lines after taking the curve out.
double bend(const Sides& sides, const Lens& lens) {
  double sum = 0;
  std::size_t count = 0;
  for (const auto& side : sides) {
    std::vector<Point> ideal;
    for (const Point& p : side) ideal.push_back(lens.ideal(p));
    const Line line = fit_line(ideal);
    for (const Point& p : ideal) sum += line.distance(p) * line.distance(p);
    count += side.size();
  }
  return std::sqrt(sum / static_cast<double>(std::max<std::size_t>(count, 1)));
}

/// The radial term that makes the four sides straightest.
Lens straightening_lens(const Photo& photo, const Sides& sides) {
  Lens lens;
  lens.centre = {(photo.width - 1) / 2.0, (photo.height - 1) / 2.0};
  lens.half_diagonal = std::hypot(photo.width, photo.height) / 2;
  constexpr double kGolden = 0.6180339887498949;
  double low = -0.15, high = 0.15;
  const auto at = [&](double k) {
    Lens trial = lens;
    trial.k = k;
    return bend(sides, trial);
  };
  double a = high - kGolden * (high - low), b = low + kGolden * (high - low);
  double at_a = at(a), at_b = at(b);
  while (high - low > 1e-4) {
    if (at_a < at_b) {
      high = b, b = a, at_b = at_a;
      a = high - kGolden * (high - low), at_a = at(a);
    } else {
      low = a, a = b, at_a = at_b;
      b = low + kGolden * (high - low), at_b = at(b);
    }
  }
  lens.k = (low + high) / 2;
  return lens;
}

Result<Screen> refined(const Photo& photo, const Quad& coarse, double reduction) {
  Sides sides;
  std::vector<double> widths;
  const double reach = std::max(6.0, 3 * reduction + 0.015 * length(coarse[2] - coarse[0]));
  for (std::size_t i = 0; i < 4; ++i) {
    sides[i] = side_points(photo, coarse[i], coarse[(i + 1) % 4], reach, widths);
    if (sides[i].size() < kPlaces / 2)
      return refuse(
          "the sides of the screen cannot be followed in this photo; darken the room and "
          "hold the phone still, or touch the four corners");
  }
  Screen screen;
  screen.lens = straightening_lens(photo, sides);
  screen.side_bend = bend(sides, screen.lens);
  screen.edge_width = median(widths);
  std::array<Line, 4> lines;
  for (std::size_t i = 0; i < 4; ++i) {
    std::vector<Point> ideal;
    for (const Point& p : sides[i]) ideal.push_back(screen.lens.ideal(p));
    lines[i] = fit_line(ideal);
  }
  Quad ideal{};
  for (std::size_t i = 0; i < 4; ++i) {
    const auto corner = crossing(lines[(i + 3) % 4], lines[i]);
    if (!corner) return refuse("the four sides of the screen do not meet in four corners");
    ideal[i] = *corner;
    screen.corners[i] = screen.lens.seen(*corner);
  }
  const auto perspective = Homography::between(kUnitSquare, ideal);
  if (!perspective || !convex(ideal)) return refuse("the screen's corners do not make a screen");
  screen.to_ideal = *perspective;
  return screen;
}

}  // namespace

PixelLight light_at(const Photo& photo, Point place) {
  const double left = std::floor(place.x), top = std::floor(place.y);
  const int x = static_cast<int>(left), y = static_cast<int>(top);
  if (x < 0 || y < 0 || x + 1 >= photo.width || y + 1 >= photo.height) return {0, 0, 0};
  const auto fx = static_cast<float>(place.x - left), fy = static_cast<float>(place.y - top);
  const auto& light = linear_light();
  const std::uint8_t* upper = photo.pixel(x, y);
  const std::uint8_t* lower = photo.pixel(x, y + 1);
  PixelLight result{};
  for (std::size_t c = 0; c < 3; ++c) {
    const std::size_t i = 2 - c;  // blue first in the photo
    const float above = (1 - fx) * light[upper[i]] + fx * light[upper[i + 3]];
    const float below = (1 - fx) * light[lower[i]] + fx * light[lower[i + 3]];
    result[c] = (1 - fy) * above + fy * below;
  }
  return result;
}

Result<Screen> find_screen(const Photo& photo) {
  const auto shape = one_shape(photo);
  if (!shape) return shape.error();
  const Quad& coarse = shape.value().corners;
  if (auto wrong = wrong_size_or_view(photo, coarse)) return *wrong;
  const double reduction = std::max(1.0, std::max(photo.width, photo.height) / 1000.0);
  auto screen = refined(photo, coarse, reduction);
  if (screen && lies_square(screen.value().corners) &&
      share_of_few_colours(photo, screen.value().corners) > kFewColours)
    return refuse(
        "this is a screenshot, not a photo: it shows what the set was sent, not what it "
        "shows; photograph the screen");
  return screen;
}

Result<Screen> screen_from_touches(const Photo& photo, const Quad& touches) {
  const Quad corners = in_order(touches);
  for (const Point& p : corners)
    if (!(p.x >= 0 && p.y >= 0 && p.x <= photo.width - 1 && p.y <= photo.height - 1))
      return refuse(
          fmt::format("the touch at {:.0f}, {:.0f} lies outside the photo of {} x {} "
                      "pixels; touch the four corners of the screen",
                      p.x, p.y, photo.width, photo.height));
  if (!convex(corners))
    return refuse("the four touches are not the four corners of a screen; touch each corner once");
  if (auto wrong = wrong_size_or_view(photo, corners)) return *wrong;
  const auto perspective = Homography::between(kUnitSquare, corners);
  if (!perspective) return refuse("the four touches are not the four corners of a screen");
  Screen screen;
  screen.corners = corners;
  screen.to_ideal = *perspective;
  screen.lens.centre = {(photo.width - 1) / 2.0, (photo.height - 1) / 2.0};
  screen.lens.half_diagonal = std::hypot(photo.width, photo.height) / 2;
  screen.touched = true;
  return screen;
}

LinearPicture straightened(const Photo& photo, const Screen& screen, int width, int height) {
  LinearPicture picture{width, height, {}};
  picture.light.resize(std::size_t{3} * static_cast<std::size_t>(width) *
                       static_cast<std::size_t>(height));
  std::size_t i = 0;
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x) {
      const PixelLight light =
          light_at(photo, screen.in_photo({(x + 0.5) / width, (y + 0.5) / height}));
      for (const float channel : light) picture.light[i++] = channel;
    }
  return picture;
}

}  // namespace benchgraft::align
