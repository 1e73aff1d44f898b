// Place, size, turn and keystone of the picture from the dots of the grid page.
#include <algorithm>
#include <array>
#include <cmath>
#include <deque>
#include <optional>
#include <vector>

#include <fmt/format.h>

#include "align/pattern_layout.hpp"
#include "align/photo_glyph.hpp"
#include "align/photo_marks.hpp"

namespace benchgraft::align {
namespace {

using grid_page::kAcross;
using grid_page::kDown;

constexpr int kHeight = 720;    // of the straightened picture: a dot is 28 pixels wide
constexpr double kNear = 0.35;  // of a step: how far a dot may lie from where it is expected
constexpr int kLeastDots = 12;
constexpr double kOwnEdge = 0.006;  // of the screen
constexpr double kLeastMatch = 0.55, kLeastMargin = 0.1;

Error refuse(std::string_view why) { return {ErrorKind::bad_input, std::string(why)}; }

/// The F: the largest dark mark that reads as one.
struct Middle {
  Standing standing;
  Point place;  ///< middle of its box, pixels
};
std::optional<Middle> middle_of(const Marks& marks) {
  std::optional<Middle> found;
  double largest = 0.003 * marks.width * marks.height;
  for (const Mark& mark : marks.marks) {
    if (mark.at_border || mark.area < largest) continue;
    const GlyphMatch match = match_glyph(marks, mark);
    if (match.match < kLeastMatch || match.margin < kLeastMargin) continue;
    largest = mark.area;
    found = {match.standing, {(mark.left + mark.right) / 2, (mark.top + mark.bottom) / 2}};
  }
  return found;
}

/// Middles of the round dark marks of about the right size.
std::vector<Point> dots_of(const Marks& marks) {
  std::vector<Point> dots;
  const double radius = grid_page::kDotRadius * marks.height;
  const double expected = M_PI * radius * radius;
  for (const Mark& mark : marks.marks) {
    const double wide = mark.right - mark.left, tall = mark.bottom - mark.top;
    const bool round = wide < 1.5 * tall && tall < 1.5 * wide && mark.area > 0.6 * wide * tall;
    if (!mark.at_border && round && mark.area > 0.3 * expected && mark.area < 2.5 * expected)
      dots.push_back(mark.middle);
  }
  return dots;
}

/// Dots by their place in the grid, spread outwards from the F.
class Lattice {
 public:
  Lattice(std::vector<Point> dots, const Middle& middle, double step_across, double step_down)
      : dots_(std::move(dots)), taken_(dots_.size()) {
    const Axes axes = axes_of(middle.standing);
    across_ = step_across * axes.right;
    down_ = step_down * axes.down;
    place(kAcross / 2, kDown / 2) = middle.place;
    spread();
    place(kAcross / 2, kDown / 2).reset();  // the F's box is no dot
  }

  void pairs(std::vector<Point>& page, std::vector<Point>& seen) {
    for (int j = 0; j < kDown; ++j)
      for (int i = 0; i < kAcross; ++i)
        if (const auto& here = place(i, j)) {
          page.push_back({grid_page::across(i), grid_page::down(j)});
          seen.push_back(*here);
        }
  }

 private:
  std::optional<Point>& place(int i, int j) {
    return places_[static_cast<std::size_t>(j * kAcross + i)];
  }

  /// The step measured on the other side of (i, j), where that is known; else the expected one.
  Point step_at(int i, int j, int di, int dj) {
    const int bi = i - di, bj = j - dj;
    if (bi >= 0 && bj >= 0 && bi < kAcross && bj < kDown)
      if (const auto& behind = place(bi, bj)) return *place(i, j) - *behind;
    return di * across_ + dj * down_;
  }

  void spread() {
    std::deque<std::array<int, 2>> open{{kAcross / 2, kDown / 2}};
    while (!open.empty()) {
      const auto [i, j] = open.front();
      open.pop_front();
      for (const auto& [di, dj] : {std::array{1, 0}, {-1, 0}, {0, 1}, {0, -1}}) {
        const int ni = i + di, nj = j + dj;
        if (ni < 0 || nj < 0 || ni >= kAcross || nj >= kDown || place(ni, nj)) continue;
        const Point step = step_at(i, j, di, dj);
        if (take_nearest(*place(i, j) + step, kNear * length(step), place(ni, nj)))
          open.push_back({ni, nj});
      }
    }
  }

  bool take_nearest(Point expected, double reach, std::optional<Point>& into) {
    std::size_t best = dots_.size();
    for (std::size_t k = 0; k < dots_.size(); ++k)
      if (!taken_[k] && length(dots_[k] - expected) < reach)
        reach = length(dots_[k] - expected), best = k;
    if (best == dots_.size()) return false;
    taken_[best] = true;
    into = dots_[best];
    return true;
  }

  std::vector<Point> dots_;
  std::vector<bool> taken_;
  Point across_, down_;
  std::array<std::optional<Point>, static_cast<std::size_t>(kAcross* kDown)> places_;
};

/// Screen place of a page place: a plane perspective, or, where there are dots enough, a surface of
/// second degree in each coordinate, which also follows a set that narrows line by line.
class Placing {
 public:
  static std::optional<Placing> fitted(const std::vector<Point>& page,
                                       const std::vector<Point>& seen) {
    const auto plane = Homography::between(page, seen);
    if (!plane) return std::nullopt;
    Placing placing;
    placing.plane_ = *plane;
    placing.unknowns_ = 8;
    if (page.size() >= 24) placing.bend(page, seen);
    return placing;
  }

  [[nodiscard]] Point operator()(Point p) const {
    if (!bent_) return plane_(p);
    const auto t = terms(p);
    Point sum;
    for (std::size_t i = 0; i < t.size(); ++i) sum = sum + Point{t[i] * x_[i], t[i] * y_[i]};
    return sum;
  }
  [[nodiscard]] int unknowns() const { return unknowns_; }

 private:
  using Terms = std::array<double, 6>;
  static Terms terms(Point p) {
    const double x = p.x - 0.5, y = p.y - 0.5;
    return {1, x, y, x * y, x * x, y * y};
  }

  void bend(const std::vector<Point>& page, const std::vector<Point>& seen) {
    std::array<double, 36> a{};
    for (std::size_t k = 0; k < page.size(); ++k) {
      const Terms t = terms(page[k]);
      for (std::size_t i = 0; i < 6; ++i) {
        for (std::size_t j = 0; j < 6; ++j) a[6 * i + j] += t[i] * t[j];
        x_[i] += t[i] * seen[k].x;
        y_[i] += t[i] * seen[k].y;
      }
    }
    auto b = a;
    bent_ = solve_linear(a, x_) && solve_linear(b, y_);
    unknowns_ = 12;
  }

  Homography plane_;
  Terms x_{}, y_{};
  bool bent_ = false;
  int unknowns_ = 8;
};

/// Fills offset, size, turn and keystone from the picture's corners.
void describe(SeenGrid& seen, double aspect) {
  const auto& [tl, tr, br, bl] = seen.picture;
  // Lengths and angles in equal units across and down.
  const auto run = [&](Point from, Point to) {
    return Point{(to.x - from.x) * aspect, to.y - from.y};
  };
  const double top = length(run(tl, tr)), bottom = length(run(bl, br));
  const double left = length(run(tl, bl)), right = length(run(tr, br));
  seen.width = (top + bottom) / 2 / aspect;
  seen.height = (left + right) / 2;
  seen.narrow_top = (bottom - top) / ((top + bottom) / 2);
  seen.narrow_left = (right - left) / ((left + right) / 2);
  const Point across = run(tl, tr) + run(bl, br), down = run(tl, bl) + run(tr, br);
  seen.turned_deg = (std::atan2(across.y, across.x) + std::atan2(-down.x, down.y)) / 2 * 180 / M_PI;
  // A turned picture may leave one corner dark only.
  seen.own_edge = {std::max(tl.y, tr.y) > -kOwnEdge, std::min(tr.x, br.x) < 1 + kOwnEdge,
                   std::min(bl.y, br.y) < 1 + kOwnEdge, std::max(tl.x, bl.x) > -kOwnEdge};
}

}  // namespace

Result<SeenGrid> measure_grid(const Photo& photo, const Screen& screen, double aspect) {
  const int width = static_cast<int>(std::lround(kHeight * std::clamp(aspect, 0.5, 3.0)));
  const Marks marks = find_marks(straightened(photo, screen, width, kHeight), false);
  const auto middle = middle_of(marks);
  if (!middle)
    return refuse(
        "the F in the middle of the grid page is not in this photo; show the grid page "
        "and take it again");
  if (middle->standing.axes_exchanged)
    return refuse(
        fmt::format("the picture stands {}; put that right first, then measure its place "
                    "and size",
                    standing_words(middle->standing)));
  Lattice lattice(dots_of(marks), *middle, 0.1 * width, 0.2 * kHeight);
  std::vector<Point> page, seen;
  lattice.pairs(page, seen);
  if (page.size() < static_cast<std::size_t>(kLeastDots))
    return refuse(
        fmt::format("only {} of the grid page's 44 dots can be seen around its F, at least "
                    "{} are needed; show the grid page on the whole screen and go nearer",
                    page.size(), kLeastDots));
  for (Point& p : seen) p = {p.x / width, p.y / kHeight};
  const auto fit = Placing::fitted(page, seen);
  if (!fit) return refuse("the dots seen lie in one line; show the whole grid page");
  SeenGrid result;
  result.standing = middle->standing;
  result.dots = static_cast<int>(page.size());
  double squares = 0;
  for (std::size_t i = 0; i < page.size(); ++i) {
    const Point off = (*fit)(page[i]) - seen[i];
    squares += dot(off, off);
  }
  result.error =
      std::sqrt(squares / std::max(1.0, 2.0 * static_cast<double>(page.size()) - fit->unknowns()));
  result.offset = (*fit)({0.5, 0.5}) - Point{0.5, 0.5};
  Quad corners = kUnitSquare;
  for (Point& corner : corners) corner = (*fit)(corner);
  result.picture = in_order(corners);
  describe(result, aspect);
  return result;
}

}  // namespace benchgraft::align
