// The plan of the room on a page.
#pragma once

#include <string>

#include "plan/plan.hpp"
#include "sheets/page.hpp"

namespace benchgraft::sheets {

/// What to build out of what, what to do with each set, what to buy, what to test first; value and
/// bound.
Page plan_page(const plan::Plan& plan, const std::string& currency);

/// What is to be done with a set, in words: "build it", "strip it", "keep it", ...
std::string use_words(plan::Use use);

}  // namespace benchgraft::sheets
