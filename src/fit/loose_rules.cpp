// Pair rule: a port whose counterpart is not there.
#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/rules.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Contact;
using catalogue::Direction;
using catalogue::NetClass;
using catalogue::Port;

// Contacts that must be fed or answered, or that close a safety loop.
std::vector<const Contact*> in_need(const Port& port) {
  std::vector<const Contact*> need;
  if (!port.contacts) return need;
  for (const auto& contact : *port.contacts) {
    const bool power = contact.net_class == NetClass::supply ||
                       contact.net_class == NetClass::bus || contact.net_class == NetClass::mains;
    const bool loop = contact.net_class == NetClass::interlock ||
                      contact.net_class == NetClass::thermal ||
                      contact.net_class == NetClass::earth;
    if (loop || (contact.direction == Direction::in && (power || contact.waits_s)))
      need.push_back(&contact);
  }
  return need;
}

// What it needs cannot be told: no contacts recorded, or one whose class or direction is not.
bool unclear_need(const Port& port) {
  if (!port.contacts) return true;
  return std::any_of(port.contacts->begin(), port.contacts->end(), [](const Contact& c) {
    const bool power = c.net_class == NetClass::supply || c.net_class == NetClass::bus ||
                       c.net_class == NetClass::mains;
    return c.net_class == NetClass::unknown ||
           (c.direction == Direction::unknown && (power || c.waits_s));
  });
}

bool is_safety(const Contact& contact) {
  return contact.net_class == NetClass::interlock || contact.net_class == NetClass::thermal ||
         contact.net_class == NetClass::earth;
}

// The factory left the same port without a partner: nothing new.
bool always_was_loose(const Assembly& set, const Loose& loose) {
  if (differs(*loose.place) || loose.place->altered) return false;
  const Place* factory = set.factory(loose.port->to);
  if (!factory || !factory->was || !factory->was->ports) return factory == nullptr;
  return std::none_of(factory->was->ports->begin(), factory->was->ports->end(),
                      [&](const Port& other) { return loose.place->fills(other.to); });
}

void say_need(Findings& findings, const Loose& loose, const std::vector<const Contact*>& need) {
  std::vector<std::string> words;
  bool safety = false;
  for (const auto* contact : need)
    words.push_back(contact_called(*contact)), safety = safety || is_safety(*contact);
  const std::string there =
      loose.peer ? fmt::format("{} has nothing to join it to", loose.peer->called())
                 : fmt::format("nothing does the job of {} any more", loose.port->to);
  Reason& reason = findings.add(
      "nothing feeds it", RuleSort::pair, Verdict::does_not_fit,
      fmt::format("{} needs {}, but {}.", capitalised(port_called(*loose.place, *loose.port)),
                  listed(words), there),
      loose.place->type->reference() + ":" + loose.port->name);
  reason.safety = safety;
  reason.roles = {loose.place->roles.front()};
  reason.types = {loose.place->type->reference()};
  if (loose.peer && loose.peer->type) reason.types.push_back(loose.peer->type->reference());
  reason.ports = {loose.port->name};
  for (const auto* contact : need) {
    reason.signals.push_back(contact->signal);
    reason.facts.push_back(fact_of(*loose.place, *loose.port, *contact));
  }
  reason.would_change =
      "A port recorded on the other part, or another part there, would change this.";
}

void say_left(Findings& findings, const Loose& loose) {
  Reason& reason = findings.add(
      "left unplugged", RuleSort::pair, Verdict::fits,
      fmt::format("{} stays unplugged: {}.", capitalised(port_called(*loose.place, *loose.port)),
                  loose.peer ? loose.peer->called() + " has no socket for it"
                             : "nothing does the job of " + loose.port->to + " here"),
      loose.place->type->reference() + ":" + loose.port->name);
  reason.roles = {loose.place->roles.front()};
  reason.facts = {
      {fmt::format("{} {}", loose.place->type->reference(), loose.port->name), loose.port->where}};
}

}  // namespace

void judge_loose_ports(Findings& findings) {
  for (const auto& loose : findings.joints.loose) {
    const bool near_a_change = differs(*loose.place) || loose.place->altered || !loose.peer ||
                               differs(*loose.peer) || loose.peer->altered;
    if (!near_a_change || always_was_loose(findings.set, loose)) continue;
    if (unclear_need(*loose.port)) {
      findings.unknown(
          RuleSort::pair,
          fmt::format("Not recorded what {} needs, and nothing is there to join it to.",
                      port_called(*loose.place, *loose.port)),
          fmt::format("What does {} need, and from where?", port_called(*loose.place, *loose.port)),
          loose.place->type->reference(), fmt::format("port {}: contacts", loose.port->name),
          loose.place->roles.front());
      continue;
    }
    const auto need = in_need(*loose.port);
    if (need.empty())
      say_left(findings, loose);
    else
      say_need(findings, loose, need);
  }
}

}  // namespace benchgraft::fit
