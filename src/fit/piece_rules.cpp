// Whole rule: pieces that come off with the old part and must be on the new one, and pieces a part
// needs.
#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/rules.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Piece;

// What protects people or keeps a circuit apart; the rest is mechanics (common practice, no
// source).
bool protects(const Piece& piece) {
  return piece.kind == "earth lead" || piece.kind == "shield" || piece.kind == "insulating sheet";
}

// Without a ferrite or a bracket one is found or made; without earth, shield or sheet it is not
// built.
Verdict grade(const Piece& piece) {
  return protects(piece) ? Verdict::does_not_fit : Verdict::fits_with_work;
}

bool carries(const catalogue::PartType& type, const std::string& name) {
  return type.carries && std::any_of(type.carries->begin(), type.carries->end(),
                                     [&](const Piece& piece) { return piece.name == name; });
}

// Where a piece can be taken from: a part of the host that comes out, or one that stays.
const Place* holder(const Assembly& set, const std::string& name) {
  for (const auto& place : set.places) {
    if (place.was && !place.host_lost_it && carries(*place.was, name)) return &place;
    if (place.type && !place.empty && carries(*place.type, name)) return &place;
  }
  return nullptr;
}

Reason& say_piece(Findings& findings, const std::string& rule, Verdict verdict,
                  const std::string& says, const Place& place, const Piece& piece) {
  Reason& reason =
      findings.add(rule, RuleSort::whole, verdict, says, place.position + "|" + piece.name);
  reason.safety = protects(piece);
  reason.roles = place.roles;
  reason.signals = {piece.name};
  reason.facts = {
      {fmt::format("{} ({})", piece.name, piece.kind.empty() ? "piece" : piece.kind), piece.where}};
  return reason;
}

void bring_across(Findings& findings, const Place& place, const Piece& piece) {
  if (place.host_lost_it) {
    Reason& reason =
        say_piece(findings, "missing piece", grade(piece),
                  fmt::format("The {} sat on the old {}, which is not here: find or make one.",
                              piece.name, place.position),
                  place, piece);
    reason.types = {place.type->reference()};
    reason.would_change = "The old part with the piece on it would change this.";
    findings.out.companions.push_back({piece.name,
                                       "piece",
                                       "find or make",
                                       "the old part that carried it is gone",
                                       place.roles.front(),
                                       {},
                                       std::nullopt,
                                       reason.code});
    return;
  }
  Reason& reason =
      say_piece(findings, "carried piece", Verdict::fits_with_work,
                fmt::format("The {} is on the old {} and not on {}: it comes across{}.", piece.name,
                            place.position, place.type->reference(),
                            protects(piece) ? " and is on before power" : ""),
                place, piece);
  reason.work_minutes = 3;
  reason.types = {place.type->reference(), place.was->reference()};
  if (protects(piece)) reason.not_before = fmt::format("not before the {} is on", piece.name);
  reason.would_change =
      fmt::format("Recording the {} among the pieces {} carries would change this.", piece.name,
                  place.type->reference());
  findings.out.companions.push_back({piece.name,
                                     "piece",
                                     "the old " + place.position,
                                     "sits on the old part",
                                     place.roles.front(),
                                     {},
                                     std::nullopt,
                                     reason.code});
}

void judge_carried(Findings& findings, const Place& place) {
  if (!place.was && !place.place) return;  // the host never had this place
  if (!place.was || !place.was->carries) {
    if (place.type->is_lead()) return;
    const std::string old = place.was ? place.was->reference() : "the old " + place.position;
    findings.unknown(
        RuleSort::whole,
        fmt::format("Not recorded what is screwed or clipped to the old {}.", place.position),
        fmt::format("Is anything screwed or clipped to {} that the new one lacks?", old), old,
        "carries", place.roles.front());
    return;
  }
  for (const auto& piece : *place.was->carries) {
    if (carries(*place.type, piece.name)) continue;
    if (!place.type->carries)
      findings.ask(fmt::format("Does {} bring its own {}?", place.type->reference(), piece.name),
                   place.type->reference(), "carries", place.roles.front(), protects(piece));
    bring_across(findings, place, piece);
  }
}

// The same make, but something was taken off it: it must go back on.
void judge_gone(Findings& findings, const Place& place, const catalogue::PartType& made) {
  if (!made.carries) return;
  for (const auto& piece : *made.carries) {
    if (carries(*place.type, piece.name)) continue;
    const bool old_has_it =
        place.was && place.changed && !place.host_lost_it && carries(*place.was, piece.name);
    if (old_has_it) continue;  // bring_across has said so
    Reason& reason =
        say_piece(findings, "missing piece", grade(piece),
                  fmt::format("The {} is gone from {}: find one or make one before it goes in.",
                              piece.name, place.called()),
                  place, piece);
    reason.types = {place.type->reference()};
    findings.out.companions.push_back({piece.name,
                                       "piece",
                                       "find or make",
                                       "it was taken off this part",
                                       place.roles.front(),
                                       {},
                                       std::nullopt,
                                       reason.code});
  }
}

void judge_needed(Findings& findings, const Place& place) {
  if (!place.type->needs) {
    if (place.type->is_lead()) return;
    findings.unknown(
        RuleSort::whole,
        fmt::format("Not recorded which shields, sheets, leads or brackets {} needs near it.",
                    place.type->reference()),
        fmt::format("What must sit on or beside {} (shield, earth lead, sheet, bracket)?",
                    place.type->reference()),
        place.type->reference(), "needs", place.roles.front());
    return;
  }
  for (const auto& piece : *place.type->needs) {
    if (carries(*place.type, piece.name)) continue;
    const Place* from = holder(findings.set, piece.name);
    if (from && from != &place) {
      if (!from->changed) continue;  // stays in the set: already there
      Reason& reason = say_piece(findings, "carried piece", Verdict::fits_with_work,
                                 fmt::format("{} needs the {}: take it off the old {}.",
                                             place.type->reference(), piece.name, from->position),
                                 place, piece);
      reason.work_minutes = 3;
      findings.out.companions.push_back({piece.name,
                                         "piece",
                                         "the old " + from->position,
                                         "the new part needs it",
                                         place.roles.front(),
                                         {},
                                         std::nullopt,
                                         reason.code});
      continue;
    }
    if (from) continue;  // on the host's own old part in this place: said by judge_carried
    Reason& reason =
        say_piece(findings, "missing piece", grade(piece),
                  fmt::format("{} needs the {}, and nothing in this rebuild brings it.",
                              place.type->reference(), piece.name),
                  place, piece);
    reason.types = {place.type->reference()};
    reason.would_change = "A part that carries the piece would change this.";
    findings.out.companions.push_back(
        {piece.name,
         "piece",
         place.from == "host" ? "find or make" : place.from + ", or make",
         "the new part needs it",
         place.roles.front(),
         {},
         std::nullopt,
         reason.code});
  }
}

}  // namespace

void judge_pieces(Findings& findings) {
  for (const auto& place : findings.set.places) {
    if (!place.type || place.empty) continue;
    const auto* made = findings.known.part_type(place.type->reference());
    if (place.altered && made) judge_gone(findings, place, *made);
    if (!differs(place)) continue;
    judge_carried(findings, place);
    judge_needed(findings, place);
  }
}

}  // namespace benchgraft::fit
