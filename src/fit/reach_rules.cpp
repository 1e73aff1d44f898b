// Whole rule: can a lead touch a fan, and does it reach at all?
// A lead of length L between F1 and F2 can touch P when |P F1| + |P F2| <= L (an ellipsoid); the
// fan disc is taken 10 mm larger than it is.
#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/rules.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Point;

constexpr double kFanMarginMm = 10;

struct Lead {
  std::string called;
  double length_mm = 0;
  std::optional<double> before_mm;  ///< of the lead it replaces
  const Place* owner = nullptr;
  const Place* end_a = nullptr;
  const Place* end_b = nullptr;
  Where where;
};

std::optional<Point> at(const Place* place) {
  return place && place->place ? place->place->at_mm : std::nullopt;
}

std::optional<double> length_before(const Place& place, const std::string& port) {
  if (!place.was) return std::nullopt;
  const auto* before = place.was->port(port);
  return before ? before->lead_mm : std::nullopt;
}

// Leads that are new to this set: fixed to a changed part, or changed themselves.
std::vector<Lead> new_leads(const Findings& findings) {
  std::vector<Lead> leads;
  for (const auto& joint : findings.joints.joined) {
    const auto fixed = [&](const Place* own, const catalogue::Port* port, const Place* other) {
      if (!port->lead_mm || !(differs(*own) || own->altered)) return;
      leads.push_back({fmt::format("the {} lead of {}", port->name, own->type->reference()),
                       *port->lead_mm, length_before(*own, port->name), own, own, other,
                       port->where});
    };
    fixed(joint.a, joint.port_a, joint.b);
    fixed(joint.b, joint.port_b, joint.a);
    if (joint.lead && (differs(*joint.lead) || joint.lead->altered) && joint.lead->type->length_mm)
      leads.push_back({fmt::format("the lead {}", joint.lead->type->reference()),
                       *joint.lead->type->length_mm,
                       joint.lead->was ? joint.lead->was->length_mm : std::nullopt, joint.lead,
                       joint.a, joint.b, joint.lead->type->where});
  }
  return leads;
}

void say_reaches(Findings& findings, const Lead& lead, const Place& fan, double shortest) {
  Reason& reason = findings.add(
      "lead reaches fan", RuleSort::whole, Verdict::fits_with_work,
      fmt::format(
          "{} is {} mm long; {:.0f} mm are enough to reach the {}. Tie it back so that it cannot.",
          capitalised(lead.called), number(lead.length_mm), shortest, fan.position),
      lead.called + "|" + fan.position);
  reason.work_minutes = 5;
  reason.roles = {lead.owner->roles.front(), fan.roles.front()};
  reason.types = {lead.owner->type->reference()};
  reason.not_before = fmt::format("not before {} is tied back", lead.called);
  reason.facts = {
      {fmt::format("{}: {} mm", lead.called, number(lead.length_mm)), lead.where},
      {fmt::format("the {} and both ends of the lead, places in the cabinet", fan.position),
       fan.where}};
  reason.would_change = "A shorter lead, or another place of the fan, would change this.";
}

void say_too_short(Findings& findings, const Lead& lead, double needed) {
  Reason& reason =
      findings.add("lead too short", RuleSort::whole, Verdict::does_not_fit,
                   fmt::format("{} is {} mm long, the way is at least {:.0f} mm.",
                               capitalised(lead.called), number(lead.length_mm), needed),
                   lead.called);
  reason.roles = {lead.owner->roles.front()};
  reason.types = {lead.owner->type->reference()};
  reason.facts = {{fmt::format("{}: {} mm", lead.called, number(lead.length_mm)), lead.where}};
  reason.would_change = "A longer whole lead, or another place of the parts, would change this.";
}

void ask_reach(Findings& findings, const Lead& lead, double way) {
  Reason& reason = findings.unknown(
      RuleSort::whole,
      fmt::format("{} is {} mm long and the way about {:.0f} mm: nobody knows whether it reaches.",
                  capitalised(lead.called), number(lead.length_mm), way),
      fmt::format("Does {} reach with slack?", lead.called), lead.owner->type->reference(),
      "at_mm of both positions", lead.owner->roles.front());
  reason.rule = "lead too short";
}

void ask_shorter(Findings& findings, const Lead& lead) {
  Reason& reason = findings.unknown(
      RuleSort::whole,
      fmt::format("{} is {} mm long, the one it replaces {} mm: nobody knows whether it reaches.",
                  capitalised(lead.called), number(lead.length_mm), number(*lead.before_mm)),
      fmt::format("Does {} reach with slack, and lie clear of fans and hot parts?", lead.called),
      lead.owner->type->reference(), "at_mm of both positions", lead.owner->roles.front());
  reason.rule = "lead too short";
  reason.facts = {{fmt::format("{}: {} mm", lead.called, number(lead.length_mm)), lead.where}};
}

void say_longer(Findings& findings, const Lead& lead) {
  Reason& reason = findings.add(
      "lead reaches fan", RuleSort::whole, Verdict::fits_with_work,
      fmt::format("{} is {:.0f} mm longer than the one it replaces: see that it cannot reach a fan "
                  "or a hot part.",
                  capitalised(lead.called), lead.length_mm - *lead.before_mm),
      lead.called + "|longer");
  reason.will = false;
  reason.source = Source::usual;
  reason.work_minutes = 2;
  reason.roles = {lead.owner->roles.front()};
  reason.facts = {{fmt::format("{}: {} mm", lead.called, number(lead.length_mm)), lead.where}};
}

}  // namespace

void judge_reach(Findings& findings) {
  for (const auto& lead : new_leads(findings)) {
    const auto a = at(lead.end_a), b = at(lead.end_b);
    if (!a || !b) {
      if (lead.before_mm && lead.length_mm > *lead.before_mm) say_longer(findings, lead);
      if (lead.before_mm && lead.length_mm < *lead.before_mm) ask_shorter(findings, lead);
      continue;
    }
    const bool like_before = lead.before_mm && lead.length_mm >= *lead.before_mm;
    // Places are paced off by eye: only what is clearly too short is said to be.
    if (!like_before && lead.length_mm < 0.8 * distance(*a, *b))
      say_too_short(findings, lead, distance(*a, *b));
    else if (!like_before && lead.length_mm < distance(*a, *b))
      ask_reach(findings, lead, distance(*a, *b));
    for (const auto& fan : findings.set.places) {
      const auto centre = at(&fan);
      if (!fan.type || !fan.type->fan_radius_mm || !centre || &fan == lead.end_a ||
          &fan == lead.end_b)
        continue;
      const double shortest = distance(*centre, *a) + distance(*centre, *b) -
                              2 * (*fan.type->fan_radius_mm + kFanMarginMm);
      if (shortest <= lead.length_mm)
        say_reaches(findings, lead, fan, std::max(shortest, distance(*a, *b)));
    }
  }
}

}  // namespace benchgraft::fit
