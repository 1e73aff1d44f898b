// A colour wheel turned slice by slice under a round spot. It shares nothing with src/align:
// numbers go in and XYZ come out, with segments whose colours are not the stand-ins the program
// starts from.
#pragma once

#include <array>
#include <random>
#include <string>
#include <vector>

namespace benchgraft::align {

using Triple = std::array<double, 3>;  // X, Y, Z

struct SimulatedWheel {
  std::string letters;  ///< "RGBRGB"
  std::vector<double> degrees;
  std::vector<Triple> light;  ///< of one degree of each segment
  double spoke = 14;          ///< degrees across the round spot
  double guard = 1;
  double late = 0;  ///< what is to be found

  /// XYZ of the bar whose data opens the windows of the segments called `letter`.
  [[nodiscard]] Triple bar(char letter) const;
};

/// A wheel as it may come in: order, angles, filters, lamp colour, spot and delay at random.
SimulatedWheel any_wheel(std::mt19937_64& random);

/// What a technician calls the colour: by its hue on a screen, with an unsteady eye.
std::string called(const Triple& colour, std::mt19937_64& random);

}  // namespace benchgraft::align
