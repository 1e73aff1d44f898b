#include "align/pixel_shift.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace benchgraft::align {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr int kRows = 32;      // samples of the contour over two rows
constexpr double kFar = 8;     // farther than any edge, in p
constexpr double kGood = 0.1;  // D by D without actuator that still passes as good

double below_normal(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

/// Distance from the nearest even row.
double from_even_row(double y) { return std::abs(std::remainder(y, 2.0)); }

/// Light of the edge at one point, blurred across by formula and along by a sum.
double light_at(const ShiftState& state, double x, double y) {
  constexpr int kNodes = 8;
  double sum = 0, weights = 0;
  for (int k = -kNodes; k <= kNodes; ++k) {
    const double weight = std::exp(-0.125 * k * k);
    const double tooth = from_even_row(y + 0.5 * k * state.sigma);
    const double first = tooth - 1, second = -tooth + state.gain - 1;
    const auto lit = [&](double edge) { return below_normal((x - edge) / state.sigma); };
    const double right = lit(first) + lit(second);
    const double wrong = lit(first + state.gain) + lit(second - state.gain);
    sum += weight * 0.5 * ((1 - state.late_share) * right + state.late_share * wrong);
    weights += weight;
  }
  return sum / weights;
}

double contour_at(const ShiftState& state, double y, double share) {
  double low = -kFar, high = kFar;
  for (int i = 0; i < 40; ++i) {
    const double middle = (low + high) / 2;
    (light_at(state, middle, y) < share ? low : high) = middle;
  }
  return low;
}

std::array<double, kRows> contour(const ShiftState& state, double share) {
  std::array<double, kRows> line{};
  for (int i = 0; i < kRows; ++i) line[i] = contour_at(state, 2.0 * i / kRows, share);
  return line;
}

double mean(const std::array<double, kRows>& line) {
  double sum = 0;
  for (const double x : line) sum += x;
  return sum / kRows;
}

Error bad(std::string message) { return {ErrorKind::bad_input, std::move(message)}; }

std::string told(ShiftFault fault) {
  switch (fault) {
    case ShiftFault::good:
      return "The half pictures interlock: leave the gain as it is.";
    case ShiftFault::gain_low:
      return "The shift is too short: raise the gain.";
    case ShiftFault::gain_high:
      return "The shift is too long: lower the gain.";
    case ShiftFault::off:
      return "The actuator does not move: look at its plug and its lead before any setting.";
    case ShiftFault::reversed:
      return "The shift goes the wrong way: the half pictures are exchanged. Change their order, "
             "and "
             "look at it again after every change of the picture flip.";
    case ShiftFault::unclear:
      break;
  }
  return "The reading lies between two faults: take it again, closer and steadier.";
}

ShiftFault fault_of(double ratio, double error) {
  const double blur = std::max(0.15, 2 * error);
  if (std::abs(ratio) <= std::max(kGood, error)) return ShiftFault::good;
  if (std::abs(ratio - 2) <= std::max(0.3, blur)) return ShiftFault::reversed;
  if (std::abs(ratio - 1) <= blur) return ShiftFault::off;
  if (ratio < 0) return ratio > -1 ? ShiftFault::gain_high : ShiftFault::unclear;
  return ratio < 1 ? ShiftFault::gain_low : ShiftFault::unclear;
}

}  // namespace

double displacement_per_gain(double sigma) {
  return 8 / (kPi * kPi) * std::exp(-kPi * kPi * sigma * sigma / 2);
}

double displacement(const ShiftState& state) {
  const double apart = state.gain - 1 - 2 * state.late_share * state.gain;
  return displacement_per_gain(state.sigma) * apart;
}

double raggedness(const ShiftState& state, double share) {
  const auto line = contour(state, share);
  const double middle = mean(line);
  double squares = 0;
  for (const double x : line) squares += (x - middle) * (x - middle);
  return std::sqrt(squares / kRows);
}

double edge_width(const ShiftState& state) {
  return mean(contour(state, 0.9)) - mean(contour(state, 0.1));
}

double line_spread(const ShiftState& state) {
  const double f = state.late_share;
  const double apart = state.gain - 1 - 2 * f * state.gain;
  // A mirror on its corner spreads its light as a triangle: variance 1/6.
  return std::sqrt(state.sigma * state.sigma + 1.0 / 6 + f * (1 - f) * state.gain * state.gain +
                   apart * apart / 4);
}

double pixel_mm(double diagonal_inches, int columns) {
  return diagonal_inches * 25.4 * 16 / std::hypot(16, 9) / columns;
}

Result<double> secant_gain(double gain_a, double d_a, double gain_b, double d_b) {
  if (!std::isfinite(gain_a + d_a + gain_b + d_b))
    return bad("A gain or a displacement is no number; take the photo again.");
  if (gain_a == gain_b)
    return bad("Both photos were taken at the same gain; change it by a tenth and take another.");
  if (std::abs(d_a - d_b) < 1e-9)
    return bad(
        "The two photos show the same displacement; the gain does not act, look at the plug "
        "of the actuator.");
  return gain_a - d_a * (gain_b - gain_a) / (d_b - d_a);
}

int gain_byte(double gain) {
  return static_cast<int>(std::lround(std::clamp(128 * gain, 0.0, 255.0)));
}

Result<ShiftDiagnosis> judge_shift(double d, double d_off, double error) {
  if (!std::isfinite(d) || !std::isfinite(d_off) || !std::isfinite(error) || !(error >= 0))
    return bad("A displacement is no number; take the photo again.");
  if (!(std::abs(d_off) > 3 * error) || !(std::abs(d_off) > 0.05))
    return bad(fmt::format(
        "With the actuator off the rows lie only {:.3f} pixels apart: the photo is too blurred to "
        "compare with; come closer and focus.",
        std::abs(d_off)));
  const double ratio = d / d_off;
  ShiftDiagnosis out;
  out.fault = fault_of(ratio, error * std::hypot(1, ratio) / std::abs(d_off));
  out.gain = 1 - ratio;
  out.sentence = told(out.fault);
  return out;
}

Result<ShiftDiagnosis> judge_shift(std::string_view word) {
  ShiftDiagnosis out;
  if (word == "smooth") {
    out.fault = ShiftFault::good;
  } else if (word == "less jagged than off") {
    out.sentence = "It works but the gain is off: step the gain and look for the smoothest edge.";
    return out;
  } else if (word == "as jagged as off") {
    out.fault = ShiftFault::off;
  } else if (word == "more jagged than off") {
    out.fault = ShiftFault::reversed;
  } else {
    return bad(
        fmt::format("\"{}\" does not say how it looks against the actuator switched off; say "
                    "smooth, less jagged than off, as jagged as off or more jagged than off.",
                    word));
  }
  out.sentence = told(out.fault);
  return out;
}

OrderAfterFlip order_after_flip(catalogue::Flip toggled) {
  if (!toggled.h && !toggled.v) return {false, "The order of the half pictures stays as it is."};
  if (toggled.h != toggled.v)
    return {true,
            "This change of the flip most likely exchanges the half pictures: look at single-pixel "
            "lines, and change the order if they are more jagged than with the actuator off."};
  return {false,
          "Both flips changed: the half pictures most likely stay in order; look at single-pixel "
          "lines all the same."};
}

}  // namespace benchgraft::align
