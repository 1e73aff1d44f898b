#include "fit/mains_side.hpp"

#include <algorithm>

#include "fit/rules.hpp"

namespace benchgraft::fit {

using catalogue::NetClass;

bool new_here(const Place& place) { return differs(place) || place.altered; }

bool new_at(const Joint& joint) {
  return new_here(*joint.a) || new_here(*joint.b) || (joint.lead && new_here(*joint.lead));
}

bool built_so(const catalogue::Catalogue& known, const Joint& joint) {
  return built_together(known, *joint.a, *joint.b) &&
         (!joint.lead || built_together(known, *joint.a, *joint.lead));
}

bool on_mains_side(const catalogue::Contact& contact) {
  return contact.net_class == NetClass::mains || contact.net_class == NetClass::earth;
}

bool carries_mains(const Joint& joint) {
  const auto some = [](const catalogue::Port& port) {
    return port.contacts &&
           std::any_of(port.contacts->begin(), port.contacts->end(), on_mains_side);
  };
  return some(*joint.port_a) || some(*joint.port_b);
}

const catalogue::MainsSide& mains_of(const catalogue::PartType* type) {
  static const catalogue::MainsSide kNothing;
  return type && type->mains ? *type->mains : kNothing;
}

Conductor by_mark(const catalogue::Contact& contact) {
  const auto mark = terminal_mark(contact.mark);
  return mark ? mark->is : Conductor::other;
}

const char* word_for(Conductor conductor) {
  if (conductor == Conductor::line) return "line";
  if (conductor == Conductor::neutral) return "neutral";
  return conductor == Conductor::earth ? "protective earth" : "another conductor";
}

Reason& say_mains(Findings& findings, const std::string& rule, Verdict verdict, const Place& place,
                  const std::string& says, const std::string& subject) {
  Reason& reason =
      findings.add(rule, RuleSort::whole, verdict, says, place.type->reference() + "|" + subject);
  reason.safety = true;
  reason.roles = {place.roles.front()};
  reason.types = {place.type->reference()};
  return reason;
}

Reason& ask_mains(Findings& findings, const std::string& rule, const Place& place,
                  const std::string& says, const std::string& question, const std::string& key) {
  Reason& reason = findings.unknown(RuleSort::whole, says, question, place.type->reference(), key,
                                    place.roles.front(), true);
  reason.rule = rule;
  reason.types = {place.type->reference()};
  reason.facts = {fact_of(*place.type, key + " not recorded")};
  return reason;
}

}  // namespace benchgraft::fit
