// The answer to "why": rule, facts and where they are recorded, how sure, what would change it.
#pragma once

#include <string>

#include "base/result.hpp"
#include "fit/verdict.hpp"
#include "plan/plan.hpp"
#include "sheets/page.hpp"

namespace benchgraft::sheets {

/// Everything behind the statement with that code.
/// fails: not_found when no statement of this judgement has it.
Result<Page> why_page(const fit::Judgement& judged, const std::string& code);

/// What the plan does with the set or part of that code, and why.
/// fails: not_found when the plan says nothing about it.
Result<Page> why_page(const plan::Plan& plan, const std::string& code, const std::string& currency);

}  // namespace benchgraft::sheets
