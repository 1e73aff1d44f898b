#include "support/renderer_light.hpp"

#include <algorithm>
#include <cmath>

namespace benchgraft::renderer {

std::uint64_t Dice::bits() {
  std::uint64_t z = (state_ += 0x9E3779B97F4A7C15ULL);
  z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
  z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
  return z ^ (z >> 31);
}
double Dice::unit() { return static_cast<double>(bits() >> 11) * 0x1.0p-53; }
double Dice::between(double low, double high) { return low + (high - low) * unit(); }
double Dice::normal() {
  const double u = std::max(unit(), 1e-300);
  return std::sqrt(-2 * std::log(u)) * std::cos(2 * M_PI * unit());
}

namespace {

constexpr int kBands = 71;  // 380 to 730 nm, every 5
constexpr double kFirst = 380, kStep = 5;
using Spectrum = std::array<double, kBands>;

double lump(double x, double middle, double width) {
  const double d = (x - middle) / width;
  return std::exp(-0.5 * d * d);
}
double uneven_lump(double x, double middle, double below, double above) {
  return lump(x, middle, x < middle ? below : above);
}
double step_up(double x, double at, double width) { return 1 / (1 + std::exp((at - x) / width)); }

/// High-pressure mercury: continuum with the broadened lines 405, 436, 546 and 578 nm.
Spectrum lamp(double lines) {
  Spectrum s{};
  for (int i = 0; i < kBands; ++i) {
    const double nm = kFirst + kStep * i;
    s[static_cast<std::size_t>(i)] = 0.5 + 0.1 * lump(nm, 600, 90) +
                                     lines * (0.4 * lump(nm, 405, 5) + 1.3 * lump(nm, 436, 6) +
                                              1.6 * lump(nm, 546, 6) + 1.2 * lump(nm, 578, 7));
  }
  return s;
}

double filter(char colour, double nm, const Wheel& wheel) {
  double passed = 0.95;
  if (colour == 'R') passed = step_up(nm, 595 + wheel.cut[0], 4);
  if (colour == 'G')
    passed = step_up(nm, 502 + wheel.cut[1], 4) * (1 - step_up(nm, 572 + wheel.cut[1], 4));
  if (colour == 'B') passed = 1 - step_up(nm, 492 + wheel.cut[2], 4);
  return wheel.leak + (1 - wheel.leak) * 0.92 * passed;
}

double sensitivity(const Sensor& s, std::size_t channel, double nm) {
  const double main = lump(nm, s.peak[channel], s.width[channel]);
  return channel == 0 ? main + s.cross * lump(nm, 445, 25) : main;
}

Three gathered(const Spectrum& light, const Sensor& sensor) {
  Three sum{};
  for (std::size_t c = 0; c < 3; ++c)
    for (int i = 0; i < kBands; ++i)
      sum[c] += light[static_cast<std::size_t>(i)] * sensitivity(sensor, c, kFirst + kStep * i);
  return sum;
}

Three through(char colour, const Wheel& wheel, const Sensor& sensor) {
  Spectrum light = lamp(wheel.lines);
  for (int i = 0; i < kBands; ++i)
    light[static_cast<std::size_t>(i)] *= filter(colour, kFirst + kStep * i, wheel);
  return gathered(light, sensor);
}

/// Share of a round spot of width 2 that lies beyond a straight boundary `x` from its middle.
double beyond(double x) {
  if (x >= 1) return 0;
  if (x <= -1) return 1;
  return (std::acos(x) - x * std::sqrt(1 - x * x)) / M_PI;
}

double turn_of(const Wheel& wheel) {
  double sum = 0;
  for (const Segment& s : wheel.segments) sum += s.degrees;
  return sum;
}

double wrapped(double degrees) {
  const double d = std::fmod(degrees, 360.0);
  return d < 0 ? d + 360 : d;
}

/// Share of the spot, its middle at `angle`, that lies in segment `index` which begins at `from`.
double share_in(const Wheel& wheel, std::size_t index, double from, double angle) {
  const double half = wheel.spot_deg / 2, wide = wheel.segments[index].degrees;
  double d = wrapped(angle - from);           // past the beginning
  if (d > wide + (360 - wide) / 2) d -= 360;  // nearer to the beginning than to the end
  return beyond(-d / half) - beyond((wide - d) / half);
}

bool asked(char segment, int colour) {
  if (segment == 'R') return (colour & 1) != 0;
  if (segment == 'G') return (colour & 2) != 0;
  if (segment == 'B') return (colour & 4) != 0;
  return colour == 7;  // a clear segment only helps white
}

/// The segment whose data are shown at `angle`, or none in a spoke.
int shown_at(const Wheel& wheel, double angle) {
  const double margin = wheel.spot_deg / 2 + wheel.guard_deg;
  double from = 0;
  for (std::size_t s = 0; s < wheel.segments.size(); ++s) {
    const double d = wrapped(angle - from);
    if (d >= margin && d <= wheel.segments[s].degrees - margin) return static_cast<int>(s);
    from += wheel.segments[s].degrees;
  }
  return -1;
}

}  // namespace

TurnedLight::TurnedLight(const Wheel& wheel, const Sensor& sensor, double delay_deg) {
  std::vector<Three> colours;
  for (const Segment& s : wheel.segments) colours.push_back(through(s.colour, wheel, sensor));
  const double turn = turn_of(wheel);
  for (auto& sum : sum_) sum.assign(kSteps + 1, Three{});
  for (int step = 0; step < kSteps; ++step) {
    const double angle = (step + 0.5) * turn / kSteps;
    const int shown = shown_at(wheel, wrapped(angle - delay_deg));
    Three light{};
    double from = 0;
    for (std::size_t s = 0; s < wheel.segments.size(); ++s) {
      const double share = share_in(wheel, s, from, angle);
      for (std::size_t c = 0; c < 3; ++c) light[c] += share * colours[s][c];
      from += wheel.segments[s].degrees;
    }
    for (int colour = 0; colour < kPageColours; ++colour) {
      auto& sum = sum_[static_cast<std::size_t>(colour)];
      const auto at = static_cast<std::size_t>(step);
      const bool on =
          shown >= 0 && asked(wheel.segments[static_cast<std::size_t>(shown)].colour, colour);
      for (std::size_t c = 0; c < 3; ++c) sum[at + 1][c] = sum[at][c] + (on ? light[c] : 0);
    }
  }
}

Three TurnedLight::until(int colour, double turns) const {
  const auto& sum = sum_[static_cast<std::size_t>(colour)];
  const double whole = std::floor(turns), place = (turns - whole) * kSteps;
  const auto at = std::min(static_cast<std::size_t>(place), std::size_t{kSteps - 1});
  Three result{};
  for (std::size_t c = 0; c < 3; ++c)
    result[c] = whole * sum[kSteps][c] + sum[at][c] +
                (place - static_cast<double>(at)) * (sum[at + 1][c] - sum[at][c]);
  return result;
}

Three TurnedLight::response(int colour, double turns, double lasting) const {
  const Three end = until(colour, turns + lasting), begin = until(colour, turns);
  Three mean{};
  for (std::size_t c = 0; c < 3; ++c) mean[c] = (end[c] - begin[c]) / (lasting * kSteps);
  return mean;
}

Mixed true_mixing(const Wheel& wheel, char bar, double delay_deg) {
  std::size_t own = 0;
  double from = 0;
  while (wheel.segments[own].colour != bar) from += wheel.segments[own++].degrees;
  const std::size_t n = wheel.segments.size();
  const bool late = delay_deg > 0;
  const std::size_t next = late ? (own + 1) % n : (own + n - 1) % n;
  const double next_from =
      late ? from + wheel.segments[own].degrees : from - wheel.segments[next].degrees;
  const double margin = wheel.spot_deg / 2 + wheel.guard_deg;
  const double wide = wheel.segments[own].degrees - 2 * margin;
  double sum = 0;
  constexpr int kParts = 4000;
  for (int i = 0; i < kParts; ++i) {
    const double angle = from + margin + wide * (i + 0.5) / kParts + delay_deg;
    sum += share_in(wheel, next, wrapped(next_from), angle);
  }
  return {sum / kParts, wheel.segments[next].colour};
}

std::array<Three, 3> colour_matrix(const Sensor& sensor) {
  // Observer: Wyman, Sloan, Shirley, J. Computer Graphics Techniques 2 (2013) no. 2, multi-lobe
  // fit.
  constexpr std::array<Three, 3> kToRgb{
      Three{3.2406, -1.5372, -0.4986}, {-0.9689, 1.8758, 0.0415}, {0.0557, -0.2040, 1.0570}};
  const auto observe = [&](const Spectrum& s) {
    Three xyz{};
    for (int i = 0; i < kBands; ++i) {
      const double nm = kFirst + kStep * i, e = s[static_cast<std::size_t>(i)];
      xyz[0] += e * (1.056 * uneven_lump(nm, 599.8, 37.9, 31.0) +
                     0.362 * uneven_lump(nm, 442.0, 16.0, 26.7) -
                     0.065 * uneven_lump(nm, 501.1, 20.4, 26.2));
      xyz[1] += e * (0.821 * uneven_lump(nm, 568.8, 46.9, 40.5) +
                     0.286 * uneven_lump(nm, 530.9, 16.3, 31.1));
      xyz[2] += e * (1.217 * uneven_lump(nm, 437.0, 11.8, 36.0) +
                     0.681 * uneven_lump(nm, 459.0, 26.0, 13.8));
    }
    Three rgb{};
    for (std::size_t i = 0; i < 3; ++i)
      for (std::size_t j = 0; j < 3; ++j) rgb[i] += kToRgb[i][j] * xyz[j];
    return rgb;
  };
  Spectrum flat{};
  flat.fill(1);
  const Three white = gathered(flat, sensor), white_rgb = observe(flat);
  // Least squares of rgb = M raw over smooth coloured spectra; both scaled to 1 at white.
  std::array<Three, 3> normal{}, right{};
  Dice dice(7);
  for (int k = 0; k < 300; ++k) {
    Spectrum s{};
    const double floor = dice.between(0.02, 0.5), middle = dice.between(400, 700);
    const double width = dice.between(25, 90);
    for (int i = 0; i < kBands; ++i)
      s[static_cast<std::size_t>(i)] = floor + lump(kFirst + kStep * i, middle, width);
    Three raw = gathered(s, sensor), rgb = observe(s);
    for (std::size_t c = 0; c < 3; ++c) raw[c] /= white[c], rgb[c] /= white_rgb[c];
    for (std::size_t i = 0; i < 3; ++i)
      for (std::size_t j = 0; j < 3; ++j) {
        normal[i][j] += raw[i] * raw[j];
        right[i][j] += raw[i] * rgb[j];
      }
  }
  // Solve normal * X = right by elimination; M is X turned over.
  for (std::size_t c = 0; c < 3; ++c)
    for (std::size_t r = 0; r < 3; ++r) {
      if (r == c) continue;
      const double f = normal[r][c] / normal[c][c];
      for (std::size_t k = 0; k < 3; ++k) {
        normal[r][k] -= f * normal[c][k];
        right[r][k] -= f * right[c][k];
      }
    }
  std::array<Three, 3> matrix{};
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = 0; j < 3; ++j) matrix[j][i] = right[i][j] / normal[i][i];
  for (auto& row : matrix) {  // white stays white
    const double sum = row[0] + row[1] + row[2];
    for (double& term : row) term /= sum;
  }
  return matrix;
}

}  // namespace benchgraft::renderer
