// The short codes on tape: which are free, and what is wrong with one that is none.
#pragma once

#include <functional>
#include <string>

#include "base/id.hpp"

namespace benchgraft::shop {

/// What is wrong with a code, and the mend.
std::string not_a_code(const std::string& code);

/// A code drawn at random for which `taken` is false; short ones first.
std::string draw_code(const std::function<bool(const std::string&)>& taken,
                      const RandomBits& random);

/// `code` as it is written on tape: capitals.
std::string tape_code(std::string code);

}  // namespace benchgraft::shop
