// CIE 1931 colorimetry: from a spectrum, a bar or a camera pixel to what an eye tells apart.
#pragma once

#include <array>
#include <cstddef>

#include "base/result.hpp"

namespace benchgraft::align {

/// Tristimulus values; also colour matching functions. `y` is the luminance (relative).
struct Xyz {
  double x = 0, y = 0, z = 0;
  friend constexpr Xyz operator+(const Xyz& a, const Xyz& b) {
    return {a.x + b.x, a.y + b.y, a.z + b.z};
  }
  friend constexpr Xyz operator*(double k, const Xyz& c) { return {k * c.x, k * c.y, k * c.z}; }
  bool operator==(const Xyz&) const = default;
};

/// Place in the CIE 1931 xy diagram.
struct Chromaticity {
  double x = 0, y = 0;
  bool operator==(const Chromaticity&) const = default;
};

/// Linear light of the BT.709 / sRGB primaries; 1, 1, 1 is their white (x 0.3127, y 0.3290).
struct LinearRgb {
  double r = 0, g = 0, b = 0;
  bool operator==(const LinearRgb&) const = default;
};

/// CIE 1976 L*a*b*.
struct Lab {
  double l = 0, a = 0, b = 0;
  bool operator==(const Lab&) const = default;
};

inline constexpr std::size_t kWavelengths = 81;
/// Relative power at 380, 385 ... 780 nm.
using Spectrum = std::array<double, kWavelengths>;

/// What the 1931 observer sees of `light`; a flat spectrum of 1 gives y = 1.
Xyz seen(const Spectrum& light);
/// The same behind a filter; `pass` is its transmittance, 0..1.
Xyz through(const Spectrum& light, const Spectrum& pass);

/// fails: no light at all (x + y + z is not above 0).
Result<Chromaticity> chromaticity(const Xyz& colour);
/// fails: y of the chromaticity is not above 0.
Result<Xyz> xyz_of(Chromaticity place, double luminance);

/// source: ITU-R BT.709-6 primaries and white; the matrices are derived from them.
LinearRgb linear_rgb(const Xyz& colour);
Xyz xyz_of(const LinearRgb& light);

/// source: IEC 61966-2-1 transfer curve; 0..1 both ways.
double linear_of_srgb(double encoded);
double srgb_of_linear(double linear);

/// in: `white` is what the eye takes for white, same scale as `colour`.
Lab lab(const Xyz& colour, const Xyz& white);
/// CIEDE2000 difference with unit weights; 1 is about the least an eye tells apart side by side.
/// source: Sharma, Wu and Dalal, Color Research and Application 30 (2005) 21-30.
double difference(const Lab& a, const Lab& b);

}  // namespace benchgraft::align
