#include "fit/joint_case.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace benchgraft::fit {
namespace {

using catalogue::PlugResult;
using catalogue::Port;

bool measured(const Port& port) {
  return port.known == Source::measured || port.known == Source::verified;
}

bool constant_power(const Place& place) {
  return place.fills("lamp driver") || place.fills("light driver");
}

// An inverted enable lights a lamp with the wheel at rest; a panel light only stays on.
bool lights(const Place& place) { return place.fills("lamp driver"); }

Source weakest(const Joint& joint) {
  if (joint.port_a->known == Source::assumed || joint.port_b->known == Source::assumed)
    return Source::assumed;
  return measured(*joint.port_a) && measured(*joint.port_b) ? Source::measured : Source::derived;
}

Mating through_lead(const Joint& joint) {
  Mating a = mate(joint.port_a->connector, joint.end_a->connector);
  const Mating b = mate(joint.end_b->connector, joint.port_b->connector);
  a.mates = both(a.mates, b.mates);
  if (a.because.empty()) a.because = b.because;
  a.missing.insert(a.missing.end(), b.missing.begin(), b.missing.end());
  a.reversible = either(a.reversible, b.reversible);
  return a;
}

// A port with a lead of its own brings it along; two bare sockets are joined by a loose one.
bool two_sockets(const Joint& joint) {
  const auto bare = [](const Port& port) {
    return port.connector.half == catalogue::Half::socket && !port.lead_mm;
  };
  return !joint.through_lead() && bare(*joint.port_a) && bare(*joint.port_b);
}

// The factory's part had the same connector with the same contacts here.
bool as_before(const Place& place, const Port& port) {
  if (!place.changed) return !place.altered;
  if (!place.was || !place.was->ports || !port.contacts) return false;
  return std::any_of(place.was->ports->begin(), place.was->ports->end(), [&](const Port& before) {
    return before.to == port.to && before.carries == port.carries && same_end(before, port);
  });
}

// Two sockets: a loose lead runs there that nobody recorded, nor which way its wires run.
Mating unrecorded_lead() {
  Mating answer;
  answer.reversible = Tri::no;
  answer.missing = {"the lead between them and whether it runs straight through"};
  return answer;
}

Mating mating_of(const Joint& joint) {
  if (joint.through_lead()) return through_lead(joint);
  if (two_sockets(joint)) return unrecorded_lead();
  return mate(joint.port_a->connector, joint.port_b->connector);
}

// A note is a mating fact: somebody tried.
Mating with_word(Mating answer, const std::optional<PlugWord>& word) {
  if (!word) return answer;
  answer.mates = tri(word->result != PlugResult::did_not);
  if (answer.mates == Tri::yes) answer.missing.clear();
  if (answer.mates == Tri::no)
    answer.because = fmt::format("swap note \"{}\" says so", word->note->name);
  return answer;
}

}  // namespace

bool kept_by_own_lead(const Joint& joint) {
  return two_sockets(joint) && as_before(*joint.a, *joint.port_a) &&
         as_before(*joint.b, *joint.port_b);
}

JointCase::JointCase(Findings& all, const Joint& one, const std::vector<NoteMatch>& notes)
    : findings(all),
      joint(one),
      crossing(contacts_across(one)),
      around{measured(*one.port_a),  measured(*one.port_b), constant_power(*one.a),
             constant_power(*one.b), lights(*one.a),        lights(*one.b)},
      word(plug_word(notes, *one.a, *one.port_a, *one.b, *one.port_b)),
      mating(with_word(mating_of(one), word)),
      on_record(mating_of(one).mates) {}

Reason& JointCase::say(const std::string& rule, Verdict verdict, const std::string& text,
                       const std::string& more) {
  const std::string subject =
      fmt::format("{}:{}>{}:{}{}", joint.a->type->reference(), joint.port_a->name,
                  joint.b->type->reference(), joint.port_b->name, more);
  Reason& reason = findings.add(rule, RuleSort::pair, verdict, text, subject);
  reason.source = weakest(joint);
  reason.types = {joint.a->type->reference(), joint.b->type->reference()};
  reason.ports = {joint.port_a->name, joint.port_b->name};
  reason.roles = {joint.a->roles.front(), joint.b->roles.front()};
  worst = worse(worst, verdict);
  return reason;
}

void JointCase::unknown(const Place& place, const Port& port, const std::string& what,
                        bool safety) {
  if (settled_by_note(safety)) {
    settled = true;
    return;
  }
  const std::string called = port_called(place, port);
  Reason& reason = findings.unknown(
      RuleSort::pair,
      fmt::format("Not recorded for {}: {}. Settle it before it is joined.", called, what),
      fmt::format("Find out for {}: {}.", called, what), place.type->reference(),
      fmt::format("port {}: {}", port.name, what), place.roles.front(), safety);
  reason.facts = {
      {fmt::format("{} {} as recorded", place.type->reference(), port.name), port.where}};
  reason.types = {joint.a->type->reference(), joint.b->type->reference()};
  reason.ports = {joint.port_a->name, joint.port_b->name};
  worst = worse(worst, Verdict::unknown);
}

void JointCase::add_facts(Reason& reason, const std::vector<ContactFinding>& group) const {
  for (const auto& f : group) {
    if (f.a) {
      reason.facts.push_back(fact_of(*joint.a, *joint.port_a, *f.a));
      reason.signals.push_back(f.a->signal);
    }
    if (f.b) {
      reason.facts.push_back(fact_of(*joint.b, *joint.port_b, *f.b));
      reason.signals.push_back(f.b->signal);
    }
  }
  reason.would_change =
      "Another record of these contacts, or contacts moved in the plug, would change this.";
}

std::string JointCase::ends() const {
  return fmt::format("{} and {}", port_called(*joint.a, *joint.port_a),
                     port_called(*joint.b, *joint.port_b));
}

bool JointCase::settled_by_note(bool safety) const {
  const bool worked = word && word->result == PlugResult::straight_in &&
                      (word->note->result == catalogue::SwapResult::works ||
                       word->note->result == catalogue::SwapResult::works_with);
  return worked && !safety;
}

}  // namespace benchgraft::fit
