// Single rules: does the part go into its place, and does it touch anything there. Distances on the
// mains side after IEC 62368-1 (pollution degree 2, read as excerpts).
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/contact_rules.hpp"
#include "fit/rules.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Room;
using catalogue::Shape;

// Clearance to earthed or touchable metal below a board with mains on it: 1.5 mm basic, 3.0 mm
// reinforced at 230 V (transient 2500 V); IEC 62368-1 table 14, read as an excerpt.
constexpr double kBasicClearance = 1.5, kReinforcedClearance = 3.0;

Reason& say(Findings& findings, const std::string& rule, Verdict verdict, const Place& place,
            const std::string& text, const std::string& more = "") {
  Reason& reason = findings.add(rule, RuleSort::single, verdict, text, place.position + "|" + more);
  reason.roles = place.roles;
  reason.types = {place.type->reference()};
  return reason;
}

void room_fact(Reason& reason, const Place& place, const std::string& text) {
  if (place.place) reason.facts.push_back({place.position + ": " + text, place.place->where});
}

void judge_size(Findings& findings, const Place& place, const Shape& shape, const Room& room) {
  if (!shape.size_mm || !room.size_mm) return;
  const char* const kWays[] = {"wide", "high", "deep"};
  for (std::size_t i = 0; i < 3; ++i) {
    const double is = (*shape.size_mm)[i], has = (*room.size_mm)[i];
    if (is <= has) continue;
    Reason& reason =
        say(findings, "no room", Verdict::does_not_fit, place,
            fmt::format("{} is {} mm {}, the {} has room for {} mm.", place.type->reference(),
                        number(is), kWays[i], place.position, number(has)),
            kWays[i]);
    reason.facts = {fact_of(*place.type, fmt::format("{} mm {}", number(is), kWays[i]))};
    room_fact(reason, place, fmt::format("room for {} mm", number(has)));
    reason.would_change = "Another record of its size or of the room would change this.";
  }
}

void judge_socket_panel(Findings& findings, const Place& place, const Shape& shape,
                        const Room& room) {
  if (shape.socket_panel.empty() || !room.socket_panels ||
      contains(*room.socket_panels, shape.socket_panel))
    return;
  Reason& reason =
      say(findings, "socket panel", Verdict::fits_with_work, place,
          fmt::format("The outside sockets of {} are the pattern \"{}\"; the cut-outs of the {} "
                      "take {}: bring its own socket plate, or cut new openings, deburred and with "
                      "no gap to live parts.",
                      place.type->reference(), shape.socket_panel, place.position,
                      room.socket_panels->empty() ? "none" : listed(*room.socket_panels)));
  reason.work_minutes = 30;  // common practice, no source
  reason.signals = {shape.socket_panel};
  reason.facts = {fact_of(*place.type, "socket panel " + shape.socket_panel)};
  room_fact(reason, place, "takes " + listed(*room.socket_panels));
  reason.would_change = "Another record of the cut-outs would change this.";
}

bool mains_on_board(const catalogue::PartType& type) {
  if (!type.ports) return false;
  return std::any_of(type.ports->begin(), type.ports->end(), [](const auto& port) {
    return port.contacts &&
           std::any_of(port.contacts->begin(), port.contacts->end(),
                       [](const auto& c) { return domain_of(c) == catalogue::Domain::primary; });
  });
}

void judge_under(Findings& findings, const Place& place, const Shape& shape, const Room& room) {
  if (!shape.under_mm || !room.standoff_mm) return;
  const double gap = *room.standoff_mm - *shape.under_mm;
  const bool hot = mains_on_board(*place.type);
  const bool doubled =
      findings.set.model && findings.set.model->protection != catalogue::Protection::class_1;
  const double least = hot ? (doubled ? kReinforcedClearance : kBasicClearance) : 0;
  if (gap > 0 && gap >= least) return;
  const std::string facts =
      fmt::format("leads reach {} mm below {}, the stand-offs are {} mm", number(*shape.under_mm),
                  place.type->reference(), number(*room.standoff_mm));
  Reason& reason = say(
      findings, "stand-off", Verdict::does_not_fit, place,
      gap <= 0
          ? fmt::format("{}: screwed down it touches metal.", capitalised(facts))
          : fmt::format("{}: {:.1f} mm are left and {} mm are needed under a board with mains "
                        "on it (IEC 62368-1, {}, read as an excerpt). It may work and still "
                        "fail.",
                        capitalised(facts), gap, number(least), doubled ? "reinforced" : "basic"));
  reason.safety = hot;
  reason.facts = {
      fact_of(*place.type, fmt::format("{} mm below the board", number(*shape.under_mm)))};
  room_fact(reason, place, fmt::format("stand-offs {} mm", number(*room.standoff_mm)));
  reason.would_change = "Shorter leads, measured, or higher stand-offs would change this.";
}

void judge_holes(Findings& findings, const Place& place, const Shape& shape, const Room& room) {
  if (!shape.holes || !room.standoffs) return;
  std::vector<std::string> under, free;
  for (const auto& standoff : *room.standoffs)
    if (!contains(*shape.holes, standoff)) under.push_back(standoff);
  for (const auto& hole : *shape.holes)
    if (!contains(*room.standoffs, hole)) free.push_back(hole);
  if (!under.empty()) {
    Reason& reason = say(
        findings, "stand-off", Verdict::fits_with_work, place,
        fmt::format("Under {} the {} has stand-off {} where the board has no hole: screwed down "
                    "it shorts what runs there. Take it out, or insulate it with a sheet that "
                    "stays.",
                    place.type->reference(), place.position, listed(under)),
        "extra");
    reason.work_minutes = 5;
    reason.not_before = fmt::format("not before stand-off {} is out or insulated", listed(under));
    reason.facts = {fact_of(*place.type, "holes " + listed(*shape.holes))};
    room_fact(reason, place, "stand-offs " + listed(*room.standoffs));
    reason.would_change = "A hole at that place would change this.";
  }
  if (free.empty()) return;
  Reason& reason =
      say(findings, "stand-off", Verdict::fits_with_work, place,
          fmt::format("Hole {} of {} has no stand-off below: support it there with a plastic one, "
                      "and see that no ground went through that screw.",
                      listed(free), place.type->reference()),
          "free");
  reason.work_minutes = 5;
  reason.facts = {fact_of(*place.type, "holes " + listed(*shape.holes))};
  room_fact(reason, place, "stand-offs " + listed(*room.standoffs));
  reason.would_change = "A stand-off at that place would change this.";
}

// A lead that went left now has to go right.
void judge_edges(Findings& findings, const Place& place) {
  if (!place.was || !place.was->ports || !place.type->ports) return;
  for (const auto& now : *place.type->ports)
    for (const auto& old : *place.was->ports) {
      if (now.to != old.to || now.carries != old.carries || now.edge == catalogue::Edge::unknown ||
          old.edge == catalogue::Edge::unknown || now.edge == old.edge)
        continue;
      Reason& reason = say(
          findings, "other edge", Verdict::fits_with_work, place,
          fmt::format("Socket {} of {} is at the {} edge, on the old board it was at the {} edge: "
                      "see that the lead reaches without strain and clear of fans and hot parts.",
                      now.name, place.type->reference(),
                      catalogue::word_of(catalogue::kEdgeWords, now.edge),
                      catalogue::word_of(catalogue::kEdgeWords, old.edge)),
          now.name);
      reason.work_minutes = 5;
      reason.ports = {now.name};
      reason.facts = {{fmt::format("{} {} at the {} edge", place.type->reference(), now.name,
                                   catalogue::word_of(catalogue::kEdgeWords, now.edge)),
                       now.where},
                      {fmt::format("{} {} at the {} edge", place.was->reference(), old.name,
                                   catalogue::word_of(catalogue::kEdgeWords, old.edge)),
                       old.where}};
      reason.would_change = "Both sockets on record at the same edge would change this.";
    }
}

}  // namespace

void judge_shapes(Findings& findings) {
  for (const auto& place : findings.set.places) {
    if (!differs(place) || !place.type || place.empty) continue;
    judge_edges(findings, place);
    if (!place.type->shape || !place.place || !place.place->room) continue;
    const Shape& shape = *place.type->shape;
    const Room& room = *place.place->room;
    judge_size(findings, place, shape, room);
    judge_socket_panel(findings, place, shape, room);
    judge_under(findings, place, shape, room);
    judge_holes(findings, place, shape, room);
  }
}

}  // namespace benchgraft::fit
