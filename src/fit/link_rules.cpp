// Pair rules across a joint: mating first, then contact by contact, then what would make it right.
#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/conductors.hpp"
#include "fit/link_text.hpp"
#include "fit/repin.hpp"
#include "fit/rules.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::PlugResult;
using catalogue::Port;

// Trade figure: 30 minutes for a 10-way plug, so 3 a contact; 5 to find and mark (common practice,
// no source).
constexpr double kMinutesPerMove = 3, kMinutesToMark = 5, kMinutesForCrossover = 10;

bool measured(const Port& port) {
  return port.known == Source::measured || port.known == Source::verified;
}

bool lights(const Place& place) {
  return place.fills("lamp driver") || place.fills("light driver");
}

Source weakest(const Joint& joint) {
  if (joint.port_a->known == Source::assumed || joint.port_b->known == Source::assumed)
    return Source::assumed;
  return measured(*joint.port_a) && measured(*joint.port_b) ? Source::measured : Source::derived;
}

// Everything one joint needs while it is judged.
class JointJudge {
 public:
  JointJudge(Findings& findings, const Joint& joint, const std::vector<NoteMatch>& notes)
      : findings_(findings),
        joint_(joint),
        crossing_(contacts_across(joint)),
        around_{measured(*joint.port_a), measured(*joint.port_b), lights(*joint.a),
                lights(*joint.b),        lights(*joint.a),        lights(*joint.b)},
        word_(plug_word(notes, *joint.a, *joint.port_a, *joint.b, *joint.port_b)) {}

  Verdict run() {
    mating_ = mating();
    if (mating_.mates == Tri::no) return judge_apart();
    std::vector<ContactFinding> found;
    for (const auto& face : crossing_.faces) judge_contacts(face.a, face.b, around_, found);
    ask_for_missing(found);
    say_clashes(found);
    if (mating_.mates == Tri::unknown) ask_for_mating();
    if (!repairable_codes_.empty() && mating_.mates == Tri::yes) offer_repin();
    judge_reversal();
    heed_note();
    return worst_;
  }

 private:
  Mating mating() const {
    Mating answer = joint_.through_lead()
                        ? through_lead()
                        : mate(joint_.port_a->connector, joint_.port_b->connector);
    if (!word_) return answer;
    answer.mates = tri(word_->result != PlugResult::did_not);
    if (answer.mates == Tri::yes) answer.missing.clear();
    if (answer.mates == Tri::no)
      answer.because = fmt::format("swap note \"{}\" says so", word_->note->name);
    return answer;
  }

  Mating through_lead() const {
    Mating a = mate(joint_.port_a->connector, joint_.end_a->connector);
    const Mating b = mate(joint_.end_b->connector, joint_.port_b->connector);
    a.mates = both(a.mates, b.mates);
    if (a.because.empty()) a.because = b.because;
    a.missing.insert(a.missing.end(), b.missing.begin(), b.missing.end());
    a.reversible = either(a.reversible, b.reversible);
    return a;
  }

  std::string subject() const {
    return fmt::format("{}:{}>{}:{}", joint_.a->type->reference(), joint_.port_a->name,
                       joint_.b->type->reference(), joint_.port_b->name);
  }

  Reason& say(const std::string& rule, Verdict verdict, const std::string& text,
              const std::string& more = "") {
    Reason& reason = findings_.add(rule, RuleSort::pair, verdict, text, subject() + more);
    reason.source = weakest(joint_);
    reason.types = {joint_.a->type->reference(), joint_.b->type->reference()};
    reason.ports = {joint_.port_a->name, joint_.port_b->name};
    reason.roles = {joint_.a->roles.front(), joint_.b->roles.front()};
    worst_ = worse(worst_, verdict);
    return reason;
  }

  std::string ends() const {
    return fmt::format("{} and {}", port_called(*joint_.a, *joint_.port_a),
                       port_called(*joint_.b, *joint_.port_b));
  }

  // The connectors do not go together: can a crossover lead be made?
  Verdict judge_apart() {
    Reason& reason =
        say("does not mate", Verdict::does_not_fit,
            fmt::format("{} do not go together: {}.", capitalised(ends()), mating_.because));
    reason.facts = {
        fact_of(*joint_.a->type, fmt::format("{}, {}", joint_.port_a->name, mating_.because)),
        fact_of(*joint_.b->type, joint_.port_b->name)};
    reason.facts[0].where = joint_.port_a->where;
    reason.facts[1].where = joint_.port_b->where;
    reason.would_change =
        "Another plug, or another record of these two connectors, would change this.";
    const std::string code = reason.code;
    const auto wires = crossover_wires(*joint_.port_a, *joint_.port_b, around_);
    if (!wires) {
      findings_.out.reasons.back().says += apart_remedy();
      return worst_;
    }
    Repin lead = repin_from(*wires, code);
    lead.crossover = true;
    findings_.out.repins.push_back(lead);
    offer(fmt::format("make a crossover lead {} to {}", joint_.port_a->name, joint_.port_b->name),
          wires->moves, kMinutesForCrossover, {code},
          "Wire contact {} of one end to contact {} of the other ({}).");
    return worst_;
  }

  std::string apart_remedy() const {
    const auto excluded = [](const Port& port) {
      return port.contacts &&
             std::any_of(port.contacts->begin(), port.contacts->end(), is_excluded_circuit);
    };
    if (excluded(*joint_.port_a) || excluded(*joint_.port_b))
      return " This circuit only moves as a whole original lead: none is made or altered.";
    if (!joint_.port_a->contacts || !joint_.port_b->contacts)
      return " Its contacts are not recorded, so no lead can be worked out.";
    return " The contacts do not pair up, so a lead would not help.";
  }

  void ask_for_missing(const std::vector<ContactFinding>& found) {
    ask_whole_port(*joint_.a, *joint_.port_a);
    ask_whole_port(*joint_.b, *joint_.port_b);
    if (joint_.through_lead() && !crossing_.complete && joint_.port_a->contacts &&
        joint_.port_b->contacts)
      note_unknown(*joint_.lead, *joint_.end_a, "the wires of the lead", false);
    std::map<const catalogue::Contact*, std::uint32_t> a, b;
    bool hot_a = false, hot_b = false;
    for (const auto& f : found) {
      if (f.rule != ContactRule::not_recorded) continue;
      if (f.missing_a) a[f.a ? f.a : f.b] |= f.missing_a, hot_a = hot_a || f.safety;
      if (f.missing_b) b[f.b ? f.b : f.a] |= f.missing_b, hot_b = hot_b || f.safety;
    }
    ask_contacts(*joint_.a, *joint_.port_a, a, hot_a);
    ask_contacts(*joint_.b, *joint_.port_b, b, hot_b);
    ask_unlisted();
  }

  void ask_whole_port(const Place& place, const Port& port) {
    if (!port.contacts) note_unknown(place, port, "what runs on each contact", true);
  }

  // Ways that neither side lists.
  void ask_unlisted() {
    if (!crossing_.complete || joint_.through_lead()) return;
    const int ways = std::max(ways_of(*joint_.port_a), ways_of(*joint_.port_b));
    std::vector<std::string> open;
    for (int n = 1; n <= ways; ++n) {
      const auto is_n = [&](const catalogue::Contact& c) { return c.number == std::to_string(n); };
      if (std::none_of(joint_.port_a->contacts->begin(), joint_.port_a->contacts->end(), is_n) &&
          std::none_of(joint_.port_b->contacts->begin(), joint_.port_b->contacts->end(), is_n))
        open.push_back(std::to_string(n));
    }
    if (!open.empty()) note_unknown(*joint_.a, *joint_.port_a, "contact " + listed(open), false);
  }

  void ask_contacts(const Place& place, const Port& port,
                    const std::map<const catalogue::Contact*, std::uint32_t>& missing, bool hot) {
    if (missing.empty()) return;
    std::vector<std::string> words;
    for (const auto& contact : in_order(missing))
      words.push_back(
          fmt::format("{}: {}", contact_called(*contact), missing_words(missing.at(contact))));
    std::string text;
    for (const auto& word : words) text += (text.empty() ? "" : "; ") + word;
    note_unknown(place, port, text, hot);
  }

  static std::vector<const catalogue::Contact*> in_order(
      const std::map<const catalogue::Contact*, std::uint32_t>& missing) {
    std::vector<const catalogue::Contact*> contacts;
    for (const auto& [contact, bits] : missing) contacts.push_back(contact);
    std::sort(contacts.begin(), contacts.end(), [](const auto* x, const auto* y) {
      return x->number.size() != y->number.size() ? x->number.size() < y->number.size()
                                                  : x->number < y->number;
    });
    return contacts;
  }

  // A note that it went straight in and worked stands in for unknown harmless facts, never for
  // safety.
  bool settled_by_note(bool safety) const {
    const bool worked = word_ && word_->result == PlugResult::straight_in &&
                        (word_->note->result == catalogue::SwapResult::works ||
                         word_->note->result == catalogue::SwapResult::works_with);
    return worked && !safety;
  }

  void note_unknown(const Place& place, const Port& port, const std::string& what, bool safety) {
    if (settled_by_note(safety)) {
      settled_ = true;
      return;
    }
    const std::string called = port_called(place, port);
    Reason& reason = findings_.unknown(
        RuleSort::pair,
        fmt::format("Not recorded for {}: {}. Settle it before it is joined.", called, what),
        fmt::format("Find out for {}: {}.", called, what), place.type->reference(),
        fmt::format("port {}: {}", port.name, what), place.roles.front(), safety);
    reason.facts = {
        {fmt::format("{} {} as recorded", place.type->reference(), port.name), port.where}};
    reason.types = {joint_.a->type->reference(), joint_.b->type->reference()};
    reason.ports = {joint_.port_a->name, joint_.port_b->name};
    worst_ = worse(worst_, Verdict::unknown);
  }

  void ask_for_mating() {
    std::vector<std::string> keys = mating_.missing;
    std::sort(keys.begin(), keys.end());
    keys.erase(std::unique(keys.begin(), keys.end()), keys.end());
    note_unknown(*joint_.a, *joint_.port_a,
                 fmt::format("whether it goes into {} ({} of the connectors)",
                             port_called(*joint_.b, *joint_.port_b), listed(keys)),
                 false);
  }

  void say_clashes(const std::vector<ContactFinding>& found) {
    std::map<ContactRule, std::vector<ContactFinding>> by_rule;
    for (const auto& f : found)
      if (f.rule != ContactRule::not_recorded) by_rule[f.rule].push_back(f);
    for (const auto& [rule, group] : by_rule) say_rule(rule, group);
  }

  void say_rule(ContactRule rule, const std::vector<ContactFinding>& group) {
    Verdict verdict = Verdict::fits;
    bool safety = false;
    for (const auto& f : group) verdict = worse(verdict, f.verdict), safety = safety || f.safety;
    const bool unsure = mating_.mates == Tri::unknown && verdict > Verdict::unknown;
    if (!safety && settled_by_note(false)) return say_contradiction(rule, group, verdict);
    Reason& reason =
        say(rule_name(rule), unsure ? Verdict::unknown : verdict, says(rule, joint_, group));
    reason.safety = safety;
    if (unsure) reason.says = "If it goes in: " + reason.says;
    add_facts(reason, group);
    if (rule == ContactRule::empty_contact)
      findings_.ask(
          fmt::format("Is the empty contact of {} really not connected on this revision?", ends()),
          joint_.a->type->reference(), fmt::format("port {}", joint_.port_a->name),
          joint_.a->roles.front());
    if (is_order_clash(rule)) repairable_codes_.push_back(reason.code);
  }

  void say_contradiction(ContactRule rule, const std::vector<ContactFinding>& group,
                         Verdict derived) {
    // A danger on record is not voted away: until one of the two is put right nobody knows.
    const Verdict counts =
        derived == Verdict::destroys ? Verdict::unknown : Verdict::fits_with_work;
    Reason& reason =
        say("records disagree", counts,
            fmt::format(
                "The pins say \"{}\" ({}), yet swap note \"{}\" went straight in and worked. Look "
                "at both before power: {}",
                rule_name(rule), to_text(derived), word_->note->name, says(rule, joint_, group)),
            rule_name(rule));
    reason.source = Source::verified;
    add_facts(reason, group);
    reason.facts.push_back(
        {fmt::format("swap note \"{}\"", word_->note->name), word_->note->where});
    findings_.ask(fmt::format("Which is right for {}: the recorded pins or the swap note?", ends()),
                  joint_.a->type->reference(), fmt::format("port {}", joint_.port_a->name),
                  joint_.a->roles.front());
  }

  // Wrong order of right contacts: moving contacts can make it good.
  static bool is_order_clash(ContactRule rule) {
    return rule == ContactRule::class_clash || rule == ContactRule::crossed_signals ||
           rule == ContactRule::direction_clash || rule == ContactRule::nothing_feeds_it ||
           rule == ContactRule::missing_reply || rule == ContactRule::over_voltage ||
           rule == ContactRule::rail_low || rule == ContactRule::level_clash;
  }

  void add_facts(Reason& reason, const std::vector<ContactFinding>& group) {
    for (const auto& f : group) {
      if (f.a)
        reason.facts.push_back(fact_of(*joint_.a, *joint_.port_a, *f.a)),
            reason.signals.push_back(f.a->signal);
      if (f.b)
        reason.facts.push_back(fact_of(*joint_.b, *joint_.port_b, *f.b)),
            reason.signals.push_back(f.b->signal);
    }
    reason.would_change = fmt::format(
        "Another record of these contacts, or contacts moved in the plug, would change this.");
  }

  Repin repin_from(const Rearrangement& plan, const std::string& code) const {
    Repin repin;
    repin.part = joint_.a->type->reference();
    repin.port = joint_.port_a->name;
    repin.into = joint_.b->type->reference();
    repin.socket = joint_.port_b->name;
    repin.moves = plan.moves;
    repin.conductor = conductor_words(plan.most_amps);
    repin.code = code;
    return repin;
  }

  void offer_repin() {
    const bool on_a_plug = joint_.port_a->connector.half == catalogue::Half::plug;
    if (!on_a_plug && !joint_.through_lead()) return;
    const auto plan = fewest_moves(crossing_.faces, around_);
    if (!plan || plan->moves.empty()) return;
    findings_.out.repins.push_back(repin_from(*plan, repairable_codes_.front()));
    const Repin& repin = findings_.out.repins.back();
    const std::string where = joint_.through_lead()
                                  ? fmt::format("the lead {}", joint_.lead->type->reference())
                                  : fmt::format("the {} plug of {}", repin.port, repin.part);
    offer(fmt::format("re-pin {}", where), plan->moves, kMinutesToMark, repairable_codes_,
          "Move contact {} to place {} ({}).");
  }

  void offer(const std::string& name, const std::vector<Move>& moves, double minutes,
             const std::vector<std::string>& codes, const char* step) {
    OfferedWork offered;
    offered.work.name = name;
    offered.work.codes = codes;
    offered.work.steps.push_back("Photograph and mark the plug before anything is pulled.");
    for (const auto& move : moves)
      offered.work.steps.push_back(fmt::format(fmt::runtime(step), move.from, move.to,
                                               move.signal.empty() ? "as recorded" : move.signal));
    offered.work.steps.push_back("Check every contact with the meter before it is plugged in.");
    offered.work.work_minutes = minutes + kMinutesPerMove * static_cast<double>(moves.size());
    findings_.offered.push_back(std::move(offered));
  }

  // Nothing stops the plug from going in the wrong way round: is that worse?
  void judge_reversal() {
    if (joint_.through_lead() || mating_.mates != Tri::yes || mating_.reversible == Tri::no) return;
    if (!crossing_.complete || ways_of(*joint_.port_a) < 2) return;
    std::vector<ContactFinding> found;
    for (const auto& face :
         facing_contacts(*joint_.port_a, *joint_.port_b, !crossing_.turned_round))
      judge_contacts(face.a, face.b, around_, found);
    found.erase(std::remove_if(found.begin(), found.end(),
                               [](const auto& f) { return f.verdict != Verdict::destroys; }),
                found.end());
    if (found.empty()) return;
    const bool sure = mating_.reversible == Tri::yes;
    Reason& reason =
        say("reversed plug", Verdict::fits_with_work,
            fmt::format(
                "{} {} go in the wrong way round, and then {}. Mark contact 1 on both before it "
                "is unplugged.",
                capitalised(port_called(*joint_.a, *joint_.port_a)),
                sure ? "can" : "may (no key is recorded)", rule_name(found.front().rule)));
    reason.work_minutes = 1;
    reason.safety = found.front().safety;
    reason.not_before = "not before contact 1 is marked on plug and socket";
    add_facts(reason, {found.front()});
  }

  void heed_note() {
    if (!word_) return;
    const Fact fact{fmt::format("swap note \"{}\"", word_->note->name), word_->note->where};
    if (word_->result == PlugResult::would_but_must_not) {
      for (auto& reason : findings_.out.reasons)
        if (std::find(repairable_codes_.begin(), repairable_codes_.end(), reason.code) !=
            repairable_codes_.end())
          reason.facts.push_back(fact);
      if (worst_ == Verdict::destroys) return;
      Reason& reason = say(
          "swap note", Verdict::destroys,
          fmt::format("{} must not be joined although they mate: swap note \"{}\" says so, and the "
                      "recorded contacts do not explain it yet.",
                      capitalised(ends()), word_->note->name));
      reason.source = Source::verified;
      reason.facts = {fact};
      reason.would_change = "Contacts recorded so that they explain the note would change this.";
    } else if (settled_) {
      Reason& reason = say(
          "swap note", Verdict::fits,
          fmt::format("{} went straight in and worked in swap note \"{}\"; not all contacts are "
                      "recorded.",
                      capitalised(ends()), word_->note->name));
      reason.source = Source::verified;
      reason.facts = {fact};
    }
  }

  Findings& findings_;
  const Joint& joint_;
  Crossing crossing_;
  Surroundings around_;
  std::optional<PlugWord> word_;
  Mating mating_;
  Verdict worst_ = Verdict::fits;
  std::vector<std::string> repairable_codes_;
  bool settled_ = false;
};

bool touched(const Joint& joint) {
  return differs(*joint.a) || differs(*joint.b) || joint.a->altered || joint.b->altered ||
         (joint.lead && (differs(*joint.lead) || joint.lead->altered));
}

bool factory_proven(const catalogue::Catalogue& known, const Joint& joint) {
  if (!built_together(known, *joint.a, *joint.b)) return false;
  return !joint.lead || built_together(known, *joint.a, *joint.lead);
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
      link.verdict = JointJudge(findings, joint, notes).run();
    }
    findings.out.links.push_back(std::move(link));
  }
  for (const auto& unclear : findings.joints.ambiguous) {
    if (!differs(*unclear.place)) continue;
    findings.unknown(
        RuleSort::pair,
        fmt::format("{} could go to more than one socket: {}. The records do not say which.",
                    capitalised(port_called(*unclear.place, *unclear.port)),
                    listed(unclear.could_be)),
        fmt::format("Which of {} is {} meant for?", listed(unclear.could_be),
                    port_called(*unclear.place, *unclear.port)),
        unclear.place->type->reference(), fmt::format("port {}: carries", unclear.port->name),
        unclear.place->roles.front());
  }
}

}  // namespace benchgraft::fit
