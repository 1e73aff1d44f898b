// Light of a projection set as a phone's sensor gathers it: lamp with lines, wheel filters, a round
// spot crossing the spokes. Shares nothing with the estimators it judges.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

namespace benchgraft::renderer {

using Three = std::array<double, 3>;

/// 64 random bits at a time, the same on every machine (splitmix64).
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : state_(seed) {}
  std::uint64_t bits();
  double unit();  ///< 0..1
  double between(double low, double high);
  double normal();  ///< mean 0, deviation 1
  bool chance(double share) { return unit() < share; }

 private:
  std::uint64_t state_;
};

struct Segment {
  char colour = 'R';  ///< R, G, B, W
  double degrees = 60;
};

/// A wheel with its light: segments in the order they pass the spot.
struct Wheel {
  std::vector<Segment> segments{{'R', 60}, {'G', 60}, {'B', 60}, {'R', 60}, {'G', 60}, {'B', 60}};
  double spot_deg = 12;  ///< width of the round spot along the rim
  double guard_deg = 1;
  double turns_per_second = 120;
  double lines = 1;    ///< strength of the lamp's lines over its continuum
  Three cut{0, 0, 0};  ///< shift of the filter edges of red, green and blue, nm
  double leak = 0.01;  ///< light a filter lets through outside its band
};

/// Sensitivities of a sensor: peaks and widths in nm.
struct Sensor {
  Three peak{600, 535, 460};
  Three width{38, 40, 30};
  double cross = 0.08;  ///< red's second lump in the blue
};

/// Which of red, green and blue a page colour asks for: bit 0 red, bit 1 green, bit 2 blue.
inline constexpr int kPageColours = 8;

/// What the sensor gathers of every page colour during part of a turn.
class TurnedLight {
 public:
  /// `delay_deg`: how late the colour data run behind the wheel.
  TurnedLight(const Wheel& wheel, const Sensor& sensor, double delay_deg);
  /// Mean response to `colour` of an exposure that begins at `turns` and lasts `lasting` turns.
  [[nodiscard]] Three response(int colour, double turns, double lasting) const;

 private:
  [[nodiscard]] Three until(int colour, double turns) const;
  static constexpr int kSteps = 3600;
  std::array<std::vector<Three>, kPageColours> sum_;  ///< running sum over a turn
};

/// Share of a bar's light time that comes from a neighbour segment, and from which.
struct Mixed {
  double share = 0;
  char neighbour = ' ';
};
Mixed true_mixing(const Wheel& wheel, char bar, double delay_deg);

/// The matrix a phone would use: white-balanced sensor responses to linear sRGB, fitted over many
/// smooth spectra (so it is right for those, and only roughly for a wheel's filters).
std::array<Three, 3> colour_matrix(const Sensor& sensor);

}  // namespace benchgraft::renderer
