// Every rule by name, as used in reasons and in the `cures` of an adaptation.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "catalogue/catalogue.hpp"

namespace benchgraft::fit {

/// In the order of docs/methods/fit.md.
const std::vector<std::string>& rule_names();

/// Rules no adaptation and no swap note may cure: isolation, earth, mains, lamp power, door and
/// thermal loops.
bool is_safety_rule(const std::string& rule);

/// Fails when an adaptation or a swap note cures a rule that does not exist (with the nearest one),
/// when an adaptation cures a safety rule, or names nothing but the rule.
Result<void> check_cures(const catalogue::Catalogue& known);

}  // namespace benchgraft::fit
