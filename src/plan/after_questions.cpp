#include "plan/after_questions.hpp"

namespace benchgraft::plan {
namespace {

constexpr std::size_t kSteps = 4'000'000;

// The room as it is once the plan is carried out.
Inventory what_is_left(const Inventory& inventory, const Decision& decided) {
  Inventory left = inventory;
  left.remarks.clear();
  for (std::size_t b = 0; b < decided.allotment.built.size(); ++b) {
    const auto& meaning =
        decided.room.hosts[static_cast<std::size_t>(decided.allotment.built[b].host)];
    auto& host = left.sets[static_cast<std::size_t>(meaning.set)];
    host.not_a_host = "It is built already.";
    host.ours = false;
    for (auto& item : left.items)
      if (item.set == meaning.set) item.usable = false;
    for (const int item : decided.parts[b])
      if (item >= 0) left.items[static_cast<std::size_t>(item)].usable = false;
  }
  for (std::size_t s = 0; s < decided.allotment.stripped.size(); ++s)
    if (decided.allotment.stripped[s]) left.sets[s].not_a_host = "It is stripped.";
  return left;
}

Wanted wishes_left(const Decision& decided) {
  Wanted wanted = *decided.wanted;
  wanted.build.clear();
  wanted.use_in.clear();
  return wanted;
}

}  // namespace

std::vector<PlannedRebuild> after_questions(const catalogue::Catalogue& known,
                                            const shop::Shop& shop, const Inventory& inventory,
                                            Answers& answers, const Decision& decided,
                                            double seconds) {
  const Inventory left = what_is_left(inventory, decided);
  auto more =
      decide(known, shop, left, wishes_left(decided), answers, {seconds, kSteps, 0.5}, 0, true);
  std::vector<PlannedRebuild> rebuilds;
  if (!more) return rebuilds;
  for (auto& drafted : more.value().drafts)
    if (drafted.rebuild.verdict == fit::Verdict::unknown && drafted.rebuild.value.minor > 0)
      rebuilds.push_back(std::move(drafted.rebuild));
  return rebuilds;
}

}  // namespace benchgraft::plan
