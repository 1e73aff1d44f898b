#include "fit/one.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/adapt.hpp"
#include "fit/rules.hpp"

namespace benchgraft::fit {
namespace {

// Taking out or putting in where the kind gives no minutes (assumed).
constexpr double kUsualMinutes = 10;

bool suits(const catalogue::Fellow& fellow, const Place& place) {
  return place.type &&
         std::any_of(fellow.types.begin(), fellow.types.end(),
                     [&](const std::string& reference) { return means(reference, *place.type); });
}

// A part that asks for another type in a place nobody chose for brings it along ("lamp follows
// engine").
void bring_fellows(const catalogue::Catalogue& known, Assembly& set) {
  for (bool again = true; again;) {
    again = false;
    for (const auto& owner : set.places) {
      if (!differs(owner) || !owner.type || owner.empty) continue;
      for (const auto& fellow : owner.type->fellows) {
        Place* there = set.filling(fellow.role);
        if (!there || there->changed || there == &owner || suits(fellow, *there)) continue;
        for (const auto& reference : fellow.types) {
          const auto* type = known.part_type(reference);
          if (!type || !type->fills(fellow.role)) continue;
          there->type = type;
          there->changed = there->to_get = again = true;
          there->from = owner.from;
          break;
        }
      }
    }
  }
}

double minutes_of(const catalogue::SetKind* kind, const Place& place) {
  double out = kUsualMinutes, in = kUsualMinutes;
  if (kind)
    for (const auto& usual : kind->roles)
      if (std::find(place.roles.begin(), place.roles.end(), usual.role) != place.roles.end()) {
        out = usual.out_minutes.value_or(kUsualMinutes);
        in = usual.in_minutes.value_or(kUsualMinutes);
        break;
      }
  return out + in;
}

bool cured(const Judgement& out, const std::string& code) {
  return std::any_of(
      out.adaptations.begin(), out.adaptations.end(), [&](const ChosenAdaptation& work) {
        return std::find(work.codes.begin(), work.codes.end(), code) != work.codes.end();
      });
}

void count_minutes(const Assembly& set, Judgement& out) {
  bool opened = false;
  for (const auto& place : set.places)
    if (place.changed) out.work_minutes += minutes_of(set.kind, place), opened = true;
  if (opened && set.kind)
    out.work_minutes += set.kind->open_minutes.value_or(0) + set.kind->close_minutes.value_or(0);
  for (const auto& reason : out.reasons)
    if (reason.will && !cured(out, reason.code)) out.work_minutes += reason.work_minutes;
  for (const auto& question : out.questions) out.work_minutes += question.work_minutes;
  double longest_wait = 0;
  for (const auto& caution : out.cautions)
    longest_wait = std::max(longest_wait, caution.waiting_minutes);
  out.waiting_minutes += longest_wait;
  for (const auto& work : out.adaptations) {
    out.work_minutes += work.work_minutes;
    out.waiting_minutes += work.waiting_minutes;
    out.material += work.material;
  }
  for (const auto& setting : out.settings) {
    out.work_minutes += setting.work_minutes;
    out.waiting_minutes += setting.waiting_minutes;
  }
  for (const auto& companion : out.companions)
    if (companion.price) out.material += *companion.price;
}

void list_seats(const Assembly& set, Judgement& out) {
  for (const auto& place : set.places) {
    Seat seat;
    seat.position = place.position;
    seat.roles = place.roles;
    seat.type = place.type ? place.type->reference() : "";
    seat.from = place.changed ? place.from : "host";
    seat.changed = place.changed || place.taken_over;
    seat.lead = place.type && place.type->is_lead();
    seat.was = place.host_lost_it || !place.was ? "" : place.was->reference();
    seat.after = place.after;
    if (!place.empty || place.taken_over) out.seats.push_back(std::move(seat));
  }
}

void decide(const catalogue::Catalogue& known, Judgement& out,
            const std::vector<NoteMatch>& notes) {
  std::stable_sort(out.reasons.begin(), out.reasons.end(), [](const Reason& a, const Reason& b) {
    if (a.before != b.before) return a.before > b.before;
    return a.safety > b.safety;
  });
  out.verdict = Verdict::fits;
  for (const auto& reason : out.reasons)
    if (reason.will) out.verdict = worse(out.verdict, reason.verdict);
  const bool hopeless = out.verdict >= Verdict::does_not_fit;
  out.evidence = evidence_of(known, out.verdict, notes);
  out.chance = hopeless ? 0 : chance_from(out.evidence);
}

void run_rules(Findings& findings, const std::vector<NoteMatch>& notes) {
  judge_unknown_types(findings);
  judge_unrecorded(findings);
  judge_joints(findings, notes);
  judge_loose_ports(findings);
  judge_wrong_sockets(findings);
  judge_lamp_power(findings);
  judge_traits(findings);
  judge_known_bad(findings);
  judge_mounts(findings);
  judge_shapes(findings);
  judge_mains_range(findings);
  judge_two_grounds(findings);
  judge_missing_parts(findings);
  judge_fellows(findings);
  judge_pieces(findings);
  judge_rails(findings);
  judge_orientation(findings, notes);
  judge_light_and_throw(findings);
  judge_settings(findings, notes);
  judge_reachable_settings(findings);
  judge_memories(findings);
  judge_counters(findings);
  judge_capabilities(findings);
  judge_earth_path(findings);
  judge_conductors(findings);
  judge_mains_side(findings);
  judge_distances(findings);
  judge_fuses(findings);
  judge_wires(findings);
  judge_reach(findings);
  judge_swap_notes(findings, notes);
  add_look_here(findings);
  add_cautions(findings);
  choose_adaptations(findings);
}

void say_not_judged(const Assembly& set, Judgement& out, Findings& findings) {
  Reason& reason =
      findings.add("not judged", RuleSort::whole, Verdict::unknown,
                   set.kind->not_judged.empty() ? "Transplants of this kind of set are not judged."
                                                : set.kind->not_judged,
                   set.kind->name);
  reason.source = Source::usual;
  reason.safety = true;
  reason.facts = {{"kind " + set.kind->name, set.kind->where}};
  add_cautions(findings);
  out.verdict = Verdict::unknown;
}

Error unknown_kind(const catalogue::Catalogue& known, const std::string& kind, const Where& where) {
  std::vector<std::string> names;
  for (const auto& family : known.families())
    for (const auto& one : family.set_kinds) names.push_back(one.name);
  const std::string near = nearest_word(kind, names);
  return {ErrorKind::not_found,
          fmt::format("{}: no kind of set is called \"{}\"; {}", where.file, kind,
                      near.empty() ? "write model = or kind = of a recorded one."
                                   : fmt::format("did you mean \"{}\"?", near))};
}

}  // namespace

Result<Host> host_of(const catalogue::Catalogue& known, const std::string& model,
                     const std::string& kind, const Where& where) {
  Host host;
  if (!model.empty()) {
    host.model = known.model(model);
    if (!host.model) {
      std::vector<std::string> names;
      for (const auto* one : known.models()) names.push_back(one->name);
      const std::string near = nearest_word(model, names);
      return Error{ErrorKind::not_found,
                   fmt::format("{}: the model \"{}\" is not in the catalogue{}", where.file, model,
                               near.empty() ? "; load its family file, or write kind = instead."
                                            : fmt::format("; did you mean \"{}\"?", near))};
    }
  }
  const std::string kind_name = host.model ? host.model->kind : kind;
  host.kind = known.set_kind(kind_name);
  if (!host.model && !host.kind) return unknown_kind(known, kind_name, where);
  return host;
}

Result<Judgement> judge_one(const catalogue::Catalogue& known,
                            const catalogue::RebuildText& rebuild, const Host& host,
                            const Conditions& conditions) {
  auto assembled = assemble(known, rebuild, host.model, host.kind, host.variant);
  if (!assembled) return assembled.error();
  Assembly& set = assembled.value();
  bring_fellows(known, set);
  Judgement out;
  out.model = host.model ? host.model->name : "";
  out.variant = host.variant ? host.variant->name : "";
  out.kind = host.kind ? host.kind->name : "";
  Findings findings(known, conditions, set, out);
  list_seats(set, out);
  if (host.kind && !host.kind->judged) {
    say_not_judged(set, out, findings);
    return out;
  }
  findings.joints = derive_joints(set);
  const auto notes = notes_about(known, set);
  run_rules(findings, notes);
  count_minutes(set, out);
  decide(known, out, notes);
  return out;
}

}  // namespace benchgraft::fit
