// Pair rule: the right plug in the wrong socket. Every socket in reach is tried, not only the
// intended one.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/rules.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Half;
using catalogue::Point;
using catalogue::Port;

struct Plug {
  const Place* place;
  const Port* port;
};

struct WrongSocket {
  const Place* place = nullptr;
  const Port* port = nullptr;
  ContactFinding worst;
};

double distance(const Point& a, const Point& b) {
  return std::hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

// Out of reach only when length and both places are recorded and say so.
bool in_reach(const Plug& plug, const Place& other) {
  if (!plug.port->lead_mm || !plug.place->place || !other.place) return true;
  if (!plug.place->place->at_mm || !other.place->at_mm) return true;
  return distance(*plug.place->place->at_mm, *other.place->at_mm) <= *plug.port->lead_mm;
}

bool intended(const Joints& joints, const Port* plug, const Port* socket) {
  return std::any_of(joints.joined.begin(), joints.joined.end(), [&](const Joint& joint) {
    return (joint.port_a == plug && joint.port_b == socket) ||
           (joint.port_b == plug && joint.port_a == socket);
  });
}

// The factory's own part had the same plug in the same place: an old danger, not a new surprise.
bool old_danger(const Place& place, const Port& port) {
  if (!place.was) return false;
  const Port* before = place.was->port(port.name);
  return before && before->connector == port.connector && before->contacts == port.contacts;
}

std::optional<ContactFinding> worst_meeting(const Port& plug, const Port& socket) {
  std::vector<ContactFinding> found;
  const Mating mating = mate(plug.connector, socket.connector);
  if (mating.mates != Tri::yes) return std::nullopt;
  for (const auto& face : facing_contacts(plug, socket, mating.turned_round))
    judge_contacts(face.a, face.b, {}, found);
  const auto worst = std::max_element(found.begin(), found.end(), [](const auto& x, const auto& y) {
    return x.verdict != y.verdict ? x.verdict < y.verdict : x.safety < y.safety;
  });
  if (worst == found.end() || worst->verdict < Verdict::does_not_fit) return std::nullopt;
  return *worst;
}

void say_wrong(Findings& findings, const Plug& plug, const std::vector<WrongSocket>& wrong) {
  const auto worst = std::max_element(wrong.begin(), wrong.end(), [](const auto& x, const auto& y) {
    return x.worst.verdict != y.worst.verdict ? x.worst.verdict < y.worst.verdict
                                              : x.worst.safety < y.worst.safety;
  });
  std::vector<std::string> sockets;
  for (const auto& w : wrong) sockets.push_back(port_called(*w.place, *w.port));
  Reason& reason = findings.add(
      "wrong socket", RuleSort::pair, Verdict::fits_with_work,
      fmt::format("{} also goes into {}; that {} ({}). Mark plug and socket before unplugging.",
                  capitalised(port_called(*plug.place, *plug.port)), listed(sockets),
                  worst->worst.verdict == Verdict::destroys ? "destroys" : "does not work",
                  rule_name(worst->worst.rule)),
      plug.place->type->reference() + ":" + plug.port->name);
  reason.safety = worst->worst.safety;
  reason.work_minutes = 1;
  reason.not_before = fmt::format("not before {} and its own socket are marked",
                                  port_called(*plug.place, *plug.port));
  reason.roles = {plug.place->roles.front()};
  reason.types = {plug.place->type->reference(), worst->place->type->reference()};
  reason.ports = {plug.port->name, worst->port->name};
  if (worst->worst.a) reason.facts.push_back(fact_of(*plug.place, *plug.port, *worst->worst.a));
  if (worst->worst.b) reason.facts.push_back(fact_of(*worst->place, *worst->port, *worst->worst.b));
  reason.would_change = "Another key, pitch or number of ways on one of them would change this.";
}

}  // namespace

void judge_wrong_sockets(Findings& findings) {
  for (const auto& place : findings.set.places) {
    if (!differs(place) || !place.type || !place.type->ports || place.empty) continue;
    for (const auto& port : *place.type->ports) {
      if (port.connector.half != Half::plug || old_danger(place, port)) continue;
      const Plug plug{&place, &port};
      std::vector<WrongSocket> wrong;
      for (const auto& other : findings.set.places) {
        if (&other == &place || other.empty || !other.type || !other.type->ports ||
            !in_reach(plug, other))
          continue;
        for (const auto& socket : *other.type->ports) {
          if (socket.connector.half != Half::socket || intended(findings.joints, &port, &socket))
            continue;
          if (auto worst = worst_meeting(port, socket)) wrong.push_back({&other, &socket, *worst});
        }
      }
      if (!wrong.empty()) say_wrong(findings, plug, wrong);
    }
  }
}

}  // namespace benchgraft::fit
