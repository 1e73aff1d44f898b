// Pieces the JSON answers are built from. Only for the .cpp files of this module.
#pragma once

#include <string>

namespace benchgraft::sheets {

/// "Read first" as one word for scripts: "read_first".
std::string token(std::string words);

}  // namespace benchgraft::sheets
