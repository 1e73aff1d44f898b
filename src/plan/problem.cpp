#include "plan/problem.hpp"

#include <cmath>

#include <fmt/format.h>

namespace benchgraft::plan {
namespace {

Error bad(std::string message) { return {ErrorKind::bad_input, std::move(message)}; }

bool sane(double amount) { return std::isfinite(amount) && amount >= 0; }

Result<void> check_source(const Problem& problem, const Source& source, const std::string& where) {
  if (source.pool != kNone &&
      (source.pool < 0 || source.pool >= static_cast<int>(problem.pools.size())))
    return bad(fmt::format("{} draws on a pool that is not there.", where));
  if (!(source.chance >= 0 && source.chance <= 1))
    return bad(fmt::format("The chance that {} works is {}; it has to lie between 0 and 1.", where,
                           source.chance));
  if (!sane(source.money) || !sane(source.minutes))
    return bad(fmt::format("{} costs {} and {} minutes; neither can be negative.", where,
                           source.money, source.minutes));
  return {};
}

Result<void> check_host(const Problem& problem, const Host& host) {
  for (const auto& tier : host.tiers)
    if (!sane(tier.price))
      return bad(
          fmt::format("The price of {} is {}; it cannot be negative.", host.name, tier.price));
  for (const auto& evidence : host.evidence)
    if (!sane(evidence.works) || !sane(evidence.fails) || evidence.works + evidence.fails <= 0)
      return bad(fmt::format("The evidence for {} counts {} and {}; counts cannot be negative.",
                             host.name, evidence.works, evidence.fails));
  for (const auto& place : host.places) {
    if (place.frees != kNone &&
        (place.frees < 0 || place.frees >= static_cast<int>(problem.pools.size())))
      return bad(fmt::format("A place of {} frees into a pool that is not there.", host.name));
    for (const auto& choice : place.choices) {
      if (choice.sources.empty())
        return bad(fmt::format("{} of {} comes from nowhere.", choice.name, host.name));
      if (!sane(choice.minutes) || !sane(choice.money) || !sane(choice.work.minutes) ||
          !sane(choice.work.money))
        return bad(fmt::format("The work for {} of {} is negative.", choice.name, host.name));
      for (const auto& source : choice.sources)
        if (auto good = check_source(problem, source, choice.name + " for " + host.name); !good)
          return good;
    }
  }
  const auto known = [&](int place, int choice) {
    return place >= 0 && place < static_cast<int>(host.places.size()) && choice >= 0 &&
           choice < static_cast<int>(host.places[static_cast<std::size_t>(place)].choices.size());
  };
  for (const auto& rule : host.pairs)
    if (!known(rule.place_a, rule.choice_a) || !known(rule.place_b, rule.choice_b) ||
        rule.place_a == rule.place_b || !sane(rule.work.minutes) || !sane(rule.work.money))
      return bad(fmt::format("A pair of {} names a choice that is not there.", host.name));
  return {};
}

}  // namespace

Result<void> check(const Problem& problem) {
  if (!sane(problem.money_per_minute))
    return bad(fmt::format("An hour at the bench costs {}; it cannot be negative.",
                           problem.money_per_minute * 60));
  if (problem.minutes && !sane(*problem.minutes))
    return bad(fmt::format("There are {} minutes of bench time; it cannot be negative.",
                           *problem.minutes));
  for (const auto& pool : problem.pools)
    if (pool.on_shelf < 0) return bad(fmt::format("Fewer than no {} on the shelf.", pool.name));
  for (const auto& host : problem.hosts)
    if (auto good = check_host(problem, host); !good) return good;
  for (const auto& set : problem.sets) {
    if (!sane(set.strip_minutes))
      return bad(fmt::format("Opening {} takes {} minutes; it cannot be negative.", set.name,
                             set.strip_minutes));
    if (set.host != kNone && (set.host < 0 || set.host >= static_cast<int>(problem.hosts.size())))
      return bad(fmt::format("{} is a host that is not there.", set.name));
    for (const auto& supply : set.holds)
      if (supply.pool < 0 || supply.pool >= static_cast<int>(problem.pools.size()) ||
          supply.count < 0)
        return bad(fmt::format("{} holds parts of a pool that is not there.", set.name));
  }
  return {};
}

}  // namespace benchgraft::plan
