#include "fit/links.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <string>
#include <vector>

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

// Joins the surest pairs of the whole set first, so that no pair depends on the order in the files.
class Joiner {
 public:
  explicit Joiner(const Assembly& set) : set_(set) {}

  Joints run() {
    for (const auto& place : set_.places) collect_pairs(place);
    for (int close = kStated; close >= 0; --close) settle(close);
    for (const auto& place : set_.places) list(place);
    return std::move(out_);
  }

 private:
  struct Pair {
    PortKey a, b;
    int closeness = 0;
  };
  using Choices = std::map<PortKey, std::vector<PortKey>>;

  static bool has_ports(const Place& place) {
    return place.type && !place.empty && !place.type->is_lead() && place.type->ports;
  }

  // Null: the port names no role, nothing fills it, or the part does that job itself.
  const Place* peer_of(const Place& place, const Port& port) const {
    const Place* peer = port.to.empty() ? nullptr : set_.filling(port.to);
    return peer == &place ? nullptr : peer;
  }

  void collect_pairs(const Place& place) {
    if (!has_ports(place)) return;
    for (const auto& port : *place.type->ports) {
      const Place* peer = peer_of(place, port);
      if (!peer || !peer->type || !peer->type->ports) continue;
      for (const auto& other : *peer->type->ports) {
        const PortKey a{&place, &port}, b{peer, &other};
        const bool known = std::any_of(pairs_.begin(), pairs_.end(),
                                       [&](const Pair& p) { return p.a == b && p.b == a; });
        if (known || !(meant_for(other, place) || other.to.empty()) || !same_purpose(port, other))
          continue;
        const bool said = stated(set_, place, port, *peer, other);
        pairs_.push_back({a, b, said ? kStated : closeness(port, other)});
      }
    }
  }

  void settle(int close) {
    for (;;) {
      Choices choices;
      std::vector<Pair> open;
      for (const auto& pair : pairs_) {
        if (pair.closeness != close || partner_.count(pair.a) || partner_.count(pair.b)) continue;
        open.push_back(pair);
        choices[pair.a].push_back(pair.b);
        choices[pair.b].push_back(pair.a);
      }
      if (open.empty()) return;
      bool sure = false;
      for (const auto& pair : open)
        if (choices[pair.a].size() == 1 && choices[pair.b].size() == 1) take(pair), sure = true;
      if (sure) continue;
      note_ambiguous(choices);
      take(*std::min_element(open.begin(), open.end(), by_name));
    }
  }

  void take(const Pair& pair) {
    partner_[pair.a] = pair.b;
    partner_[pair.b] = pair.a;
  }

  // The records do not say which: the names decide, so that the answer stays the same.
  static bool by_name(const Pair& x, const Pair& y) {
    const auto name = [](const Pair& pair) {
      std::array<std::string, 2> ends{pair.a.first->type->reference() + ":" + pair.a.second->name,
                                      pair.b.first->type->reference() + ":" + pair.b.second->name};
      std::sort(ends.begin(), ends.end());
      return ends;
    };
    return name(x) < name(y);
  }

  // A port with several counterparts; of two that are both open the plug is asked about.
  void note_ambiguous(const Choices& choices) {
    for (const auto& [key, could_be] : choices) {
      const bool plug = key.second->connector.half == catalogue::Half::plug;
      const bool asked_there =
          !plug && std::any_of(could_be.begin(), could_be.end(), [&](const PortKey& other) {
            return other.second->connector.half == catalogue::Half::plug &&
                   choices.at(other).size() > 1;
          });
      if (could_be.size() > 1 && !asked_there) unclear_.emplace(key, could_be);
    }
  }

  void list(const Place& place) {
    if (!has_ports(place)) return;
    for (const auto& port : *place.type->ports) {
      const PortKey key{&place, &port};
      list_ambiguous(key);
      if (port.to.empty() || set_.filling(port.to) == &place || listed_.count(key)) continue;
      const Place* peer = peer_of(place, port);
      const auto found = partner_.find(key);
      if (found != partner_.end())
        add(place, port, *found->second.first, *found->second.second);
      else if (peer && (!peer->type || !peer->type->ports))
        out_.unseen.push_back({&place, &port, peer});
      else
        out_.loose.push_back({&place, &port, peer});
    }
  }

  void list_ambiguous(const PortKey& key) {
    const auto found = unclear_.find(key);
    if (found == unclear_.end()) return;
    // Of several parts it could go to, the one that is new makes it news.
    const auto news = std::find_if(
        found->second.begin(), found->second.end(),
        [](const PortKey& other) { return other.first->changed && !other.first->same_make; });
    const Place* peer = (news == found->second.end() ? found->second.front() : *news).first;
    Ambiguous unclear{key.first, key.second, peer, {}};
    for (const auto& other : found->second) unclear.could_be.push_back(other.second->name);
    std::sort(unclear.could_be.begin(), unclear.could_be.end());
    out_.ambiguous.push_back(std::move(unclear));
  }

  void add(const Place& place, const Port& port, const Place& peer, const Port& other) {
    listed_.insert({&place, &port});
    listed_.insert({&peer, &other});
    Joint joint{&place, &peer, &port, &other, nullptr, nullptr, nullptr};
    // The plug comes first: sentences and re-pin lists start from it.
    if (port.connector.half != catalogue::Half::plug &&
        other.connector.half == catalogue::Half::plug)
      joint = {&peer, &place, &other, &port, nullptr, nullptr, nullptr};
    find_lead(set_, joint);
    out_.joined.push_back(joint);
  }

  static constexpr int kStated = 7;  // above every closeness()
  const Assembly& set_;
  Joints out_;
  std::vector<Pair> pairs_;
  std::map<PortKey, PortKey> partner_;
  Choices unclear_;
  std::set<PortKey> listed_;
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

struct WireSeen {
  std::string of_a, of_b;
  const catalogue::Wire* wire;
};

std::vector<WireSeen> wires_between(const Joint& joint) {
  std::vector<WireSeen> wires;
  for (const auto& wire : joint.lead->type->wires) {
    if (wire.from_end == joint.end_a->name && wire.to_end == joint.end_b->name)
      wires.push_back({wire.from_contact, wire.to_contact, &wire});
    if (wire.to_end == joint.end_a->name && wire.from_end == joint.end_b->name)
      wires.push_back({wire.to_contact, wire.from_contact, &wire});
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
  for (const auto& [of_a, of_b, wire] : wires) {
    const Contact* a = contact_at(at_a, of_a);
    const Contact* b = contact_at(at_b, of_b);
    if (a) wired.insert(a);
    if (b) wired.insert(b);
    if (a || b) crossing.faces.push_back({a, b, wire});
  }
  // A contact without a wire meets nothing: judged against an empty contact.
  for (const auto& contact : *joint.port_a->contacts)
    if (!wired.count(&contact)) crossing.faces.push_back({&contact, no_contact(), nullptr});
  for (const auto& contact : *joint.port_b->contacts)
    if (!wired.count(&contact)) crossing.faces.push_back({no_contact(), &contact, nullptr});
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
