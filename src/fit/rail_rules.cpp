// Whole rule: what all users of one rail draw together, against what the supply gives.
#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/rules.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Contact;
using catalogue::Direction;
using catalogue::NetClass;
using catalogue::Rail;

struct Draw {
  const Place* user;
  const catalogue::Port* port;
  const Contact* contact;
};

struct Load {
  std::vector<Draw> known, unknown;
  double amps = 0;
  bool touched = false;
};

bool draws_power(const Contact& contact) {
  return contact.direction == Direction::in &&
         (contact.net_class == NetClass::supply || contact.net_class == NetClass::bus);
}

void count(Load& load, const Place& user, const catalogue::Port& port, const Contact& contact) {
  if (!draws_power(contact)) return;
  if (contact.amps)
    load.known.push_back({&user, &port, &contact}), load.amps += *contact.amps;
  else
    load.unknown.push_back({&user, &port, &contact});
  load.touched = load.touched || differs(user);
}

// Load on each named rail of one supplier, over all its joints.
std::map<std::string, Load> loads(const Findings& findings, const Place& supplier) {
  std::map<std::string, Load> by_rail;
  for (const auto& joint : findings.joints.joined) {
    if (joint.a != &supplier && joint.b != &supplier) continue;
    const bool first = joint.a == &supplier;
    for (const auto& face : contacts_across(joint).faces) {
      const Contact* gives = first ? face.a : face.b;
      const Contact* takes = first ? face.b : face.a;
      if (!gives || !takes || gives->rail.empty() || gives->direction != Direction::out) continue;
      count(by_rail[gives->rail], first ? *joint.b : *joint.a,
            first ? *joint.port_b : *joint.port_a, *takes);
    }
  }
  return by_rail;
}

// Users whose ports or contacts nobody recorded hang on the rails of the socket meant for them.
struct Hidden {
  const Place* user;
  const catalogue::Port* socket;
};

std::vector<Hidden> hidden_users(const Findings& findings, const Place& supplier,
                                 const std::string& rail) {
  std::vector<Hidden> hidden;
  const auto gives_rail = [&](const catalogue::Port& port) {
    return port.contacts &&
           std::any_of(port.contacts->begin(), port.contacts->end(), [&](const Contact& c) {
             return c.rail == rail && c.direction == Direction::out;
           });
  };
  for (const auto& unseen : findings.joints.unseen)
    if (unseen.place == &supplier && unseen.peer->type && gives_rail(*unseen.port))
      hidden.push_back({unseen.peer, unseen.port});
  for (const auto& joint : findings.joints.joined) {
    if (joint.a == &supplier && gives_rail(*joint.port_a) && !joint.port_b->contacts)
      hidden.push_back({joint.b, joint.port_a});
    if (joint.b == &supplier && gives_rail(*joint.port_b) && !joint.port_a->contacts)
      hidden.push_back({joint.a, joint.port_b});
  }
  return hidden;
}

void ask_hidden(Findings& findings, const Place& supplier, const std::string& rail) {
  for (const auto& hidden : hidden_users(findings, supplier, rail)) {
    Reason& reason = findings.unknown(
        RuleSort::whole,
        fmt::format("Not recorded what {} draws on {} of {}.", hidden.user->type->reference(), rail,
                    supplier.type->reference()),
        fmt::format("How many amps does {} draw on {}?", hidden.user->type->reference(), rail),
        hidden.user->type->reference(), "port: contacts: amps on " + rail,
        hidden.user->roles.front());
    reason.facts = {{fmt::format("{} {} feeds it from {}", supplier.type->reference(),
                                 hidden.socket->name, rail),
                     hidden.socket->where}};
  }
}

void add_facts(Reason& reason, const Place& supplier, const Rail& rail, const Load& load) {
  reason.roles = {supplier.roles.front()};
  reason.types = {supplier.type->reference()};
  reason.signals = {rail.name};
  reason.facts = {{fmt::format("{} rail {}: {} A", supplier.type->reference(), rail.name,
                               rail.amps ? number(*rail.amps) : "?"),
                   rail.where}};
  for (const auto& draw : load.known) {
    reason.facts.push_back(fact_of(*draw.user, *draw.port, *draw.contact));
    reason.types.push_back(draw.user->type->reference());
  }
}

void judge_rail(Findings& findings, const Place& supplier, const Rail& rail, const Load& load) {
  const std::string subject = supplier.type->reference() + "|" + rail.name;
  if (!rail.amps) {
    findings.unknown(
        RuleSort::whole,
        fmt::format("Not recorded how much {} can give on {}.", supplier.type->reference(),
                    rail.name),
        fmt::format("How many amps can {} give on {}?", supplier.type->reference(), rail.name),
        supplier.type->reference(), fmt::format("rail {}: amps", rail.name),
        supplier.roles.front());
    return;
  }
  std::vector<std::string> users;
  for (const auto& draw : load.known)
    users.push_back(fmt::format("{} contact {} {} A", draw.user->type->reference(),
                                draw.contact->number, number(*draw.contact->amps)));
  if (load.amps > *rail.amps + 1e-9) {
    Reason& reason = findings.add("rail overload", RuleSort::whole, Verdict::does_not_fit,
                                  fmt::format("{} gives {} A on {}; together they draw {} A ({}): "
                                              "it trips or the set starts again and again.",
                                              supplier.type->reference(), number(*rail.amps),
                                              rail.name, number(load.amps), listed(users)),
                                  subject);
    add_facts(reason, supplier, rail, load);
    reason.would_change = "A stronger supply, or smaller recorded currents, would change this.";
    return;
  }
  ask_hidden(findings, supplier, rail.name);
  for (const auto& draw : load.unknown)
    findings.unknown(
        RuleSort::whole,
        fmt::format("Not recorded what {} draws on {} of {}.", draw.user->type->reference(),
                    rail.name, supplier.type->reference()),
        fmt::format("How many amps does {} draw on {}?", draw.user->type->reference(), rail.name),
        draw.user->type->reference(),
        fmt::format("port {}: contact {}: amps", draw.port->name, draw.contact->number),
        draw.user->roles.front());
  if (load.unknown.empty() && hidden_users(findings, supplier, rail.name).empty() &&
      rail.least_amps && load.amps < *rail.least_amps - 1e-9) {
    Reason& reason = findings.add(
        "least load", RuleSort::whole, Verdict::does_not_fit,
        fmt::format("{} needs at least {} A on {} to hold its volts; only {} A are drawn.",
                    supplier.type->reference(), number(*rail.least_amps), rail.name,
                    number(load.amps)),
        subject);
    add_facts(reason, supplier, rail, load);
  }
}

}  // namespace

void judge_rails(Findings& findings) {
  for (const auto& supplier : findings.set.places) {
    if (!supplier.type || supplier.empty) continue;
    for (const auto& [name, load] : loads(findings, supplier)) {
      if (!differs(supplier) && !load.touched) continue;
      const auto rail =
          std::find_if(supplier.type->rails.begin(), supplier.type->rails.end(),
                       [&, rail_name = name](const Rail& r) { return r.name == rail_name; });
      const Rail unlisted{name, std::nullopt, std::nullopt, std::nullopt, supplier.type->where};
      judge_rail(findings, supplier, rail == supplier.type->rails.end() ? unlisted : *rail, load);
    }
  }
}

}  // namespace benchgraft::fit
