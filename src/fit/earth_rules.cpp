// Rules about protective earth, protection class, mains range and Y capacitors. Safety rules: never
// outranked. A prediction can only say "will fail" or "measure"; it never passes a set.
#include <algorithm>
#include <numbers>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/earth.hpp"
#include "fit/rules.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Contact;
using catalogue::Domain;
using catalogue::NetClass;
using catalogue::Protection;

bool has_class(const catalogue::PartType& type, NetClass wanted) {
  if (!type.ports) return false;
  for (const auto& port : *type.ports)
    if (port.contacts && std::any_of(port.contacts->begin(), port.contacts->end(),
                                     [&](const Contact& c) { return c.net_class == wanted; }))
      return true;
  return false;
}

bool on_the_earth_path(const Place& place) {
  const auto touches = [](const catalogue::PartType* type) {
    if (!type) return false;
    const bool piece =
        type->carries && std::any_of(type->carries->begin(), type->carries->end(),
                                     [](const auto& p) { return p.kind == "earth lead"; });
    return piece || has_class(*type, NetClass::earth) || has_class(*type, NetClass::mains);
  };
  return touches(place.type) || touches(place.was) || place.fills("supply") ||
         place.fills("mains inlet");
}

const char* measure_words() {
  return "Measure before it is handed over, against the limits of your country (local codes and "
         "licensed practice "
         "decide): ";
}

Reason& say_earth(Findings& findings, Verdict verdict, const std::string& says,
                  const std::string& subject) {
  Reason& reason = findings.add("earth path", RuleSort::whole, verdict, says, subject);
  reason.safety = true;
  reason.roles = {"supply", "mains inlet"};
  if (const auto* model = findings.set.model)
    reason.facts.push_back(fact_of(
        *model, fmt::format("cabinet of protection class {}",
                            catalogue::word_of(catalogue::kProtectionWords, model->protection))));
  reason.would_change = "Another recorded protection class or inlet would change this.";
  return reason;
}

struct Earth {
  Protection cabinet = Protection::unknown, supply = Protection::unknown;
  std::optional<int> inlet_wires;
  const Place* supply_place = nullptr;
  const Place* inlet_place = nullptr;
};

Earth facts_of_earth(const Assembly& set) {
  Earth earth;
  if (set.model) earth.cabinet = set.model->protection;
  earth.supply_place = set.filling("supply");
  earth.inlet_place = set.filling("mains inlet");
  if (earth.supply_place && earth.supply_place->type)
    earth.supply = earth.supply_place->type->protection;
  if (earth.inlet_place && earth.inlet_place->type)
    earth.inlet_wires = earth.inlet_place->type->inlet_wires;
  return earth;
}

void add_part_facts(Reason& reason, const Earth& earth) {
  if (earth.supply_place && earth.supply_place->type)
    reason.facts.push_back(
        fact_of(*earth.supply_place->type,
                fmt::format("supply of protection class {}",
                            catalogue::word_of(catalogue::kProtectionWords, earth.supply))));
  if (earth.inlet_place && earth.inlet_place->type)
    reason.facts.push_back(
        fact_of(*earth.inlet_place->type, earth.inlet_wires
                                              ? fmt::format("{}-wire inlet", *earth.inlet_wires)
                                              : "inlet wires not recorded"));
}

void say_class(Findings& findings, const Earth& earth, const std::string& subject,
               const std::string& says) {
  Reason& reason = say_earth(findings, Verdict::does_not_fit, says, subject);
  add_part_facts(reason, earth);
}

// Combinations of cabinet, inlet and supply; after IEC 61140 classes (from memory) and repair-test
// practice.
void judge_classes(Findings& findings, const Earth& earth) {
  const bool two_wire = earth.inlet_wires == 2, three_wire = earth.inlet_wires == 3;
  if (earth.cabinet == Protection::class_1 && two_wire)
    return say_class(findings, earth, "two-wire",
                     "The cabinet relies on protective earth and the inlet has only two wires: "
                     "exposed metal would float. The three-wire inlet and its bond stay.");
  if (earth.supply == Protection::class_1 && earth.cabinet == Protection::class_2 && three_wire)
    return say_class(
        findings, earth, "lost",
        "This supply relies on protective earth. The three-wire inlet is there, but the "
        "cabinet was never made for it: a bond to every metal part has to be made and "
        "measured by someone licensed to do it, or another supply is used.");
  if (earth.supply == Protection::class_1 && (earth.cabinet == Protection::class_2 || two_wire))
    return say_class(
        findings, earth, "lost",
        "This supply relies on protective earth and there is none: its filter would put "
        "the chassis at about half the mains voltage. Not unless a three-wire inlet and "
        "a measured bond are fitted by someone licensed to do it, or another supply is "
        "used.");
  if (earth.cabinet == Protection::unknown) return;  // asked for
  const bool class_1 = earth.cabinet == Protection::class_1;
  Reason& reason = say_earth(
      findings, Verdict::fits_with_work,
      class_1 ? fmt::format("The earth path is opened by this work. {}continuity from plug contact "
                            "to every metal part, "
                            "protective bond, then insulation, then earth and touch current.",
                            measure_words())
              : fmt::format("Double insulated: no earth may be relied on. {}insulation, then touch "
                            "current, plug both "
                            "ways round.",
                            measure_words()),
      "measure");
  reason.work_minutes = 12;  // safety test and form, common practice, no source
  reason.not_before =
      class_1 ? "not before the protective bond is measured" : "not before insulation is measured";
  add_part_facts(reason, earth);
  if (class_1 || !three_wire) return;
  Reason& loose =
      say_earth(findings, Verdict::fits_with_work,
                "The inlet brings an earth wire into a double-insulated cabinet: see where "
                "it ends, it must not hang loose.",
                "loose");
  add_part_facts(loose, earth);
}

void ask_classes(Findings& findings, const Earth& earth) {
  const auto ask = [&](const std::string& text, const std::string& about, const std::string& key) {
    Reason& reason =
        findings.unknown(RuleSort::whole, "What the earth path will be is not known: " + text,
                         "Find out: " + text, about, key, "supply", true);
    reason.rule = "earth path";
  };
  if (earth.cabinet == Protection::unknown)
    ask("is the cabinet earthed (I) or double insulated (II)? Look for the double square on the "
        "label.",
        findings.set.model ? findings.set.model->name : "the host", "protection");
  if (earth.supply_place && earth.supply_place->type && earth.supply == Protection::unknown &&
      differs(*earth.supply_place))
    ask(fmt::format("is {} made for an earthed (I) or a double-insulated (II) set?",
                    earth.supply_place->type->reference()),
        earth.supply_place->type->reference(), "protection");
  if (earth.inlet_place && earth.inlet_place->type && !earth.inlet_wires)
    ask(fmt::format("has {} two or three wires?", earth.inlet_place->type->reference()),
        earth.inlet_place->type->reference(), "inlet_wires");
}

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

void judge_y_capacitors(Findings& findings, const Earth& earth) {
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
  const auto* limit = touch_limit(findings, earth.cabinet);
  if (limit) ask_y_capacitors(findings);
  if (!touched || !limit) return;
  if (known_nf <= before_nf) return;  // no more than it had: nothing new, it is measured anyway
  const auto current =
      y_capacitor_current(known_nf, findings.conditions.mains_volts, findings.conditions.mains_hz);
  const bool fails = current.low > limit->milliamps;
  Reason& reason = findings.add(
      "touch current", RuleSort::whole, fails ? Verdict::does_not_fit : Verdict::fits_with_work,
      fmt::format(
          "Y capacitors of {} nF in all give {:.2f} to {:.2f} mA at {} V {} Hz with earth open; "
          "{}: {}.",
          number(known_nf), current.low, current.high, number(findings.conditions.mains_volts),
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

}  // namespace

Milliampere y_capacitor_current(double nanofarad, double volts, double hertz) {
  const auto milliamps = [&](double nf, double v) {
    return 2 * std::numbers::pi * hertz * nf * 1e-9 * v * 1e3;
  };
  return {milliamps(nanofarad * 0.8, volts), milliamps(nanofarad, volts),
          milliamps(nanofarad * 1.2, volts * 1.1)};
}

void judge_mains_range(Findings& findings) {
  for (const auto& place : findings.set.places) {
    if (!differs(place) || !place.type || !(place.fills("supply") || place.fills("mains inlet")))
      continue;
    const auto& range = place.type->mains_volts;
    const double mains = findings.conditions.mains_volts;
    if (!range) {
      Reason& reason = findings.unknown(
          RuleSort::single,
          fmt::format("The mains range of {} is not recorded.", place.type->reference()),
          fmt::format("Read the mains range printed on {}.", place.type->reference()),
          place.type->reference(), "mains_volts", place.roles.front(), true);
      reason.rule = "mains range";
      continue;
    }
    if (mains >= range->low * 0.9 && mains <= range->high * 1.1) continue;
    Reason& reason = findings.add(
        "mains range", RuleSort::single, Verdict::destroys,
        fmt::format("{} is made for {} mains, here it is {} V: it bursts or does not start.",
                    place.type->reference(), volts_text(*range), number(mains)),
        place.type->reference());
    reason.safety = true;
    reason.roles = place.roles;
    reason.types = {place.type->reference()};
    reason.facts = {fact_of(*place.type, "mains " + volts_text(*range))};
    reason.would_change = "A supply for this mains would change this.";
  }
}

void judge_two_grounds(Findings& findings) {
  const auto ground_in = [](const catalogue::PartType& type,
                            Domain domain) -> const catalogue::Port* {
    if (!type.ports) return nullptr;
    for (const auto& port : *type.ports)
      if (port.contacts)
        for (const auto& c : *port.contacts)
          if (c.net_class == NetClass::ground && domain_of(c) == domain) return &port;
    return nullptr;
  };
  for (const auto& link : findings.joints.joined) {
    for (const Place* place : {link.a, link.b}) {
      if (!differs(*link.a) && !differs(*link.b)) continue;
      const auto* hot = ground_in(*place->type, Domain::primary);
      const auto* cold = ground_in(*place->type, Domain::secondary);
      const std::string subject = place->type->reference();
      const bool said = std::any_of(
          findings.out.reasons.begin(), findings.out.reasons.end(),
          [&](const Reason& r) { return r.rule == "two grounds" && r.types.front() == subject; });
      if (!hot || !cold || said) continue;
      Reason& reason = findings.add(
          "two grounds", RuleSort::single, Verdict::fits,
          fmt::format(
              "{} has a hot ground (on {}) and a cold ground (on {}). They are never joined, "
              "not by a lead, a screw or a meter clip.",
              subject, hot->name, cold->name),
          subject);
      reason.safety = true;
      reason.types = {subject};
      reason.roles = {place->roles.front()};
      reason.facts = {{subject + " " + hot->name + ": ground on the mains side", hot->where},
                      {subject + " " + cold->name + ": ground on the isolated side", cold->where}};
    }
  }
}

void judge_earth_path(Findings& findings) {
  const bool concerned =
      std::any_of(findings.set.places.begin(), findings.set.places.end(), [](const Place& place) {
        return (differs(place) || place.altered) && on_the_earth_path(place);
      });
  if (!concerned) return;
  const Earth earth = facts_of_earth(findings.set);
  ask_classes(findings, earth);
  judge_classes(findings, earth);
  judge_y_capacitors(findings, earth);
}

}  // namespace benchgraft::fit
