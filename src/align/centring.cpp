#include "align/centring.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

#include <fmt/format.h>

namespace benchgraft::align {
namespace {

constexpr double kDegree = std::numbers::pi / 180;

Error bad(std::string message) { return {ErrorKind::bad_input, std::move(message)}; }

using Four = std::array<double, 4>;

/// Unknowns of one direction: constant, along x, along y, along x y. Positions are shares of the
/// half screen, so all four are of one size.
Four terms(const Spot& spot, ScreenSize screen) {
  const double x = 2 * spot.x / screen.width, y = 2 * spot.y / screen.height;
  return {1, x, y, x * y};
}

/// Solves the normal equations by elimination; nothing where the points do not fix all four.
std::optional<Four> solve(std::array<Four, 4> left, Four right) {
  for (std::size_t column = 0; column < 4; ++column) {
    std::size_t pivot = column;
    for (std::size_t row = column + 1; row < 4; ++row)
      if (std::abs(left[row][column]) > std::abs(left[pivot][column])) pivot = row;
    if (std::abs(left[pivot][column]) < 1e-6) return std::nullopt;
    std::swap(left[column], left[pivot]);
    std::swap(right[column], right[pivot]);
    for (std::size_t row = 0; row < 4; ++row) {
      if (row == column) continue;
      const double times = left[row][column] / left[column][column];
      for (std::size_t k = column; k < 4; ++k) left[row][k] -= times * left[column][k];
      right[row] -= times * right[column];
    }
  }
  for (std::size_t i = 0; i < 4; ++i) right[i] /= left[i][i];
  return right;
}

template <class Seen>
std::optional<Four> fit(std::span<const SpotPair> points, ScreenSize screen, Seen seen) {
  std::array<Four, 4> left{};
  Four right{};
  for (const auto& point : points) {
    const Four row = terms(point.wanted, screen);
    for (std::size_t i = 0; i < 4; ++i) {
      right[i] += row[i] * seen(point.seen);
      for (std::size_t j = 0; j < 4; ++j) left[i][j] += row[i] * row[j];
    }
  }
  return solve(left, right);
}

double left_over(std::span<const SpotPair> points, ScreenSize screen, const Four& x,
                 const Four& y) {
  double squares = 0;
  for (const auto& point : points) {
    const Four row = terms(point.wanted, screen);
    double dx = -point.seen.x, dy = -point.seen.y;
    for (std::size_t i = 0; i < 4; ++i) dx += row[i] * x[i], dy += row[i] * y[i];
    squares += dx * dx + dy * dy;
  }
  return std::sqrt(squares / static_cast<double>(points.size()));
}

Result<void> check(std::span<const SpotPair> points, ScreenSize screen) {
  if (!(screen.width > 0) || !(screen.height > 0) || !std::isfinite(screen.width + screen.height))
    return bad("The screen must have a width and a height above 0.");
  if (points.size() < 4)
    return bad(
        fmt::format("{} points do not show size, turn and keystone; take at least four, best "
                    "near the corners.",
                    points.size()));
  for (const auto& point : points)
    if (!std::isfinite(point.wanted.x + point.wanted.y + point.seen.x + point.seen.y))
      return bad("A point has no place; measure it again.");
  return {};
}

Correction correction(std::string what, double by, std::string unit, const char* more,
                      const char* less, std::span<const StepEffect> effects) {
  Correction out{std::move(what), by, std::move(unit), std::nullopt, ""};
  const std::string amount = out.unit == "%" ? fmt::format("{:.1f} %", std::abs(by))
                                             : fmt::format("{:.1f} {}", std::abs(by), out.unit);
  out.sentence = fmt::format("{}: {} {}.", out.what, amount, by > 0 ? more : less);
  for (const auto& effect : effects)
    if (effect.what == out.what && effect.per_step != 0) {
      out.steps = by / effect.per_step;
      out.sentence += fmt::format(" That is {:+.0f} steps.", *out.steps);
    }
  return out;
}

}  // namespace

Result<Centring> centring_of(std::span<const SpotPair> points, ScreenSize screen) {
  if (const auto good = check(points, screen); !good) return good.error();
  const auto x = fit(points, screen, [](const Spot& seen) { return seen.x; });
  const auto y = fit(points, screen, [](const Spot& seen) { return seen.y; });
  if (!x || !y)
    return bad(
        "The points lie in one line or only on the middle lines; take some near all four "
        "corners.");
  const double half_w = screen.width / 2, half_h = screen.height / 2;
  Centring out;
  out.left_right = (*x)[0];
  out.up_down = (*y)[0];
  // Unit vectors of the picture: where one half width to the right and one half height up go.
  const double right_x = (*x)[1] / half_w, right_y = (*y)[1] / half_w;
  const double up_x = (*x)[2] / half_h, up_y = (*y)[2] / half_h;
  if (!(right_x > 0.2) || !(up_y > 0.2))
    return bad(
        "The picture is mirrored or turned over; put the picture flip right first, then "
        "centre.");
  const double level = std::atan2(right_y, right_x), upright = std::atan2(-up_x, up_y);
  out.size_x = std::hypot(right_x, right_y);
  out.size_y = std::hypot(up_x, up_y);
  out.turn_degrees = (level + upright) / 2 / kDegree;
  out.lean_degrees = (level - upright) / kDegree;
  out.keystone_x = (*x)[3] / (*x)[1];
  out.keystone_y = (*y)[3] / (*y)[2];
  out.left_over = left_over(points, screen, *x, *y);
  return out;
}

std::vector<Correction> corrections(const Centring& found, ScreenSize screen,
                                    const std::string& unit, double least,
                                    std::span<const StepEffect> effects) {
  std::vector<Correction> out;
  const auto add = [&](bool worth, Correction one) {
    if (worth) out.push_back(std::move(one));
  };
  // A turn by this much moves a corner by `least` of the width.
  const double least_turn =
      2 * least / kDegree * screen.width / std::hypot(screen.width, screen.height);
  add(std::abs(found.turn_degrees) > least_turn,
      correction("turn of the picture", -found.turn_degrees, "degrees", "anticlockwise",
                 "clockwise", effects));
  add(std::abs(found.keystone_x) > 2 * least,
      correction("keystone up and down", -100 * found.keystone_x, "%", "wider at the top",
                 "narrower at the top", effects));
  add(std::abs(found.keystone_y) > 2 * least,
      correction("keystone left and right", -100 * found.keystone_y, "%", "taller on the right",
                 "shorter on the right", effects));
  add(std::abs(found.size_x - 1) > 2 * least,
      correction("width", 100 * (1 / found.size_x - 1), "%", "wider", "narrower", effects));
  add(std::abs(found.size_y - 1) > 2 * least,
      correction("height", 100 * (1 / found.size_y - 1), "%", "taller", "lower", effects));
  add(std::abs(found.left_right) > least * screen.width,
      correction("left-right place", -found.left_right, unit, "to the right", "to the left",
                 effects));
  add(std::abs(found.up_down) > least * screen.height,
      correction("up-down place", -found.up_down, unit, "up", "down", effects));
  return out;
}

Result<StepEffect> effect_of(const std::string& what, double setting_a, double seen_a,
                             double setting_b, double seen_b) {
  if (!std::isfinite(setting_a + seen_a + setting_b + seen_b) || setting_a == setting_b)
    return bad(
        fmt::format("The effect of \"{}\" wants two different values of it and what was seen "
                    "at each.",
                    what));
  if (seen_a == seen_b)
    return bad(
        fmt::format("\"{}\" changed nothing between {:g} and {:g}; go further apart, or it is "
                    "the wrong value.",
                    what, setting_a, setting_b));
  return StepEffect{what, (seen_b - seen_a) / (setting_b - setting_a)};
}

}  // namespace benchgraft::align
