// From where points of a test grid lie on the screen to offset, size, rotation and keystone, and
// what each service value should change.
//
// Lengths in any one unit, x to the right and y up, origin in the middle of the screen. The picture
// is taken to lie on the screen as
//   x' = left_right + size_x x - turn y + keystone_x x y / (half height)
//   y' = up_down    + size_y y + turn x + keystone_y x y / (half width)
// fitted by least squares; what is left over is told.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/result.hpp"

namespace benchgraft::align {

struct Spot {
  double x = 0, y = 0;
};

/// One point of the grid: where it should be and where it is.
struct SpotPair {
  Spot wanted, seen;
};

struct ScreenSize {
  double width = 0, height = 0;
};

struct Centring {
  double left_right = 0;  ///< of the middle, to the right; unit of the points
  double up_down = 0;     ///< of the middle, upwards
  double size_x = 1;      ///< width of the picture by the wanted one
  double size_y = 1;
  double turn_degrees = 0;  ///< anticlockwise
  double lean_degrees = 0;  ///< uprights lean right of square with the levels
  double keystone_x = 0;    ///< top wider than the middle, as a share
  double keystone_y = 0;    ///< right side taller than the middle, as a share
  double left_over = 0;     ///< root mean square of what this does not explain
};

/// fails: fewer than four points, points in one line or all on the axes, a screen without size,
/// a picture that is mirrored or turned (that is the flip, to be put right first).
Result<Centring> centring_of(std::span<const SpotPair> points, ScreenSize screen);

/// What one adjustment should change.
struct Correction {
  std::string what;             ///< "left-right place", "width", ...
  double by = 0;                ///< in `unit`; below 0: less, to the left, down, clockwise
  std::string unit;             ///< "%", "degrees", or "" for the unit of the points
  std::optional<double> steps;  ///< of the service value, where its effect is known
  std::string sentence;
};

/// How much one step of a service value does, in the unit of its correction.
struct StepEffect {
  std::string what;
  double per_step = 0;
};

/// Corrections worth making, in the order in which they do not undo each other: turn, keystone,
/// size, place. in: `unit` of the points ("mm"); `least`: what nobody sees, as a share of the
/// screen.
std::vector<Correction> corrections(const Centring& found, ScreenSize screen,
                                    const std::string& unit, double least = 0.004,
                                    std::span<const StepEffect> effects = {});

/// What a service value does, from two settings of it. fails: the same setting twice, no effect.
Result<StepEffect> effect_of(const std::string& what, double setting_a, double seen_a,
                             double setting_b, double seen_b);

}  // namespace benchgraft::align
