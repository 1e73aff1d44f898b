// From the colours of the red, green and blue bars to how late the data comes, and whether a delay
// can cure it at all. Said before anyone moves a mark.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "align/wheel.hpp"
#include "catalogue/port.hpp"

namespace benchgraft::align {

/// What was seen of one bar; any one of the three, or several. What is missing does not count.
struct SeenBar {
  Hue bar = Hue::red;
  std::string word;           ///< one of colour_words()
  std::optional<double> lux;  ///< same meter, same spot for all bars
  std::optional<Xyz> light;   ///< any scale; the channels in which the wheel's lights are given
};

/// How far each kind of evidence may be off; standard errors.
struct BarErrors {
  double lux_share = 0.05;          ///< of one lux reading
  double colour = 0.015;            ///< of x and y (shares of the channels) of one measured bar
  double primary_luminance = 0.25;  ///< of a segment's luminance against the wheel's, as a share
  double primary_colour = 0.045;    ///< of x and y of a segment against the wheel's
  double spoke_share = 0.3;         ///< of the spoke, which is not printed on parts
};

enum class WheelFault { none, late, early, segments_off, exchanged, unclear };

struct Diagnosis {
  WheelFault fault = WheelFault::unclear;
  double late = 0;            ///< degrees by which the data comes late; below 0: early
  catalogue::Range interval;  ///< holds it nine times in ten
  double standard_error = 0;  ///< of `late`
  int segments = 0;           ///< whole segments of it
  bool curable = false;       ///< by the delay, or by moving the mark
  double exchanged = 0;       ///< chance that two colours are exchanged
  std::optional<std::pair<Hue, Hue>> pair;  ///< the likeliest two
  std::string sentence;                     ///< for the technician
};

/// Weighs every delay over one period, with the colours in order and with each two exchanged.
/// fails: no bar, a bar twice, a word that is no colour, light or lux that cannot be; "white" as a
/// bar is refused, because a white field is the same at every delay. cost: under 5 ms.
Result<Diagnosis> diagnose(const Wheel& wheel, std::span<const SeenBar> bars,
                           const BarErrors& errors = {});

/// fails: as diagnose() does on bars that cannot have been seen.
Result<void> check_bars(std::span<const SeenBar> bars);

/// Words for the colour of a bar: "red", "orange", "turquoise", ...
std::vector<std::string> colour_words();
/// The word nearest to a colour; for drawing and practice.
std::string_view colour_word(const Xyz& light);
/// Chance of each of colour_words() for a colour, in their order.
std::vector<double> word_chances(const Xyz& light);

/// Log chance of a measured colour where `expected` is due; long tails, so that one bar with a
/// reflection on it does not outvote the others.
double log_chance_of_colour(const Xyz& measured, const Xyz& expected, const BarErrors& errors);

/// Share of the neighbour up to which a bar counts as clean, and the delay error that leaves.
inline constexpr double kCleanShare = 0.01;
/// The same for an eye without an instrument (assumed).
inline constexpr double kShareSeen = 0.05;
double clean_within(const Wheel& wheel, double share = kCleanShare);

}  // namespace benchgraft::align
