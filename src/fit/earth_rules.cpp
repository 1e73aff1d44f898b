// Rules about protective earth, protection class and mains range. Safety rules: never outranked. A
// prediction can only say "will fail" or "measure"; it never passes a set.
#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/mains_side.hpp"
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

bool is_hot_ground(const Contact& contact) {
  return contact.net_class == NetClass::ground && domain_of(contact) == Domain::primary;
}

/// The leads and pieces that make the protective path, by name, and where they are recorded.
struct EarthWay {
  std::vector<std::string> names;
  std::vector<Fact> facts;
  bool from_the_inlet = false;
};

void add_joint(EarthWay& way, const Joint& joint) {
  for (const auto& face : contacts_across(joint).faces) {
    if (!face.a || !face.b || face.a->net_class != NetClass::earth ||
        face.b->net_class != NetClass::earth)
      continue;
    const std::string lead = joint.lead
                                 ? fmt::format("the lead {}", joint.lead->type->reference())
                                 : fmt::format("{} in {}", port_called(*joint.a, *joint.port_a),
                                               joint.b->type->reference());
    way.names.push_back(fmt::format("{} (contact {})", lead, face.a->number));
    way.facts.push_back(fact_of(*joint.a, *joint.port_a, *face.a));
    way.from_the_inlet =
        way.from_the_inlet || joint.a->fills("mains inlet") || joint.b->fills("mains inlet");
  }
}

EarthWay earth_way(const Findings& findings) {
  EarthWay way;
  for (const auto& joint : findings.joints.joined) add_joint(way, joint);
  for (const auto& place : findings.set.places) {
    if (!place.type || place.empty || !place.type->carries) continue;
    for (const auto& piece : *place.type->carries) {
      if (piece.kind != "earth lead") continue;
      way.names.push_back(fmt::format("the {} on {}", piece.name, place.type->reference()));
      way.facts.push_back(
          {fmt::format("{} carries the earth lead \"{}\"", place.type->reference(), piece.name),
           piece.where});
      way.from_the_inlet = way.from_the_inlet || place.fills("mains inlet");
    }
  }
  return way;
}

std::string way_words(const EarthWay& way) {
  if (way.names.empty())
    return "No lead on record makes the protective path: find it before the set is plugged in.";
  return fmt::format(
      "The protective path runs over {}. It counts only after continuity and bond "
      "are measured.",
      listed(way.names));
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
    return say_class(
        findings, earth, "two-wire",
        "The set loses its protective earth: the cabinet relies on it and the inlet "
        "has only two wires. Exposed metal would float, with no protection class left. "
        "The three-wire inlet and its bond stay.");
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
  const EarthWay way = earth_way(findings);
  Reason& reason = say_earth(
      findings, Verdict::fits_with_work,
      class_1
          ? fmt::format("The earth path is opened by this work. {} The hot ground is never part "
                        "of it and never bonded. {}continuity from plug contact to every metal "
                        "part, protective bond, then insulation, then earth and touch current.",
                        way_words(way), measure_words())
          : fmt::format("Double insulated: no earth may be relied on, and the hot ground is "
                        "never bonded to metal. {}insulation, then touch current, plug both "
                        "ways round.",
                        measure_words()),
      "measure");
  if (class_1) reason.facts.insert(reason.facts.end(), way.facts.begin(), way.facts.end());
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

bool lists_all_contacts(const catalogue::PartType& type) {
  return type.ports && !type.ports->empty() &&
         std::all_of(type.ports->begin(), type.ports->end(),
                     [](const auto& port) { return port.contacts.has_value(); });
}

// The old part took the earth on, the new one has no contact for it, and nothing else starts at the
// inlet.
void judge_lost_way(Findings& findings, const Earth& earth) {
  if (earth.cabinet != Protection::class_1 || earth.inlet_wires == 2) return;
  if (earth_way(findings).from_the_inlet) return;
  for (const auto& place : findings.set.places) {
    if (!differs(place) || !place.type || !place.was) continue;
    if (!has_class(*place.was, NetClass::earth) || has_class(*place.type, NetClass::earth) ||
        !lists_all_contacts(*place.type))
      continue;
    Reason& reason = say_earth(
        findings, Verdict::does_not_fit,
        fmt::format(
            "The set loses its protective earth: {} took it on from the inlet, {} has no "
            "contact for it and no other lead on record does it. Exposed metal would float, "
            "with no protection class left.",
            place.was->reference(), place.type->reference()),
        "way|" + place.type->reference());
    reason.types = {place.type->reference()};
    reason.facts.push_back(fact_of(*place.was, "has an earth contact"));
    reason.facts.push_back(fact_of(*place.type, "has none"));
    reason.would_change =
        "A lead recorded from the inlet's earth to the chassis, measured, would change this.";
  }
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

}  // namespace

void judge_mains_range(Findings& findings) {
  for (const auto& place : findings.set.places) {
    if (!differs(place) || !place.type) continue;
    const bool must_tell = place.fills("supply") || place.fills("mains inlet");
    if (!must_tell && !has_class(*place.type, NetClass::mains)) continue;
    const auto& range = place.type->mains_volts;
    const double mains = findings.conditions.mains_volts;
    if (!range) {
      if (!must_tell) continue;
      Reason& reason = findings.unknown(
          RuleSort::single,
          fmt::format("The mains range of {} is not recorded.", place.type->reference()),
          fmt::format("Read the mains range printed on {}.", place.type->reference()),
          place.type->reference(), "mains_volts", place.roles.front(), true);
      reason.rule = "mains range";
      continue;
    }
    const bool too_high = mains > range->high * 1.1, too_low = mains < range->low * 0.9;
    if (!too_high && !too_low) continue;
    Reason& reason = findings.add(
        "mains range", RuleSort::single, too_high ? Verdict::destroys : Verdict::does_not_fit,
        fmt::format("{} is made for {} mains, here it is {} V: {}.", place.type->reference(),
                    volts_text(*range), number(mains),
                    too_high ? "capacitors, fuse and varistor burst"
                             : "it does not start, or draws too much current"),
        place.type->reference());
    reason.safety = true;
    reason.roles = place.roles;
    reason.types = {place.type->reference()};
    reason.facts = {fact_of(*place.type, "mains " + volts_text(*range))};
    reason.would_change = "A supply for this mains would change this.";
  }
}

// On the step where the part is handled, whatever else is said.
void warn_of_hot_grounds(Findings& findings) {
  for (const auto& place : findings.set.places) {
    if (!new_here(place) || !place.type || place.empty || !place.type->ports) continue;
    for (const auto& port : *place.type->ports) {
      if (!port.contacts ||
          std::none_of(port.contacts->begin(), port.contacts->end(), is_hot_ground))
        continue;
      findings.out.cautions.push_back(
          {"hot ground",
           fmt::format("The ground on {} of {} is on the mains side: never bond it to the chassis, "
                       "to earth, to the isolated side, or to the clip of an earthed meter.",
                       port.name, place.type->reference()),
           place.roles, 0});
      break;
    }
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
  warn_of_hot_grounds(findings);
  const bool concerned =
      std::any_of(findings.set.places.begin(), findings.set.places.end(), [](const Place& place) {
        return (differs(place) || place.altered) && on_the_earth_path(place);
      });
  if (!concerned) return;
  const Earth earth = facts_of_earth(findings.set);
  ask_classes(findings, earth);
  judge_classes(findings, earth);
  judge_lost_way(findings, earth);
  judge_touch_current(findings);
}

}  // namespace benchgraft::fit
