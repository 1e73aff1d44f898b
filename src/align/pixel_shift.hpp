// Forward model of the half-pixel actuator, and what to conclude from a photo or a look.
//
// Square mirrors stand on their corner; a picture pixel is p wide and a mirror's diagonal is 2 p.
// Two half pictures show the odd and the even sites of a checkerboard; the second is shifted by
// gain * p. Every half picture tiles the plane, so an upright edge of it is a sawtooth one p deep;
// the two sawtooths interlock when the gain is 1. Blur is a round bell of `sigma`. All lengths in
// p. source: derived; docs/methods/align.md, section "Half-pixel actuator".
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/result.hpp"
#include "catalogue/part_type.hpp"

namespace benchgraft::align {

struct ShiftState {
  double gain = 1;        ///< real shift by wanted shift; -1: half pictures exchanged
  double sigma = 0.25;    ///< blur of lens, screen and camera
  double late_share = 0;  ///< share of each half picture that is shown in the other one's place
};

/// D: how far the odd rows of an upright one-pixel line lie right of the even ones, on average.
double displacement(const ShiftState& state);
/// D for each unit of gain error: (8 / pi^2) exp(-pi^2 sigma^2 / 2).
double displacement_per_gain(double sigma);
/// Standard deviation of the contour of an upright edge at `share` (0..1) of full light, after
/// ISO/IEC 13660. At one half it is blind to the gain: use 0.60 and 0.75.
double raggedness(const ShiftState& state, double share);
/// Mean distance from the contour at 10 % to the one at 90 %.
double edge_width(const ShiftState& state);
/// Standard deviation of a one-pixel line's light across the line; least at the right delay.
double line_spread(const ShiftState& state);

/// Width of a picture pixel on a 16:9 screen: also the shift that is wanted.
double pixel_mm(double diagonal_inches, int columns);

/// Gain at which D is nothing, from D at two gains; no need to know the blur.
/// fails: the two gains or the two displacements are the same.
Result<double> secant_gain(double gain_a, double d_a, double gain_b, double d_b);
/// The byte that holds a gain in steps of 1/128, 0 to 255.
int gain_byte(double gain);

enum class ShiftFault { good, gain_low, gain_high, off, reversed, unclear };

struct ShiftDiagnosis {
  ShiftFault fault = ShiftFault::unclear;
  std::optional<double> gain;  ///< as it is now
  std::string sentence;
};

/// in: D as it is, D with the actuator unplugged or at gain 0, standard error of each.
/// fails: numbers that cannot be, or D without the actuator too small to compare with.
Result<ShiftDiagnosis> judge_shift(double d, double d_off, double error);

/// The same by eye, against the actuator switched off: "smooth", "less jagged than off", "as jagged
/// as off", "more jagged than off". fails: another word.
Result<ShiftDiagnosis> judge_shift(std::string_view word);

/// What a change of the picture flip does to the order of the half pictures.
/// source: derived for even numbers of rows and columns; controllers keep an order for each flip.
struct OrderAfterFlip {
  bool likely_reversed = false;
  std::string sentence;
};
OrderAfterFlip order_after_flip(catalogue::Flip toggled);

}  // namespace benchgraft::align
