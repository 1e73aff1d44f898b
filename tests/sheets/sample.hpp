// One rebuild and one plan with a little of everything, in invented names.
#pragma once

#include "catalogue/catalogue.hpp"
#include "fit/verdict.hpp"
#include "plan/plan.hpp"
#include "steps/steps.hpp"

namespace benchgraft::sheets {

fit::Judgement sample_judgement();
steps::WorkOrder sample_work();
plan::Plan sample_plan();

}  // namespace benchgraft::sheets
