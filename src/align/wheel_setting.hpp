// The wheel index setting from bars seen at a few values, by the physics of the wheel itself.
//
// Wheel, value and bars are joined by: late = degrees per step * (value - right value). What each
// bar would look like at that delay is the forward model of wheel.hpp; the right value, the degrees
// per step and their sign are what is to be found. Words alone are enough; so are lux readings.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "align/estimate.hpp"
#include "align/wheel_delay.hpp"

namespace benchgraft::align {

/// Bars seen with the setting at one value.
struct BarsAt {
  double value = 0;
  std::vector<SeenBar> bars;
};

struct WheelQuestion {
  Wheel wheel;
  Scale scale;
  /// Degrees by which one unit of the setting delays the data; known to a tenth. Not given:
  /// unknown, sign and all.
  std::optional<double> degrees_per_unit;
  std::optional<double> start;  ///< where the setting stands
  std::vector<BarsAt> looks;
  BarErrors errors;
};

struct WheelEstimate {
  Estimate setting;        ///< band: where every bar is clean
  Diagnosis last;          ///< of the last look alone: late, early, a segment off, exchanged
  Slope degrees_per_unit;  ///< as believed now
  double microseconds_per_unit = 0;
};

/// Of the right values, which come again after every period of the wheel, the one nearest to where
/// looking began. fails: as diagnose(); a value off the scale; no look. cost: under 10 ms.
Result<WheelEstimate> estimate_wheel(const WheelQuestion& question);

}  // namespace benchgraft::align
