#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "num/stopwatch.hpp"
#include "plan/after_questions.hpp"
#include "plan/first_tests.hpp"
#include "plan/planning.hpp"
#include "plan/sets.hpp"

namespace benchgraft::plan {
namespace {

// Shares of the time: the plan itself, what questions hide, which test is worth most.
constexpr double kForPlan = 0.6, kForQuestions = 0.1, kForTests = 0.3;

void say(const Options& options, const std::string& text) {
  if (options.progress) options.progress(text);
}

Money strip_cost(const Problem& problem, std::size_t s) {
  return {std::llround(problem.sets[s].strip_minutes * problem.money_per_minute)};
}

// Value, bound and proof in whole minor units.
void fill_figures(Plan& plan, const Decision& decided) {
  plan.value = {0};
  for (const auto& rebuild : plan.rebuilds) plan.value += rebuild.value;
  for (std::size_t s = 0; s < decided.allotment.stripped.size(); ++s)
    if (decided.allotment.stripped[s])
      plan.value = plan.value - strip_cost(decided.room.problem, s);
  const auto& answer = decided.solved.answer;
  plan.proven = decided.bound - decided.value <= 0.51 && !answer.shared_work;
  plan.bound =
      plan.proven
          ? plan.value
          : Money{std::max(plan.value.minor, static_cast<std::int64_t>(std::ceil(decided.bound)))};
  plan.gap = static_cast<double>(plan.bound.minor - plan.value.minor) /
             static_cast<double>(std::max<std::int64_t>(plan.bound.minor, 1));
  plan.method = decided.solved.method;
}

void remark_on_shared_work(Plan& plan, const Decision& decided) {
  if (decided.solved.answer.shared_work)
    plan.remarks.emplace_back(
        "One piece of work serves several parts somewhere, more than was counted on: the bound may "
        "be a little low.");
}

}  // namespace

Result<Plan> make_plan_with(const catalogue::Catalogue& known, const shop::Shop& room,
                            const Prospects& prospects, const Options& options,
                            const Fitting& fitting) {
  auto inventory = take_stock(known, room, prospects);
  if (!inventory) return inventory.error();
  const auto wanted = read_wishes(room, inventory.value());
  if (!wanted) return wanted.error();
  const num::Stopwatch watch;
  Answers answers(fitting);
  say(options, fmt::format("Looking at {} sets and {} parts.", inventory.value().sets.size(),
                           inventory.value().items.size()));
  Limits limits;
  limits.seconds = options.seconds * kForPlan;
  auto decision = decide(known, room, inventory.value(), wanted.value(), answers, limits,
                         options.enumerate_up_to, false);
  if (!decision) return decision.error();
  const Decision& decided = decision.value();

  Plan plan;
  for (const auto& drafted : decided.drafts) plan.rebuilds.push_back(drafted.rebuild);
  fill_figures(plan, decided);
  plan.remarks = inventory.value().remarks;
  plan.remarks.insert(plan.remarks.end(), wanted.value().remarks.begin(),
                      wanted.value().remarks.end());
  plan.remarks.insert(plan.remarks.end(), decided.remarks.begin(), decided.remarks.end());
  remark_on_shared_work(plan, decided);
  say(options, "Looking at what could be built once questions are settled.");
  // What the plan itself did not need is left for the questions.
  const double for_questions =
      std::max(options.seconds * kForQuestions,
               options.seconds * (kForPlan + kForQuestions) - watch.seconds());
  plan.after_questions =
      after_questions(known, room, inventory.value(), answers, decided, for_questions);
  const Ground ground{known, room, inventory.value(), *decided.wanted, answers, false};
  plan.sets = planned_sets(ground, decided.room, decided.allotment.stripped, plan.rebuilds,
                           plan.after_questions, plan.proven);
  plan.purchases = purchases_for(known, plan.rebuilds);
  if (options.value_tests) {
    say(options, "Planning again as if parts had been tested.");
    plan.tests =
        tests_first({known, room, prospects, answers, decided, options.seconds * kForTests});
  }
  say(options, "Checking the plan from the facts alone.");
  if (auto checked = recheck_with(plan, known, room, prospects, fitting); !checked)
    return checked.error();
  return plan;
}

Result<Plan> make_plan(const catalogue::Catalogue& known, const shop::Shop& room,
                       const Prospects& prospects, const Options& options) {
  const fit::Conditions conditions{room.terms.mains_volts, room.terms.mains_hz,
                                   room.terms.touch_profile};
  return make_plan_with(known, room, prospects, options, fitting_by_fit(known, conditions));
}

std::string to_text(Use use) {
  switch (use) {
    case Use::host:
      return "host";
    case Use::stripped:
      return "stripped";
    case Use::kept:
      return "kept";
    case Use::left:
      return "left";
    case Use::not_judged:
      return "not judged";
  }
  return "";
}

std::string to_text(Origin origin) {
  switch (origin) {
    case Origin::own:
      return "its own";
    case Origin::shelf:
      return "shelf";
    case Origin::donor:
      return "donor";
    case Origin::bought:
      return "bought";
  }
  return "";
}

}  // namespace benchgraft::plan
