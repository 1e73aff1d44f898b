#include "plan/solve.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "plan/columns.hpp"
#include "plan/enumerate.hpp"

namespace benchgraft::plan {
namespace {

// Trying everything either ends soon or not at all: then columns take over.
constexpr double kShareForTrying = 0.2;  // of the time
constexpr std::size_t kStepsForTrying = 1'000'000;

std::size_t sets_that_matter(const Problem& problem) {
  return static_cast<std::size_t>(
      std::count_if(problem.sets.begin(), problem.sets.end(), [](const Carcass& set) {
        return set.host != kNone || (set.may_strip && !set.holds.empty());
      }));
}

std::string described(const std::string& way, std::size_t sets, const Answer& answer) {
  return fmt::format("{} over {} {}; {} rebuilds looked at{}", way, sets,
                     sets == 1 ? "set" : "sets", answer.looked_at,
                     answer.proven ? "" : ", stopped before the proof was complete");
}

}  // namespace

Result<Solved> solve(const Problem& problem, const Limits& limits, std::size_t enumerate_up_to) {
  if (auto good = check(problem); !good) return good.error();
  const std::size_t sets = sets_that_matter(problem);
  Answer tried;
  if (sets <= enumerate_up_to) {
    Limits short_limits = limits;
    short_limits.seconds *= kShareForTrying;
    short_limits.steps = std::min(limits.steps, kStepsForTrying);
    tried = enumerate(problem, short_limits);
    if (tried.proven) return Solved{tried, described("enumeration", sets, tried)};
  }
  Limits rest = limits;
  if (sets <= enumerate_up_to) rest.seconds *= 1 - kShareForTrying;
  auto answer = plan_by_columns(problem, rest, tried.best);
  if (!answer) return answer.error();
  Answer best = std::move(answer).value();
  if (sets <= enumerate_up_to && tried.unmet == best.unmet && tried.bound < best.bound)
    best.bound = std::max(tried.bound, best.value);
  best.proven = best.bound <= best.value + limits.close_enough && !best.shared_work;
  return Solved{best, described("integer program with column generation", sets, best)};
}

}  // namespace benchgraft::plan
