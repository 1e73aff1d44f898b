// What is not recorded about a joint, as exact questions.
#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/joint_case.hpp"
#include "fit/link_text.hpp"
#include "fit/links.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Contact;
using catalogue::Port;

using MissingOf = std::map<const Contact*, std::uint32_t>;

std::vector<const Contact*> in_order(const MissingOf& missing) {
  std::vector<const Contact*> contacts;
  for (const auto& [contact, bits] : missing) contacts.push_back(contact);
  std::sort(contacts.begin(), contacts.end(), [](const auto* x, const auto* y) {
    return x->number.size() != y->number.size() ? x->number.size() < y->number.size()
                                                : x->number < y->number;
  });
  return contacts;
}

void ask_contacts(JointCase& one, const Place& place, const Port& port, const MissingOf& missing,
                  bool safety) {
  if (missing.empty()) return;
  std::string text;
  for (const auto* contact : in_order(missing))
    text += fmt::format("{}{}: {}", text.empty() ? "" : "; ", contact_called(*contact),
                        missing_words(missing.at(contact)));
  one.unknown(place, port, text, safety);
}

// A pin taken out or a hole filled: nothing runs there.
bool is_gap(const Port& port, const std::string& number) {
  const auto& gaps = port.connector.gaps;
  return gaps && std::any_of(gaps->begin(), gaps->end(),
                             [&](int gap) { return std::to_string(gap) == number; });
}

// Ways that neither side lists.
void ask_unlisted(JointCase& one) {
  const Joint& joint = one.joint;
  if (!one.crossing.complete || joint.through_lead()) return;
  std::set<std::string> listed_ways;
  for (const auto* port : {joint.port_a, joint.port_b})
    for (const auto& contact : *port->contacts) listed_ways.insert(contact.number);
  std::vector<std::string> open;
  const int ways = std::max(ways_of(*joint.port_a), ways_of(*joint.port_b));
  for (int n = 1; n <= ways; ++n)
    if (!listed_ways.count(std::to_string(n)) && !is_gap(*joint.port_a, std::to_string(n)) &&
        !is_gap(*joint.port_b, std::to_string(n)))
      open.push_back(std::to_string(n));
  if (!open.empty()) one.unknown(*joint.a, *joint.port_a, "contact " + listed(open), false);
}

bool names(const Port& port, const std::string& signal) {
  return port.contacts && std::any_of(port.contacts->begin(), port.contacts->end(),
                                      [&](const Contact& c) { return c.signal == signal; });
}

bool used(const Contact& contact) { return contact.net_class != catalogue::NetClass::unused; }

// Two names nobody uses on the other side may be two words for one thing: that is asked, not
// judged.
bool perhaps_one_thing(const JointCase& one, const ContactFinding& f) {
  return f.rule == ContactRule::crossed_signals && f.a && f.b &&
         !names(*one.joint.port_b, f.a->signal) && !names(*one.joint.port_a, f.b->signal);
}

bool is_power(const Contact& c) {
  return c.net_class == catalogue::NetClass::supply || c.net_class == catalogue::NetClass::bus ||
         c.net_class == catalogue::NetClass::mains;
}

// Two rails of like volts, or line and neutral, exchanged: the same name stands on another contact.
void judge_exchanged_power(const JointCase& one, const Facing& face,
                           std::vector<ContactFinding>& found) {
  if (!face.a || !face.b || !is_power(*face.a) || face.a->net_class != face.b->net_class) return;
  const std::string &x = face.a->signal, &y = face.b->signal;
  if (x.empty() || y.empty() || x == y) return;
  if (!names(*one.joint.port_b, x) && !names(*one.joint.port_a, y)) return;
  const bool safety = face.a->net_class != catalogue::NetClass::supply;
  found.push_back(
      {ContactRule::crossed_signals, Verdict::does_not_fit, safety, face.a, face.b, 0, 0});
}

// Power that flows out and finds no ground to come back by.
void judge_return(const JointCase& one, std::vector<ContactFinding>& found) {
  const auto is_ground = [](const Contact* c) {
    return c && c->net_class == catalogue::NetClass::ground;
  };
  const Facing* open_ground = nullptr;
  bool fed = false, returned = false;
  for (const auto& face : one.crossing.faces) {
    fed = fed || (face.a && face.b && is_power(*face.a) && is_power(*face.b));
    returned = returned || (is_ground(face.a) && is_ground(face.b));
    const bool faces_nothing = (is_ground(face.a) && face.b && !used(*face.b)) ||
                               (is_ground(face.b) && face.a && !used(*face.a));
    if (faces_nothing) open_ground = &face;
  }
  if (fed && !returned && open_ground)
    found.push_back({ContactRule::no_return, Verdict::does_not_fit, false, open_ground->a,
                     open_ground->b, 0, 0});
}

}  // namespace

std::vector<ContactFinding> judge_faces(JointCase& one) {
  std::vector<ContactFinding> found;
  for (auto face : one.crossing.faces) {
    const std::size_t before = found.size();
    if (!one.joint.through_lead() && !face.b && face.a && is_gap(*one.joint.port_b, face.a->number))
      face.b = no_contact();
    if (!one.joint.through_lead() && !face.a && face.b && is_gap(*one.joint.port_a, face.b->number))
      face.a = no_contact();
    judge_contacts(face.a, face.b, one.around, found);
    judge_exchanged_power(one, face, found);
    const auto other_name =
        std::find_if(found.begin() + static_cast<std::ptrdiff_t>(before), found.end(),
                     [&](const ContactFinding& f) { return perhaps_one_thing(one, f); });
    if (other_name == found.end()) continue;
    const bool safety = other_name->safety;
    found.resize(before);
    one.unknown(*one.joint.a, *one.joint.port_a,
                fmt::format("whether its {} is the same as {} of {}", contact_called(*face.a),
                            contact_called(*face.b), one.joint.b->type->reference()),
                safety);
    // Judged on as if it were the same: a clash of levels shows either way.
    Contact renamed = *face.b;
    renamed.signal = face.a->signal;
    std::vector<ContactFinding> as_one;
    judge_contacts(face.a, &renamed, one.around, as_one);
    for (auto finding : as_one) {
      if (finding.a == &renamed) finding.a = face.b;
      if (finding.b == &renamed) finding.b = face.b;
      found.push_back(finding);
    }
  }
  judge_return(one, found);
  return found;
}

void ask_for_missing(JointCase& one, const std::vector<ContactFinding>& found) {
  const Joint& joint = one.joint;
  if (!joint.port_a->contacts)
    one.unknown(*joint.a, *joint.port_a, "what runs on each contact", true);
  if (!joint.port_b->contacts)
    one.unknown(*joint.b, *joint.port_b, "what runs on each contact", true);
  if (joint.through_lead() && !one.crossing.complete && joint.port_a->contacts &&
      joint.port_b->contacts)
    one.unknown(*joint.lead, *joint.end_a, "the wires of the lead", false);
  MissingOf a, b;
  bool safety_a = false, safety_b = false;
  const auto belongs_to_a = [&](const Contact* c) {
    const auto& all = *joint.port_a->contacts;
    return c >= all.data() && c < all.data() + all.size();
  };
  const auto note = [&](const Contact* contact, const Contact* other, std::uint32_t bits,
                        bool safety) {
    if (bits == 0) return;
    // A contact that is not listed is asked for by the number of the one it faces.
    const bool on_a = contact ? belongs_to_a(contact) : !belongs_to_a(other);
    auto& missing = on_a ? a : b;
    missing[contact ? contact : other] |= bits;
    (on_a ? safety_a : safety_b) |= safety;
  };
  for (const auto& f : found) {
    if (f.rule != ContactRule::not_recorded) continue;
    note(f.a, f.b, f.missing_a, f.safety);
    note(f.b, f.a, f.missing_b, f.safety);
  }
  ask_contacts(one, *joint.a, *joint.port_a, a, safety_a);
  ask_contacts(one, *joint.b, *joint.port_b, b, safety_b);
  ask_unlisted(one);
}

void ask_for_mating(JointCase& one) {
  std::vector<std::string> keys = one.mating.missing;
  std::sort(keys.begin(), keys.end());
  keys.erase(std::unique(keys.begin(), keys.end()), keys.end());
  one.unknown(*one.joint.a, *one.joint.port_a,
              fmt::format("whether it goes into {}: look at {}",
                          port_called(*one.joint.b, *one.joint.port_b), listed(keys)),
              false);
}

}  // namespace benchgraft::fit
