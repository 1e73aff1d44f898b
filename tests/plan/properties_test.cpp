// What must hold for any room, whatever the plan.
#include <algorithm>
#include <numeric>
#include <random>

#include <gtest/gtest.h>

#include "base/text.hpp"
#include "plan/columns.hpp"
#include "plan/room.hpp"
#include "small_shop.hpp"
#include "support/plan_rooms.hpp"
#include "support/plan_twin.hpp"

namespace benchgraft::plan {
namespace {

Answer answer_for(const Problem& room) {
  auto answer = plan_by_columns(room, Limits{});
  EXPECT_TRUE(answer.ok()) << (answer ? "" : answer.error().message);
  return answer ? std::move(answer).value() : Answer{};
}

TEST(Properties, one_part_more_never_lowers_the_value) {
  for (std::uint32_t seed = 1; seed <= 60; ++seed) {
    auto room = test::random_room(seed, {5, 4, 3, 3, 2, false, false});
    const double before = answer_for(room).value;
    ++room.pools[seed % room.pools.size()].on_shelf;
    EXPECT_GE(answer_for(room).value, before - 0.5) << "seed " << seed;
  }
}

TEST(Properties, one_hour_more_never_lowers_the_value) {
  for (std::uint32_t seed = 1; seed <= 60; ++seed) {
    auto room = test::random_room(seed, {5, 4, 3, 3, 2, false, false});
    room.minutes = 40.0 + seed;
    const double before = answer_for(room).value;
    *room.minutes += 60;
    EXPECT_GE(answer_for(room).value, before - 0.5) << "seed " << seed;
  }
}

// The same room with sets, hosts and pools written down in another order.
Problem turned(const Problem& room, std::uint32_t seed) {
  std::mt19937 random(seed);
  const auto order = [&](std::size_t n) {
    std::vector<int> to(n);
    std::iota(to.begin(), to.end(), 0);
    std::shuffle(to.begin(), to.end(), random);
    return to;
  };
  const auto pools = order(room.pools.size()), hosts = order(room.hosts.size()),
             sets = order(room.sets.size());
  Problem other = room;
  for (std::size_t g = 0; g < pools.size(); ++g)
    other.pools[static_cast<std::size_t>(pools[g])] = room.pools[g];
  for (std::size_t h = 0; h < hosts.size(); ++h) {
    Host host = room.hosts[h];
    for (auto& place : host.places) {
      if (place.frees != kNone) place.frees = pools[static_cast<std::size_t>(place.frees)];
      for (auto& choice : place.choices)
        for (auto& source : choice.sources)
          if (source.pool != kNone) source.pool = pools[static_cast<std::size_t>(source.pool)];
    }
    other.hosts[static_cast<std::size_t>(hosts[h])] = host;
  }
  for (std::size_t s = 0; s < sets.size(); ++s) {
    Carcass set = room.sets[s];
    if (set.host != kNone) set.host = hosts[static_cast<std::size_t>(set.host)];
    for (auto& supply : set.holds) supply.pool = pools[static_cast<std::size_t>(supply.pool)];
    other.sets[static_cast<std::size_t>(sets[s])] = set;
  }
  return other;
}

TEST(Properties, another_order_of_the_records_changes_nothing) {
  for (std::uint32_t seed = 1; seed <= 60; ++seed) {
    const auto room = test::random_room(seed, {6, 4, 3, 3, 2, false, false});
    EXPECT_NEAR(answer_for(room).value, answer_for(turned(room, seed)).value, 0.5)
        << "seed " << seed;
  }
}

TEST(Properties, the_same_room_gives_the_same_plan_twice) {
  for (std::uint32_t seed = 1; seed <= 30; ++seed) {
    const auto room = test::random_room(seed, {6, 4, 3, 3, 2, false, true});
    const auto a = answer_for(room), b = answer_for(room);
    EXPECT_EQ(a.best.built, b.best.built) << "seed " << seed;
    EXPECT_EQ(a.best.stripped, b.best.stripped) << "seed " << seed;
  }
}

TEST(Properties, a_set_that_may_not_be_stripped_never_is) {
  for (std::uint32_t seed = 1; seed <= 60; ++seed) {
    const auto room = test::random_room(seed, {7, 4, 3, 3, 2, true, true});
    const auto answer = answer_for(room);
    for (std::size_t s = 0; s < room.sets.size(); ++s)
      if (!room.sets[s].may_strip) {
        EXPECT_FALSE(answer.best.stripped[s]) << "seed " << seed;
      }
  }
}

// A random shop of Alphas and Betas whose judgement has random rules on pairs of types.
SmallShop random_shop(std::uint32_t seed) {
  std::mt19937 random(seed);
  const auto draw = [&](int low, int high) {
    return std::uniform_int_distribution<int>(low, high)(random);
  };
  const double chances[] = {0, 0.5, 0.7, 0.9, 1};
  SmallShop shop;
  for (int s = draw(1, 3); s > 0; --s) {
    const std::string code = "S" + std::to_string(s);
    auto& set = shop.set(code, draw(0, 1) ? "Alpha" : "Beta");
    if (draw(0, 4) == 0) set.consent = shop::Consent::must_go_back;
    if (draw(0, 3) == 0) set.missing = {"light"};
    for (const char* position : {"supply", "picture"})
      if (draw(0, 2))
        shop.part(in_capitals(code + position[0]),
                  position[0] == 's' ? "PS-1"
                  : draw(0, 1)       ? "MB-1"
                                     : "MB-2",
                  chances[draw(0, 4)], code, position);
    // What was seen must not contradict the variant.
    set.variant.clear();
    for (auto& part : shop.room.parts)
      if (part.in_set == set.id)
        part.type = shop.known.model(set.model)->variants.front().parts.at(part.position);
  }
  const char* types[] = {"PS-1", "PS-2", "MB-1", "MB-2", "LT-1"};
  for (int i = draw(0, 4); i > 0; --i)
    shop.loose("R" + std::to_string(i), types[draw(0, 4)], chances[draw(1, 4)]);
  const int rule = draw(0, 5), minutes = draw(5, 60);
  shop.fitting = everything_fits([rule, minutes](const auto& rebuild, auto& judged) {
    const bool foreign = put_into(rebuild, "supply") == "PS-2" && rebuild.model == "Alpha";
    if (foreign && rule == 0) object(judged, fit::Verdict::destroys, "supply");
    if (foreign && put_into(rebuild, "picture") == "MB-2" && rule == 1)
      object(judged, fit::Verdict::does_not_fit, "both");
    if (!put_into(rebuild, "picture").empty() && rule >= 2) {
      object(judged, fit::Verdict::fits_with_work, "picture");
      judged.reasons.back().work_minutes = minutes;
      judged.work_minutes += minutes;
    }
    if (!put_into(rebuild, "light").empty() && put_into(rebuild, "supply").empty() && rule == 5)
      object(judged, fit::Verdict::unknown, "light alone");
  });
  return shop;
}

TEST(Properties, a_random_shop_is_planned_as_well_as_by_trying_everything) {
  int built = 0;
  for (std::uint32_t seed = 1; seed <= 150; ++seed) {
    auto shop = random_shop(seed);
    shop.options.value_tests = false;
    const auto plan = shop.plan();  // rechecked inside
    EXPECT_TRUE(plan.proven) << "seed " << seed;
    const auto stock = take_stock(shop.known, shop.room, shop.prospects());
    ASSERT_TRUE(stock.ok());
    const Wanted nothing;
    Answers answers(shop.fitting);
    const Ground ground{shop.known, shop.room, stock.value(), nothing, answers, false};
    const auto twin = test::plan_by_trying_everything(room_of_numbers(ground).problem);
    EXPECT_NEAR(static_cast<double>(plan.value.minor), twin.value, 3) << "seed " << seed;
    if (!plan.rebuilds.empty()) ++built;
  }
  EXPECT_GT(built, 75);
}

TEST(Properties, a_loose_part_more_never_lowers_the_plan_of_a_shop) {
  for (std::uint32_t seed = 1; seed <= 60; ++seed) {
    auto shop = random_shop(seed);
    shop.options.value_tests = false;
    const auto before = shop.plan().value.minor;
    shop.loose("R9", seed % 2 ? "MB-2" : "PS-1", 0.9);
    EXPECT_GE(shop.plan().value.minor, before - 3) << "seed " << seed;
  }
}

}  // namespace
}  // namespace benchgraft::plan
