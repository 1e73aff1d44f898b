#include "align/photo_tiles.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <deque>
#include <map>
#include <utility>
#include <vector>

#include <opencv2/core.hpp>
#include <opencv2/imgproc.hpp>

#include "align/pattern_layout.hpp"

namespace benchgraft::align {
namespace {

using namespace edge_page;

constexpr int kLongSide = 1400;
constexpr double kMostTilt = 0.45;  // sideways part of a step: about 25 degrees
constexpr Point kBigMiddle{kBigLeft + kBigSide / 2.0, kBigTop + kBigSide / 2.0};
constexpr Point kSmallMiddle{kSmallLeft + kSmallSide / 2.0, kSmallTop + kSmallSide / 2.0};

Error refuse(std::string_view why) { return {ErrorKind::bad_input, std::string(why)}; }

struct Square {
  Point middle;  ///< in photo pixels
  double area = 0;
};

cv::Mat reduced_level(const Photo& photo, double& reduction) {
  const cv::Mat whole(photo.height, photo.width, CV_8UC3,
                      const_cast<std::uint8_t*>(photo.code.data()));  // NOLINT: only read
  reduction = std::max(1.0, static_cast<double>(std::max(photo.width, photo.height)) / kLongSide);
  const cv::Size size(static_cast<int>(photo.width / reduction),
                      static_cast<int>(photo.height / reduction));
  cv::Mat small;
  cv::resize(whole, small, size, 0, 0, cv::INTER_AREA);
  cv::Mat grey;
  cv::cvtColor(small, grey, cv::COLOR_BGR2GRAY);
  return grey;
}

/// Dark, compact marks that touch no border, with middles weighted by darkness.
std::vector<Square> dark_squares(const Photo& photo) {
  double reduction = 1;
  const cv::Mat grey = reduced_level(photo, reduction);
  cv::Mat smooth;
  cv::GaussianBlur(grey, smooth, cv::Size(0, 0), 1.5);
  cv::Mat mask;
  cv::threshold(smooth, mask, 0, 255, cv::THRESH_BINARY_INV | cv::THRESH_OTSU);
  cv::Mat labels, stats, centres;
  const int count = cv::connectedComponentsWithStats(mask, labels, stats, centres, 4, CV_32S);
  std::vector<Square> squares;
  for (int i = 1; i < count; ++i) {
    const int left = stats.at<int>(i, cv::CC_STAT_LEFT), top = stats.at<int>(i, cv::CC_STAT_TOP);
    const int wide = stats.at<int>(i, cv::CC_STAT_WIDTH);
    const int tall = stats.at<int>(i, cv::CC_STAT_HEIGHT);
    const double area = stats.at<int>(i, cv::CC_STAT_AREA);
    const bool at_border =
        left == 0 || top == 0 || left + wide == grey.cols || top + tall == grey.rows;
    if (at_border || area < 30 || wide > 1.6 * tall || tall > 1.6 * wide ||
        area < 0.6 * wide * tall)
      continue;
    const Point middle{centres.at<double>(i, 0), centres.at<double>(i, 1)};
    squares.push_back({{(middle.x + 0.5) * reduction - 0.5, (middle.y + 0.5) * reduction - 0.5},
                       area * reduction * reduction});
  }
  return squares;
}

/// Big and small squares by area: a big one covers four times a small one.
void sort_by_size(const std::vector<Square>& squares, std::vector<Square>& big,
                  std::vector<Square>& small) {
  std::vector<double> areas;
  for (const Square& s : squares) areas.push_back(s.area);
  std::sort(areas.begin(), areas.end());
  const double large = areas[areas.size() * 3 / 4];
  for (const Square& s : squares) {
    if (s.area > 0.55 * large && s.area < 1.6 * large) big.push_back(s);
    if (s.area > 0.1 * large && s.area < 0.45 * large) small.push_back(s);
  }
}

const Square* nearest(const std::vector<Square>& squares, Point place, double reach) {
  const Square* best = nullptr;
  for (const Square& s : squares)
    if (length(s.middle - place) < reach) reach = length(s.middle - place), best = &s;
  return best;
}

/// The commonest step from one big square to the next, about `expected` long and nearly along
/// `direction`; nothing when there is none.
bool common_step(const std::vector<Square>& big, Point direction, double expected, Point& step) {
  std::vector<Point> steps;
  for (const Square& a : big)
    for (const Square& b : big) {
      const Point d = b.middle - a.middle;
      const double along = dot(d, direction), aside = std::abs(cross(direction, d));
      if (along > 0.75 * expected && along < 1.35 * expected && aside < kMostTilt * along)
        steps.push_back(d);
    }
  if (steps.empty()) return false;
  const auto middle = [&](auto part) {
    std::vector<double> values;
    for (const Point& s : steps) values.push_back(part(s));
    std::nth_element(values.begin(), values.begin() + static_cast<long>(values.size() / 2),
                     values.end());
    return values[values.size() / 2];
  };
  step = {middle([](Point p) { return p.x; }), middle([](Point p) { return p.y; })};
  return true;
}

using Lattice = std::map<std::pair<int, int>, Point>;

Lattice spread(const std::vector<Square>& big, Point start, Point across, Point down) {
  Lattice lattice{{{0, 0}, start}};
  std::deque<std::pair<int, int>> open{{0, 0}};
  while (!open.empty()) {
    const auto [i, j] = open.front();
    open.pop_front();
    for (const auto& [di, dj] : {std::pair{1, 0}, {-1, 0}, {0, 1}, {0, -1}}) {
      if (lattice.count({i + di, j + dj}) != 0) continue;
      const Point step = di * across + dj * down;
      const Square* found = nearest(big, lattice.at({i, j}) + step, 0.2 * length(down));
      if (found == nullptr) continue;
      lattice[{i + di, j + dj}] = found->middle;
      open.emplace_back(i + di, j + dj);
    }
  }
  return lattice;
}

/// Small squares beside the big ones, looked for at (x, y) tile pixels from them.
std::vector<std::pair<Point, Point>> small_pairs(const Lattice& lattice,
                                                 const std::vector<Square>& small, Point across,
                                                 Point down, Point offset) {
  std::vector<std::pair<Point, Point>> pairs;
  for (const auto& [place, middle] : lattice) {
    const Point expected =
        middle + (offset.x / kTileWidth) * across + (offset.y / kTileHeight) * down;
    if (const Square* found = nearest(small, expected, 0.08 * length(down)))
      pairs.emplace_back(Point{place.first * 1.0 * kTileWidth, place.second * 1.0 * kTileHeight} +
                             kBigMiddle + offset,
                         found->middle);
  }
  return pairs;
}

/// Page rectangle that surely lies in the photo.
void limits(const Photo& photo, TilePlace& place) {
  const Homography back = place.to_photo.inverse();
  const double right = photo.width - 1, bottom = photo.height - 1;
  const Point tl = back({0, 0}), tr = back({right, 0}), br = back({right, bottom}),
              bl = back({0, bottom});
  place.left = std::max(tl.x, bl.x);
  place.right = std::min(tr.x, br.x);
  place.top = std::max(tl.y, tr.y);
  place.bottom = std::min(bl.y, br.y);
}

}  // namespace

Result<TilePlace> place_tiles(const Photo& photo) {
  const Error not_there = refuse(
      "this is no close-up of the edge page: fewer than two by two of its tiles (a large and "
      "a small black square in white, lines beside it) can be seen; show the edge page, go "
      "so near that the photo covers about a third of the screen's width, hold it upright");
  const auto squares = dark_squares(photo);
  if (squares.size() < 6) return not_there;
  std::vector<Square> big, small;
  sort_by_size(squares, big, small);
  if (big.size() < 4) return not_there;
  const double p = std::sqrt(big[big.size() / 2].area) / kBigSide;
  Point across, down;
  if (!common_step(big, {1, 0}, kTileWidth * p, across) ||
      !common_step(big, {0, 1}, kTileHeight * p, down))
    return not_there;
  const Point middle{photo.width / 2.0, photo.height / 2.0};
  const Lattice lattice = spread(big, nearest(big, middle, 1e9)->middle, across, down);
  const Point offset = kSmallMiddle - kBigMiddle;
  std::array<std::vector<std::pair<Point, Point>>, 4> ways;
  std::size_t best = 0;
  for (std::size_t way = 0; way < ways.size(); ++way) {
    ways[way] =
        small_pairs(lattice, small, across, down,
                    {(way & 1) != 0 ? -offset.x : offset.x, (way & 2) != 0 ? -offset.y : offset.y});
    if (ways[way].size() > ways[best].size()) best = way;
  }
  if (ways[best].size() < 2) return not_there;
  if (best != 0)
    return refuse(
        "the picture stands mirrored or upside down in this photo; hold the phone "
        "upright and put the picture the right way round first: turning it exchanges the "
        "sub-frames");
  std::vector<Point> page, seen;
  for (const auto& [place, at] : lattice) {
    page.push_back(Point{place.first * 1.0 * kTileWidth, place.second * 1.0 * kTileHeight} +
                   kBigMiddle);
    seen.push_back(at);
  }
  for (const auto& [from, to] : ways[0]) page.push_back(from), seen.push_back(to);
  const auto fit = Homography::between(page, seen);
  if (!fit || page.size() < 6) return not_there;
  TilePlace place;
  place.to_photo = *fit;
  place.squares = static_cast<int>(page.size());
  const Point here = fit->inverse()(middle);
  const Point right = (*fit)(here + Point{1, 0}) - middle,
              below = (*fit)(here + Point{0, 1}) - middle;
  place.scale = (length(right) + length(below)) / 2;
  place.tilt_deg = std::atan2(right.y, right.x) * 180 / M_PI;
  limits(photo, place);
  return place;
}

}  // namespace benchgraft::align
