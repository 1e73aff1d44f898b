// Answers as JSON for scripts. Keys: docs/formats/answers.md. Money is whole minor units.
#pragma once

#include <string>

#include "base/result.hpp"
#include "fit/verdict.hpp"
#include "plan/plan.hpp"
#include "sheets/judgement_page.hpp"
#include "steps/steps.hpp"

namespace benchgraft::sheets {

std::string judgement_json(const fit::Judgement& judged, const About& about);
/// The judgement with its order of work; `work` may be null.
std::string build_json(const fit::Judgement& judged, const steps::WorkOrder* work,
                       const About& about);
std::string plan_json(const plan::Plan& plan, const std::string& currency);
/// fails: not_found when no statement of this judgement has that code.
Result<std::string> why_json(const fit::Judgement& judged, const std::string& code);
/// fails: not_found when the plan says nothing about that set or part.
Result<std::string> why_json(const plan::Plan& plan, const std::string& code);

}  // namespace benchgraft::sheets
