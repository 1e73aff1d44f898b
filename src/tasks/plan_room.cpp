#include "tasks/plan_room.hpp"

#include "sheets/json.hpp"
#include "sheets/plan_page.hpp"

namespace benchgraft::tasks {
namespace {

double chance_of(const shop::Part& part, const shop::Terms& terms) {
  if (part.chance) return *part.chance;
  switch (part.state) {
    case shop::State::good:
      return terms.chance_good;
    case shop::State::suspect:
      return terms.chance_suspect;
    case shop::State::untested:
      return terms.chance_untested;
    case shop::State::bad:
      return 0;
  }
  return terms.chance_untested;
}

}  // namespace

plan::Prospects prospects(const shop::Shop& room) {
  plan::Prospects seen;
  for (const auto& part : room.parts) seen.parts.push_back({chance_of(part, room.terms)});
  return seen;
}

Result<plan::Plan> plan_of(const Room& room, const PlanAsked& asked) {
  plan::Options options;
  options.seconds = asked.seconds;
  options.value_tests = asked.value_tests;
  options.progress = asked.progress;
  return plan::make_plan(room.known, room.shop, prospects(room.shop), options);
}

Result<Answer> plan_room(const ShopAt& at, const Knowledge& knowledge, const PlanAsked& asked) {
  auto room = load_room(at, knowledge);
  if (!room) return room.error();
  auto plan = plan_of(room.value(), asked);
  if (!plan) return plan.error();
  const auto& currency = room.value().shop.terms.currency;
  return Answer{sheets::plan_page(plan.value(), currency),
                sheets::plan_json(plan.value(), currency)};
}

}  // namespace benchgraft::tasks
