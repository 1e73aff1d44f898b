// Screens that answer like real ones, for judging the estimator. They share nothing with it: other
// curves, hard edges that shake, noise of their own, and true values it never sees.
#pragma once

#include <functional>
#include <random>
#include <string>

namespace benchgraft::align {

/// A screen whose right value is known to nobody but the test.
struct SimulatedScreen {
  double right = 0;
  std::function<std::string(double)> word;  ///< what a technician says at a value
  std::function<double(double)> number;     ///< what an instrument reads at a value
  std::function<bool(double)> good;         ///< whether a value would do
};

using Random = std::mt19937_64;

/// Window of steps on 0..255: purplish, red, orange, and stronger words far off.
SimulatedScreen red_bar(Random& random);
/// Gain on 0..1.992: smooth, jagged, very jagged.
SimulatedScreen fine_lines(Random& random);
/// Peak of light over steps on 0..255, three kinds of curve, 3 % noise.
SimulatedScreen green_light(Random& random);
/// Displacement that grows with gain, slightly bent, 0.01 noise.
SimulatedScreen comb(Random& random);
/// Flicker above one step on 0..255.
SimulatedScreen flicker(Random& random);

}  // namespace benchgraft::align
