// Contacts that disagree, plugs that can be turned round, and what a swap note says about the two
// ports.
#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/joint_case.hpp"
#include "fit/link_text.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::PlugResult;

// Wrong order of right contacts: moving contacts can make it good.
bool is_order_clash(ContactRule rule) {
  return rule == ContactRule::class_clash || rule == ContactRule::crossed_signals ||
         rule == ContactRule::direction_clash || rule == ContactRule::nothing_feeds_it ||
         rule == ContactRule::missing_reply || rule == ContactRule::over_voltage ||
         rule == ContactRule::rail_low || rule == ContactRule::level_clash ||
         rule == ContactRule::protocol_clash || rule == ContactRule::drive_clash ||
         rule == ContactRule::no_return || rule == ContactRule::empty_contact;
}

// A swap that worked against pins that say it cannot: both are shown, neither is dropped.
void say_contradiction(JointCase& one, ContactRule rule, const std::vector<ContactFinding>& group,
                       Verdict derived) {
  // A danger on record is not voted away: until one of the two is put right nobody knows.
  const Verdict counts = derived == Verdict::destroys ? Verdict::unknown : Verdict::fits_with_work;
  Reason& reason = one.say(
      "records disagree", counts,
      fmt::format(
          "By the recorded contacts it should not work, yet swap note \"{}\" went straight in "
          "and worked. Look at both before power: {}",
          one.word->note->name, says(rule, one.joint, group)),
      rule_name(rule));
  reason.before = derived;
  reason.source = Source::verified;
  one.add_facts(reason, group);
  reason.facts.push_back(fact_of(*one.word->note));
  one.findings.ask(
      fmt::format("Which is right for {}: the recorded pins or the swap note?", one.ends()),
      one.joint.a->type->reference(), fmt::format("port {}", one.joint.port_a->name),
      one.joint.a->roles.front());
}

// The note tells itself what was done about the wrong order before the plug went in.
bool note_explains(const JointCase& one, ContactRule rule) {
  if (!one.word || !is_order_clash(rule)) return false;
  constexpr ContactRule kLast = ContactRule::not_recorded;
  for (const auto& done : one.word->note->did)
    for (int r = 0; r <= static_cast<int>(kLast); ++r)
      if (is_order_clash(static_cast<ContactRule>(r)) &&
          done.cures == rule_name(static_cast<ContactRule>(r)))
        return true;
  return false;
}

void say_rule(JointCase& one, ContactRule rule, const std::vector<ContactFinding>& group) {
  Verdict verdict = Verdict::fits;
  bool safety = false;
  for (const auto& f : group) {
    verdict = worse(verdict, f.verdict);
    safety = safety || f.safety;
  }
  if (!safety && one.settled_by_note(false) && !note_explains(one, rule))
    return say_contradiction(one, rule, group, verdict);
  const bool unsure = one.mating.mates == Tri::unknown && verdict > Verdict::unknown;
  Reason& reason =
      one.say(rule_name(rule), unsure ? Verdict::unknown : verdict, says(rule, one.joint, group));
  reason.safety = safety;
  if (unsure) reason.says = "If it goes in: " + reason.says;
  one.add_facts(reason, group);
  if (is_order_clash(rule)) one.repairable.push_back(reason.code);
  if (rule == ContactRule::empty_contact)
    one.findings.ask(
        fmt::format("Is the empty contact of {} really not connected on this revision?",
                    one.ends()),
        one.joint.a->type->reference(), fmt::format("port {}", one.joint.port_a->name),
        one.joint.a->roles.front());
}

}  // namespace

void say_clashes(JointCase& one, const std::vector<ContactFinding>& found) {
  std::map<ContactRule, std::vector<ContactFinding>> by_rule;
  for (const auto& f : found)
    if (f.rule != ContactRule::not_recorded) by_rule[f.rule].push_back(f);
  for (const auto& [rule, group] : by_rule) say_rule(one, rule, group);
}

void judge_reversal(JointCase& one) {
  const Joint& joint = one.joint;
  if (joint.through_lead() || one.mating.mates == Tri::no || one.mating.reversible == Tri::no)
    return;
  if (!one.crossing.complete || ways_of(*joint.port_a) < 2) return;
  std::vector<ContactFinding> found;
  for (const auto& face : facing_contacts(*joint.port_a, *joint.port_b, !one.crossing.turned_round))
    judge_contacts(face.a, face.b, one.around, found);
  found.erase(std::remove_if(found.begin(), found.end(),
                             [](const auto& f) { return f.verdict != Verdict::destroys; }),
              found.end());
  const auto worst = std::max_element(found.begin(), found.end(), [](const auto& x, const auto& y) {
    return x.safety != y.safety ? x.safety < y.safety : x.rule > y.rule;
  });
  if (worst == found.end()) return;
  Reason& reason = one.say(
      "reversed plug", Verdict::fits_with_work,
      fmt::format("{} {} go in the wrong way round, and then {}. Mark contact 1 on both before "
                  "it is unplugged.",
                  capitalised(port_called(*joint.a, *joint.port_a)),
                  one.mating.reversible == Tri::yes ? "can" : "may (no key is recorded)",
                  danger_words(worst->rule)));
  reason.work_minutes = 1;
  reason.safety = worst->safety;
  reason.not_before = "not before contact 1 is marked on plug and socket";
  one.add_facts(reason, {*worst});
}

void say_note_against_record(JointCase& one) {
  if (!one.word) return;
  const auto& note = *one.word->note;
  const bool against_record = one.on_record != Tri::unknown && one.on_record != one.mating.mates;
  if (against_record) {
    Reason& reason = one.say(
        "records disagree", Verdict::fits_with_work,
        fmt::format("By their record {} {}; swap note \"{}\" says otherwise. Look at both plugs "
                    "before anything is joined.",
                    one.ends(), one.on_record == Tri::yes ? "go together" : "do not go together",
                    note.name),
        "mating");
    reason.source = Source::verified;
    reason.facts = {fact_of(note),
                    {"the connectors on record", one.joint.port_a->where},
                    {"the connectors on record", one.joint.port_b->where}};
    one.findings.ask(
        fmt::format("Do {} really go together?", one.ends()), one.joint.a->type->reference(),
        fmt::format("port {}: connector", one.joint.port_a->name), one.joint.a->roles.front());
  }
  for (const auto* other : one.word->against) {
    Reason& reason = one.say("records disagree", Verdict::fits_with_work,
                             fmt::format("Swap notes \"{}\" and \"{}\" do not agree about {}. Look "
                                         "at both plugs before anything is joined.",
                                         note.name, other->name, one.ends()),
                             "notes|" + other->name);
    reason.source = Source::verified;
    reason.facts = {fact_of(note), fact_of(*other)};
  }
}

void heed_plug_note(JointCase& one) {
  if (!one.word) return;
  const auto& note = *one.word->note;
  if (one.word->result == PlugResult::would_but_must_not) {
    for (auto& reason : one.findings.out.reasons)
      if (std::find(one.repairable.begin(), one.repairable.end(), reason.code) !=
          one.repairable.end()) {
        reason.facts.push_back(fact_of(note));
        reason.says += fmt::format(" Swap note \"{}\" warns of it too.", note.name);
      }
    if (one.worst >= Verdict::does_not_fit) return;  // the contacts explain it
    Reason& reason = one.say(
        "swap note", Verdict::destroys,
        fmt::format("{} must not be joined although they mate: swap note \"{}\" says so, and the "
                    "recorded contacts do not explain it yet.",
                    capitalised(one.ends()), note.name));
    reason.source = Source::verified;
    reason.facts = {fact_of(note)};
    reason.would_change = "Contacts recorded so that they explain the note would change this.";
  } else if (one.settled) {
    Reason& reason = one.say("swap note", Verdict::fits,
                             fmt::format("{} went straight in and worked in swap note \"{}\"; not "
                                         "all contacts are recorded.",
                                         capitalised(one.ends()), note.name));
    reason.source = Source::verified;
    reason.facts = {fact_of(note)};
  }
}

}  // namespace benchgraft::fit
