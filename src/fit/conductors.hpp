// Wire sizes, conductor colours and terminal marks, with the standard each comes from.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace benchgraft::fit {

/// Diameter in mm of an AWG size (negative for 0, 00, ...). Source: ASTM B258, d = 0.127 mm
/// 92^((36-n)/39).
double awg_diameter_mm(int awg);
/// Cross-section in mm2.
double awg_area_mm2(int awg);
/// Ohm per km of solid copper at `celsius`. Source: IEC 60028 (0.017241 ohm mm2/m at 20 C, 0.00393
/// / K).
double copper_ohm_per_km(double area_mm2, double celsius = 20);
/// Largest ohm per km allowed for a flexible (class 5) conductor of a standard cross-section, plain
/// copper, 20 C. Source: IEC 60228. Nothing for a size outside 0.5 ... 6 mm2.
std::optional<double> iec60228_class5_ohm_per_km(double area_mm2);

/// What a conductor of the mains is.
enum class Conductor { other, line, neutral, earth };

struct ColourMeaning {
  std::string colour;
  std::vector<std::string> means;  ///< all the systems in which it stands for something
  bool protective_earth_only = false;
  std::vector<Conductor> may_be{};  ///< conductors of the mains it stands for in some system
};
/// What a conductor colour may mean ("light blue" is blue, "gray" grey, "green/yellow"
/// green-yellow). A colour never proves a function: it only raises a flag. Sources: IEC 60445, NEC
/// 200.6 / 250.119, read as excerpts; old national practice, a secondary list read as an excerpt.
std::optional<ColourMeaning> colour_meaning(const std::string& colour);

struct TerminalMark {
  std::string mark, means;
  Conductor is = Conductor::other;
};
/// Marks of IEC 60445 annex A (from memory): L, L1..L3, N, PE, PEN, PB, FE, L+, L-, M; and what is
/// printed on supply boards (common practice, no source): LIVE, HOT, P for line, COM, RET for
/// neither.
std::optional<TerminalMark> terminal_mark(const std::string& mark);

/// The wire to use for a signal or low-voltage rail of up to `amps`, in words with its source.
std::string conductor_words(double amps);

}  // namespace benchgraft::fit
