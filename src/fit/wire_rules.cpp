// Whole rules: the amps that flow against the size of the wire, the contact of the connector, and
// the volts a lead may lose on its way. Only where the lead is new or more flows than before.
#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/contact_rules.hpp"
#include "fit/mains_side.hpp"
#include "fit/rules.hpp"
#include "fit/wire_figures.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Contact;
using catalogue::Direction;
using catalogue::NetClass;

// Heat grows with the square: at 1.5 times the usual amps a 30 K rise is 67 K (assumed as the line
// between "look at it" and "it will not do").
constexpr double kFarOver = 1.5;

/// One current: from a contact that gives to one that draws, perhaps over wires of a lead.
struct Flow {
  const Contact* gives = nullptr;
  const Contact* takes = nullptr;
  double amps = 0;
  std::vector<const catalogue::Wire*> wires;  ///< side by side
};

/// All currents of one joint and who draws them.
struct Flows {
  const Joint& joint;
  const Place* user = nullptr;
  const Place* giver = nullptr;
  const catalogue::Port* user_port = nullptr;
  const catalogue::Port* giver_port = nullptr;
  std::vector<Flow> all;
};

bool draws(const Contact& c) {
  return c.direction == Direction::in && c.amps && *c.amps > 0 &&
         (c.net_class == NetClass::supply || c.net_class == NetClass::bus ||
          c.net_class == NetClass::mains);
}

void collect(Flows& flows, bool user_is_a) {
  const auto& joint = flows.joint;
  flows.user = user_is_a ? joint.a : joint.b;
  flows.giver = user_is_a ? joint.b : joint.a;
  flows.user_port = user_is_a ? joint.port_a : joint.port_b;
  flows.giver_port = user_is_a ? joint.port_b : joint.port_a;
  for (const auto& face : contacts_across(joint).faces) {
    const Contact* takes = user_is_a ? face.a : face.b;
    const Contact* gives = user_is_a ? face.b : face.a;
    if (!takes || !gives || !draws(*takes) || gives->net_class != takes->net_class) continue;
    auto flow = std::find_if(flows.all.begin(), flows.all.end(),
                             [&](const Flow& known) { return known.takes == takes; });
    if (flow == flows.all.end()) flow = flows.all.insert(flow, {gives, takes, *takes->amps, {}});
    if (face.wire) flow->wires.push_back(face.wire);
  }
}

// What the part that sat there drew under the same name; nothing when nobody recorded it.
std::optional<double> drawn_before(const Flows& flows, const Flow& flow) {
  if (!new_here(*flows.user)) return flow.amps;
  if (!flows.user->was || !flows.user->was->ports) return std::nullopt;
  for (const auto& port : *flows.user->was->ports) {
    if (port.to != flows.user_port->to || !port.contacts) continue;
    if (port.connector.family != flows.user_port->connector.family) continue;
    for (const auto& contact : *port.contacts)
      if (draws(contact) && contact.signal == flow.takes->signal) return contact.amps;
  }
  return std::nullopt;
}

bool more_than_before(const Flows& flows, const Flow& flow) {
  const auto before = drawn_before(flows, flow);
  return !before || flow.amps > *before + 1e-9;
}

bool new_lead(const Flows& flows) { return flows.joint.lead && new_here(*flows.joint.lead); }

Reason& say_flow(Findings& findings, const std::string& rule, Verdict verdict, const Flows& flows,
                 const Flow& flow, const std::string& says) {
  Reason& reason = findings.add(
      rule, RuleSort::whole, verdict, says,
      flows.user->type->reference() + "|" + flows.user_port->name + flow.takes->number);
  reason.safety = is_excluded_circuit(*flow.takes);
  reason.roles = {flows.user->roles.front()};
  reason.types = {flows.user->type->reference(), flows.giver->type->reference()};
  if (flows.joint.lead) reason.types.push_back(flows.joint.lead->type->reference());
  reason.ports = {flows.user_port->name, flows.giver_port->name};
  reason.signals = {flow.takes->signal};
  reason.facts = {fact_of(*flows.user, *flows.user_port, *flow.takes)};
  return reason;
}

// --- the contact -------------------------------------------------------------------------------

int side_by_side(const Flows& flows, const Flow& flow) {
  return static_cast<int>(std::count_if(flows.all.begin(), flows.all.end(), [&](const Flow& other) {
    return other.takes->signal == flow.takes->signal &&
           other.takes->net_class == flow.takes->net_class;
  }));
}

// Usual amps of the family, in words for the fact.
std::optional<double> usual_amps(const Flows& flows, std::string& words) {
  const auto& connector = flows.user_port->connector;
  if (connector.family.rfind("2.36 mm", 0) == 0) {
    constexpr int kThickest = 14;  // the size is not on record: the most the table allows
    const int circuits = std::max<int>(2, static_cast<int>(flows.all.size()) * 2);  // and back
    words = fmt::format("2.36 mm pin-and-socket, {} circuits loaded (datasheet read as an excerpt)",
                        circuits);
    return pin_and_socket_amps(circuits, kThickest);
  }
  auto pitch = connector.pitch_mm;
  if (!pitch) pitch = flows.giver_port->connector.pitch_mm;
  if (!pitch) return std::nullopt;
  words = fmt::format("{} mm family (connector guides read as excerpts; 3.96 mm from memory)",
                      number(*pitch));
  return contact_amps(*pitch);
}

void judge_contact(Findings& findings, const Flows& flows, const Flow& flow) {
  std::string words;
  const auto usual = usual_amps(flows, words);
  if (!usual || !more_than_before(flows, flow)) return;
  const int beside = side_by_side(flows, flow);
  const double left = amps_at(*usual, kWireCelsius) * parallel_factor(beside);
  if (flow.amps <= left + 1e-9) return;
  const bool far_over = flow.amps > kFarOver * *usual;
  const std::string shared = beside > 1 ? fmt::format(" with {} side by side", beside) : "";
  Reason& reason = say_flow(
      findings, "contact rating", far_over ? Verdict::does_not_fit : Verdict::fits_with_work, flows,
      flow,
      fmt::format(
          "{} A flow through {} of {}; a contact of this family usually carries {} A, {:.1f} "
          "A in a cabinet of {} C{}. {}",
          number(flow.amps), contact_called(*flow.takes),
          port_called(*flows.user, *flows.user_port), number(*usual), left, number(kWireCelsius),
          shared,
          far_over ? "It will overheat."
                   : "Look for browned contacts, and feel the plug after the soak, unplugged."));
  if (!far_over) reason.work_minutes = 3;
  reason.facts.push_back({"usual amps: " + words, {}});
  reason.would_change =
      "A rating recorded for this very connector, more contacts for this rail or a "
      "smaller draw would change this.";
}

// --- the wire ----------------------------------------------------------------------------------

std::optional<double> area_of(const Flow& flow) {
  double area = 0;
  for (const auto* wire : flow.wires) {
    if (!wire->area_mm2) return std::nullopt;
    area += *wire->area_mm2;
  }
  return flow.wires.empty() ? std::nullopt : std::optional<double>(area);
}

struct Carries {
  double amps = 0;
  std::string basis;
};

// A cord goes by its table, a wire inside the set by the hook-up table.
std::optional<Carries> carried_by(const Flows& flows, const Flow& flow, double thinnest) {
  if (flows.joint.lead->fills("mains inlet")) {
    const auto needed = cord_area_mm2(flow.amps);
    if (!needed || thinnest >= *needed - 1e-9) return std::nullopt;
    return Carries{0,
                   fmt::format("a cord for {} A needs {} mm2 (IEC 60950-1 table 3B, from memory)",
                               number(flow.amps), number(*needed))};
  }
  const auto alone = hook_up_amps(thinnest);
  if (!alone) return std::nullopt;
  const int loaded = static_cast<int>(flows.all.size());
  const double amps = *alone * bundle_factor(loaded);
  return Carries{amps,
                 fmt::format("such a wire carries {:.1f} A at most{} (105 C insulation at 40 C "
                             "in free air, read as an excerpt)",
                             amps, loaded >= 5 ? " in this bundle" : "")};
}

void judge_size(Findings& findings, const Flows& flows, const Flow& flow) {
  if (flow.wires.empty() || !area_of(flow)) return;
  const auto* thinnest =
      *std::min_element(flow.wires.begin(), flow.wires.end(),
                        [](const auto* x, const auto* y) { return *x->area_mm2 < *y->area_mm2; });
  const double each = flow.amps / static_cast<double>(flow.wires.size());
  const auto carries = carried_by(flows, flow, *thinnest->area_mm2);
  if (!carries || each <= carries->amps + 1e-9) return;
  Reason& reason = say_flow(findings, "wire size", Verdict::does_not_fit, flows, flow,
                            fmt::format("{} A flow in a wire of {} mm2 of {}; {}.", number(each),
                                        number(*thinnest->area_mm2),
                                        flows.joint.lead->type->reference(), carries->basis));
  reason.facts.push_back({fmt::format("{}: wire of {} mm2", flows.joint.lead->type->reference(),
                                      number(*thinnest->area_mm2)),
                          thinnest->where});
  reason.would_change = "A thicker lead or a smaller draw would change this.";
}

// --- the volts lost ----------------------------------------------------------------------------

double rail_volts(const Flow& flow) {
  if (flow.gives->volts)
    return std::min(std::abs(flow.gives->volts->low), std::abs(flow.gives->volts->high));
  return flow.takes->volts ? std::abs(flow.takes->volts->high) : 0;
}

double lost(const Flow& flow, double length_mm, double area) {
  return volt_drop(flow.amps, length_mm / 1000, area, kWireCelsius);
}

// The lead that was there lost as much for the same current: nothing new.
bool lost_as_much_before(const Flows& flows, double length_mm, double area) {
  const auto* was = flows.joint.lead->was;
  if (!was || !was->length_mm || was->wires.empty()) return false;
  double thinnest = was->wires.front().area_mm2.value_or(0);
  for (const auto& wire : was->wires) {
    if (!wire.area_mm2) return false;
    thinnest = std::min(thinnest, *wire.area_mm2);
  }
  return *was->length_mm / thinnest >= length_mm / area - 1e-9;
}

void judge_drop(Findings& findings, const Flows& flows, const Flow& flow) {
  const auto area = area_of(flow);
  const auto length = flows.joint.lead->type->length_mm;
  const double volts = rail_volts(flow);
  if (flow.takes->net_class != NetClass::supply || !area || !length || volts <= 0) return;
  if (!more_than_before(flows, flow) && lost_as_much_before(flows, *length, *area)) return;
  const double drop = lost(flow, *length, *area);
  if (drop <= drop_limit(volts) * volts + 1e-9) return;
  const bool too_low = flow.takes->volts && flow.takes->volts->low > 0 &&
                       volts - drop < flow.takes->volts->low - 1e-9;
  Reason& reason = say_flow(
      findings, "volt drop", too_low ? Verdict::does_not_fit : Verdict::fits_with_work, flows, flow,
      fmt::format("{} A over {} mm of {} mm2 and back lose {:.2f} V of {} V ({:.1f} %) without the "
                  "contacts; {}.",
                  number(flow.amps), number(*length), number(*area), drop, number(volts),
                  100 * drop / volts,
                  too_low
                      ? fmt::format("{} needs {} V at least", flows.user->type->reference(),
                                    number(flow.takes->volts->low))
                      : fmt::format("{:.0f} % is usual at most: measure the rail at the far end "
                                    "under load, or use a shorter or thicker lead",
                                    100 * drop_limit(volts))));
  if (!too_low) reason.work_minutes = 5;
  reason.facts.push_back(
      fact_of(*flows.joint.lead->type, fmt::format("{} mm long", number(*length))));
  reason.facts.push_back(
      {fmt::format("{}: wire of {} mm2", flows.joint.lead->type->reference(), number(*area)),
       flow.wires.front()->where});
  reason.facts.push_back(
      {"copper at 60 C by IEC 60028; 2 % from 12 V up, 3 % below: common "
       "practice, no source",
       {}});
  reason.would_change = "A shorter or thicker lead, or a smaller draw, would change this.";
}

// A new lead of unknown wires: asked when the thinnest usual wire would not do.
void ask_size(Findings& findings, const Flows& flows, const Flow& flow) {
  if (!new_lead(flows) || flow.wires.empty() || area_of(flow)) return;
  const double each = flow.amps / static_cast<double>(flow.wires.size());
  const double thinnest =
      *hook_up_amps(kThinnestUsualMm2) * bundle_factor(static_cast<int>(flows.all.size()));
  const double volts = rail_volts(flow);
  const auto& length = flows.joint.lead->type->length_mm;
  const bool drops = flow.takes->net_class == NetClass::supply && length && volts > 0 &&
                     lost(flow, *length, kThinnestUsualMm2) > drop_limit(volts) * volts;
  if (each <= thinnest && !drops) return;
  const std::string lead = flows.joint.lead->type->reference();
  Reason& reason = findings.unknown(
      RuleSort::whole,
      fmt::format(
          "How thick the wires of {} are is not recorded; {} A flow in one of them, too much "
          "for the thinnest usual wire (AWG 26).",
          lead, number(each)),
      fmt::format("What cross-section in mm2, or which AWG, is printed on the wires of {}?", lead),
      lead, "wire: area_mm2", flows.joint.lead->roles.front(), is_excluded_circuit(*flow.takes));
  reason.rule = "wire size";
  reason.types = {lead};
  reason.facts = {fact_of(*flows.user, *flows.user_port, *flow.takes)};
}

void judge_flows(Findings& findings, const Flows& flows) {
  bool asked = false;
  for (const auto& flow : flows.all) {
    judge_contact(findings, flows, flow);
    if (!flows.joint.lead) continue;
    if (new_lead(flows) || more_than_before(flows, flow)) {
      judge_size(findings, flows, flow);
      judge_drop(findings, flows, flow);
    }
    const std::size_t before = findings.out.reasons.size();
    if (!asked) ask_size(findings, flows, flow);
    asked = asked || findings.out.reasons.size() > before;
  }
}

}  // namespace

void judge_wires(Findings& findings) {
  for (const auto& joint : findings.joints.joined) {
    if (!new_at(joint) || built_so(findings.known, joint)) continue;
    for (const bool user_is_a : {true, false}) {
      Flows flows{joint, nullptr, nullptr, nullptr, nullptr, {}};
      collect(flows, user_is_a);
      if (!flows.all.empty()) judge_flows(findings, flows);
    }
  }
}

}  // namespace benchgraft::fit
