#include <algorithm>

#include <nlohmann/json.hpp>

#include "sheets/json.hpp"
#include "sheets/json_parts.hpp"

namespace benchgraft::sheets {

std::string token(std::string words) {
  for (char& c : words) c = c == ' ' ? '_' : c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c;
  return words;
}

namespace {

using Json = nlohmann::ordered_json;

// Text from files is UTF-8 by then; anything else is replaced rather than thrown over.
std::string dumped(const Json& json) {
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

template <class List, class Each>
Json listed_json(const List& list, Each each) {
  Json array = Json::array();
  for (const auto& entry : list) array.push_back(each(entry));
  return array;
}

Json where_json(const Where& where) { return {{"file", where.file}, {"line", where.line}}; }

Json fact_json(const fit::Fact& fact) {
  return {{"text", fact.text}, {"file", fact.where.file}, {"line", fact.where.line}};
}

Json reason_json(const fit::Reason& reason) {
  return {{"code", reason.code},
          {"rule", reason.rule},
          {"sort", fit::to_text(reason.sort)},
          {"verdict", fit::to_text(reason.verdict)},
          {"before", fit::to_text(reason.before)},
          {"says", reason.says},
          {"facts", listed_json(reason.facts, fact_json)},
          {"source", fit::to_text(reason.source)},
          {"will", reason.will},
          {"safety", reason.safety},
          {"roles", reason.roles},
          {"not_before", reason.not_before},
          {"would_change", reason.would_change},
          {"work_minutes", reason.work_minutes}};
}

Json companion_json(const fit::Companion& along) {
  Json json = {{"what", along.what}, {"sort", along.sort}, {"from", along.from},
               {"why", along.why},   {"role", along.role}, {"types", along.types}};
  json["price_minor"] = along.price ? Json(along.price->minor) : Json(nullptr);
  json["code"] = along.code;
  return json;
}

Json repin_json(const fit::Repin& repin) {
  return {{"part", repin.part},
          {"port", repin.port},
          {"into", repin.into},
          {"socket", repin.socket},
          {"crossover", repin.crossover},
          {"moves",
           listed_json(repin.moves,
                       [](const fit::Move& move) -> Json {
                         return {{"signal", move.signal}, {"from", move.from}, {"to", move.to}};
                       })},
          {"conductor", repin.conductor},
          {"length", repin.length},
          {"code", repin.code}};
}

Json adaptation_json(const fit::ChosenAdaptation& chosen) {
  return {{"name", chosen.name},
          {"steps", chosen.steps},
          {"codes", chosen.codes},
          {"brings", chosen.brings},
          {"work_minutes", chosen.work_minutes},
          {"waiting_minutes", chosen.waiting_minutes},
          {"material_minor", chosen.material.minor},
          {"risk", chosen.risk},
          {"after", chosen.after},
          {"where", where_json(chosen.where)}};
}

Json setting_json(const fit::SettingToDo& todo) {
  return {{"name", todo.name},
          {"action", todo.action},
          {"predicted", todo.predicted},
          {"why", todo.why},
          {"found_by", todo.found_by},
          {"work_minutes", todo.work_minutes},
          {"waiting_minutes", todo.waiting_minutes},
          {"code", todo.code}};
}

Json counter_json(const fit::CounterToKnow& counter) {
  return {{"name", counter.name},   {"speaks_of", counter.speaks_of}, {"shows", counter.shows},
          {"truth", counter.truth}, {"says", counter.says},           {"code", counter.code}};
}

Json flip_json(const catalogue::Flip& flip) {
  return {{"left_right", flip.h}, {"upside_down", flip.v}};
}

Json orientation_json(const fit::Orientation& orientation) {
  return {{"known", orientation.known},
          {"comes_up", flip_json(orientation.comes_up)},
          {"toggle", flip_json(orientation.toggle)},
          {"says", orientation.says},
          {"code", orientation.code}};
}

Json question_json(const fit::Question& question) {
  return {{"text", question.text},     {"about", question.about},
          {"key", question.key},       {"role", question.role},
          {"safety", question.safety}, {"work_minutes", question.work_minutes},
          {"code", question.code}};
}

Json look_json(const fit::LookHere& look) {
  return {{"role", look.role},
          {"look", look.look},
          {"work_minutes", look.work_minutes},
          {"chance", look.chance},
          {"source", look.source}};
}

Json caution_json(const fit::Caution& caution) {
  return {{"hazard", caution.hazard},
          {"text", caution.text},
          {"roles", caution.roles},
          {"waiting_minutes", caution.waiting_minutes}};
}

Json seat_json(const fit::Seat& seat) {
  return {{"position", seat.position}, {"roles", seat.roles}, {"type", seat.type},
          {"from", seat.from},         {"was", seat.was},     {"changed", seat.changed},
          {"lead", seat.lead},         {"after", seat.after}};
}

Json link_json(const fit::Link& link) {
  return {{"from", {{"role", link.from_role}, {"type", link.from_type}, {"port", link.from_port}}},
          {"to", {{"role", link.to_role}, {"type", link.to_type}, {"port", link.to_port}}},
          {"lead", link.lead},
          {"carries", link.carries},
          {"verdict", fit::to_text(link.verdict)},
          {"touched", link.touched}};
}

Json struck_out_json(const fit::StruckOut& out) {
  return {{"candidate", out.candidate},
          {"because", out.because},
          {"place", out.place},
          {"facts", listed_json(out.facts, fact_json)}};
}

Json look_first_json(const fit::LookFirst& look) {
  return {{"says", look.says},
          {"place", look.place},
          {"cases", look.cases},
          {"expected_left", look.expected_left},
          {"minutes", look.minutes}};
}

void add_findings(const fit::Judgement& judged, Json& json) {
  json["reasons"] = listed_json(judged.reasons, reason_json);
  json["companions"] = listed_json(judged.companions, companion_json);
  json["adaptations"] = listed_json(judged.adaptations, adaptation_json);
  json["repins"] = listed_json(judged.repins, repin_json);
  json["lost"] = judged.lost;
  json["gained"] = judged.gained;
  json["settings"] = listed_json(judged.settings, setting_json);
  json["counters"] = listed_json(judged.counters, counter_json);
  json["orientation"] = orientation_json(judged.orientation);
  json["questions"] = listed_json(judged.questions, question_json);
  json["look_here"] = listed_json(judged.look_here, look_json);
  json["cautions"] = listed_json(judged.cautions, caution_json);
}

Json judged_json(const fit::Judgement& judged, const About& about) {
  Json json;
  json["rebuild"] = about.name;
  json["verdict"] = fit::to_text(judged.verdict);
  json["model"] = judged.model;
  json["variant"] = judged.variant;
  json["kind"] = judged.kind;
  json["variants_left"] = judged.variants_left;
  json["struck_out"] = listed_json(judged.struck_out, struck_out_json);
  json["look_first"] = judged.look_first ? look_first_json(*judged.look_first) : Json(nullptr);
  add_findings(judged, json);
  json["seats"] = listed_json(judged.seats, seat_json);
  json["links"] = listed_json(judged.links, link_json);
  json["work_minutes"] = judged.work_minutes;
  json["waiting_minutes"] = judged.waiting_minutes;
  json["material"] = judged.material.minor;
  json["currency"] = about.currency;
  json["chance"] = judged.chance;
  json["evidence"] = {{"prior_worked", judged.evidence.prior_worked},
                      {"prior_failed", judged.evidence.prior_failed},
                      {"prior_source", judged.evidence.prior_source},
                      {"worked", judged.evidence.worked},
                      {"failed", judged.evidence.failed},
                      {"notes", judged.evidence.notes},
                      {"blamed_on_part", judged.evidence.blamed_on_part}};
  return json;
}

Json statement_json(const steps::Statement& said) {
  return {{"text", said.text}, {"code", said.code}};
}

Json step_json(const steps::Step& step) {
  Json json = {
      {"stage", token(steps::to_text(step.stage))},
      {"title", step.title},
      {"code", step.code},
      {"cautions", listed_json(step.cautions,
                               [](const steps::StepCaution& caution) -> Json {
                                 return {{"hazard", caution.hazard}, {"text", caution.text}};
                               })},
      {"not_before", listed_json(step.not_before, statement_json)},
      {"details", listed_json(step.details, statement_json)},
      {"watch", step.watch},
      {"pull_the_plug_on", step.cut},
      {"roles", step.roles},
      {"position", step.position},
      {"piece", step.piece}};
  json["work_minutes"] = step.work_minutes ? Json(*step.work_minutes) : Json(nullptr);
  json["waiting_minutes"] = step.waiting_minutes;
  return json;
}

Json work_json(const steps::WorkOrder& work) {
  return {{"steps", listed_json(work.steps, step_json)},
          {"work_minutes", work.work_minutes},
          {"waiting_minutes", work.waiting_minutes},
          {"steps_without_minutes", work.without_minutes}};
}

// All that was said under one code.
Json said_json(const fit::Judgement& judged, const std::string& code) {
  const auto under_code = [&](const auto& list, auto each) {
    Json array = Json::array();
    for (const auto& entry : list)
      if (entry.code == code) array.push_back(each(entry));
    return array;
  };
  Json json;
  json["code"] = code;
  json["reasons"] = under_code(judged.reasons, reason_json);
  json["questions"] = under_code(judged.questions, question_json);
  json["companions"] = under_code(judged.companions, companion_json);
  json["settings"] = under_code(judged.settings, setting_json);
  json["counters"] = under_code(judged.counters, counter_json);
  json["repins"] = under_code(judged.repins, repin_json);
  if (judged.orientation.code == code) json["orientation"] = orientation_json(judged.orientation);
  return json;
}

}  // namespace

std::string judgement_json(const fit::Judgement& judged, const About& about) {
  return dumped(judged_json(judged, about));
}

std::string build_json(const fit::Judgement& judged, const steps::WorkOrder* work,
                       const About& about) {
  Json json = judged_json(judged, about);
  json["work"] = work != nullptr ? work_json(*work) : Json(nullptr);
  return dumped(json);
}

Result<std::string> why_json(const fit::Judgement& judged, const std::string& code) {
  const Json json = said_json(judged, code);
  bool said = json.contains("orientation");
  for (const auto& [key, value] : json.items()) said = said || (value.is_array() && !value.empty());
  if (said) return dumped(json);
  return Error{ErrorKind::not_found, "Nothing in this rebuild was said under the code " + code +
                                         "; the codes stand in brackets at the end of each line."};
}

}  // namespace benchgraft::sheets
