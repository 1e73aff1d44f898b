#include "support/plan_rooms.hpp"

#include <random>
#include <string>

#include "support/plan_twin.hpp"

namespace benchgraft::test {
namespace {

using namespace plan;

class Maker {
 public:
  Maker(std::uint32_t seed, const RoomShape& shape) : random_(seed), shape_(shape), seed_(seed) {}

  Problem run() {
    room_.money_per_minute = draw(10, 80);
    for (int g = 0; g < shape_.pools; ++g) {
      room_.pools.push_back({"pool " + std::to_string(g), one_in(3) ? draw(1, 2) : 0});
      chance_.push_back(draw(20, 100) / 100.0);
      salvage_.push_back(draw(0, 9) * 100);
    }
    for (int s = 0; s < shape_.sets; ++s) add_set(s);
    if (one_in(3)) room_.minutes = draw(20, 60) * shape_.sets;
    if (shape_.whole) add_whole();
    return std::move(room_);
  }

 private:
  int draw(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }
  bool one_in(int n) { return draw(1, n) == 1; }

  void add_set(int s) {
    Carcass set;
    set.name = "set " + std::to_string(s);
    set.may_strip = !one_in(4);
    set.strip_minutes = draw(0, 20);
    if (!one_in(3)) {
      set.host = static_cast<int>(room_.hosts.size());
      add_host(set.name);
    }
    for (int g = 0; g < shape_.pools; ++g)
      if (one_in(3)) set.holds.push_back({g, draw(1, 2)});
    room_.sets.push_back(set);
  }

  void add_host(const std::string& name) {
    Host host;
    host.name = name;
    const int places = draw(1, shape_.places);
    for (int p = 0; p < places; ++p) host.places.push_back(place(p));
    for (int a = 0; a < places; ++a)
      for (int b = a + 1; b < places; ++b) add_pairs(host, a, b);
    host.tiers.push_back({draw(40, 200) * 100.0, static_cast<Bits>(draw(0, 3))});
    if (one_in(2)) host.tiers.push_back({draw(0, 80) * 100.0, 0});
    host.provides = one_in(3) ? 1 : 0;
    host.required = static_cast<Bits>(draw(0, (1 << places) - 1));
    host.open_minutes = draw(0, 15);
    host.chance_plain = draw(7, 10) / 10.0;
    host.chance_with_work = host.chance_plain * draw(6, 10) / 10.0;
    host.must = shape_.musts && one_in(4);
    room_.hosts.push_back(host);
  }

  Place place(int p) {
    Place place;
    if (one_in(2)) place.frees = draw(0, shape_.pools - 1);
    const int choices = draw(1, shape_.choices);
    for (int c = 0; c < choices; ++c) {
      Choice choice;
      choice.name = "choice " + std::to_string(c);
      choice.changes = c > 0 || one_in(3);
      choice.fills = static_cast<Bits>(draw(0, 1) << p | (one_in(6) ? draw(0, 7) : 0));
      choice.provides = static_cast<Bits>(draw(0, 3));
      choice.minutes = choice.changes ? draw(0, 30) : 0;
      choice.money = one_in(5) ? draw(0, 5) * 100 : 0;
      if (one_in(4)) choice.work = {true, double(draw(0, 20)), double(draw(0, 3) * 100)};
      add_sources(choice);
      place.choices.push_back(choice);
    }
    return place;
  }

  void add_sources(Choice& choice) {
    if (!choice.changes || one_in(4)) {
      choice.sources.push_back({kNone, draw(0, 100) / 100.0, draw(0, 20) * 100.0, 0});
      if (!choice.changes) return;
    }
    const int sources = draw(1, shape_.sources);
    for (int s = 0; s < sources; ++s) {
      const int pool = draw(0, shape_.pools - 1);
      const auto g = static_cast<std::size_t>(pool);
      choice.sources.push_back({pool, chance_[g], salvage_[g], double(draw(0, 10))});
    }
  }

  void add_pairs(Host& host, int a, int b) {
    const auto count = [&](int p) {
      return static_cast<int>(host.places[static_cast<std::size_t>(p)].choices.size());
    };
    for (int i = 0; i < count(a); ++i)
      for (int j = 0; j < count(b); ++j) {
        if (one_in(5)) host.pairs.push_back({a, i, b, j, true, {}});
        if (one_in(5))
          host.pairs.push_back(
              {a, i, b, j, false, {true, double(draw(0, 40)), double(draw(0, 5) * 100)}});
      }
  }

  // Repeatable and never kinder than the tables: some rebuilds refused, some dearer, some worth
  // less.
  void add_whole() {
    Problem tables = room_;
    room_.whole = [tables, seed = seed_](int host, const std::vector<int>& choices) {
      std::uint32_t mix = seed * 2654435761u + static_cast<std::uint32_t>(host) * 40503u;
      for (const int c : choices) mix = (mix ^ static_cast<std::uint32_t>(c + 1)) * 16777619u;
      mix ^= mix >> 15;
      Whole whole = by_hand(tables, host, choices);
      whole.allowed = whole.allowed && mix % 5 != 0;
      if (mix % 3 == 0) whole.minutes += mix % 7;
      if (mix % 7 == 0) whole.price *= 0.5;
      if (mix % 11 == 0) whole.chance *= 0.9;
      return whole;
    };
  }

  std::mt19937 random_;
  RoomShape shape_;
  std::uint32_t seed_;
  Problem room_;
  std::vector<double> chance_, salvage_;
};

}  // namespace

plan::Problem random_room(std::uint32_t seed, const RoomShape& shape) {
  return Maker(seed, shape).run();
}

}  // namespace benchgraft::test
