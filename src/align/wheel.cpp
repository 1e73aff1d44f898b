#include "align/wheel.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace benchgraft::align {
namespace {

constexpr double kDegree = std::numbers::pi / 180;

struct Known {
  char letter;
  Hue hue;
  std::string_view name;
  LinearRgb light;
};
constexpr std::array<Known, 6> kKnown{{{'R', Hue::red, "red", {1, 0, 0}},
                                       {'G', Hue::green, "green", {0, 1, 0}},
                                       {'B', Hue::blue, "blue", {0, 0, 1}},
                                       {'W', Hue::white, "white", {1, 1, 1}},
                                       {'Y', Hue::yellow, "yellow", {1, 1, 0}},
                                       {'C', Hue::cyan, "cyan", {0, 1, 1}}}};

Error bad(std::string message) { return {ErrorKind::bad_input, std::move(message)}; }

/// Integral from -infinity to x of the linear change over the spoke, centred on 0.
double passed(double x, double spoke) {
  if (x <= -spoke / 2) return 0;
  if (x >= spoke / 2) return x;
  return (x + spoke / 2) * (x + spoke / 2) / (2 * spoke);
}

/// Degrees of a segment from `begin` to `end` that shine between `from` and `to`.
double shine(double begin, double end, double from, double to, double spoke) {
  const auto until = [&](double x) { return passed(x - begin, spoke) - passed(x - end, spoke); };
  return until(to) - until(from);
}

/// Adds to `out` what every segment sends through the window of segment `open`.
void add_window(std::vector<double>& out, const Wheel& wheel, const std::vector<double>& begins,
                std::size_t open, double late) {
  const double clear = wheel.spoke / 2 + wheel.guard;
  const double from = begins[open] + clear + late;
  const double to = begins[open] + wheel.segments[open].degrees - clear + late;
  for (std::size_t i = 0; i < begins.size(); ++i) {
    // The turn in which this segment lies nearest to the window; its neighbours reach in as well.
    const double middle = begins[i] + wheel.segments[i].degrees / 2;
    const double turn = 360 * std::round(((from + to) / 2 - middle) / 360);
    for (const double shift : {turn - 360, turn, turn + 360})
      out[i] += shine(begins[i] + shift, begins[i] + wheel.segments[i].degrees + shift, from, to,
                      wheel.spoke);
  }
}

std::vector<double> begins_of(const Wheel& wheel) {
  std::vector<double> begins;
  double at = 0;
  for (const auto& segment : wheel.segments) {
    begins.push_back(at);
    at += segment.degrees;
  }
  return begins;
}

Xyz light_of(const Wheel& wheel, const std::vector<double>& degrees) {
  Xyz sum;
  for (std::size_t i = 0; i < degrees.size(); ++i) sum = sum + degrees[i] * wheel.segments[i].light;
  return sum;
}

Result<void> check(const Segment& segment, const Wheel& wheel) {
  const double least = wheel.spoke + 2 * wheel.guard;
  if (!(segment.degrees > least))
    return bad(
        fmt::format("A {} segment of {:g} degrees is too narrow for a spoke of {:g} and a "
                    "guard of {:g} degrees on both sides.",
                    name_of(segment.hue), segment.degrees, wheel.spoke, wheel.guard));
  const auto& light = segment.light;
  const bool finite = std::isfinite(light.x + light.y + light.z);
  if (!finite || !(light.x + light.y + light.z > 0))
    return bad(
        fmt::format("The {} segment gives no light; measure it or leave it out to take the "
                    "usual one.",
                    name_of(segment.hue)));
  return {};
}

}  // namespace

std::string_view name_of(Hue hue) {
  for (const auto& known : kKnown)
    if (known.hue == hue) return known.name;
  return "";
}

Result<Wheel> wheel_of(std::string_view letters, const std::vector<double>& degrees) {
  if (!degrees.empty() && degrees.size() != letters.size())
    return bad(fmt::format("The wheel {} has {} segments, but {} angles were given.", letters,
                           letters.size(), degrees.size()));
  Wheel wheel;
  for (std::size_t i = 0; i < letters.size(); ++i) {
    const auto* known = std::find_if(kKnown.begin(), kKnown.end(),
                                     [&](const Known& one) { return one.letter == letters[i]; });
    if (known == kKnown.end())
      return bad(
          fmt::format("\"{}\" is no colour of a segment; write the wheel with the letters R, "
                      "G, B, W, Y and C, as in RGBRGB.",
                      letters.substr(i, 1)));
    const double width = degrees.empty() ? 360 / static_cast<double>(letters.size()) : degrees[i];
    wheel.segments.push_back({known->hue, width, xyz_of(known->light)});
  }
  if (const auto good = check(wheel); !good) return good.error();
  return wheel;
}

Result<void> check(const Wheel& wheel) {
  if (wheel.segments.size() > 24)
    return bad(fmt::format("A wheel with {} segments is none that is known; 3 to 24.",
                           wheel.segments.size()));
  for (const Hue bar : kBars)
    if (std::none_of(wheel.segments.begin(), wheel.segments.end(),
                     [&](const Segment& segment) { return segment.hue == bar; }))
      return bad(
          fmt::format("The wheel has no {} segment; it wants red, green and blue.", name_of(bar)));
  if (!(wheel.spoke > 0) || !(wheel.guard >= 0) || !(wheel.turns_per_second > 0))
    return bad(
        fmt::format("A spoke of {:g} degrees, a guard of {:g} and {:g} turns a second cannot "
                    "be; spoke and speed are above 0, the guard is not below.",
                    wheel.spoke, wheel.guard, wheel.turns_per_second));
  double sum = 0;
  for (const auto& segment : wheel.segments) {
    if (const auto good = check(segment, wheel); !good) return good;
    sum += segment.degrees;
  }
  if (!(std::abs(sum - 360) < 0.01))
    return bad(fmt::format("The segments add up to {:g} degrees, not to 360.", sum));
  return {};
}

double period(const Wheel& wheel) {
  const std::size_t count = wheel.segments.size();
  for (std::size_t sets = count; sets > 1; --sets) {
    if (count % sets != 0) continue;
    const std::size_t each = count / sets;
    bool same = true;
    for (std::size_t i = 0; i < count && same; ++i) {
      const auto& a = wheel.segments[i];
      const auto& b = wheel.segments[(i + each) % count];
      same = a.hue == b.hue && std::abs(a.degrees - b.degrees) < 0.01;
    }
    if (same) return 360 / static_cast<double>(sets);
  }
  return 360;
}

BarLight bar_light(const Wheel& wheel, Hue bar, double late) {
  BarLight out;
  out.degrees.resize(wheel.segments.size());
  const auto begins = begins_of(wheel);
  for (std::size_t i = 0; i < wheel.segments.size(); ++i)
    if (wheel.segments[i].hue == bar) add_window(out.degrees, wheel, begins, i, late);
  out.light = light_of(wheel, out.degrees);
  return out;
}

Xyz white_light(const Wheel& wheel, double late) {
  std::vector<double> degrees(wheel.segments.size());
  const auto begins = begins_of(wheel);
  for (std::size_t i = 0; i < degrees.size(); ++i) add_window(degrees, wheel, begins, i, late);
  return light_of(wheel, degrees);
}

double neighbour_share(double late, double length, double spoke, double guard) {
  const double over = std::abs(late) - guard;
  if (over <= 0) return 0;
  const double area = over <= spoke ? over * over / (2 * spoke) : over - spoke / 2;
  return std::min(1.0, area / length);
}

double error_of_share(double share, double length, double spoke, double guard) {
  const double area = std::clamp(share, 0.0, 1.0) * length;
  return area <= spoke / 2 ? guard + std::sqrt(2 * spoke * area) : guard + area + spoke / 2;
}

Result<double> spoke_degrees(double spot_mm, double radius_mm) {
  if (!(spot_mm > 0) || !(radius_mm > 0) || !(spot_mm <= 2 * radius_mm))
    return bad(
        fmt::format("A beam {:g} mm wide does not fit {:g} mm from the hub.", spot_mm, radius_mm));
  return 2 * std::asin(spot_mm / (2 * radius_mm)) / kDegree;
}

double microseconds(double degrees, double turns_per_second) {
  return degrees * 1e6 / (360 * turns_per_second);
}

double index_hertz(double turns_per_frame, double frames_per_second, int marks) {
  return turns_per_frame * frames_per_second * marks;
}

}  // namespace benchgraft::align
