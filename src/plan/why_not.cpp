#include "plan/why_not.hpp"

#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "base/text.hpp"
#include "plan/host_search.hpp"

namespace benchgraft::plan {
namespace {

constexpr std::size_t kSteps = 200'000;  // it is only a sentence

std::vector<std::string> places_without_choice(const Ground& ground, const RoomOfNumbers& room,
                                               int host) {
  const auto& data = room.problem.hosts[static_cast<std::size_t>(host)];
  const auto& here =
      ground.inventory
          .sets[static_cast<std::size_t>(room.hosts[static_cast<std::size_t>(host)].set)];
  std::vector<std::string> names;
  for (std::size_t p = 0; p < data.places.size(); ++p)
    if (data.places[p].choices.empty()) names.push_back(here.model->positions[p].name);
  return names;
}

}  // namespace

std::string money_words(double minor, const std::string& currency) {
  return fmt::format("{:.2f} {}", std::round(minor) / 100 + 0.0, currency);  // never -0.00
}

WhyNot why_not_built(const Ground& ground, const RoomOfNumbers& room, int host, bool proven) {
  const auto without = places_without_choice(ground, room, host);
  if (!without.empty())
    return {fmt::format("Nothing in this room is known to fit as its {}.", listed(without)), false};
  const auto& data = room.problem.hosts[static_cast<std::size_t>(host)];
  if (data.tiers.empty())
    return {"No price is recorded for a set that looks like this one.", false};
  const Prices none{std::vector<double>(room.problem.pools.size(), 0.0), 0};
  Effort effort({10, kSteps, 0.5});
  const auto best =
      HostSearch(room.problem, host).best(none, -std::numeric_limits<double>::infinity(), effort);
  if (!best)
    return {effort.over() ? "The search for a way to build it was stopped before it found one."
                          : "No combination of what is here is known to fit together in it.",
            false};
  if (best->net <= -0.5 && !effort.over())
    return {fmt::format("The best way to build it would lose {}.",
                        money_words(-best->net, ground.shop.terms.currency)),
            true};
  if (best->net < 0.5)
    return {effort.over() ? "No way to build it that pays was found before the search was stopped."
                          : "No way to build it would earn anything.",
            true};
  if (!proven)
    return {fmt::format("By itself it could be worth {}, but the search was stopped before it was "
                        "clear whether that fits into the plan: give it more time.",
                        money_words(best->net, ground.shop.terms.currency)),
            true};
  return {"What it would need is worth more elsewhere, or there are not enough bench hours.", true};
}

}  // namespace benchgraft::plan
