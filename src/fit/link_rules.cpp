// Pair rules across a joint: mating first, then contact by contact, then what would make it right.
#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/joint_case.hpp"

namespace benchgraft::fit {
namespace {

Verdict judge_joint(Findings& findings, const Joint& joint, const std::vector<NoteMatch>& notes) {
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
    if (touched(joint) && !factory_proven(findings.known, joint)) {
      link.touched = true;
      link.verdict = judge_joint(findings, joint, notes);
    }
    findings.out.links.push_back(std::move(link));
  }
  for (const auto& unclear : findings.joints.ambiguous)
    if (differs(*unclear.place) || differs(*unclear.peer)) ask_which_socket(findings, unclear);
}

}  // namespace benchgraft::fit
