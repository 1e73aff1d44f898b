#include "fit/links.hpp"

#include <algorithm>
#include <set>

#include <fmt/format.h>

namespace benchgraft::fit {
namespace {

using catalogue::Contact;
using catalogue::Port;

using PortKey = std::pair<const Place*, const Port*>;

bool meant_for(const Port& port, const Place& place) { return place.fills(port.to); }

bool same_purpose(const Port& a, const Port& b) {
  return a.carries.empty() || b.carries.empty() || a.carries == b.carries;
}

// Better candidates first: same purpose by name, then certain mating, then possible mating.
int closeness(const Port& a, const Port& b) {
  const Tri mates = mate(a.connector, b.connector).mates;
  return (!a.carries.empty() && a.carries == b.carries ? 4 : 0) + (mates == Tri::yes       ? 2
                                                                   : mates == Tri::unknown ? 1
                                                                                           : 0);
}

bool stated(const Assembly& set, const Place& a, const Port& port_a, const Place& b,
            const Port& port_b) {
  if (!set.model) return false;
  const auto is = [](const std::string& end, const Place& place, const Port& port) {
    const auto at = end.rfind(':');
    return at != std::string::npos && place.fills(end.substr(0, at)) &&
           end.substr(at + 1) == port.name;
  };
  return std::any_of(set.model->links.begin(), set.model->links.end(), [&](const auto& link) {
    return (is(link.from, a, port_a) && is(link.to, b, port_b)) ||
           (is(link.to, a, port_a) && is(link.from, b, port_b));
  });
}

// A lead lying in the set whose ends go to both roles and that carries the same.
void find_lead(const Assembly& set, Joint& joint) {
  const auto brings_plug = [](const Port& port) {
    return port.lead_mm || port.connector.half == catalogue::Half::plug;
  };
  if (brings_plug(*joint.port_a) || brings_plug(*joint.port_b)) return;
  for (const auto& place : set.places) {
    if (!place.type || place.empty || !place.type->is_lead() || !place.type->ports) continue;
    const Port *end_a = nullptr, *end_b = nullptr;
    for (const auto& end : *place.type->ports) {
      if (!same_purpose(end, *joint.port_a) || !same_purpose(end, *joint.port_b)) continue;
      if (!end_a && joint.a->fills(end.to))
        end_a = &end;
      else if (!end_b && joint.b->fills(end.to))
        end_b = &end;
    }
    if (!end_a || !end_b) continue;
    joint.lead = &place;
    joint.end_a = end_a;
    joint.end_b = end_b;
    return;
  }
}

class Joiner {
 public:
  explicit Joiner(const Assembly& set) : set_(set) {}

  Joints run() {
    for (const auto& place : set_.places) {
      if (!place.type || place.empty || place.type->is_lead() || !place.type->ports) continue;
      for (const auto& port : *place.type->ports) join(place, port);
    }
    return std::move(out_);
  }

 private:
  void join(const Place& place, const Port& port) {
    if (done_.count({&place, &port})) return;
    if (port.to.empty()) return;
    const Place* peer = set_.filling(port.to);
    if (peer == &place) return;  // does that job itself: the socket stays free
    if (!peer) {
      out_.loose.push_back({&place, &port, nullptr});
      return;
    }
    if (!peer->type || !peer->type->ports) {
      out_.unseen.push_back({&place, &port, peer});
      return;
    }
    std::vector<const Port*> candidates = counterparts(place, port, *peer);
    if (candidates.empty()) {
      out_.loose.push_back({&place, &port, peer});
      return;
    }
    if (candidates.size() > 1) {
      Ambiguous unclear{&place, &port, peer, {}};
      for (const auto* candidate : candidates) unclear.could_be.push_back(candidate->name);
      out_.ambiguous.push_back(std::move(unclear));
    }
    add(place, port, *peer, *candidates.front());
  }

  std::vector<const Port*> counterparts(const Place& place, const Port& port,
                                        const Place& peer) const {
    std::vector<const Port*> best;
    int best_closeness = -1;
    for (const auto& other : *peer.type->ports) {
      if (!(meant_for(other, place) || other.to.empty()) || !same_purpose(port, other) ||
          done_.count({&peer, &other}))
        continue;
      if (stated(set_, place, port, peer, other)) return {&other};
      const int close = closeness(port, other);
      if (close > best_closeness) best.clear();
      if (close >= best_closeness) best.push_back(&other);
      best_closeness = std::max(best_closeness, close);
    }
    return best;
  }

  void add(const Place& place, const Port& port, const Place& peer, const Port& other) {
    done_.insert({&place, &port});
    done_.insert({&peer, &other});
    Joint joint{&place, &peer, &port, &other, nullptr, nullptr, nullptr};
    // The plug comes first: sentences and re-pin lists start from it.
    if (port.connector.half != catalogue::Half::plug &&
        other.connector.half == catalogue::Half::plug)
      joint = {&peer, &place, &other, &port, nullptr, nullptr, nullptr};
    find_lead(set_, joint);
    out_.joined.push_back(joint);
  }

  const Assembly& set_;
  Joints out_;
  std::set<PortKey> done_;
};

const Contact* contact_at(const std::vector<Facing>& faces, const std::string& of_a) {
  for (const auto& face : faces)
    if (face.a && face.a->number == of_a) return face.b;
  return nullptr;
}

// The lead's end as a port with one contact per wire, when only its wires are recorded.
Port end_with_wires(const catalogue::PartType& lead, const Port& end) {
  Port port = end;
  if (port.contacts) return port;
  port.contacts.emplace();
  const auto add = [&](const std::string& number) {
    const auto same = [&](const Contact& c) { return c.number == number; };
    if (std::none_of(port.contacts->begin(), port.contacts->end(), same)) {
      Contact contact;
      contact.number = number;
      port.contacts->push_back(contact);
    }
  };
  for (const auto& wire : lead.wires) {
    if (wire.from_end == end.name) add(wire.from_contact);
    if (wire.to_end == end.name) add(wire.to_contact);
  }
  return port;
}

std::vector<std::pair<std::string, std::string>> wires_between(const Joint& joint) {
  std::vector<std::pair<std::string, std::string>> wires;
  for (const auto& wire : joint.lead->type->wires) {
    if (wire.from_end == joint.end_a->name && wire.to_end == joint.end_b->name)
      wires.emplace_back(wire.from_contact, wire.to_contact);
    if (wire.to_end == joint.end_a->name && wire.from_end == joint.end_b->name)
      wires.emplace_back(wire.to_contact, wire.from_contact);
  }
  return wires;
}

Crossing across_lead(const Joint& joint) {
  Crossing crossing;
  const auto wires = wires_between(joint);
  if (wires.empty() || !joint.port_a->contacts || !joint.port_b->contacts) {
    crossing.complete = false;
    return crossing;
  }
  const Port end_a = end_with_wires(*joint.lead->type, *joint.end_a);
  const Port end_b = end_with_wires(*joint.lead->type, *joint.end_b);
  const auto at_a = facing_contacts(end_a, *joint.port_a,
                                    mate(end_a.connector, joint.port_a->connector).turned_round);
  const auto at_b = facing_contacts(end_b, *joint.port_b,
                                    mate(end_b.connector, joint.port_b->connector).turned_round);
  std::set<const Contact*> wired;
  for (const auto& [of_a, of_b] : wires) {
    const Contact* a = contact_at(at_a, of_a);
    const Contact* b = contact_at(at_b, of_b);
    if (a) wired.insert(a);
    if (b) wired.insert(b);
    if (a || b) crossing.faces.push_back({a, b});
  }
  // A contact without a wire meets nothing: judged against an empty contact.
  for (const auto& contact : *joint.port_a->contacts)
    if (!wired.count(&contact)) crossing.faces.push_back({&contact, no_contact()});
  for (const auto& contact : *joint.port_b->contacts)
    if (!wired.count(&contact)) crossing.faces.push_back({no_contact(), &contact});
  return crossing;
}

}  // namespace

const Contact* no_contact() {
  static const Contact kNone = [] {
    Contact c;
    c.number = kNoWireNumber;
    c.net_class = catalogue::NetClass::unused;
    return c;
  }();
  return &kNone;
}

Joints derive_joints(const Assembly& set) { return Joiner(set).run(); }

Crossing contacts_across(const Joint& joint) {
  if (joint.through_lead()) return across_lead(joint);
  Crossing crossing;
  crossing.turned_round = mate(joint.port_a->connector, joint.port_b->connector).turned_round;
  crossing.complete = joint.port_a->contacts && joint.port_b->contacts;
  crossing.faces = facing_contacts(*joint.port_a, *joint.port_b, crossing.turned_round);
  return crossing;
}

}  // namespace benchgraft::fit
