// Pair rule: the right plug in the wrong socket. Every socket in reach is tried, not only the
// intended one.
#include <algorithm>
#include <cmath>
#include <deque>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/link_text.hpp"
#include "fit/rules.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Half;
using catalogue::Point;
using catalogue::Port;

/// A plug on a part, or the end of a lead that carries what the part at its other end puts on it.
struct Plug {
  const Place* place = nullptr;
  const Port* port = nullptr;
  const Port* socket = nullptr;  ///< where it belongs; null when nowhere here
  const Port* source = nullptr;  ///< of a lead's end: whose contacts it carries
  bool fresh = false;            ///< on a changed part, or a lead that now carries something else
};

struct WrongSocket {
  const Place* place = nullptr;
  const Port* port = nullptr;
  ContactFinding worst;
};

bool holds(const Place& place, const Port* socket) {
  const auto& ports = *place.type->ports;
  return std::any_of(ports.begin(), ports.end(), [&](const Port& port) { return &port == socket; });
}

// Out of reach only when length and both places are recorded and say so.
bool in_reach(const Plug& plug, const Place& other) {
  if (holds(other, plug.socket)) return true;  // it reaches its own socket on that board
  if (!plug.port->lead_mm || !plug.place->place || !other.place) return true;
  if (!plug.place->place->at_mm || !other.place->at_mm) return true;
  return distance(*plug.place->place->at_mm, *other.place->at_mm) <= *plug.port->lead_mm;
}

// The part that was here before had the same connector with the same contacts: an old danger.
bool was_here(const Place& place, const Port& port) {
  if (!place.was) return false;
  const Port* before = place.was->port(port.name);
  return before && same_end(*before, port);
}

bool worse_than(const ContactFinding& x, const ContactFinding& y) {
  return x.verdict != y.verdict ? x.verdict < y.verdict : x.safety < y.safety;
}

std::optional<ContactFinding> worst_meeting(const Port& plug, const Port& socket) {
  std::vector<ContactFinding> found;
  const Mating mating = mate(plug.connector, socket.connector);
  if (mating.mates != Tri::yes) return std::nullopt;
  for (const auto& face : facing_contacts(plug, socket, mating.turned_round))
    judge_contacts(face.a, face.b, {}, found);
  const auto worst = std::max_element(found.begin(), found.end(), worse_than);
  if (worst == found.end() || worst->verdict < Verdict::does_not_fit) return std::nullopt;
  return *worst;
}

// The end of a lead as a plug with the contacts of the part at its other end.
Port carried_to(const Port& end, const Port& other_end, const Port& source,
                const catalogue::PartType& lead) {
  Port plug = end;
  plug.contacts.emplace();
  for (const auto& wire : lead.wires) {
    const bool forward = wire.from_end == other_end.name && wire.to_end == end.name;
    const bool backward = wire.to_end == other_end.name && wire.from_end == end.name;
    if (!forward && !backward) continue;
    for (const auto& contact : *source.contacts) {
      if (contact.number != (forward ? wire.from_contact : wire.to_contact)) continue;
      plug.contacts->push_back(contact);
      plug.contacts->back().number = forward ? wire.to_contact : wire.from_contact;
    }
  }
  return plug;
}

class Plugs {
 public:
  explicit Plugs(const Findings& findings) {
    for (const auto& place : findings.set.places) add_fixed(findings, place);
    for (const auto& joint : findings.joints.joined) add_lead_ends(joint);
  }
  std::vector<Plug> all;

 private:
  void add_fixed(const Findings& findings, const Place& place) {
    if (!place.type || !place.type->ports || place.empty || place.type->is_lead()) return;
    for (const auto& port : *place.type->ports) {
      if (port.connector.half != Half::plug) continue;
      Plug plug{&place, &port, nullptr, nullptr, differs(place) && !was_here(place, port)};
      for (const auto& joint : findings.joints.joined) {
        if (joint.port_a == &port) plug.socket = joint.port_b;
        if (joint.port_b == &port) plug.socket = joint.port_a;
      }
      all.push_back(plug);
    }
  }

  void add_lead_ends(const Joint& joint) {
    if (!joint.through_lead() || !joint.port_a->contacts || !joint.port_b->contacts) return;
    const auto add = [&](const Port& end, const Port& other_end, const Port& source,
                         const Port* socket, const Place& carrier) {
      if (end.connector.half != Half::plug) return;
      owned_.push_back(carried_to(end, other_end, source, *joint.lead->type));
      const bool fresh = differs(*joint.lead) || (differs(carrier) && !was_here(carrier, source));
      all.push_back({joint.lead, &owned_.back(), socket, &source, fresh});
    };
    add(*joint.end_b, *joint.end_a, *joint.port_a, joint.port_b, *joint.a);
    add(*joint.end_a, *joint.end_b, *joint.port_b, joint.port_a, *joint.b);
  }

  std::deque<Port> owned_;
};

std::vector<WrongSocket> wrong_sockets(const Findings& findings, const Plug& plug) {
  std::vector<WrongSocket> wrong;
  for (const auto& other : findings.set.places) {
    if (&other == plug.place || other.empty || !other.type || !other.type->ports) continue;
    if (other.type->is_lead() || !in_reach(plug, other)) continue;
    for (const auto& socket : *other.type->ports) {
      if (socket.connector.half != Half::socket || &socket == plug.socket || &socket == plug.source)
        continue;
      const bool news = plug.fresh || (differs(other) && !was_here(other, socket));
      // Alike sockets side by side were always a danger; pulling the plug makes it one today.
      const bool pulled_today = differs(other) && holds(other, plug.socket);
      if (!news && !pulled_today) continue;
      const auto worst = worst_meeting(*plug.port, socket);
      if (worst && (news || worst->verdict == Verdict::destroys))
        wrong.push_back({&other, &socket, *worst});
    }
  }
  return wrong;
}

void say_wrong(Findings& findings, const Plug& plug, const std::vector<WrongSocket>& wrong) {
  const auto worst = std::max_element(wrong.begin(), wrong.end(), [](const auto& x, const auto& y) {
    return worse_than(x.worst, y.worst);
  });
  std::vector<std::string> sockets;
  for (const auto& w : wrong) sockets.push_back(port_called(*w.place, *w.port));
  const std::string called = port_called(*plug.place, *plug.port);
  Reason& reason = findings.add(
      "wrong socket", RuleSort::pair, Verdict::fits_with_work,
      fmt::format("{} also goes into {}; there {}. Mark plug and socket before unplugging.",
                  capitalised(called), listed(sockets), danger_words(worst->worst.rule)),
      plug.place->type->reference() + ":" + plug.port->name);
  reason.safety = worst->worst.safety;
  reason.work_minutes = 1;
  reason.not_before = fmt::format("not before {} and its own socket are marked", called);
  reason.roles = {plug.place->roles.front()};
  reason.types = {plug.place->type->reference(), worst->place->type->reference()};
  reason.ports = {plug.port->name, worst->port->name};
  if (worst->worst.a) reason.facts.push_back(fact_of(*plug.place, *plug.port, *worst->worst.a));
  if (worst->worst.b) reason.facts.push_back(fact_of(*worst->place, *worst->port, *worst->worst.b));
  reason.would_change = "Another key, pitch or number of ways on one of them would change this.";
}

}  // namespace

void judge_wrong_sockets(Findings& findings) {
  const Plugs plugs(findings);
  for (const auto& plug : plugs.all) {
    const auto wrong = wrong_sockets(findings, plug);
    if (!wrong.empty()) say_wrong(findings, plug, wrong);
  }
}

}  // namespace benchgraft::fit
