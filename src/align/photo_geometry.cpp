#include "align/photo_geometry.hpp"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "base/ensure.hpp"

namespace benchgraft::align {

double length(Point p) { return std::hypot(p.x, p.y); }
double dot(Point a, Point b) { return a.x * b.x + a.y * b.y; }
double cross(Point a, Point b) { return a.x * b.y - a.y * b.x; }

double area(const Quad& quad) {
  return 0.5 * std::abs(cross(quad[2] - quad[0], quad[3] - quad[1]));
}

bool convex(const Quad& quad) {
  for (std::size_t i = 0; i < 4; ++i)
    if (cross(quad[(i + 1) % 4] - quad[i], quad[(i + 2) % 4] - quad[(i + 1) % 4]) <= 0)
      return false;
  return true;
}

Quad in_order(Quad corners) {
  const Point middle = 0.25 * (corners[0] + corners[1] + corners[2] + corners[3]);
  std::sort(corners.begin(), corners.end(), [&](Point a, Point b) {
    return std::atan2(a.y - middle.y, a.x - middle.x) < std::atan2(b.y - middle.y, b.x - middle.x);
  });
  const auto first = std::min_element(corners.begin(), corners.end(),
                                      [](Point a, Point b) { return a.x + a.y < b.x + b.y; });
  std::rotate(corners.begin(), first, corners.end());
  return corners;
}

bool solve_linear(std::span<double> a, std::span<double> b) {
  const std::size_t n = b.size();
  ensure(a.size() == n * n, "the equations are not square");
  for (std::size_t c = 0; c < n; ++c) {
    std::size_t best = c;
    for (std::size_t r = c + 1; r < n; ++r)
      if (std::abs(a[r * n + c]) > std::abs(a[best * n + c])) best = r;
    if (std::abs(a[best * n + c]) < 1e-12) return false;
    for (std::size_t k = 0; k < n; ++k) std::swap(a[c * n + k], a[best * n + k]);
    std::swap(b[c], b[best]);
    for (std::size_t r = 0; r < n; ++r) {
      if (r == c) continue;
      const double factor = a[r * n + c] / a[c * n + c];
      for (std::size_t k = c; k < n; ++k) a[r * n + k] -= factor * a[c * n + k];
      b[r] -= factor * b[c];
    }
  }
  for (std::size_t i = 0; i < n; ++i) b[i] /= a[i * n + i];
  return true;
}

namespace {

/// Moves points to their middle and scales them to a mean distance of sqrt(2): without this the
/// equations lose half their digits.
struct Normalised {
  Point middle;
  double scale = 1;
  explicit Normalised(std::span<const Point> points) {
    for (const Point& p : points) middle = middle + p;
    middle = (1.0 / static_cast<double>(points.size())) * middle;
    double spread = 0;
    for (const Point& p : points) spread += length(p - middle);
    spread /= static_cast<double>(points.size());
    if (spread > 0) scale = std::sqrt(2.0) / spread;
  }
  [[nodiscard]] Point operator()(Point p) const { return scale * (p - middle); }
  [[nodiscard]] std::array<double, 9> forward() const {
    return {scale, 0, -scale * middle.x, 0, scale, -scale * middle.y, 0, 0, 1};
  }
  [[nodiscard]] std::array<double, 9> back() const {
    return {1 / scale, 0, middle.x, 0, 1 / scale, middle.y, 0, 0, 1};
  }
};

std::array<double, 9> product(const std::array<double, 9>& a, const std::array<double, 9>& b) {
  std::array<double, 9> c{};
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = 0; j < 3; ++j)
      for (std::size_t k = 0; k < 3; ++k) c[3 * i + j] += a[3 * i + k] * b[3 * k + j];
  return c;
}

/// Adds row * row^T and row * value to the normal equations of eight unknowns.
void add_row(std::array<double, 64>& a, std::array<double, 8>& b, const std::array<double, 8>& row,
             double value) {
  for (std::size_t i = 0; i < 8; ++i) {
    for (std::size_t j = 0; j < 8; ++j) a[8 * i + j] += row[i] * row[j];
    b[i] += row[i] * value;
  }
}

}  // namespace

std::optional<Homography> Homography::between(std::span<const Point> from,
                                              std::span<const Point> to) {
  ensure(from.size() == to.size(), "points without partners");
  if (from.size() < 4) return std::nullopt;
  const Normalised f(from), t(to);
  std::array<double, 64> a{};
  std::array<double, 8> b{};
  for (std::size_t i = 0; i < from.size(); ++i) {
    const Point p = f(from[i]), q = t(to[i]);
    add_row(a, b, {p.x, p.y, 1, 0, 0, 0, -q.x * p.x, -q.x * p.y}, q.x);
    add_row(a, b, {0, 0, 0, p.x, p.y, 1, -q.y * p.x, -q.y * p.y}, q.y);
  }
  if (!solve_linear(a, b)) return std::nullopt;
  Homography result;
  result.m_ =
      product(t.back(), product({b[0], b[1], b[2], b[3], b[4], b[5], b[6], b[7], 1}, f.forward()));
  if (std::abs(result.m_[8]) < 1e-12) return std::nullopt;
  for (double& term : result.m_) term /= result.m_[8];
  return result;
}

Point Homography::operator()(Point p) const {
  const double w = m_[6] * p.x + m_[7] * p.y + m_[8];
  return {(m_[0] * p.x + m_[1] * p.y + m_[2]) / w, (m_[3] * p.x + m_[4] * p.y + m_[5]) / w};
}

Homography Homography::inverse() const {
  Homography result;
  auto& r = result.m_;
  r = {m_[4] * m_[8] - m_[5] * m_[7], m_[2] * m_[7] - m_[1] * m_[8], m_[1] * m_[5] - m_[2] * m_[4],
       m_[5] * m_[6] - m_[3] * m_[8], m_[0] * m_[8] - m_[2] * m_[6], m_[2] * m_[3] - m_[0] * m_[5],
       m_[3] * m_[7] - m_[4] * m_[6], m_[1] * m_[6] - m_[0] * m_[7], m_[0] * m_[4] - m_[1] * m_[3]};
  ensure(r[8] != 0, "the perspective has no way back");
  const double last = r[8];
  for (double& term : r) term /= last;
  return result;
}

Point Lens::seen(Point ideal) const {
  const Point from_centre = ideal - centre;
  const double r = length(from_centre) / half_diagonal;
  return centre + (1 + k * r * r) * from_centre;
}

Point Lens::ideal(Point seen) const {
  const Point from_centre = seen - centre;
  Point found = from_centre;
  for (int i = 0; i < 12; ++i) {  // |k| r^2 < 0.2: each round gains at least one digit
    const double r = length(found) / half_diagonal;
    found = (1 / (1 + k * r * r)) * from_centre;
  }
  return centre + found;
}

Parabola fit_parabola(std::span<const Point> points) {
  std::array<double, 9> a{};
  std::array<double, 3> b{};
  // Measured from the middle, so that large coordinates cost no digits.
  Point middle;
  for (const Point& p : points) middle = middle + p;
  middle = (1.0 / static_cast<double>(std::max<std::size_t>(points.size(), 1))) * middle;
  for (const Point& p : points) {
    const double x = p.x - middle.x, y = p.y - middle.y;
    const std::array<double, 3> row{1, x, x * x};
    for (std::size_t i = 0; i < 3; ++i) {
      for (std::size_t j = 0; j < 3; ++j) a[3 * i + j] += row[i] * row[j];
      b[i] += row[i] * y;
    }
  }
  if (!solve_linear(a, b)) return {middle.y, 0, 0};
  const double m = middle.x;
  return {middle.y + b[0] - b[1] * m + b[2] * m * m, b[1] - 2 * b[2] * m, b[2]};
}

Line fit_line(std::span<const Point> points) {
  Line line;
  for (const Point& p : points) line.through = line.through + p;
  line.through =
      (1.0 / static_cast<double>(std::max<std::size_t>(points.size(), 1))) * line.through;
  double xx = 0, xy = 0, yy = 0;
  for (const Point& p : points) {
    const Point d = p - line.through;
    xx += d.x * d.x;
    xy += d.x * d.y;
    yy += d.y * d.y;
  }
  const double angle = 0.5 * std::atan2(2 * xy, xx - yy);
  line.along = {std::cos(angle), std::sin(angle)};
  return line;
}

std::optional<Point> crossing(const Line& a, const Line& b) {
  const double across = cross(a.along, b.along);
  if (std::abs(across) < 1e-9) return std::nullopt;
  const double t = cross(b.through - a.through, b.along) / across;
  return a.through + t * a.along;
}

}  // namespace benchgraft::align
