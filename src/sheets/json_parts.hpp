// Pieces the JSON answers are built from. Only for the .cpp files of this module.
#pragma once

#include <string>

namespace benchgraft::sheets {

/// "does not fit" as one word for scripts: "does_not_fit".
std::string token(std::string words);

}  // namespace benchgraft::sheets
