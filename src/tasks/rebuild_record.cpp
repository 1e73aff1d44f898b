#include "tasks/rebuild_record.hpp"

#include <fmt/format.h>

#include "tasks/plan_room.hpp"

namespace benchgraft::tasks {
namespace {

const plan::PlannedRebuild* planned_for(const plan::Plan& plan, const std::string& host) {
  for (const auto* list : {&plan.rebuilds, &plan.after_questions})
    for (const auto& rebuild : *list)
      if (rebuild.host == host) return &rebuild;
  return nullptr;
}

}  // namespace

Result<Recorded> begin_rebuild(const ShopAt& at, const Knowledge& knowledge,
                               const std::string& host, const std::string& name,
                               const Progress& progress) {
  auto room = load_room(at, knowledge);
  if (!room) return room.error();
  auto plan = plan_of(room.value(), {15, false, progress});
  if (!plan) return plan.error();
  const auto* planned = planned_for(plan.value(), host);
  if (planned == nullptr)
    return Error{ErrorKind::not_found,
                 fmt::format("The plan does not build {}; \"plan\" shows what it does.", host)};
  shop::BeginRebuild begin;
  begin.name = name;
  begin.host = host;
  for (const auto& part : planned->parts) {
    if (part.origin == plan::Origin::own) continue;
    if (part.part.empty())
      return Error{
          ErrorKind::conflict,
          fmt::format("{} for the {} of {} is still to be bought; add it as a part when it "
                      "is here.",
                      part.type, part.position, host)};
    begin.parts.push_back({part.position, part.part});
  }
  return carry_out(at, begin);
}

Result<Recorded> finish_rebuild(const ShopAt& at, const std::string& name,
                                std::optional<double> work_minutes, const std::string& old_to,
                                const std::string& note) {
  return carry_out(at, shop::FinishRebuild{name, "", work_minutes, note, old_to});
}

Result<Recorded> give_up_rebuild(const ShopAt& at, const std::string& name,
                                 const std::string& note) {
  return carry_out(at, shop::GiveUpRebuild{name, note});
}

}  // namespace benchgraft::tasks
