// Colours of the index page's red, green and blue bar, and how much neighbour light is in them.
#pragma once

#include <array>

#include "align/photo_glyph.hpp"
#include "align/photo_read.hpp"
#include "align/photo_screen.hpp"
#include "base/result.hpp"

namespace benchgraft::align {

using BarColour = std::array<double, 3>;  ///< linear red, green, blue

/// What a photo of the index page says of its bars, in the order red, green, blue.
/// Each colour is a share of the white beside it, black taken off: vignetting, hot spot, exposure
/// and white balance drop out. White itself does not move with the index, so it may be the measure.
struct BarColours {
  std::array<BarColour, 3> bar{};
  std::array<BarColour, 3> error{};  ///< one standard deviation, from patches of the same bar
  double white = 0;                  ///< brightest channel of the white strips, 1 is clipped
  Standing standing;                 ///< of the picture; its axes are never exchanged here
};

/// fails: not the index page, turned by a quarter, too dark, clipped.
Result<BarColours> measure_bars(const Photo& photo, const Screen& screen);

enum class BarNeighbour { red, green, blue, white };

/// What follows and precedes each colour on the wheel, and how long each is shown (degrees, or any
/// unit alike for all; equal by default).
struct WheelOrder {
  std::array<BarNeighbour, 3> next{BarNeighbour::green, BarNeighbour::blue, BarNeighbour::red};
  std::array<BarNeighbour, 3> previous{BarNeighbour::blue, BarNeighbour::red, BarNeighbour::green};
  std::array<double, 3> window{1, 1, 1};
};

/// Shares are positive when the data are late (light of the next segment), negative when early.
struct Mixing {
  std::array<double, 3> share{}, error{};  ///< r of each bar, each on its own
  double overlap = 0;                      ///< r times window, one for all bars
  double overlap_error = 0;
  double misfit = 0;  ///< rms distance of the nine colour values from the model, in their errors
  std::array<std::size_t, 3> looks_like{0, 1, 2};  ///< the primary each bar is nearest to in hue
};

/// r of each bar: T = P_own + r (P_neighbour - P_own), solved over three channels.
/// `pure`: the same page photographed where the colours are right (the plateau), same phone.
Mixing mixing(const BarColours& seen, const BarColours& pure, const WheelOrder& order);

}  // namespace benchgraft::align
