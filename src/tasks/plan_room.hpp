// Plans the whole room.
#pragma once

#include "plan/plan.hpp"
#include "tasks/answer.hpp"
#include "tasks/room.hpp"

namespace benchgraft::tasks {

struct PlanAsked {
  double seconds = 15;
  bool value_tests = true;
  Progress progress;
};

/// How likely each part works: what the technician said, else by its state and the shop's terms.
plan::Prospects prospects(const shop::Shop& room);

Result<plan::Plan> plan_of(const Room& room, const PlanAsked& asked);
Result<Answer> plan_room(const ShopAt& at, const Knowledge& knowledge, const PlanAsked& asked);

}  // namespace benchgraft::tasks
