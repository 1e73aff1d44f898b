// What is usual for the kind: the folded "look here" lines, and the cautions that stand on the
// steps.
#include <algorithm>

#include "fit/rules.hpp"

namespace benchgraft::fit {
namespace {

bool role_changed(const Assembly& set, const std::string& role) {
  return std::any_of(set.places.begin(), set.places.end(), [&](const Place& place) {
    return differs(place) &&
           std::find(place.roles.begin(), place.roles.end(), role) != place.roles.end();
  });
}

bool role_worked_on(const Assembly& set, const std::string& role) {
  return std::any_of(set.places.begin(), set.places.end(), [&](const Place& place) {
    return place.changed &&
           std::find(place.roles.begin(), place.roles.end(), role) != place.roles.end();
  });
}

}  // namespace

void add_look_here(Findings& findings) {
  if (!findings.set.kind) return;
  auto& lines = findings.out.look_here;
  for (const auto& surprise : findings.set.kind->surprises)
    if (role_changed(findings.set, surprise.changed))
      lines.push_back({surprise.changed, surprise.look, surprise.work_minutes.value_or(0),
                       surprise.chance.value_or(0), surprise.source});
  std::stable_sort(lines.begin(), lines.end(), [](const LookHere& a, const LookHere& b) {
    return a.work_minutes * a.chance > b.work_minutes * b.chance;
  });
}

void add_cautions(Findings& findings) {
  if (!findings.set.kind) return;
  for (const auto& hazard : findings.set.kind->hazards) {
    Caution caution{hazard.name, hazard.caution, {}, hazard.waiting_minutes.value_or(0)};
    for (const auto& role : hazard.roles)
      if (role_worked_on(findings.set, role)) caution.roles.push_back(role);
    if (hazard.roles.empty() || !caution.roles.empty())
      findings.out.cautions.push_back(std::move(caution));
  }
}

}  // namespace benchgraft::fit
