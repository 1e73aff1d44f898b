#include "plan/answer.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace benchgraft::plan {
namespace {

bool holds(const PairRule& rule, const std::vector<int>& choices) {
  return choices[static_cast<std::size_t>(rule.place_a)] == rule.choice_a &&
         choices[static_cast<std::size_t>(rule.place_b)] == rule.choice_b;
}

double best_price(const Host& host, Bits provides) {
  double best = 0;
  for (const auto& tier : host.tiers)
    if ((tier.needs & ~provides) == 0) best = std::max(best, tier.price);
  return best;
}

// What the tables say about the choices, whatever the sources.
Whole tables(const Problem& problem, const Host& host, const std::vector<int>& choices) {
  Whole sum;
  Bits filled = 0, provides = host.provides;
  bool changed = false;
  Work dearest;
  Level level = Level::plain;
  double notes = 0;
  const auto cost = [&](const Work& work) {
    return work.money + problem.money_per_minute * work.minutes;
  };
  const auto heed = [&](const Work& work) {
    level = std::max(level, work.level);
    if (work.needed() && (!dearest.needed() || cost(work) > cost(dearest))) dearest = work;
  };
  for (std::size_t p = 0; p < host.places.size(); ++p) {
    const auto& choice = host.places[p].choices[static_cast<std::size_t>(choices[p])];
    filled |= choice.fills;
    provides |= choice.provides;
    changed = changed || choice.changes;
    sum.minutes += choice.minutes;
    sum.money += choice.money;
    notes += choice.notes;
    heed(choice.work);
  }
  for (const auto& rule : host.pairs) {
    if (!holds(rule, choices)) continue;
    if (rule.refused) sum.allowed = false;
    heed(rule.work);
  }
  if ((host.required & ~filled) != 0) sum.allowed = false;
  if (changed) sum.minutes += host.open_minutes;
  sum.minutes += dearest.minutes;
  sum.money += dearest.money;
  sum.chance = evidence_of(host, level, notes);
  sum.price = best_price(host, provides);
  return sum;
}

Worth worth_from(const Problem& problem, const Built& built, const Whole& whole) {
  const Host& host = problem.hosts[static_cast<std::size_t>(built.host)];
  Worth worth{whole.allowed, whole.price, whole.chance, whole.minutes, whole.money, 0};
  for (std::size_t p = 0; p < host.places.size(); ++p) {
    const auto& source = host.places[p]
                             .choices[static_cast<std::size_t>(built.choices[p])]
                             .sources[static_cast<std::size_t>(built.sources[p])];
    worth.chance *= source.chance;
    worth.money += source.money;
    worth.minutes += source.minutes;
  }
  worth.value = worth.price * worth.chance - worth.money - problem.money_per_minute * worth.minutes;
  return worth;
}

Result<void> check_shape(const Problem& problem, const Built& built) {
  const auto inside = [](int index, std::size_t size) {
    return index >= 0 && static_cast<std::size_t>(index) < size;
  };
  const Error error{ErrorKind::conflict, "The plan does not add up: a rebuild is not complete."};
  if (!inside(built.host, problem.hosts.size())) return error;
  const auto& places = problem.hosts[static_cast<std::size_t>(built.host)].places;
  if (built.choices.size() != places.size() || built.sources.size() != places.size()) return error;
  for (std::size_t p = 0; p < places.size(); ++p) {
    if (!inside(built.choices[p], places[p].choices.size())) return error;
    const auto& choice = places[p].choices[static_cast<std::size_t>(built.choices[p])];
    if (!inside(built.sources[p], choice.sources.size())) return error;
  }
  return {};
}

}  // namespace

void draw(const Problem& problem, const Built& built, std::vector<int>& left) {
  const Host& host = problem.hosts[static_cast<std::size_t>(built.host)];
  for (std::size_t p = 0; p < host.places.size(); ++p) {
    const auto& choice = host.places[p].choices[static_cast<std::size_t>(built.choices[p])];
    const int pool = choice.sources[static_cast<std::size_t>(built.sources[p])].pool;
    if (pool != kNone) --left[static_cast<std::size_t>(pool)];
    if (choice.changes && host.places[p].frees != kNone)
      ++left[static_cast<std::size_t>(host.places[p].frees)];
  }
}

Worth worth_by_tables(const Problem& problem, const Built& built) {
  const Host& host = problem.hosts[static_cast<std::size_t>(built.host)];
  return worth_from(problem, built, tables(problem, host, built.choices));
}

Worth worth_of(const Problem& problem, const Built& built) {
  Worth by_tables = worth_by_tables(problem, built);
  if (!by_tables.allowed || !problem.whole) return by_tables;
  return worth_from(problem, built, problem.whole(built.host, built.choices));
}

Result<double> value_of(const Problem& problem, const Allotment& allotment) {
  const auto wrong = [](std::string what) {
    return Error{ErrorKind::conflict, "The plan does not add up: " + std::move(what) + "."};
  };
  std::vector<int> left, used(problem.sets.size(), 0);
  for (const auto& pool : problem.pools) left.push_back(pool.on_shelf);
  double value = 0, minutes = 0;
  if (allotment.stripped.size() != problem.sets.size()) return wrong("not every set has a use");
  for (std::size_t s = 0; s < problem.sets.size(); ++s) {
    const auto& set = problem.sets[s];
    if (!allotment.stripped[s]) continue;
    if (!set.may_strip) return wrong(set.name + " may not be stripped");
    ++used[s];
    minutes += set.strip_minutes;
    value -= set.strip_minutes * problem.money_per_minute;
    for (const auto& supply : set.holds)
      left[static_cast<std::size_t>(supply.pool)] += supply.count;
  }
  for (const auto& built : allotment.built) {
    if (auto good = check_shape(problem, built); !good) return good.error();
    const auto& name = problem.hosts[static_cast<std::size_t>(built.host)].name;
    for (std::size_t s = 0; s < problem.sets.size(); ++s)
      if (problem.sets[s].host == built.host && ++used[s] > 1)
        return wrong(name + " is used twice");
    const Worth worth = worth_of(problem, built);
    if (!worth.allowed) return wrong(name + " is built in a way that is not allowed");
    value += worth.value;
    minutes += worth.minutes;
    draw(problem, built, left);
  }
  for (std::size_t g = 0; g < left.size(); ++g)
    if (left[g] < 0)
      return wrong(
          fmt::format("{} more of {} are used than there are", -left[g], problem.pools[g].name));
  if (problem.minutes && minutes > *problem.minutes + 1e-6)
    return wrong(
        fmt::format("it takes {:.0f} minutes, there are {:.0f}", minutes, *problem.minutes));
  return value;
}

}  // namespace benchgraft::plan
