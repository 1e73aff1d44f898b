// Whether everything that families name is recorded somewhere.
#pragma once

#include <string>

#include "base/result.hpp"
#include "catalogue/catalogue.hpp"

namespace benchgraft::catalogue {

/// Why `reference` names no single part type, with the nearest or all that it could be; "" when it
/// does.
std::string reference_fault(const Catalogue& catalogue, const std::string& reference);

/// Fails on the first thing named in a family that no family records, and on circles across
/// families. Swap notes may speak of part types and models nobody has entered yet.
Result<void> check_references(const Catalogue& catalogue);

}  // namespace benchgraft::catalogue
