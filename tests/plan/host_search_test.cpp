#include "plan/host_search.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <random>

#include <gtest/gtest.h>

#include "plan/hull.hpp"
#include "support/plan_rooms.hpp"

namespace benchgraft::plan {
namespace {

constexpr double kNever = -std::numeric_limits<double>::infinity();

TEST(Hull, finds_the_highest_price_over_every_combination_of_points) {
  for (unsigned seed = 1; seed <= 300; ++seed) {
    std::mt19937 random(seed);
    const auto draw = [&](int low, int high) {
      return std::uniform_int_distribution<int>(low, high)(random);
    };
    std::vector<std::vector<Point>> places(static_cast<std::size_t>(draw(1, 4)));
    Frontier all;
    for (std::size_t p = 0; p < places.size(); ++p) {
      for (int i = draw(1, 5); i > 0; --i)
        places[p].push_back({std::log(draw(5, 100) / 100.0), double(draw(-50, 300)), i});
      all = sum(all, frontier_of(places[p], static_cast<int>(p)));
    }
    const double price = draw(0, 1000);
    double best = kNever;
    const std::function<void(std::size_t, double, double)> each = [&](std::size_t p, double q,
                                                                      double cost) {
      if (p == places.size()) {
        best = std::max(best, price * std::exp(q) - cost);
        return;
      }
      for (const auto& point : places[p]) each(p + 1, q + point.q, cost + point.cost);
    };
    each(0, 0, 0);
    EXPECT_NEAR(highest(price, all, {}), best, 1e-9) << "seed " << seed;
    EXPECT_TRUE(std::is_sorted(all.edges.begin(), all.edges.end(),
                               [](const Edge& a, const Edge& b) { return a.slope() < b.slope(); }));
  }
}

// Net of every rebuild of host 0, by counting it out.
std::vector<double> every_net(const Problem& room, const Prices& prices) {
  std::vector<double> nets;
  const auto& places = room.hosts[0].places;
  Built built{0, {}, {}};
  const std::function<void()> each = [&] {
    if (built.choices.size() == places.size()) {
      const Worth worth = worth_of(room, built);
      if (!worth.allowed || worth.chance <= 0) return;
      std::vector<int> left(room.pools.size(), 0);
      draw(room, built, left);
      double net = worth.value - prices.minute * worth.minutes;
      for (std::size_t g = 0; g < left.size(); ++g) net += prices.pools[g] * left[g];
      nets.push_back(net);
      return;
    }
    const auto& choices = places[built.choices.size()].choices;
    for (std::size_t c = 0; c < choices.size(); ++c)
      for (std::size_t s = 0; s < choices[c].sources.size(); ++s) {
        built.choices.push_back(static_cast<int>(c));
        built.sources.push_back(static_cast<int>(s));
        each();
        built.choices.pop_back();
        built.sources.pop_back();
      }
  };
  each();
  std::sort(nets.rbegin(), nets.rend());
  return nets;
}

Prices some_prices(const Problem& room, unsigned seed) {
  std::mt19937 random(seed);
  Prices prices;
  for (std::size_t g = 0; g < room.pools.size(); ++g)
    prices.pools.push_back(random() % 3 == 0 ? 0 : static_cast<double>(random() % 3000));
  prices.minute = random() % 2 ? 0 : static_cast<double>(random() % 60);
  return prices;
}

TEST(HostSearch, finds_the_best_of_all_rebuilds_at_any_prices) {
  int found_some = 0;
  for (unsigned seed = 1; seed <= 400; ++seed) {
    const auto room = test::random_room(seed, {2, 4, 4, 3, 3, false, seed % 2 == 0});
    if (room.hosts.empty()) continue;
    HostSearch search(room, 0);
    for (unsigned again = 0; again < 3; ++again) {  // what was learned must not spoil the next
      const auto prices = some_prices(room, seed * 10 + again);
      const auto nets = every_net(room, prices);
      Effort effort{Limits{}};
      const auto best = search.best(prices, kNever, effort);
      ASSERT_EQ(best.has_value(), !nets.empty()) << "seed " << seed;
      if (!best) continue;
      ++found_some;
      EXPECT_NEAR(best->net, nets.front(), 1e-5) << "seed " << seed << " prices " << again;
      EXPECT_FALSE(search.best(prices, nets.front() + 1, effort)) << "seed " << seed;
    }
    EXPECT_FALSE(search.shared_work()) << "seed " << seed;
  }
  EXPECT_GT(found_some, 300);
}

TEST(HostSearch, lists_every_rebuild_above_a_floor) {
  for (unsigned seed = 1; seed <= 200; ++seed) {
    const auto room = test::random_room(seed, {2, 4, 3, 3, 3, false, seed % 2 == 0});
    if (room.hosts.empty()) continue;
    const auto prices = some_prices(room, seed);
    const auto nets = every_net(room, prices);
    if (nets.empty()) continue;
    const double floor = nets[nets.size() / 2] - 0.01;
    const auto above =
        std::count_if(nets.begin(), nets.end(), [&](double n) { return n >= floor; });
    HostSearch search(room, 0);
    Effort effort{Limits{}};
    const auto all = search.all(prices, floor, 100000, effort);
    ASSERT_TRUE(all) << "seed " << seed;
    EXPECT_EQ(static_cast<long>(all->size()), above) << "seed " << seed;
    EXPECT_FALSE(search.all(prices, floor, static_cast<std::size_t>(above) - 1, effort));
  }
}

TEST(HostSearch, leaves_banned_sources_alone) {
  for (unsigned seed = 1; seed <= 100; ++seed) {
    auto room = test::random_room(seed, {2, 4, 3, 3, 3, false, false});
    if (room.hosts.empty()) continue;
    Banned banned;
    auto without = room;
    for (auto& place : without.hosts[0].places) {
      banned.emplace_back();
      for (auto& choice : place.choices) {
        banned.back().emplace_back(choice.sources.size(), 0);
        for (std::size_t s = 0; s < choice.sources.size(); ++s)
          if ((seed + s) % 2 == 0) banned.back().back()[s] = 1, choice.sources[s].chance = 0;
      }
    }
    const auto prices = some_prices(room, seed);
    HostSearch search(room, 0);
    Effort effort{Limits{}};
    const auto best = search.best(prices, kNever, effort, &banned);
    const auto nets = every_net(without, prices);
    ASSERT_EQ(best.has_value(), !nets.empty()) << "seed " << seed;
    if (best) {
      EXPECT_NEAR(best->net, nets.front(), 1e-5) << "seed " << seed;
    }
  }
}

}  // namespace
}  // namespace benchgraft::plan
