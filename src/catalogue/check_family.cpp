#include "catalogue/check_family.hpp"

#include "catalogue/circle.hpp"

namespace benchgraft::catalogue {

namespace {

// The file is called after the family, so its name must be fit for a file.
void check_name(Faults& faults, const Family& family) {
  if (family.name.find_first_of("/\\") != std::string::npos || family.name.front() == '.')
    faults.add(
        family.where,
        fmt::format("family = \"{}\" cannot be the name of a file; write it without / and \\ and "
                    "without a dot in front.",
                    family.name));
}

void check_doubles(Faults& faults, const Family& family) {
  const auto name = [](const auto& thing) { return thing.name; };
  refuse_doubles(faults, "part type", family.part_types, family.where,
                 [](const PartType& type) { return type.reference(); });
  refuse_doubles(faults, "model", family.models, family.where, name);
  refuse_doubles(faults, "adaptation", family.adaptations, family.where, name);
  refuse_doubles(faults, "setting", family.settings, family.where, name);
  refuse_doubles(faults, "swap note", family.notes, family.where, name);
  refuse_doubles(faults, "set kind", family.set_kinds, family.where, name);
  refuse_doubles(faults, "part kind", family.part_kinds, family.where, name);
  refuse_doubles(faults, "trait", family.traits, family.where, name);
  refuse_doubles(faults, "prior", family.priors, family.where,
                 [](const Prior& prior) { return prior.verdict; });
  refuse_doubles(faults, "touch limit", family.limits, family.where, [](const TouchLimit& limit) {
    return fmt::format("{} {}, {}, class {}", limit.profile, limit.edition, limit.test,
                       limit.protection == Protection::unknown
                           ? "any"
                           : word_of(kProtectionWords, limit.protection));
  });
}

void check_circles(Faults& faults, const Family& family) {
  WaitsFor settings, adaptations;
  for (const auto& setting : family.settings) settings[setting.name] = setting.after;
  for (const auto& adaptation : family.adaptations) adaptations[adaptation.name] = adaptation.needs;
  if (const auto circle = find_circle(settings); !circle.empty())
    for (const auto& setting : family.settings)
      if (setting.name == circle.front())
        faults.add(
            setting.where,
            fmt::format("settings wait for each other in a circle: {}; take one \"after\" away.",
                        circle_text(circle)));
  if (const auto circle = find_circle(adaptations); !circle.empty())
    for (const auto& adaptation : family.adaptations)
      if (adaptation.name == circle.front())
        faults.add(
            adaptation.where,
            fmt::format("adaptations need each other in a circle: {}; take one \"needs\" away.",
                        circle_text(circle)));
}

void check_prior(Faults& faults, const Prior& prior) {
  if (prior.worked + prior.failed <= 0)
    faults.add(prior.where,
               fmt::format("the prior of \"{}\" counts nothing; write worked and failed so that "
                           "their sum is above 0.",
                           prior.verdict));
}

}  // namespace

Result<void> check(const Family& family) {
  Faults faults;
  check_name(faults, family);
  check_doubles(faults, family);
  check_circles(faults, family);
  for (const auto& type : family.part_types) check_part_type(faults, type);
  for (const auto& model : family.models) check_model(faults, model);
  for (const auto& adaptation : family.adaptations) check_adaptation(faults, adaptation);
  for (const auto& setting : family.settings) check_setting(faults, setting);
  for (const auto& note : family.notes) check_swap_note(faults, note);
  for (const auto& kind : family.set_kinds) check_set_kind(faults, kind);
  for (const auto& prior : family.priors) check_prior(faults, prior);
  return faults.result();
}

}  // namespace benchgraft::catalogue
