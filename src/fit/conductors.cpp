#include "fit/conductors.hpp"

#include <array>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace benchgraft::fit {

double awg_diameter_mm(int awg) { return 0.127 * std::pow(92.0, (36.0 - awg) / 39.0); }

double awg_area_mm2(int awg) {
  const double d = awg_diameter_mm(awg);
  return std::numbers::pi * d * d / 4;
}

double copper_ohm_per_km(double area_mm2, double celsius) {
  return 17.241 / area_mm2 * (1 + 0.00393 * (celsius - 20));
}

std::optional<double> iec60228_class5_ohm_per_km(double area_mm2) {
  constexpr std::array<std::pair<double, double>, 7> kTable{
      {{0.5, 39.0}, {0.75, 26.0}, {1.0, 19.5}, {1.5, 13.3}, {2.5, 7.98}, {4.0, 4.95}, {6.0, 3.30}}};
  for (const auto& [area, ohm] : kTable)
    if (std::abs(area - area_mm2) < 1e-9) return ohm;
  return std::nullopt;
}

std::optional<ColourMeaning> colour_meaning(const std::string& colour) {
  using enum Conductor;
  static const std::array<ColourMeaning, 9> kColours{{
      {"blue",
       {"neutral (IEC 60445)", "hot (NEC)", "line of old Belgian cords",
        "negative pole of old Irish direct current"},
       false,
       {neutral, line}},
      {"black",
       {"hot (NEC)", "line 2 (IEC 60445)", "neutral of old United Kingdom wiring",
        "line or neutral of old German cords", "protective earth of old Belgian and Russian cords",
        "negative pole (NEC)"},
       false,
       {line, neutral, earth}},
      {"red",
       {"line of old United Kingdom, Swiss and Russian cords", "neutral of old Dutch cords",
        "protective earth of old German, Austrian, Finnish, Norwegian and Swedish cords",
        "hot (NEC)", "positive pole (NEC)"},
       false,
       {line, neutral, earth}},
      {"white",
       {"neutral (NEC)", "phase B of United Kingdom wiring before 1965",
        "negative pole (IEC 60445:2017, texts disagree)"},
       false,
       {neutral, line}},
      {"grey",
       {"neutral (NEC)", "line 3 (IEC 60445)", "line or neutral of old German cords",
        "neutral of old Belgian, Russian and Swiss cords",
        "protective earth of old Dutch and Polish cords"},
       false,
       {neutral, line, earth}},
      {"yellow",
       {"phase B of United Kingdom wiring 1965 to 2006", "protective earth of old Swiss cords",
        "line of old Belgian cords"},
       false,
       {line, earth}},
      {"green", {"ground (NEC)", "earth of old United Kingdom wiring"}, false, {earth}},
      {"green-yellow", {"protective earth (IEC 60445, nothing else allowed)"}, true, {earth}},
      {"brown",
       {"line (IEC 60445)", "positive pole (United Kingdom direct current)"},
       false,
       {line}},
  }};
  std::string plain = colour;
  if (plain == "light blue") plain = "blue";
  if (plain == "gray") plain = "grey";
  for (const char* other : {"green/yellow", "yellow-green", "yellow/green", "green and yellow"})
    if (plain == other) plain = "green-yellow";
  for (const auto& known : kColours)
    if (known.colour == plain) return known;
  return std::nullopt;
}

std::optional<TerminalMark> terminal_mark(const std::string& mark) {
  using enum Conductor;
  static const std::array<TerminalMark, 17> kMarks{{
      {"L", "line", line},
      {"L1", "line 1", line},
      {"L2", "line 2", line},
      {"L3", "line 3", line},
      {"N", "neutral", neutral},
      {"PE", "protective earth", earth},
      {"PEN", "protective earth and neutral in one", earth},
      {"PB", "protective bonding", earth},
      {"FE", "functional earth", other},
      {"L+", "positive pole", other},
      {"L-", "negative pole", other},
      {"M", "middle conductor of direct current", other},
      {"LIVE", "line", line},
      {"HOT", "line", line},
      {"P", "line", line},
      {"COM", "neutral, or the return of direct current", other},
      {"RET", "neutral, or the return of direct current", other},
  }};
  for (const auto& known : kMarks)
    if (known.mark == mark) return known;
  return std::nullopt;
}

std::string conductor_words(double amps) {
  const int awg = amps <= 2 ? 24 : amps <= 3 ? 22 : 18;
  const char* basis = amps <= 2   ? "2 A a contact in 2.0 mm crimp families"
                      : amps <= 3 ? "3 A a contact in 2.5 mm crimp families"
                                  : "above 3 A a contact: check the connector's own rating";
  return fmt::format(
      "Keep the wires that are there. A new one: {:.2f} mm2 (AWG {}, ASTM B258; {}, connector "
      "guides read as "
      "excerpts), in the colour of the wire it replaces. No standard binds colours inside a set: "
      "go by "
      "contact numbers, never by colour.",
      awg_area_mm2(awg), awg, basis);
}

}  // namespace benchgraft::fit
