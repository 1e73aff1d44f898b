#include "simulated_screen.hpp"

#include <algorithm>
#include <cmath>

namespace benchgraft::align {
namespace {

double between(Random& random, double low, double high) {
  return low + (high - low) * static_cast<double>(random() >> 11U) * 0x1p-53;
}
double evenly_in_log(Random& random, double low, double high) {
  return std::exp(between(random, std::log(low), std::log(high)));
}
/// Sum of twelve even numbers: near enough to normal, the same on every machine.
double noise(Random& random) {
  double sum = -6;
  for (int i = 0; i < 12; ++i) sum += between(random, 0, 1);
  return sum;
}

}  // namespace

SimulatedScreen red_bar(Random& random) {
  const double half = evenly_in_log(random, 2, 12), far = between(random, 2.5, 4);
  SimulatedScreen screen;
  screen.right = between(random, half, 255 - half);
  screen.word = [=, &random, right = screen.right](double value) -> std::string {
    const double off = std::abs(value - right);
    if (off <= half * (1 + 0.08 * noise(random))) return "red";
    if (value < right) return off > far * half ? "magenta" : "purplish";
    return off > far * half ? "yellow" : "orange";
  };
  screen.good = [=, right = screen.right](double value) { return std::abs(value - right) <= half; };
  return screen;
}

SimulatedScreen fine_lines(Random& random) {
  const double half = evenly_in_log(random, 0.04, 0.25), far = between(random, 2.5, 4);
  SimulatedScreen screen;
  screen.right = between(random, 0.4, 1.6);
  screen.word = [=, &random, right = screen.right](double value) -> std::string {
    const double off = std::abs(value - right);
    if (off <= half * (1 + 0.08 * noise(random))) return "smooth";
    return off > far * half ? "very jagged" : "jagged";
  };
  screen.good = [=, right = screen.right](double value) { return std::abs(value - right) <= half; };
  return screen;
}

SimulatedScreen green_light(Random& random) {
  const double half = evenly_in_log(random, 8, 40), foot = between(random, 20, 80);
  const double height = foot * between(random, 0.4, 3);
  const auto kind = random() % 3;
  SimulatedScreen screen;
  screen.right = between(random, 10, 245);
  screen.number = [=, &random, right = screen.right](double value) {
    const double u = std::abs(value - right) / half;
    double share = 0;
    if (kind == 0) share = u < 2 ? 0.5 + 0.5 * std::cos(1.5707963 * u) : 0;
    if (kind == 1) share = std::max(0.0, 1 - std::max(0.0, u - 0.2) * 0.5 / 0.8);
    if (kind == 2) share = 1 / std::cosh(1.317 * u);
    return (foot + height * share) * (1 + 0.03 * noise(random));
  };
  screen.good = [=, right = screen.right](double value) {
    return std::abs(value - right) <= 0.4 * half;
  };
  return screen;
}

SimulatedScreen comb(Random& random) {
  const double slope = between(random, 0.3, 0.7) * (random() % 2 == 0 ? 1 : -1);
  SimulatedScreen screen;
  screen.right = between(random, 0.6, 1.4);
  screen.number = [=, &random, right = screen.right](double value) {
    const double off = value - right;
    return slope * off * (1 - 0.02 * std::abs(off)) + 0.01 * noise(random);
  };
  screen.good = [=, right = screen.right](double value) {
    return std::abs(slope * (value - right)) <= 0.06;
  };
  return screen;
}

SimulatedScreen flicker(Random& random) {
  SimulatedScreen screen;
  screen.right = between(random, 5, 250);
  screen.word = [&random, right = screen.right](double value) -> std::string {
    return value <= right + 0.3 * noise(random) ? "steady" : "flickers";
  };
  screen.good = [right = screen.right](double value) {
    return value <= right + 0.5 && value >= right - 17;
  };
  return screen;
}

}  // namespace benchgraft::align
