// Pair rule: what cannot be judged because a part type or its ports are not recorded. It is a
// question to settle with the set open and before power, never "fits".
#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/rules.hpp"

namespace benchgraft::fit {
namespace {

// Every other recorded part of the set was built together with this one by some factory.
bool proven_here(const Findings& findings, const Place& place) {
  bool any = false;
  for (const auto& other : findings.set.places) {
    if (&other == &place || other.empty) continue;
    if (!other.type || !built_together(findings.known, place, other)) return false;
    any = true;
  }
  return any;
}

void ask_ports(Findings& findings, const Place& place) {
  Reason& reason = findings.unknown(
      RuleSort::pair,
      fmt::format(
          "The connectors of {} are not recorded: nothing can be said about what it is joined to.",
          place.called()),
      fmt::format("Record the connectors of {} and what runs on each contact.", place.called()),
      place.type->reference(), "port", place.roles.front());
  reason.facts = {fact_of(*place.type, "no ports recorded")};
  reason.types = {place.type->reference()};
}

// A connector nobody says the purpose of is not left hanging: it may want to go somewhere.
void ask_purpose(Findings& findings, const Place& place, const catalogue::Port& port) {
  Reason& reason = findings.unknown(
      RuleSort::pair, fmt::format("Not recorded what {} is for.", port_called(place, port)),
      fmt::format("Where does {} go?", port_called(place, port)), place.type->reference(),
      fmt::format("port {}: to", port.name), place.roles.front());
  reason.facts = {{fmt::format("{} {}", place.type->reference(), port.name), port.where}};
  reason.types = {place.type->reference()};
  reason.ports = {port.name};
}

bool joined(const Joints& joints, const catalogue::Port& port) {
  return std::any_of(joints.joined.begin(), joints.joined.end(), [&](const Joint& joint) {
    return joint.port_a == &port || joint.port_b == &port;
  });
}

void ask_peer(Findings& findings, const Unseen& unseen) {
  const std::string plug = port_called(*unseen.place, *unseen.port);
  if (!unseen.peer->type) {
    findings.unknown(RuleSort::pair,
                     fmt::format("{} goes to the {}, and nobody knows which part that is.",
                                 capitalised(plug), unseen.peer->position),
                     fmt::format("Read the printed number and revision on the {} of the host.",
                                 unseen.peer->position),
                     unseen.peer->position, "type", unseen.peer->roles.front());
    return;
  }
  Reason& reason =
      findings.unknown(RuleSort::pair,
                       fmt::format("{} goes to {}, whose connectors are not recorded.",
                                   capitalised(plug), unseen.peer->called()),
                       fmt::format("Record the connectors of {} and what runs on each contact.",
                                   unseen.peer->called()),
                       unseen.peer->type->reference(), "port", unseen.peer->roles.front());
  reason.facts = {fact_of(*unseen.peer->type, "no ports recorded")};
  reason.types = {unseen.place->type->reference(), unseen.peer->type->reference()};
  reason.ports = {unseen.port->name};
}

bool same_or_unsaid(const std::string& a, const std::string& b) {
  return a.empty() || b.empty() || a == b;
}

// The two are joined for this purpose, or something about that has been said already.
bool accounted_for(const Findings& findings, const Place& a, const Place& b,
                   const std::string& carries) {
  const auto between = [&](const Place* x, const Place* y) {
    return (x == &a && y == &b) || (x == &b && y == &a);
  };
  const auto& joints = findings.joints;
  return std::any_of(joints.joined.begin(), joints.joined.end(),
                     [&](const Joint& joint) {
                       return between(joint.a, joint.b) &&
                              same_or_unsaid(joint.port_a->carries, carries);
                     }) ||
         std::any_of(joints.loose.begin(), joints.loose.end(),
                     [&](const Loose& loose) {
                       return between(loose.place, loose.peer) &&
                              same_or_unsaid(loose.port->carries, carries);
                     }) ||
         std::any_of(joints.unseen.begin(), joints.unseen.end(), [&](const Unseen& unseen) {
           return between(unseen.place, unseen.peer) &&
                  same_or_unsaid(unseen.port->carries, carries);
         });
}

bool is_hot_link(const std::string& carries) {
  return carries == "mains" || carries == "bus" || carries == "ignition" ||
         carries == "interlock" || carries == "thermal";
}

void ask_usual_link(Findings& findings, const Place& place, const Place& peer,
                    const std::string& carries) {
  Reason& reason = findings.unknown(
      RuleSort::pair,
      fmt::format("Nothing is recorded of how {} is joined to the {} (usual here: {}).",
                  place.called(), peer.position, carries),
      fmt::format("How is {} joined to the {}: which connector, what runs on each contact?",
                  place.called(), peer.position),
      place.type->reference(), fmt::format("port to {}", peer.roles.front()), place.roles.front(),
      is_hot_link(carries));
  reason.facts = {fact_of(*place.type, "no port for " + carries)};
  if (findings.set.kind)
    reason.facts.push_back({fmt::format("usual link of {}: {}", findings.set.kind->name, carries),
                            findings.set.kind->where});
  reason.types = {place.type->reference()};
}

// What neither the old part nor the new one has on record would else count as fine: the kind knows
// which links such a set has.
void ask_usual_links(Findings& findings, const Place& place) {
  if (!findings.set.kind || !place.type->ports) return;
  for (const auto& link : findings.set.kind->links) {
    const bool from_here = place.fills(link.from), to_here = place.fills(link.to);
    if (from_here == to_here) continue;
    const Place* peer = findings.set.filling(from_here ? link.to : link.from);
    if (!peer || peer == &place || peer->empty) continue;
    if (accounted_for(findings, place, *peer, link.carries)) continue;
    if (peer->type && built_together(findings.known, place, *peer)) continue;
    ask_usual_link(findings, place, *peer, link.carries);
  }
}

}  // namespace

void judge_unrecorded(Findings& findings) {
  for (const auto& place : findings.set.places) {
    if (!(differs(place) || place.altered) || !place.type || place.empty) continue;
    if (!place.type->ports && !place.type->is_lead() && !proven_here(findings, place))
      ask_ports(findings, place);
    if (!place.type->ports || place.type->is_lead() || proven_here(findings, place)) continue;
    for (const auto& port : *place.type->ports)
      if (port.to.empty() && !joined(findings.joints, port)) ask_purpose(findings, place, port);
    ask_usual_links(findings, place);
  }
  for (const auto& unseen : findings.joints.unseen) {
    const bool concerned = differs(*unseen.place) || unseen.place->altered ||
                           (differs(*unseen.peer) && unseen.peer->type);
    if (!concerned || (differs(*unseen.peer) && unseen.peer->type && !unseen.peer->type->ports))
      continue;
    if (built_together(findings.known, *unseen.place, *unseen.peer)) continue;
    ask_peer(findings, unseen);
  }
}

}  // namespace benchgraft::fit
