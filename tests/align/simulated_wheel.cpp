#include "simulated_wheel.hpp"

#include <algorithm>
#include <cmath>

namespace benchgraft::align {
namespace {

constexpr double kSlice = 0.125;  // degrees

double between(std::mt19937_64& random, double low, double high) {
  return low + (high - low) * static_cast<double>(random() >> 11U) * 0x1p-53;
}
double noise(std::mt19937_64& random) {
  double sum = -6;
  for (int i = 0; i < 12; ++i) sum += between(random, 0, 1);
  return sum;
}

/// Share of a round spot of diameter 1 that lies left of `x` (-0.5..0.5).
double left_of(double x) {
  if (x <= -0.5) return 0;
  if (x >= 0.5) return 1;
  return 0.5 + (2 * x * std::sqrt(1 - 4 * x * x) + std::asin(2 * x)) / 3.14159265358979;
}

// Colours of filters (edges at 590, 500 and 570, 400 and 490 nm) and of clear glass of 92 % under
// illuminants A, D65 and E; rows X, Y, Z, summed up apart.
struct Filters {
  Triple red, green, blue, clear;
};
const Filters kFilters[] = {
    {{68.0, 33.3, 0.02}, {17.2, 45.1, 2.89}, {5.30, 2.21, 31.3}, {101.1, 92.0, 32.7}},
    {{42.3, 21.3, 0.02}, {18.8, 55.5, 4.66}, {17.8, 5.61, 101.3}, {87.4, 92.0, 100.2}},
    {{48.2, 24.1, 0.02}, {18.3, 52.8, 4.29}, {16.5, 4.93, 92.9}, {92.0, 92.0, 92.0}},
};

}  // namespace

Triple SimulatedWheel::bar(char letter) const {
  Triple sum{};
  double begin = 0;
  for (std::size_t i = 0; i < letters.size(); begin += degrees[i++]) {
    if (letters[i] != letter) continue;
    const double from = begin + spoke / 2 + guard, to = begin + degrees[i] - spoke / 2 - guard;
    for (double at = from + late + kSlice / 2; at < to + late; at += kSlice) {
      double edge = 0;
      for (std::size_t j = 0; j < letters.size(); edge += degrees[j++])
        for (const double turn : {-720.0, -360.0, 0.0, 360.0, 720.0}) {
          const double lit = left_of((edge + degrees[j] + turn - at) / spoke) -
                             left_of((edge + turn - at) / spoke);
          for (std::size_t c = 0; c < 3; ++c) sum[c] += kSlice * lit * light[j][c];
        }
    }
  }
  return sum;
}

SimulatedWheel any_wheel(std::mt19937_64& random) {
  SimulatedWheel wheel;
  const char* const orders[] = {"RGB", "RGBRGB", "RGBRGB", "RBG", "RGBW"};
  wheel.letters = orders[random() % 5];
  const Filters& filters = kFilters[random() % 3];
  for (const char letter : wheel.letters) {
    wheel.degrees.push_back(wheel.letters == "RGBW" ? (letter == 'W' ? 60 : 100)
                                                    : 360.0 / double(wheel.letters.size()));
    const Triple& colour = letter == 'R'   ? filters.red
                           : letter == 'G' ? filters.green
                           : letter == 'B' ? filters.blue
                                           : filters.clear;
    wheel.light.push_back(colour);
  }
  wheel.spoke = between(random, 9, 16);
  wheel.guard = between(random, 0.5, 2);
  return wheel;
}

std::string called(const Triple& c, std::mt19937_64& random) {
  const double most = std::max({c[0], c[1], c[2]});
  Triple rgb{3.2406 * c[0] - 1.5374 * c[1] - 0.4986 * c[2],
             -0.9689 * c[0] + 1.8758 * c[1] + 0.0415 * c[2],
             0.0557 * c[0] - 0.2040 * c[1] + 1.0570 * c[2]};
  for (double& part : rgb) part = std::pow(std::max(0.0, part / most), 1 / 2.2);
  const double high = std::max({rgb[0], rgb[1], rgb[2]}), low = std::min({rgb[0], rgb[1], rgb[2]});
  const double span = std::max(1e-9, high - low);
  if (span < 0.2 * high) return "white";
  double hue = high == rgb[0]   ? 60 * (rgb[1] - rgb[2]) / span
               : high == rgb[1] ? 120 + 60 * (rgb[2] - rgb[0]) / span
                                : 240 + 60 * (rgb[0] - rgb[1]) / span;
  hue = std::fmod(hue + 5 * noise(random) + 720, 360);
  const struct {
    double to;
    const char* word;
  } rows[] = {{14, "red"},     {40, "orange"},     {66, "yellow"},      {100, "yellowish"},
              {150, "green"},  {195, "turquoise"}, {225, "light blue"}, {255, "blue"},
              {285, "violet"}, {322, "magenta"},   {346, "purplish"},   {361, "red"}};
  for (const auto& row : rows)
    if (hue < row.to) return row.word;
  return "red";
}

}  // namespace benchgraft::align
