// Short answers for the plan's tables: one part alone, or only what arises between two.
#include <algorithm>

#include "fit/adapt.hpp"
#include "fit/one.hpp"
#include "fit/rules.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Catalogue;
using catalogue::ProposedPart;

// The stated variant, or the first: for a model with several the caller asks for each.
const catalogue::Variant* variant_of(const catalogue::Model& model, const std::string& name) {
  for (const auto& variant : model.variants)
    if (variant.name == name) return &variant;
  return model.variants.empty() ? nullptr : &model.variants.front();
}

Result<Assembly> put_together(const Catalogue& known, const std::string& model,
                              const std::string& variant, std::vector<ProposedPart> parts) {
  catalogue::RebuildText rebuild;
  rebuild.model = model;
  rebuild.variant = variant;
  rebuild.parts = std::move(parts);
  auto host = host_of(known, model, "", rebuild.where);
  if (!host) return host.error();
  return assemble(known, rebuild, host.value().model, host.value().kind,
                  variant_of(*host.value().model, variant));
}

PartAnswer answer(const Findings& findings) {
  PartAnswer sum;
  for (const auto& reason : findings.out.reasons) {
    if (!reason.will) continue;
    sum.verdict = worse(sum.verdict, reason.verdict);
    sum.work_minutes += reason.work_minutes;
  }
  for (const auto& work : findings.out.adaptations) {
    sum.work_minutes += work.work_minutes;
    sum.material += work.material;
  }
  return sum;
}

}  // namespace

Result<PartAnswer> answer_single(const Catalogue& known, const std::string& model,
                                 const std::string& variant, const ProposedPart& part,
                                 const Conditions& conditions) {
  auto set = put_together(known, model, variant, {part});
  if (!set) return set.error();
  Judgement out;
  Findings findings(known, conditions, set.value(), out);
  judge_unknown_types(findings);
  judge_mounts(findings);
  judge_mains_range(findings);
  choose_adaptations(findings);
  return answer(findings);
}

Result<PartAnswer> answer_pair(const Catalogue& known, const std::string& model,
                               const std::string& variant, const ProposedPart& a,
                               const ProposedPart& b, const Conditions& conditions) {
  auto set = put_together(known, model, variant, {a, b});
  if (!set) return set.error();
  Judgement out;
  Findings findings(known, conditions, set.value(), out);
  findings.joints = derive_joints(set.value());
  const auto between = [](const Place* x, const Place* y) {
    return x && y && x->changed && y->changed && x != y;
  };
  auto& joined = findings.joints.joined;
  joined.erase(std::remove_if(joined.begin(), joined.end(),
                              [&](const Joint& j) { return !between(j.a, j.b); }),
               joined.end());
  auto& unseen = findings.joints.unseen;
  unseen.erase(std::remove_if(unseen.begin(), unseen.end(),
                              [&](const Unseen& u) { return !between(u.place, u.peer); }),
               unseen.end());
  findings.joints.loose.clear();
  findings.joints.ambiguous.clear();
  const auto notes = notes_about(known, set.value());
  judge_joints(findings, notes);
  for (const auto& place : set.value().places) {
    if (!place.type) continue;
    for (const auto& fellow : place.type->fellows) {
      const Place* there = set.value().filling(fellow.role);
      if (!between(&place, there) || !(differs(place) || differs(*there))) continue;
      const bool suits = there->type && std::any_of(fellow.types.begin(), fellow.types.end(),
                                                    [&](const auto& reference) {
                                                      return means(reference, *there->type);
                                                    });
      if (!suits)
        findings.add("fellow part", RuleSort::pair, Verdict::does_not_fit, "",
                     place.position + fellow.role);
    }
  }
  const Place* lamp = set.value().filling("lamp");
  const Place* driver = set.value().filling("lamp driver");
  if (between(lamp, driver)) judge_lamp_power(findings);
  choose_adaptations(findings);
  return answer(findings);
}

}  // namespace benchgraft::fit
