#include <nlohmann/json.hpp>

#include "sheets/json.hpp"
#include "sheets/json_parts.hpp"

namespace benchgraft::sheets {
namespace {

using Json = nlohmann::ordered_json;

std::string dumped(const Json& json) {
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string origin_token(plan::Origin origin) {
  switch (origin) {
    case plan::Origin::own:
      return "own";
    case plan::Origin::shelf:
      return "shelf";
    case plan::Origin::donor:
      return "donor";
    case plan::Origin::bought:
      return "bought";
  }
  return "";
}

std::string use_token(plan::Use use) {
  switch (use) {
    case plan::Use::host:
      return "host";
    case plan::Use::stripped:
      return "stripped";
    case plan::Use::kept:
      return "kept";
    case plan::Use::left:
      return "left";
    case plan::Use::not_judged:
      return "not_judged";
  }
  return "";
}

Json part_json(const plan::PlannedPart& part) {
  return {{"position", part.position},
          {"roles", part.roles},
          {"type", part.type},
          {"part", part.part},
          {"origin", origin_token(part.origin)},
          {"donor", part.donor},
          {"chance", part.chance}};
}

Json rebuild_json(const plan::PlannedRebuild& rebuild) {
  Json json = {{"host", rebuild.host},
               {"model", rebuild.model},
               {"variant", rebuild.variant},
               {"verdict", fit::to_text(rebuild.verdict)},
               {"chance", rebuild.chance},
               {"price_minor", rebuild.price.minor},
               {"material_minor", rebuild.material.minor},
               {"value_minor", rebuild.value.minor},
               {"work_minutes", rebuild.work_minutes},
               {"questions", rebuild.questions},
               {"why", rebuild.why}};
  Json parts = Json::array();
  for (const auto& part : rebuild.parts) parts.push_back(part_json(part));
  json["parts"] = std::move(parts);
  return json;
}

Json rebuilds_json(const std::vector<plan::PlannedRebuild>& rebuilds) {
  Json array = Json::array();
  for (const auto& rebuild : rebuilds) array.push_back(rebuild_json(rebuild));
  return array;
}

Json set_json(const plan::PlannedSet& set) {
  return {{"code", set.code}, {"model", set.model}, {"use", use_token(set.use)}, {"why", set.why}};
}

Json purchase_json(const plan::Purchase& buy) {
  return {{"type", buy.type},
          {"count", buy.count},
          {"price_minor", buy.price.minor},
          {"role", buy.role},
          {"for_host", buy.for_host}};
}

Json test_json(const plan::TestFirst& test) {
  return {{"part", test.part},
          {"type", test.type},
          {"worth_minor", test.worth.minor},
          {"why", test.why}};
}

}  // namespace

std::string plan_json(const plan::Plan& plan, const std::string& currency) {
  Json json;
  json["value"] = plan.value.minor;
  json["bound"] = plan.bound.minor;
  json["gap"] = plan.gap;
  json["proven"] = plan.proven;
  json["currency"] = currency;
  json["method"] = plan.method;
  json["rebuilds"] = rebuilds_json(plan.rebuilds);
  json["sets"] = Json::array();
  for (const auto& set : plan.sets) json["sets"].push_back(set_json(set));
  json["purchases"] = Json::array();
  for (const auto& buy : plan.purchases) json["purchases"].push_back(purchase_json(buy));
  json["tests"] = Json::array();
  for (const auto& test : plan.tests) json["tests"].push_back(test_json(test));
  json["after_questions"] = rebuilds_json(plan.after_questions);
  json["remarks"] = plan.remarks;
  return dumped(json);
}

Result<std::string> why_json(const plan::Plan& plan, const std::string& code) {
  Json json;
  json["code"] = code;
  bool said = false;
  for (const auto& set : plan.sets)
    if (set.code == code) json["set"] = set_json(set), said = true;
  json["rebuilds"] = Json::array();
  for (const auto* list : {&plan.rebuilds, &plan.after_questions})
    for (const auto& rebuild : *list) {
      bool named = rebuild.host == code;
      for (const auto& part : rebuild.parts)
        named = named || part.part == code || part.donor == code;
      if (named) json["rebuilds"].push_back(rebuild_json(rebuild)), said = true;
    }
  for (const auto& test : plan.tests)
    if (test.part == code) json["test"] = test_json(test), said = true;
  if (said) return dumped(json);
  return Error{ErrorKind::not_found, "The plan says nothing about " + code + "."};
}

}  // namespace benchgraft::sheets
