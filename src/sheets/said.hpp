// What is kept of a statement that was shown, so that it can be explained later.
#pragma once

#include <string>

#include "base/result.hpp"

namespace benchgraft::sheets {

/// A statement was said about this rebuild (text of a rebuild file).
struct SaidAbout {
  std::string name;
  std::string rebuild;
};

std::string said_json(const SaidAbout& about);
/// fails: bad_input when `json` is not what said_json wrote.
Result<SaidAbout> said_from_json(const std::string& json);

}  // namespace benchgraft::sheets
