// Pieces the JSON answers are built from. Only for the .cpp files of this module.
#pragma once

#include <string>

#include "fit/verdict.hpp"

namespace benchgraft::sheets {

/// "does not fit" as one word for scripts: "does_not_fit".
std::string token(std::string words);
std::string verdict_token(fit::Verdict verdict);

}  // namespace benchgraft::sheets
