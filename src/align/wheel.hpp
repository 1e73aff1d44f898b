// Forward model of a colour wheel: which colours mix in a bar when the data comes early or late.
//
// The beam is a rectangle as wide as `spoke` along the rim, so the light changes linearly from one
// segment to the next over the spoke. Data is shown in the middle of each segment, in a window that
// keeps `guard` degrees clear of the spokes. Data that is late by d degrees of wheel turn slides
// its window into the next segment; early data (d < 0) into the one before. Angles in degrees.
// source: derived from this geometry; docs/methods/align.md, section "Colour wheel".
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "align/colour.hpp"

namespace benchgraft::align {

/// Colours of segments, and of the bars a test page shows.
enum class Hue { red, green, blue, white, yellow, cyan };
inline constexpr std::array<Hue, 3> kBars{Hue::red, Hue::green, Hue::blue};
std::string_view name_of(Hue hue);

struct Segment {
  Hue hue = Hue::red;
  double degrees = 0;
  Xyz light;  ///< of one degree of it, fully on; any scale, any three channels, the same for all
};

struct Wheel {
  std::vector<Segment> segments;  ///< in the order in which the beam meets them
  double spoke = 12;              ///< degrees the beam covers on the rim; not printed on parts
  double guard = 1;               ///< degrees kept clear of the spoke on each side
  double turns_per_second = 120;
};

/// "RGBRGB" or "RGBW", letters in the order the beam meets them; equal segments unless `degrees`
/// are given. Lights are those of the BT.709 primaries, a stand-in until the set's own are
/// measured. fails: a letter that is no colour, angles that do not suit.
Result<Wheel> wheel_of(std::string_view letters, const std::vector<double>& degrees = {});

/// fails: fewer than three segments, no red, green or blue, angles that do not add up to 360, a
/// segment too narrow for spoke and guards, a segment without light, a speed that is not above 0.
Result<void> check(const Wheel& wheel);

/// The angle after which the wheel looks the same again: 360, 180 for two equal sets of segments,
/// ...
double period(const Wheel& wheel);

/// Light of one bar and where it comes from.
struct BarLight {
  Xyz light;
  std::vector<double> degrees;  ///< of each segment, that shine in the bar during one turn
};

/// A bar of pure `bar` with data late by `late` degrees; any angle.
BarLight bar_light(const Wheel& wheel, Hue bar, double late);
/// All windows open: the same at every `late`, so a white field proves nothing.
Xyz white_light(const Wheel& wheel, double late);

/// Share of a bar's light-time that the neighbour has, for a window `length` = segment - spoke -
/// 2 guard. source: closed form, good for |late| up to segment - spoke - guard.
double neighbour_share(double late, double length, double spoke, double guard);
/// The inverse: size of the error that gives `share` (0..1). Shares of 0 give the guard.
double error_of_share(double share, double length, double spoke, double guard);

/// Degrees covered by a beam `spot_mm` wide along the rim, `radius_mm` from the hub.
/// fails: a spot wider than twice the radius, or not above 0.
Result<double> spoke_degrees(double spot_mm, double radius_mm);

/// Time of `degrees` of wheel turn.
double microseconds(double degrees, double turns_per_second);

/// How often the index pulse comes: turns of the wheel times its marks.
double index_hertz(double turns_per_frame, double frames_per_second, int marks);

}  // namespace benchgraft::align
