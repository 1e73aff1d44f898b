// One joint while it is judged: what faces what, what was found, what may be said about it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "fit/contact_rules.hpp"
#include "fit/repin.hpp"
#include "fit/rules.hpp"

namespace benchgraft::fit {

/// Shared by the steps of judging a joint; port_a is the plug wherever one of the two is a plug.
struct JointCase {
  JointCase(Findings& findings, const Joint& joint, const std::vector<NoteMatch>& notes);

  Findings& findings;
  const Joint& joint;
  Crossing crossing;
  Surroundings around;
  std::optional<PlugWord> word;  ///< what a swap note says about these two ports
  Mating mating;
  Tri on_record = Tri::unknown;  ///< do the connectors mate by themselves, whatever a note says
  Verdict worst = Verdict::fits;
  std::vector<std::string> repairable;  ///< codes of findings that moving contacts can make good
  bool settled = false;                 ///< a swap note stood in for facts nobody recorded

  /// Adds a pair reason about this joint; `more` keeps codes of one rule apart.
  Reason& say(const std::string& rule, Verdict verdict, const std::string& text,
              const std::string& more = "");
  /// Adds "not recorded" with its question, unless a swap note that worked stands in for it.
  void unknown(const Place& place, const catalogue::Port& port, const std::string& what,
               bool safety);
  void add_facts(Reason& reason, const std::vector<ContactFinding>& group) const;
  [[nodiscard]] std::string ends() const;
  /// True when a note says it went straight in and worked; never for a safety fact.
  [[nodiscard]] bool settled_by_note(bool safety) const;
};

/// True for two bare sockets that the host's own loose lead joined before, when both have the
/// connector and the contacts they had: whichever way its wires run, they run right.
bool kept_by_own_lead(const Joint& joint);

// The steps, in the order they are taken.
std::vector<ContactFinding> judge_faces(JointCase& one);  // joint_unknown.cpp
void ask_for_missing(JointCase& one,
                     const std::vector<ContactFinding>& found);              // joint_unknown.cpp
void ask_for_mating(JointCase& one);                                         // joint_unknown.cpp
void say_clashes(JointCase& one, const std::vector<ContactFinding>& found);  // joint_clashes.cpp
void judge_reversal(JointCase& one);                                         // joint_clashes.cpp
void say_note_against_record(JointCase& one);                                // joint_clashes.cpp
void heed_plug_note(JointCase& one);                                         // joint_clashes.cpp
void judge_apart(JointCase& one);                                            // joint_apart.cpp
void offer_repin(JointCase& one);                                            // joint_apart.cpp

}  // namespace benchgraft::fit
