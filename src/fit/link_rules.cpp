// Pair rules across a joint: mating first, then contact by contact, then what would make it right.
#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/joint_case.hpp"
#include "fit/link_text.hpp"

namespace benchgraft::fit {
namespace {

Verdict judge_joint(Findings& findings, const Joint& joint, const std::vector<NoteMatch>& notes) {
  if (kept_by_own_lead(joint)) return Verdict::fits;
  JointCase one(findings, joint, notes);
  say_note_against_record(one);
  if (one.mating.mates == Tri::no) {
    judge_apart(one);
    return one.worst;
  }
  const auto found = judge_faces(one);
  ask_for_missing(one, found);
  say_clashes(one, found);
  if (one.mating.mates == Tri::unknown) ask_for_mating(one);
  if (!one.repairable.empty() && one.mating.mates == Tri::yes) offer_repin(one);
  judge_reversal(one);
  heed_plug_note(one);
  return one.worst;
}

bool touched(const Joint& joint) {
  return differs(*joint.a) || differs(*joint.b) || joint.a->altered || joint.b->altered ||
         (joint.lead && (differs(*joint.lead) || joint.lead->altered));
}

bool factory_proven(const catalogue::Catalogue& known, const Joint& joint) {
  if (!built_together(known, *joint.a, *joint.b)) return false;
  return !joint.lead || built_together(known, *joint.a, *joint.lead);
}

// A factory put them together, yet by the recorded contacts they would burn: one record is wrong.
Verdict check_proof(Findings& findings, const Joint& joint, const std::vector<NoteMatch>& notes) {
  if (joint.a->same_make && joint.b->same_make) return Verdict::fits;
  if (!differs(*joint.a) && !differs(*joint.b)) return Verdict::fits;
  JointCase one(findings, joint, notes);
  std::vector<ContactFinding> found;
  for (const auto& face : one.crossing.faces) judge_contacts(face.a, face.b, one.around, found);
  found.erase(std::remove_if(found.begin(), found.end(),
                             [](const auto& f) { return f.verdict != Verdict::destroys; }),
              found.end());
  if (found.empty() || one.mating.mates == Tri::no) return Verdict::fits;
  std::stable_sort(found.begin(), found.end(), [](const auto& x, const auto& y) {
    return x.safety != y.safety ? x.safety > y.safety : x.rule < y.rule;
  });
  Reason& reason = one.say(
      "records disagree", Verdict::unknown,
      fmt::format("A factory built {} together, yet by the recorded contacts {}. One record is "
                  "wrong: measure before power.",
                  one.ends(), danger_words(found.front().rule)),
      "factory");
  reason.safety = found.front().safety;
  one.add_facts(reason, found);
  findings.ask(fmt::format("Which contact of {} is recorded wrong?", one.ends()),
               joint.a->type->reference(), fmt::format("port {}", joint.port_a->name),
               joint.a->roles.front(), true);
  return Verdict::unknown;
}

void ask_which_socket(Findings& findings, const Ambiguous& unclear) {
  const std::string called = port_called(*unclear.place, *unclear.port);
  findings.unknown(
      RuleSort::pair,
      fmt::format("{} could go to more than one socket: {}. The records do not say which.",
                  capitalised(called), listed(unclear.could_be)),
      fmt::format("Which of {} is {} meant for?", listed(unclear.could_be), called),
      unclear.place->type->reference(), fmt::format("port {}: carries", unclear.port->name),
      unclear.place->roles.front());
}

}  // namespace

void judge_joints(Findings& findings, const std::vector<NoteMatch>& notes) {
  for (const auto& joint : findings.joints.joined) {
    Link link{joint.a->roles.front(),
              joint.a->type->reference(),
              joint.port_a->name,
              joint.b->roles.front(),
              joint.b->type->reference(),
              joint.port_b->name,
              joint.lead ? joint.lead->type->reference() : "",
              joint.port_a->carries,
              Verdict::fits,
              false};
    if (touched(joint)) {
      link.touched = true;
      link.verdict = factory_proven(findings.known, joint) ? check_proof(findings, joint, notes)
                                                           : judge_joint(findings, joint, notes);
    }
    findings.out.links.push_back(std::move(link));
  }
  for (const auto& unclear : findings.joints.ambiguous)
    if (differs(*unclear.place) || differs(*unclear.peer)) ask_which_socket(findings, unclear);
}

}  // namespace benchgraft::fit
