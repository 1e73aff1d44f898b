#include "plan/decision.hpp"

#include <algorithm>
#include <limits>

#include <fmt/format.h>

#include "num/stopwatch.hpp"
#include "plan/why_not.hpp"

namespace benchgraft::plan {
namespace {

constexpr int kMostRounds = 12;

class Deciding {
 public:
  Deciding(const catalogue::Catalogue& known, const shop::Shop& shop, const Inventory& inventory,
           const Wanted& wanted, Answers& answers, bool allow_unknown)
      : wanted_(std::make_unique<Wanted>(wanted)), ground_{known,    shop,    inventory,
                                                           *wanted_, answers, allow_unknown} {}

  Result<Decision> run(const Limits& limits, std::size_t enumerate_up_to) {
    Limits left = limits;
    double bound = std::numeric_limits<double>::infinity();
    for (int round = 0; round < kMostRounds; ++round) {
      out_.room = room_of_numbers(ground_);
      if (out_.room.problem.minutes)
        out_.room.problem.minutes = std::max(0.0, *out_.room.problem.minutes - too_many_minutes_);
      const num::Stopwatch watch;
      auto solved = solve(out_.room.problem, left, enumerate_up_to);
      if (!solved) return solved.error();
      left.seconds = std::max(0.5, left.seconds - watch.seconds());
      out_.solved = std::move(solved).value();
      if (drop_unmet()) {
        bound = std::numeric_limits<double>::infinity();
        continue;
      }
      // Later rounds only take something away: the first bound holds for them all.
      bound = std::min(bound, round_is_pure_ ? out_.solved.answer.bound
                                             : std::numeric_limits<double>::infinity());
      out_.bound = std::max(bound, out_.solved.answer.value);
      if (auto drafted = draft_all(); !drafted) return drafted.error();
      if (!take_back()) break;
      round_is_pure_ = false;
    }
    out_.bound = std::max(out_.bound, out_.value);
    out_.wanted = std::move(wanted_);
    return std::move(out_);
  }

 private:
  std::string code(int s) const {
    return ground_.inventory.sets[static_cast<std::size_t>(s)].set->code;
  }

  // Wishes that nothing in the room can meet are named and let go.
  bool drop_unmet() {
    const auto& unmet = out_.solved.answer.unmet;
    if (unmet.empty()) return false;
    const int host = unmet.front();
    const int s = out_.room.hosts[static_cast<std::size_t>(host)].set;
    out_.remarks.push_back(fmt::format("{} is wished for and cannot be built: {}", code(s),
                                       because(host, unmet.size())));
    wanted_->build.erase(s);
    std::erase_if(wanted_->use_in, [&](const auto& use) { return use.second == s; });
    return true;
  }

  std::string because(int host, std::size_t how_many) const {
    const auto alone = why_not_built(ground_, out_.room, host, out_.solved.answer.proven);
    if (!alone.could_alone) return alone.text;
    return how_many > 1
               ? "other sets that are wished for need the same parts or hours."
               : "what it needs is taken by other wishes, or the bench hours do not reach.";
  }

  Result<void> draft_all() {
    const auto& problem = out_.room.problem;
    out_.allotment = out_.solved.answer.best;
    unstrip();
    unbuild();
    auto parts = allot(out_.room, ground_.inventory, out_.allotment);
    if (!parts) return parts.error();
    out_.parts = std::move(parts).value();
    out_.drafts.clear();
    out_.value = 0;
    for (std::size_t b = 0; b < out_.allotment.built.size(); ++b) {
      out_.drafts.push_back(draft(ground_, out_.room, out_.allotment.built[b], out_.parts[b]));
      out_.value += out_.drafts.back().value;
    }
    for (std::size_t s = 0; s < problem.sets.size(); ++s)
      if (out_.allotment.stripped[s])
        out_.value -= problem.sets[s].strip_minutes * problem.money_per_minute;
    return {};
  }

  // A set is not opened for nothing, even when opening it costs nothing.
  void unstrip() {
    for (auto& stripped : out_.allotment.stripped) {
      if (!stripped) continue;
      stripped = 0;
      if (!value_of(out_.room.problem, out_.allotment)) stripped = 1;
    }
  }

  // Nor is a set called built that earns nothing.
  void unbuild() {
    const auto& problem = out_.room.problem;
    for (std::size_t b = out_.allotment.built.size(); b-- > 0;) {
      const Built& built = out_.allotment.built[b];
      const Worth worth = worth_of(problem, built);
      if (problem.hosts[static_cast<std::size_t>(built.host)].must || worth.value >= 0.5) continue;
      Allotment without = out_.allotment;
      without.built.erase(without.built.begin() + static_cast<std::ptrdiff_t>(b));
      if (value_of(problem, without)) out_.allotment = std::move(without);
    }
  }

  // What does not stand with the parts as they would really come is taken back; true when it was.
  bool take_back() {
    double minutes = 0;
    for (std::size_t b = 0; b < out_.drafts.size(); ++b) {
      const auto& drafted = out_.drafts[b];
      minutes += drafted.rebuild.work_minutes;
      if (drafted.allowed) continue;
      const int s = out_.room.hosts[static_cast<std::size_t>(out_.allotment.built[b].host)].set;
      wanted_->never_build.insert(s);
      wanted_->build.erase(s);
      std::erase_if(wanted_->use_in, [&](const auto& use) { return use.second == s; });
      out_.remarks.push_back(fmt::format(
          "{} is left out: with the parts as they would come, the rebuild does not stand.",
          code(s)));
      return true;
    }
    const auto& problem = out_.room.problem;
    for (std::size_t s = 0; s < problem.sets.size(); ++s)
      if (out_.allotment.stripped[s]) minutes += problem.sets[s].strip_minutes;
    if (!ground_.shop.terms.hours || minutes <= *ground_.shop.terms.hours * 60 + 1e-6) return false;
    too_many_minutes_ += minutes - *ground_.shop.terms.hours * 60 + 1;
    return true;
  }

  Decision out_;
  std::unique_ptr<Wanted> wanted_;
  Ground ground_;
  double too_many_minutes_ = 0;
  bool round_is_pure_ = true;
};

}  // namespace

Result<Decision> decide(const catalogue::Catalogue& known, const shop::Shop& shop,
                        const Inventory& inventory, const Wanted& wanted, Answers& answers,
                        const Limits& limits, std::size_t enumerate_up_to, bool allow_unknown) {
  return Deciding(known, shop, inventory, wanted, answers, allow_unknown)
      .run(limits, enumerate_up_to);
}

}  // namespace benchgraft::plan
