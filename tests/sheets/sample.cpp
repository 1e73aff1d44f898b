#include "sheets/sample.hpp"

namespace benchgraft::sheets {
namespace {

using fit::Verdict;

fit::Reason reason(const std::string& code, const std::string& rule, Verdict before, Verdict after,
                   const std::string& says) {
  fit::Reason made;
  made.code = code;
  made.rule = rule;
  made.sort = fit::RuleSort::pair;
  made.before = before;
  made.verdict = after;
  made.says = says;
  return made;
}

void add_reasons(fit::Judgement& judged) {
  auto danger = reason("D4NG", "crossed contacts", Verdict::destroys, Verdict::fits_with_work,
                       "The CTL plug of VE-9 goes into CTL of KD-2 and puts 5 V on an output");
  danger.facts = {{"VE-9 CTL, contact 1, 5 V", {"valmont.toml", 31}},
                  {"KD-2 CTL, contact 1, output", {"kestrel.toml", 12}}};
  danger.source = Source::measured;
  danger.safety = true;
  danger.not_before = "Not before this is done: re-pin the CTL plug";
  danger.would_change = "Another record of contact 1 would change this.";
  danger.roles = {"light", "lamp driver"};
  danger.types = {"VE-9", "KD-2"};
  danger.ports = {"CTL", "CTL"};
  auto work = reason("W2RK", "lead reaches fan", Verdict::fits_with_work, Verdict::fits_with_work,
                     "The CTL lead is 640 mm long and reaches the fan");
  work.not_before = "not before the lead is tied back";
  auto may =
      reason("MAY2", "usual", Verdict::unknown, Verdict::unknown, "The foam may be left on it");
  may.will = false;
  auto good =
      reason("G22D", "light", Verdict::fits, Verdict::fits, "The picture is 0.8 times as bright");
  auto asked = reason("ASK3", "not recorded", Verdict::unknown, Verdict::unknown,
                      "Contact 5 of KD-2 is not recorded");
  judged.reasons = {danger, asked, work, may, good};
}

void add_consequences(fit::Judgement& judged) {
  fit::Companion shield{
      "light shield", "piece", "the old engine", "it sits on the old part", "light", {}, {},
      "SH2D"};
  fit::Companion lamp{"FL-9", "part",   "buy",       "it follows VE-9",
                      "lamp", {"FL-9"}, Money{6500}, "LMP2"};
  judged.companions = {lamp, shield};
  fit::ChosenAdaptation repin;
  repin.name = "re-pin the CTL plug";
  repin.steps = {"mark the plug", "move contact 1 to place 2"};
  repin.codes = {"D4NG"};
  repin.brings = {"contact tool"};
  repin.work_minutes = 11;
  repin.risk = "a bent latch lets the contact slip";
  judged.adaptations = {repin};
  judged.lost = {"analogue tuner"};
  judged.gained = {"digital input"};
  judged.settings = {
      {"picture flip", "set", "left-right", "one fold mirror fewer", "Show text.", 5, 0, "FLP2"},
      {"wheel index", "travels", "", "it is kept on VE-9", "", 0, 0, "WHL2"}};
  judged.counters = {
      {"lamp hours", "lamp", "1400 h", "0 h", "The menu shows 1400 h, the lamp has 0 h", "CNT2"}};
  judged.orientation = {
      true, {true, false}, {true, false}, "The picture comes up mirrored left-right", "FLP2"};
  fit::Question question;
  question.text = "What runs on contact 5 of KD-2?";
  question.about = "KD-2";
  question.key = "port CTL: contact 5";
  question.role = "lamp driver";
  question.safety = true;
  question.code = "QST2";
  judged.questions = {question};
  judged.look_here = {{"lamp", "Watts and reflector.", 5, 0.3, "common practice"},
                      {"light", "Foam and braid.", 5, 0.5, "common practice"},
                      {"lamp", "Length of its leads.", 5, 0.3, "common practice"}};
}

fit::Seat seat(const std::string& position, const std::string& type, const std::string& from,
               const std::string& was) {
  fit::Seat made;
  made.position = position;
  made.roles = {position};
  made.type = type;
  made.from = from;
  made.was = was;
  made.changed = from != "host";
  return made;
}

void add_set(fit::Judgement& judged) {
  judged.seats = {seat("supply", "PS-1", "host", ""), seat("lamp driver", "KD-2", "host", ""),
                  seat("light", "VE-9", "D3", "VE-4"), seat("lamp", "FL-9", "bought", "FL-4")};
  fit::Link control;
  control.from_role = "light", control.from_type = "VE-9", control.from_port = "CTL";
  control.to_role = "lamp driver", control.to_type = "KD-2", control.to_port = "CTL";
  control.carries = "lamp control";
  control.verdict = Verdict::destroys;
  control.touched = true;
  judged.links = {control};
  judged.cautions = {{"hot lamp", "A hot lamp may burst. Let it cool.", {"lamp"}, 60},
                     {"weight", "Two persons turn the set.", {}, 0}};
}

}  // namespace

fit::Judgement sample_judgement() {
  fit::Judgement judged;
  judged.verdict = Verdict::unknown;
  judged.model = "Larch 50";
  judged.variant = "early";
  judged.kind = "lamp set";
  add_reasons(judged);
  add_consequences(judged);
  add_set(judged);
  judged.work_minutes = 145;
  judged.waiting_minutes = 60;
  judged.material = Money{6500};
  judged.chance = 0.62;
  judged.evidence = {4, 1, 1, 2, {"driver B"}, {"lamp from the attic"}, "assumed"};
  return judged;
}

steps::WorkOrder sample_work() {
  catalogue::Family family;
  family.name = "kinds";
  catalogue::SetKind kind;
  kind.name = "lamp set";
  kind.open_minutes = 12;
  kind.close_minutes = 12;
  for (const char* role : {"supply", "lamp driver", "light", "lamp"}) {
    catalogue::KindRole usual;
    usual.role = role;
    usual.out_minutes = 10;
    usual.in_minutes = 15;
    kind.roles.push_back(usual);
  }
  family.set_kinds = {kind};
  const auto known = catalogue::Catalogue::from_families({family});
  return steps::order(known.value(), sample_judgement()).value();
}

plan::Plan sample_plan() {
  plan::PlannedRebuild rebuild;
  rebuild.host = "H2";
  rebuild.model = "Larch 50";
  rebuild.variant = "early";
  rebuild.parts = {{"light", {"light"}, "VE-9", "7KR", plan::Origin::donor, "D3", 0.95},
                   {"lamp", {"lamp"}, "FL-9", "", plan::Origin::bought, "", 0.99},
                   {"supply", {"supply"}, "PS-1", "H2S", plan::Origin::own, "", 0.9}};
  rebuild.price = Money{26000};
  rebuild.chance = 0.7;
  rebuild.work_minutes = 200;
  rebuild.material = Money{6500};
  rebuild.value = Money{3700};
  rebuild.verdict = Verdict::fits_with_work;
  rebuild.why = "Its screen is whole";
  auto later = rebuild;
  later.host = "A6";
  later.verdict = Verdict::unknown;
  later.questions = {"What runs on contact 5 of KD-2?"};
  plan::Plan plan;
  plan.value = Money{3700};
  plan.bound = Money{4000};
  plan.gap = 0.075;
  plan.method = "integer program, 15 s at most";
  plan.rebuilds = {rebuild};
  plan.after_questions = {later};
  plan.sets = {
      {"H2", "Larch 50", plan::Use::host, "Its screen is whole"},
      {"D3", "Larch 46", plan::Use::stripped, "Its screen is split and its engine is good"},
      {"A6", "", plan::Use::kept, "A question is open"}};
  plan.purchases = {{"FL-9", 1, Money{6500}, "lamp", "H2"}};
  plan.tests = {{"H2S", "PS-1", Money{450}, "If it is bad, H2 is not worth building"}};
  plan.remarks = {"Nobody says whether A6 may be stripped"};
  return plan;
}

}  // namespace benchgraft::sheets
