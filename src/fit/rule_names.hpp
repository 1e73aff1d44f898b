// Every rule by name, as used in reasons and in the `cures` of an adaptation.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "catalogue/catalogue.hpp"

namespace benchgraft::fit {

/// In the order of docs/methods/fit.md.
const std::vector<std::string>& rule_names();

/// Fails when an adaptation or a swap note cures a rule that does not exist (with the nearest one).
Result<void> check_cures(const catalogue::Catalogue& known);

}  // namespace benchgraft::fit
