#include "plan/first_tests.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "num/stopwatch.hpp"
#include "plan/why_not.hpp"

namespace benchgraft::plan {
namespace {

constexpr std::size_t kMostTests = 5;
constexpr std::size_t kStepsPerPlan = 3'000'000;
constexpr double kWorthSaying = 1;  // minor units of money

/// A part of the plan that nobody has tested, and how much hangs on it.
struct Candidate {
  std::size_t part = 0;  ///< index in Shop::parts
  std::string host;
  double chance = 0;
  double stake = 0;
};

std::vector<Candidate> candidates(const TestQuestion& question) {
  std::vector<Candidate> all;
  for (const auto& drafted : question.now.drafts) {
    const auto& rebuild = drafted.rebuild;
    const double at_stake = static_cast<double>(rebuild.price.minor) * rebuild.chance;
    for (const auto& part : rebuild.parts) {
      if (part.part.empty() || part.chance <= 0 || part.chance >= 1) continue;
      for (std::size_t i = 0; i < question.shop.parts.size(); ++i)
        if (question.shop.parts[i].code == part.part &&
            question.shop.parts[i].state != shop::State::good)
          all.push_back({i, rebuild.host, part.chance, at_stake * (1 - part.chance)});
    }
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const Candidate& a, const Candidate& b) { return a.stake > b.stake; });
  if (all.size() > kMostTests) all.resize(kMostTests);
  return all;
}

// Value of the room when the part is known to work, or known not to. Nothing when planning fails.
std::optional<double> value_if(const TestQuestion& question, const Candidate& candidate, bool works,
                               double seconds) {
  Prospects prospects = question.prospects;
  prospects.parts[candidate.part].chance = works ? 1 : 0;
  const auto inventory = take_stock(question.known, question.shop, prospects);
  if (!inventory) return std::nullopt;
  const Ground ground{question.known,       question.shop,    inventory.value(),
                      *question.now.wanted, question.answers, false};
  const auto room = room_of_numbers(ground);
  const auto solved = solve(room.problem, {seconds, kStepsPerPlan, 0.5}, 0);
  if (!solved || !solved.value().answer.unmet.empty()) return std::nullopt;
  return solved.value().answer.value;
}

}  // namespace

std::vector<TestFirst> tests_first(const TestQuestion& question) {
  std::vector<TestFirst> tests;
  const num::Stopwatch watch;
  const double now = question.now.solved.answer.value;
  const auto all = candidates(question);
  for (const auto& candidate : all) {
    const double each = question.seconds / static_cast<double>(2 * all.size());
    if (watch.seconds() > question.seconds) break;
    const auto good = value_if(question, candidate, true, each);
    const auto bad = value_if(question, candidate, false, each);
    if (!good || !bad) continue;
    const double worth = candidate.chance * *good + (1 - candidate.chance) * *bad - now;
    if (worth < kWorthSaying) continue;
    const auto& part = question.shop.parts[candidate.part];
    const auto& currency = question.shop.terms.currency;
    tests.push_back(
        {part.code, part.type, Money{std::llround(worth)},
         fmt::format("It is meant for {} and works at {:.0f} %. Known good, the room is worth {}; "
                     "known bad, {} with the next best plan.",
                     candidate.host, candidate.chance * 100, money_words(*good, currency),
                     money_words(*bad, currency))});
  }
  std::stable_sort(tests.begin(), tests.end(), [](const TestFirst& a, const TestFirst& b) {
    return a.worth.minor > b.worth.minor;
  });
  return tests;
}

}  // namespace benchgraft::plan
