// Touch current to expect from Y capacitors. Says "will fail" or "measure", never that a set
// passes.
#include <algorithm>
#include <numbers>

#include <fmt/format.h>

#include "fit/earth.hpp"
#include "fit/rules.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Protection;

// The limit the bench chose. Without a choice the most generous on record: what fails there fails
// anywhere.
const catalogue::TouchLimit* touch_limit(const Findings& findings, Protection protection) {
  const std::string& chosen = findings.conditions.touch_profile;
  const catalogue::TouchLimit* limit = nullptr;
  for (const auto* one : findings.known.limits()) {
    if (one->protection != protection || (!chosen.empty() && one->profile != chosen)) continue;
    const bool better = !limit || (chosen.empty() ? one->milliamps > limit->milliamps
                                                  : one->milliamps < limit->milliamps);
    if (better) limit = one;
  }
  return limit;
}

// Two good parts with their own filters can make a failing set: every changed filter has to be
// known.
void ask_y_capacitors(Findings& findings) {
  for (const auto& place : findings.set.places) {
    const bool has_filter =
        place.fills("supply") || place.fills("mains inlet") || place.fills("lamp driver");
    if (!differs(place) || !place.type || place.type->y_nf || !has_filter) continue;
    Reason& reason = findings.unknown(
        RuleSort::whole,
        fmt::format("The Y capacitors of {} are not recorded: the touch current is not known.",
                    place.type->reference()),
        fmt::format("Add up the Y capacitors from the mains to the chassis on {}, in nF.",
                    place.type->reference()),
        place.type->reference(), "y_nf", place.roles.front(), true);
    reason.rule = "touch current";
    reason.facts = {fact_of(*place.type, "y_nf not recorded")};
  }
}

// The chosen limit by profile and edition; without a choice the whole span on record, none of them
// preferred.
std::string limit_words(const Findings& findings, const catalogue::TouchLimit& limit) {
  double least = limit.milliamps;
  if (findings.conditions.touch_profile.empty())
    for (const auto* one : findings.known.limits())
      if (one->protection == limit.protection) least = std::min(least, one->milliamps);
  const std::string most =
      fmt::format("{} ({}) allows {} mA", limit.profile, limit.edition, number(limit.milliamps));
  if (least == limit.milliamps) return most;
  return fmt::format("limits on record begin at {} mA, the most generous, {}; none is chosen here",
                     number(least), most);
}

// Parts with a mains filter whose capacitors nobody recorded: the sum is then only the least.
bool some_unknown(const Assembly& set) {
  return std::any_of(set.places.begin(), set.places.end(), [](const Place& place) {
    const bool has_filter = place.fills("supply") || place.fills("mains inlet");
    return has_filter && place.type && !place.empty && !place.type->y_nf;
  });
}

}  // namespace

Milliampere y_capacitor_current(double nanofarad, double volts, double hertz) {
  const auto milliamps = [&](double nf, double v) {
    return 2 * std::numbers::pi * hertz * nf * 1e-9 * v * 1e3;
  };
  return {milliamps(nanofarad * 0.8, volts), milliamps(nanofarad, volts),
          milliamps(nanofarad * 1.2, volts * 1.1)};
}

void judge_touch_current(Findings& findings) {
  double known_nf = 0, before_nf = 0;
  std::vector<Fact> facts;
  bool touched = false;
  for (const auto& place : findings.set.places) {
    if (place.was && place.was->y_nf) before_nf += *place.was->y_nf;
    if (!place.type || place.empty || !place.type->y_nf) continue;
    known_nf += *place.type->y_nf;
    touched = touched || differs(place);
    facts.push_back(fact_of(*place.type, number(*place.type->y_nf) + " nF to chassis"));
  }
  const auto* limit = touch_limit(
      findings, findings.set.model ? findings.set.model->protection : Protection::unknown);
  if (limit) ask_y_capacitors(findings);
  if (!touched || !limit) return;
  if (known_nf <= before_nf) return;  // no more than it had: nothing new, it is measured anyway
  const auto current =
      y_capacitor_current(known_nf, findings.conditions.mains_volts, findings.conditions.mains_hz);
  const bool fails = current.low > limit->milliamps;
  Reason& reason = findings.add(
      "touch current", RuleSort::whole, fails ? Verdict::does_not_fit : Verdict::fits_with_work,
      fmt::format(
          "Y capacitors of {} nF in all{} give {:.2f} to {:.2f} mA at {} V {} Hz with earth open "
          "(capacitors 20 % either way, mains up to +10 %); {}: {}.",
          number(known_nf), some_unknown(findings.set) ? " at least" : "", current.low,
          current.high, number(findings.conditions.mains_volts),
          number(findings.conditions.mains_hz), limit_words(findings, *limit),
          fails ? "it will fail"
                : "measure it against the limit that holds with you, this passes nothing"),
      "y");
  reason.safety = true;
  reason.roles = {"supply"};
  reason.facts = std::move(facts);
  reason.facts.push_back({fmt::format("{} {}: {} mA ({})", limit->profile, limit->edition,
                                      number(limit->milliamps), limit->source),
                          limit->where});
  reason.would_change =
      "Other capacitors, another mains or another limit profile would change this.";
}

}  // namespace benchgraft::fit
