#include "align/colour.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

namespace benchgraft::align {
namespace {

constexpr double kDegree = std::numbers::pi / 180;

double cube_root_or_line(double t) {
  constexpr double kKnee = 6.0 / 29;
  return t > kKnee * kKnee * kKnee ? std::cbrt(t) : t / (3 * kKnee * kKnee) + 4.0 / 29;
}

double hue_degrees(double a, double b) {
  if (a == 0 && b == 0) return 0;
  const double hue = std::atan2(b, a) / kDegree;
  return hue < 0 ? hue + 360 : hue;
}

/// Lightness, chroma and hue with a* stretched as CIEDE2000 wants it.
struct Lch {
  double l, c, h;
};

Lch stretched(const Lab& colour, double stretch) {
  const double a = colour.a * (1 + stretch);
  return {colour.l, std::hypot(a, colour.b), hue_degrees(a, colour.b)};
}

double seventh_power_share(double chroma) {
  const double power = std::pow(chroma, 7);
  return std::sqrt(power / (power + std::pow(25.0, 7)));
}

double hue_step(const Lch& a, const Lch& b) {
  if (a.c * b.c == 0) return 0;
  double step = b.h - a.h;
  if (step > 180) step -= 360;
  if (step < -180) step += 360;
  return step;
}

double hue_middle(const Lch& a, const Lch& b) {
  if (a.c * b.c == 0) return a.h + b.h;
  if (std::abs(a.h - b.h) <= 180) return (a.h + b.h) / 2;
  return (a.h + b.h + (a.h + b.h < 360 ? 360 : -360)) / 2;
}

}  // namespace

Result<Chromaticity> chromaticity(const Xyz& colour) {
  const double sum = colour.x + colour.y + colour.z;
  if (!(sum > 0))
    return Error{ErrorKind::bad_input,
                 "A colour without light has no place in the colour diagram; take a brighter "
                 "reading."};
  return Chromaticity{colour.x / sum, colour.y / sum};
}

Result<Xyz> xyz_of(Chromaticity place, double luminance) {
  if (!(place.x >= 0) || !(place.y > 0) || !(place.x + place.y <= 1))
    return Error{ErrorKind::bad_input, "x = " + std::to_string(place.x) +
                                           ", y = " + std::to_string(place.y) +
                                           " lies outside the colour diagram; x and y are shares, "
                                           "above 0 and at most 1 together."};
  return Xyz{luminance * place.x / place.y, luminance,
             luminance * (1 - place.x - place.y) / place.y};
}

LinearRgb linear_rgb(const Xyz& c) {
  return {3.240969941904521 * c.x - 1.537383177570093 * c.y - 0.498610760293003 * c.z,
          -0.969243636280870 * c.x + 1.875967501507721 * c.y + 0.041555057407176 * c.z,
          0.055630079696993 * c.x - 0.203976958888977 * c.y + 1.056971514242879 * c.z};
}

Xyz xyz_of(const LinearRgb& c) {
  return {0.412390799265959 * c.r + 0.357584339383878 * c.g + 0.180480788401834 * c.b,
          0.212639005871510 * c.r + 0.715168678767756 * c.g + 0.072192315360734 * c.b,
          0.019330818715592 * c.r + 0.119194779794626 * c.g + 0.950532152249661 * c.b};
}

double linear_of_srgb(double encoded) {
  return encoded <= 0.04045 ? encoded / 12.92 : std::pow((encoded + 0.055) / 1.055, 2.4);
}

double srgb_of_linear(double linear) {
  return linear <= 0.0031308 ? 12.92 * linear : 1.055 * std::pow(linear, 1 / 2.4) - 0.055;
}

Lab lab(const Xyz& colour, const Xyz& white) {
  ensure(white.x > 0 && white.y > 0 && white.z > 0, "a white with light in it");
  const double x = cube_root_or_line(colour.x / white.x);
  const double y = cube_root_or_line(colour.y / white.y);
  const double z = cube_root_or_line(colour.z / white.z);
  return {116 * y - 16, 500 * (x - y), 200 * (y - z)};
}

double difference(const Lab& first, const Lab& second) {
  const double chroma = (std::hypot(first.a, first.b) + std::hypot(second.a, second.b)) / 2;
  const double stretch = (1 - seventh_power_share(chroma)) / 2;
  const Lch a = stretched(first, stretch);
  const Lch b = stretched(second, stretch);

  const double hue = hue_middle(a, b);
  const double middle_c = (a.c + b.c) / 2;
  const double off_50 = (a.l + b.l) / 2 - 50;
  const double t = 1 - 0.17 * std::cos((hue - 30) * kDegree) + 0.24 * std::cos(2 * hue * kDegree) +
                   0.32 * std::cos((3 * hue + 6) * kDegree) -
                   0.20 * std::cos((4 * hue - 63) * kDegree);
  const double turn = 60 * std::exp(-std::pow((hue - 275) / 25, 2));
  const double rotation = -std::sin(turn * kDegree) * 2 * seventh_power_share(middle_c);

  const double dl = (b.l - a.l) / (1 + 0.015 * off_50 * off_50 / std::sqrt(20 + off_50 * off_50));
  const double dc = (b.c - a.c) / (1 + 0.045 * middle_c);
  const double dh = 2 * std::sqrt(a.c * b.c) * std::sin(hue_step(a, b) / 2 * kDegree) /
                    (1 + 0.015 * middle_c * t);
  return std::sqrt(std::max(0.0, dl * dl + dc * dc + dh * dh + rotation * dc * dh));
}

}  // namespace benchgraft::align
