// Pair rule: lamp and lamp driver. Lamp power is a safety rule and is never outranked by a swap
// that worked.
#include <cmath>

#include <fmt/format.h>

#include "fit/rules.hpp"

namespace benchgraft::fit {
namespace {

// Same nominal watts; lamps are made for one driver power (from memory: too low blackens, too high
// bursts).
constexpr double kWattTolerance = 0.01;

void ask(Findings& findings, const Place& place, const std::string& what, const std::string& key) {
  Reason& reason = findings.unknown(
      RuleSort::pair, fmt::format("The lamp {} of {} are not recorded.", what, place.called()),
      fmt::format("Read the lamp {} printed on {}.", what, place.called()), place.type->reference(),
      key, place.roles.front(), true);
  reason.facts = {fact_of(*place.type, "lamp " + what + " not recorded")};
}

void compare_watts(Findings& findings, const Place& lamp, const Place& driver) {
  const double has = *lamp.type->lamp_watts, gives = *driver.type->lamp_watts;
  if (std::abs(has - gives) <= kWattTolerance * has) return;
  Reason& reason = findings.add(
      "lamp power", RuleSort::pair, Verdict::destroys,
      fmt::format(
          "{} is a {} W lamp, {} drives {} W: {}. Never light this pair.", lamp.type->reference(),
          number(has), driver.type->reference(), number(gives),
          gives > has ? "the lamp may burst" : "the lamp runs too cold, flickers and blackens"),
      lamp.type->reference() + "|" + driver.type->reference());
  reason.safety = true;
  reason.roles = {"lamp", "lamp driver"};
  reason.types = {lamp.type->reference(), driver.type->reference()};
  reason.facts = {fact_of(*lamp.type, number(has) + " W"),
                  fact_of(*driver.type, number(gives) + " W")};
  reason.would_change = "A lamp and a driver of the same watts would change this.";
}

void compare_volts(Findings& findings, const Place& lamp, const Place& driver) {
  if (!lamp.type->lamp_volts || !driver.type->lamp_volts) return;
  const auto &needs = *lamp.type->lamp_volts, &window = *driver.type->lamp_volts;
  if (needs.low >= window.low && needs.high <= window.high) return;
  Reason& reason =
      findings.add("lamp power", RuleSort::pair, Verdict::does_not_fit,
                   fmt::format("{} runs at {}, {} works from {}: no steady light and a short life.",
                               lamp.type->reference(), volts_text(needs), driver.type->reference(),
                               volts_text(window)),
                   "volts|" + lamp.type->reference() + "|" + driver.type->reference());
  reason.safety = true;
  reason.roles = {"lamp", "lamp driver"};
  reason.types = {lamp.type->reference(), driver.type->reference()};
  reason.facts = {fact_of(*lamp.type, volts_text(needs)),
                  fact_of(*driver.type, volts_text(window))};
}

}  // namespace

void judge_lamp_power(Findings& findings) {
  const Place* lamp = findings.set.filling("lamp");
  const Place* driver = findings.set.filling("lamp driver");
  if (!lamp || !driver || !lamp->type || !driver->type || lamp == driver) return;
  if (!differs(*lamp) && !differs(*driver)) return;
  if (built_together(findings.known, *lamp, *driver)) return;
  for (const Place* place : {lamp, driver}) {
    if (!place->type->lamp_watts) ask(findings, *place, "watts", "lamp_watts");
    if (!place->type->lamp_volts) ask(findings, *place, "volts", "lamp_volts");
  }
  if (lamp->type->lamp_watts && driver->type->lamp_watts) compare_watts(findings, *lamp, *driver);
  compare_volts(findings, *lamp, *driver);
}

}  // namespace benchgraft::fit
