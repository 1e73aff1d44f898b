// Whole rules: which conductor is which. A terminal mark counts after continuity from the plug; a
// colour proves nothing and only raises a flag (IEC 60445, NEC and old national practice contradict
// each other).
#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/mains_side.hpp"
#include "fit/rules.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Contact;
using catalogue::NetClass;
using catalogue::Port;

bool measured(const Port& port) { return port.known == Source::measured; }

std::string colour_words(const std::vector<std::string>& colours) {
  std::vector<std::string> all;
  for (const auto& colour : colours)
    if (const auto known = colour_meaning(colour))
      all.push_back(fmt::format("{} may be {}", colour, listed(known->means, " or ")));
  return all.empty() ? "" : " No colour proves it: " + listed(all, "; ") + ".";
}

void ask_continuity(Findings& findings, const Place& place, const std::string& called,
                    const std::string& says, const std::string& key) {
  ask_mains(
      findings, "conductor not proven", place, says,
      fmt::format("With the set unplugged: continuity from each pin of the mains plug to each "
                  "conductor of {}. Which one is L, N, PE? Record the marks, and known = "
                  "\"measured\".",
                  called),
      key)
      .work_minutes = 3;
}

// Contacts of an end that carry mains or earth, proven or not.
void judge_marks(Findings& findings, const Place& place, const Port& port,
                 const std::vector<const Contact*>& live) {
  const std::string called = place.type->is_lead()
                                 ? fmt::format("the lead {}", place.type->reference())
                                 : port_called(place, port);
  std::vector<std::string> marks, colours;
  bool all_marked = true;
  for (const auto* contact : live) {
    all_marked = all_marked && by_mark(*contact) != Conductor::other;
    if (!contact->mark.empty()) marks.push_back(contact->mark);
    if (!contact->colour.empty()) colours.push_back(contact->colour);
  }
  const std::string key = fmt::format("port {}: contacts: mark", port.name);
  if (!all_marked)
    return ask_continuity(
        findings, place, called,
        fmt::format("Which conductor of {} is line, neutral or protective earth is not proven.{}",
                    called, colour_words(colours)),
        key);
  if (!measured(port))
    ask_continuity(findings, place, called,
                   fmt::format("{} is marked {}, but nobody took continuity from the plug to these "
                               "conductors: a mark alone proves nothing.{}",
                               capitalised(called), listed(marks), colour_words(colours)),
                   key);
}

std::vector<const Contact*> live_contacts(const Port& port) {
  std::vector<const Contact*> live;
  if (port.contacts)
    for (const auto& contact : *port.contacts)
      if (on_mains_side(contact)) live.push_back(&contact);
  return live;
}

void judge_inlet_marks(Findings& findings, const Place& place) {
  bool any = false;
  if (place.type->ports)
    for (const auto& port : *place.type->ports) {
      const auto live = live_contacts(port);
      if (live.empty()) continue;
      any = true;
      judge_marks(findings, place, port, live);
    }
  if (any) return;
  ask_continuity(findings, place, place.called(),
                 fmt::format("Which conductor of {} is line, neutral or protective earth is not "
                             "recorded.",
                             place.called()),
                 "port: contacts: mark");
}

// One end of a lead proven is enough: its wires are recorded, else the contacts are asked for.
void judge_lead_marks(Findings& findings, const Joint& joint) {
  const auto proven = [](const Port* end) {
    return end->contacts && !end->contacts->empty() && measured(*end) &&
           std::all_of(end->contacts->begin(), end->contacts->end(), [](const Contact& c) {
             return c.net_class == NetClass::unused || by_mark(c) != Conductor::other;
           });
  };
  if (proven(joint.end_a) || proven(joint.end_b)) return;
  std::vector<const Contact*> live;
  if (joint.end_a->contacts)
    for (const auto& contact : *joint.end_a->contacts) live.push_back(&contact);
  static const Contact kUnmarked;
  if (live.empty()) live.push_back(&kUnmarked);
  judge_marks(findings, *joint.lead, *joint.end_a, live);
}

// A measured mark against the recorded class of the same contact.
void judge_mark_and_class(Findings& findings, const Place& place, const Port& port) {
  if (!port.contacts || !measured(port)) return;
  for (const auto& contact : *port.contacts) {
    const Conductor is = by_mark(contact);
    if (is == Conductor::other || contact.net_class == NetClass::unknown) continue;
    const bool agree = is == Conductor::earth ? contact.net_class == NetClass::earth
                                              : contact.net_class == NetClass::mains;
    if (agree) continue;
    Reason& reason = say_mains(
        findings, "records disagree", Verdict::unknown, place,
        fmt::format("{} of {} was proven to be {} ({}) and is recorded as {}: one record is wrong. "
                    "Measure again before power.",
                    capitalised(contact_called(contact)), port_called(place, port), word_for(is),
                    contact.mark, catalogue::word_of(catalogue::kNetClassWords, contact.net_class)),
        port.name + contact.number + "mark");
    reason.facts = {fact_of(place, port, contact)};
    reason.ports = {port.name};
    findings.ask(
        fmt::format("What is {} of {}?", contact_called(contact), port_called(place, port)),
        place.type->reference(), fmt::format("port {}: contacts: class", port.name),
        place.roles.front(), true);
  }
}

// --- colours -----------------------------------------------------------------------------------

/// One conductor with its colour: at a contact, or a wire of a lead.
struct Coloured {
  const Place* place = nullptr;
  std::string called;  ///< "contact 1 of the MAINS plug of I-2"
  std::string colour;
  const Contact* contact = nullptr;  ///< what it carries
  bool proven = false;
  Fact fact;
};

void say_green_yellow(Findings& findings, const Coloured& one) {
  Reason& reason = say_mains(
      findings, "green-yellow misused", Verdict::does_not_fit, *one.place,
      fmt::format("{} is green-yellow and carries {}: green-yellow is protective earth and nothing "
                  "else. Another whole lead is fitted before power.",
                  capitalised(one.called), contact_carries(*one.contact)),
      one.called);
  reason.facts = {one.fact,
                  {"green-yellow is for protective earth only (IEC 60445, read as an "
                   "excerpt)",
                   {}}};
  reason.would_change = "Another lead, or a corrected colour, would change this.";
}

Conductor function_of(const Contact& contact) {
  const Conductor is = by_mark(contact);
  if (is != Conductor::other) return is;
  if (contact.net_class == NetClass::earth) return Conductor::earth;
  if (contact.net_class != NetClass::mains) return Conductor::other;
  if (contact.signal == "line") return Conductor::line;
  return contact.signal == "neutral" ? Conductor::neutral : Conductor::other;
}

bool is_live(const Contact& contact) { return contact.net_class == NetClass::mains; }

void judge_colour(Findings& findings, const Coloured& one) {
  const auto meaning = colour_meaning(one.colour);
  if (!meaning || one.contact->net_class == NetClass::unused) return;
  const Conductor is = function_of(*one.contact);
  const bool known = is != Conductor::other || one.contact->net_class != NetClass::unknown;
  if (meaning->protective_earth_only && known && is != Conductor::earth)
    return say_green_yellow(findings, one);
  const auto stands_for = [&](Conductor c) {
    return std::find(meaning->may_be.begin(), meaning->may_be.end(), c) != meaning->may_be.end();
  };
  const bool live_of_some_kind = is == Conductor::other && is_live(*one.contact);
  const bool contradicts = live_of_some_kind
                               ? !stands_for(Conductor::line) && !stands_for(Conductor::neutral)
                               : is != Conductor::other && !stands_for(is);
  if (!contradicts) return;
  const std::string what = one.contact->mark.empty()
                               ? fmt::format("is recorded as {}", contact_carries(*one.contact))
                               : fmt::format("is marked {} ({})", one.contact->mark, word_for(is));
  Reason& reason = say_mains(
      findings, "colour conflict", Verdict::fits_with_work, *one.place,
      fmt::format("{} {} but is {}, which stands for {}. {} Tag the conductor with what it is.",
                  capitalised(one.called), what, one.colour, listed(meaning->means, " or "),
                  one.proven ? "The continuity measured counts, not the colour."
                             : "Neither counts before continuity from the plug is measured."),
      one.called);
  reason.work_minutes = 2;
  reason.facts = {one.fact};
  reason.not_before = one.proven ? "not before the conductor is tagged"
                                 : "not before continuity from the plug is measured";
  reason.would_change = "A corrected colour or mark would change this.";
}

void judge_port_colours(Findings& findings, const Place& place) {
  if (!place.type->ports) return;
  for (const auto& port : *place.type->ports) {
    if (!port.contacts) continue;
    for (const auto& contact : *port.contacts)
      if (!contact.colour.empty())
        judge_colour(
            findings,
            {&place, fmt::format("{} of {}", contact_called(contact), port_called(place, port)),
             contact.colour, &contact, measured(port) && by_mark(contact) != Conductor::other,
             fact_of(place, port, contact)});
  }
}

void judge_wire_colours(Findings& findings, const Joint& joint) {
  for (const auto& face : contacts_across(joint).faces) {
    if (!face.wire || face.wire->colour.empty()) continue;
    const bool a = face.a && face.a->net_class != NetClass::unknown;
    const Contact* carried = a ? face.a : face.b;
    if (!carried) continue;
    const auto& wire = *face.wire;
    const std::string called =
        fmt::format("the wire {}.{} to {}.{} of {}", wire.from_end, wire.from_contact, wire.to_end,
                    wire.to_contact, joint.lead->type->reference());
    judge_colour(findings, {joint.lead,
                            called,
                            wire.colour,
                            carried,
                            measured(a ? *joint.port_a : *joint.port_b) &&
                                by_mark(*carried) != Conductor::other,
                            {fmt::format("{}: {}", called, wire.colour), wire.where}});
  }
}

// --- across a joint ----------------------------------------------------------------------------

void say_line_on_earth(Findings& findings, const Joint& joint, const Facing& face) {
  const bool a_live = by_mark(*face.a) != Conductor::earth;
  Reason& reason = say_mains(
      findings, "conductors exchanged", Verdict::destroys, *joint.a,
      fmt::format("{} of {} was proven to be {} and meets {} of {}, proven to be {}: everything "
                  "earthed would be live.",
                  capitalised(contact_called(*face.a)), port_called(*joint.a, *joint.port_a),
                  word_for(by_mark(*face.a)), contact_called(*face.b),
                  port_called(*joint.b, *joint.port_b), word_for(by_mark(*face.b))),
      joint.port_a->name + face.a->number + (a_live ? "live" : "earth"));
  reason.facts = {fact_of(*joint.a, *joint.port_a, *face.a),
                  fact_of(*joint.b, *joint.port_b, *face.b)};
  reason.roles.push_back(joint.b->roles.front());
  reason.types.push_back(joint.b->type->reference());
  reason.would_change = "The whole original lead, or another measurement, would change this.";
}

// Line and neutral the wrong way round: what opens one conductor then opens the neutral.
void say_exchanged(Findings& findings, const Joint& joint, const Facing& face) {
  const Place& behind = joint.a->fills("mains inlet") ? *joint.b : *joint.a;
  const auto& side = mains_of(behind.type);
  const std::string says =
      fmt::format("Line and neutral are exchanged between {} and {} (marks {} and {}, both proven)",
                  port_called(*joint.a, *joint.port_a), port_called(*joint.b, *joint.port_b),
                  face.a->mark, face.b->mark);
  if (side.fuse_in == catalogue::Pole::unknown) {
    ask_mains(findings, "conductors exchanged", behind,
              fmt::format("{}. Where the fuse of {} then sits is not recorded.", says,
                          behind.type->reference()),
              fmt::format("Does the fuse of {} open the line, the neutral, or both?",
                          behind.type->reference()),
              "mains: fuse_in");
    return;
  }
  const bool both = side.fuse_in == catalogue::Pole::both;
  const bool into_neutral = side.fuse_in == catalogue::Pole::line;
  Reason& reason = say_mains(
      findings, "conductors exchanged", both ? Verdict::fits : Verdict::fits_with_work, behind,
      says + (both ? ". Both are fused, so the line is opened either way."
                   : fmt::format(": the fuse of {} then sits in the {}. The whole original lead is "
                                 "put back; nothing here is re-pinned.",
                                 behind.type->reference(), into_neutral ? "neutral" : "line")),
      joint.port_a->name + "exchanged");
  if (!both) {
    reason.work_minutes = 5;
    reason.not_before = "not before line is proven at the fuse";
  }
  reason.facts = {fact_of(*joint.a, *joint.port_a, *face.a),
                  fact_of(*joint.b, *joint.port_b, *face.b)};
  reason.would_change = "The whole original lead, or another measurement, would change this.";
}

void judge_marks_across(Findings& findings, const Joint& joint) {
  if (!measured(*joint.port_a) || !measured(*joint.port_b)) return;
  bool said = false;
  for (const auto& face : contacts_across(joint).faces) {
    if (!face.a || !face.b) continue;
    const Conductor a = by_mark(*face.a), b = by_mark(*face.b);
    if (a == b || a == Conductor::other || b == Conductor::other) continue;
    if (a == Conductor::earth || b == Conductor::earth)
      say_line_on_earth(findings, joint, face);
    else if (!said)
      said = true, say_exchanged(findings, joint, face);
  }
}

}  // namespace

void judge_conductors(Findings& findings) {
  for (const auto& place : findings.set.places) {
    if (!place.type || place.empty || !new_here(place)) continue;
    if (place.fills("mains inlet")) judge_inlet_marks(findings, place);
    judge_port_colours(findings, place);
    if (place.type->ports)
      for (const auto& port : *place.type->ports) judge_mark_and_class(findings, place, port);
  }
  for (const auto& joint : findings.joints.joined) {
    if (!new_at(joint)) continue;
    if (joint.lead && new_here(*joint.lead)) {
      if (carries_mains(joint)) judge_lead_marks(findings, joint);
      judge_wire_colours(findings, joint);
    }
    judge_marks_across(findings, joint);
  }
}

}  // namespace benchgraft::fit
