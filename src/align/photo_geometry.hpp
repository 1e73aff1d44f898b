// Points, four-sided shapes and the plane perspective between them.
#pragma once

#include <array>
#include <optional>
#include <span>

namespace benchgraft::align {

struct Point {
  double x = 0, y = 0;
  friend Point operator+(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }
  friend Point operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
  friend Point operator*(double k, Point p) { return {k * p.x, k * p.y}; }
};

double length(Point p);
double dot(Point a, Point b);
/// Positive when b lies clockwise of a on a picture whose y runs down.
double cross(Point a, Point b);

/// Corners as seen: top left, top right, bottom right, bottom left.
using Quad = std::array<Point, 4>;

inline constexpr Quad kUnitSquare{Point{0, 0}, {1, 0}, {1, 1}, {0, 1}};

double area(const Quad& quad);
/// True when the corners run round once and no corner points inwards.
bool convex(const Quad& quad);
/// The same four corners in the order of Quad, whatever order they were given in.
Quad in_order(Quad corners);

/// A plane perspective: eight numbers, the ninth is 1.
class Homography {
 public:
  Homography() = default;
  /// Least squares over pairs of points; exact for four. Nothing when they do not fix it.
  /// Source: Hartley and Zisserman, Multiple View Geometry, direct linear transformation.
  static std::optional<Homography> between(std::span<const Point> from, std::span<const Point> to);
  [[nodiscard]] Point operator()(Point p) const;
  [[nodiscard]] Homography inverse() const;
  [[nodiscard]] const std::array<double, 9>& terms() const { return m_; }

 private:
  std::array<double, 9> m_{1, 0, 0, 0, 1, 0, 0, 0, 1};
};

/// One radial term: an ideal point p at radius r (in half picture diagonals) from `centre` is seen
/// at centre + (1 + k r^2)(p - centre). k < 0 is a barrel, k > 0 a cushion.
struct Lens {
  Point centre;
  double half_diagonal = 1;
  double k = 0;
  [[nodiscard]] Point seen(Point ideal) const;
  [[nodiscard]] Point ideal(Point seen) const;
};

/// y = a + b x + c x^2 through points by least squares.
struct Parabola {
  double a = 0, b = 0, c = 0;
  [[nodiscard]] double operator()(double x) const { return a + (b + c * x) * x; }
};
Parabola fit_parabola(std::span<const Point> points);

/// A straight line as a point on it and its unit direction; least squares of the distances.
struct Line {
  Point through, along;
  [[nodiscard]] double distance(Point p) const { return cross(along, p - through); }
};
Line fit_line(std::span<const Point> points);
/// Nothing when the lines are parallel.
std::optional<Point> crossing(const Line& a, const Line& b);

/// Solves the n equations `a` x = `b` (row by row) by elimination; false when they do not fix x.
bool solve_linear(std::span<double> a, std::span<double> b);

}  // namespace benchgraft::align
