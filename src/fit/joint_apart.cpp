// What would make a joint right: contacts moved in the plug, or a crossover lead where they do not
// mate. Never for mains, bus, ignition, earth, interlock or thermal loops.
#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "catalogue/effective.hpp"
#include "fit/conductors.hpp"
#include "fit/joint_case.hpp"
#include "fit/link_text.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Contact;
using catalogue::Direction;
using catalogue::Port;

// 30 minutes for a 10-way plug, so 3 a contact; 5 to find and mark, 10 to cut and crimp a new lead
// (common practice, no source).
constexpr double kMinutesPerMove = 3, kMinutesToMark = 5, kMinutesForCrossover = 10;

Repin repin_of(const JointCase& one, const Rearrangement& plan, const std::string& code) {
  const Joint& joint = one.joint;
  Repin repin;
  repin.part = joint.through_lead() ? joint.lead->type->reference() : joint.a->type->reference();
  repin.port = joint.through_lead() ? joint.end_a->name : joint.port_a->name;
  repin.into = joint.through_lead() ? joint.a->type->reference() : joint.b->type->reference();
  repin.socket = joint.through_lead() ? joint.port_a->name : joint.port_b->name;
  repin.moves = plan.moves;
  // Through a lead the wire that starts at the place has to start at the contact it should carry.
  if (joint.through_lead())
    for (auto& move : repin.moves) std::swap(move.from, move.to);
  repin.conductor = conductor_words(plan.most_amps);
  repin.code = code;
  return repin;
}

void offer(JointCase& one, const std::string& name, const Repin& repin, double minutes,
           const std::vector<std::string>& codes, const char* step) {
  OfferedWork offered;
  offered.work.name = name;
  offered.work.codes = codes;
  offered.work.steps.push_back("Photograph and mark the plug before anything is pulled.");
  for (const auto& move : repin.moves)
    offered.work.steps.push_back(fmt::format(fmt::runtime(step), move.from, move.to,
                                             move.signal.empty() ? "as recorded" : move.signal));
  offered.work.steps.push_back("Check every contact with the meter before it is plugged in.");
  offered.work.work_minutes = minutes + kMinutesPerMove * static_cast<double>(repin.moves.size());
  one.findings.offered.push_back(std::move(offered));
}

// Nobody moves a contact in a flat ribbon: it is the right ribbon or another one.
bool is_ribbon(const catalogue::Connector& connector) {
  return connector.ribbon_side != catalogue::RibbonSide::unknown ||
         connector.family.find("ribbon") != std::string::npos;
}

bool has_excluded(const Port& port) {
  return port.contacts &&
         std::any_of(port.contacts->begin(), port.contacts->end(), is_excluded_circuit);
}

std::string why_no_lead(const JointCase& one, const std::vector<ContactFinding>& found) {
  const Joint& joint = one.joint;
  if (has_excluded(*joint.port_a) || has_excluded(*joint.port_b))
    return " This circuit only moves as a whole original lead: none is made or altered.";
  if (!joint.port_a->contacts || !joint.port_b->contacts)
    return " Its contacts are not recorded, so no lead can be worked out.";
  if (std::any_of(found.begin(), found.end(),
                  [](const auto& f) { return f.rule == ContactRule::not_recorded; }))
    return " Some facts are missing, so no lead can be worked out yet.";
  if (!found.empty()) return " Their contacts do not agree either, so a lead alone would not help.";
  return "";
}

const Contact* same_signal(const Port& port, const Contact& contact) {
  if (contact.signal.empty() || !port.contacts) return nullptr;
  for (const auto& other : *port.contacts)
    if (other.signal == contact.signal && other.net_class == contact.net_class) return &other;
  return nullptr;
}

// A reply that this contact waits for and the other port does not have at all.
void judge_reply(const Contact& waits, const Port& other, bool on_a,
                 std::vector<ContactFinding>& found) {
  if (waits.direction != Direction::in || !waits.waits_s || !other.contacts) return;
  if (same_signal(other, waits)) return;
  ContactFinding finding{ContactRule::missing_reply, Verdict::does_not_fit};
  (on_a ? finding.a : finding.b) = &waits;
  found.push_back(finding);
}

// Clashes that a made lead would not cure: the same signal with other volts, levels or protocol.
std::vector<ContactFinding> clashes_by_signal(const JointCase& one) {
  std::vector<ContactFinding> found;
  const Joint& joint = one.joint;
  if (!joint.port_a->contacts || !joint.port_b->contacts) return found;
  for (const auto& contact : *joint.port_a->contacts) {
    if (const Contact* other = same_signal(*joint.port_b, contact))
      judge_contacts(&contact, other, one.around, found);
    judge_reply(contact, *joint.port_b, true, found);
  }
  for (const auto& contact : *joint.port_b->contacts)
    judge_reply(contact, *joint.port_a, false, found);
  // Nothing is joined yet, so nothing is destroyed yet.
  for (auto& f : found) f.verdict = std::min(f.verdict, Verdict::does_not_fit);
  return found;
}

// "the B plug of RL-12": the end that was cut, "" when none.
std::string cut_end(const Joint& joint) {
  const auto is_cut = [](const Port* port) {
    return port && port->connector.family == catalogue::kCutPlug;
  };
  if (is_cut(joint.port_a)) return port_called(*joint.a, *joint.port_a);
  if (is_cut(joint.port_b)) return port_called(*joint.b, *joint.port_b);
  if (is_cut(joint.end_a)) return port_called(*joint.lead, *joint.end_a);
  if (is_cut(joint.end_b)) return port_called(*joint.lead, *joint.end_b);
  return {};
}

Fact connector_fact(const Place& place, const Port& port) {
  const auto& c = port.connector;
  std::string text = fmt::format("{} {}: {}", place.type->reference(), port.name,
                                 c.family.empty() ? "family not recorded" : c.family);
  if (c.ways) text += fmt::format(", {} ways", *c.ways);
  if (c.pitch_mm) text += fmt::format(", pitch {} mm", number(*c.pitch_mm));
  const auto half = catalogue::word_of(catalogue::kHalfWords, c.half);
  if (!half.empty()) text += fmt::format(", {}", half);
  if (!c.key.empty()) text += fmt::format(", key {}", c.key);
  return {text, port.where};
}

// A cut plug is replaced by a new one, unless an excluded circuit is on it: then by a whole lead.
// What the contacts would say is judged all the same.
void judge_cut(JointCase& one, const std::string& cut, const std::string& code) {
  const Joint& joint = one.joint;
  if (has_excluded(*joint.port_a) || has_excluded(*joint.port_b)) {
    one.findings.out.reasons.back().says +=
        " This circuit takes another whole lead, never a new plug.";
  } else if (one.crossing.complete) {
    OfferedWork offered;
    const auto ways = static_cast<double>(std::max(ways_of(*joint.port_a), ways_of(*joint.port_b)));
    offered.work.name = fmt::format("fit a new plug to {}", cut);
    offered.work.codes = {code};
    offered.work.steps = {
        "Find each wire by meter from its other end; write its contact number on it.",
        "Crimp a new plug of the family the socket has, contact by contact.",
        "Check every contact with the meter before it is plugged in."};
    offered.work.work_minutes = kMinutesForCrossover + kMinutesPerMove * ways;
    one.findings.offered.push_back(std::move(offered));
  }
  const auto found = judge_faces(one);
  ask_for_missing(one, found);
  say_clashes(one, found);
}

}  // namespace

void judge_apart(JointCase& one) {
  const Joint& joint = one.joint;
  const std::string cut = cut_end(joint);
  Reason& reason = one.say(
      cut.empty() ? "does not mate" : "plug cut", Verdict::does_not_fit,
      cut.empty()
          ? fmt::format("{} do not go together: {}.", capitalised(one.ends()), one.mating.because)
          : fmt::format("{}: its plug was cut off.", capitalised(cut)));
  reason.facts = {connector_fact(*joint.a, *joint.port_a), connector_fact(*joint.b, *joint.port_b)};
  reason.would_change =
      "Another plug, or another record of these two connectors, would change this.";
  reason.safety = has_excluded(*joint.port_a) || has_excluded(*joint.port_b);
  const std::string code = reason.code;
  if (!cut.empty()) return judge_cut(one, cut, code);
  const bool ribbon = is_ribbon(joint.port_a->connector) || is_ribbon(joint.port_b->connector);
  const auto wires = joint.through_lead() || ribbon
                         ? std::nullopt
                         : crossover_wires(*joint.port_a, *joint.port_b, one.around);
  if (!wires) {
    const auto found = clashes_by_signal(one);
    reason.says += why_no_lead(one, found);
    ask_for_missing(one, found);
    say_clashes(one, found);
    return;
  }
  Repin lead = repin_of(one, *wires, code);
  lead.crossover = true;
  lead.length = lead_length_words(joint);
  offer(one, fmt::format("make a crossover lead {} to {}", joint.port_a->name, joint.port_b->name),
        lead, kMinutesForCrossover, {code},
        "Wire contact {} of one end to contact {} of the other ({}).");
  one.findings.out.repins.push_back(std::move(lead));
}

void offer_repin(JointCase& one) {
  const Joint& joint = one.joint;
  if (is_ribbon(joint.port_a->connector) || is_ribbon(joint.port_b->connector)) return;
  const bool on_a_plug = joint.port_a->connector.half == catalogue::Half::plug;
  if (!on_a_plug && !joint.through_lead()) return;
  if (joint.through_lead() && mate(joint.end_a->connector, joint.port_a->connector).turned_round)
    return;
  const auto no_wire = [](const Facing& face) {
    return face.a == no_contact() || face.b == no_contact();
  };
  if (joint.through_lead() &&
      std::any_of(one.crossing.faces.begin(), one.crossing.faces.end(), no_wire))
    return;  // a wire that is not there cannot be moved
  const auto plan = fewest_moves(one.crossing.faces, one.around);
  if (!plan || plan->moves.empty()) return;
  const Repin repin = repin_of(one, *plan, one.repairable.front());
  offer(one,
        joint.through_lead()
            ? fmt::format("re-pin the {} end of the lead {}", repin.port, repin.part)
            : fmt::format("re-pin the {} plug of {}", repin.port, repin.part),
        repin, kMinutesToMark, one.repairable, "Move contact {} to place {} ({}).");
  one.findings.out.repins.push_back(repin);
}

}  // namespace benchgraft::fit
