#include "support/plan_workshop.hpp"

#include <map>
#include <random>
#include <string>
#include <tuple>

namespace benchgraft::test {
namespace {

using namespace plan;

struct Kind {
  double salvage = 0, price = 0;  // price 0: nobody sells it
  double out = 0, in = 0;
};

class Loft {
 public:
  Loft(std::uint32_t seed, const WorkshopShape& shape) : random_(seed), shape_(shape) {}

  Problem run() {
    room_.money_per_minute = 40;
    for (int g = 0; g < shape_.generations; ++g)
      for (int r = 0; r < shape_.roles; ++r) add_kind(g, r);
    for (int s = 0; s < shape_.sets; ++s) add_set(s);
    for (int i = 0; i < shape_.loose; ++i) {
      const int role = draw(0, shape_.roles - 1);
      const int pool = pool_of(kind_of(draw(0, shape_.generations - 1), role), grade(), false);
      ++room_.pools[static_cast<std::size_t>(pool)].on_shelf;
    }
    for (std::size_t s = 0; s < room_.sets.size(); ++s) add_host(s);
    if (shape_.limited) room_.minutes = 60.0 * shape_.sets;
    return std::move(room_);
  }

 private:
  int draw(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }
  bool in_100(int n) { return draw(1, 100) <= n; }
  double grade() {
    const int g = draw(1, shape_.grades);
    return g == 1 ? 0.5 : 0.90 + 0.095 * (g - 1) / (shape_.grades - 1);
  }

  // Some places keep their type over two generations.
  void add_kind(int generation, int role) {
    if (generation > 0 && in_100(30)) {
      kinds_of_.push_back(kind_of(generation - 1, role));
      return;
    }
    kinds_of_.push_back(static_cast<int>(kinds_.size()));
    const bool big = role < 4;
    Kind kind{draw(1, big ? 25 : 6) * 100.0, 0, double(draw(2, big ? 30 : 10)),
              double(draw(3, big ? 40 : 12))};
    if (in_100(35)) kind.price = kind.salvage * 2 + draw(5, 50) * 100;
    kinds_.push_back(kind);
  }
  int kind_of(int generation, int role) const {
    return kinds_of_[static_cast<std::size_t>(generation * shape_.roles + role)];
  }

  int pool_of(int kind, double chance, bool inside) {
    const auto key = std::tuple(kind, chance, inside);
    const auto [at, added] = pools_.try_emplace(key, static_cast<int>(room_.pools.size()));
    if (added) {
      room_.pools.push_back({"type " + std::to_string(kind), 0});
      by_kind_[kind].push_back(at->second);
      chance_.push_back(chance);
      inside_.push_back(inside);
    }
    return at->second;
  }

  void add_set(int s) {
    Carcass set;
    set.name = "set " + std::to_string(s);
    set.may_strip = !in_100(15);
    set.strip_minutes = draw(8, 15);
    const int generation = draw(0, shape_.generations - 1);
    generation_.push_back(generation);
    own_.emplace_back();
    for (int r = 0; r < shape_.roles; ++r) {
      const bool gone = in_100(22);  // missing or bad
      own_.back().push_back(gone ? 0 : grade());
      if (gone) continue;
      const int pool = pool_of(kind_of(generation, r), own_.back().back(), true);
      pool_of(kind_of(generation, r), own_.back().back(), false);
      if (set.may_strip) set.holds.push_back({pool, 1});
    }
    room_.sets.push_back(set);
  }

  void add_host(std::size_t s) {
    Host host;
    host.name = room_.sets[s].name;
    const int own = generation_[s];
    for (int r = 0; r < shape_.roles; ++r) host.places.push_back(place(s, own, r));
    host.required = (Bits{1} << shape_.roles) - 1;
    const double price = draw(150, 400) * 100;
    host.tiers = {{price, 1}, {price * 0.75, 0}};
    host.open_minutes = draw(16, 30);
    host.evidence = {{{9, 1}, {4, 1}, {1, 1}}};
    add_pairs(host);
    room_.sets[s].host = static_cast<int>(room_.hosts.size());
    room_.hosts.push_back(host);
    from_.clear();
  }

  Place place(std::size_t s, int own, int r) {
    Place place;
    from_.emplace_back();
    const double chance = own_[s][static_cast<std::size_t>(r)];
    const auto fills = Bits{1} << r;
    if (chance > 0) {
      place.choices.push_back(
          {"own", false, {{kNone, chance, 0, 0}}, fills, able(own, r), 0, 0, {}});
      from_.back().push_back(own);
      if (room_.sets[s].may_strip) place.frees = pool_of(kind_of(own, r), chance, false);
    }
    for (int g = 0; g < shape_.generations; ++g) {
      const int kind = kind_of(g, r);
      if (g > 0 && kind == kind_of(g - 1, r)) continue;
      const int far = kind == kind_of(own, r) ? 0 : g > own ? g - own : own - g;
      if (far > 2 || (far > 0 && in_100(35))) continue;
      add_type(place, kind, far, fills, able(g, r));
      if (place.choices.size() > from_.back().size()) from_.back().push_back(far == 0 ? own : g);
    }
    return place;
  }

  // The best price wants two places of the later generations.
  Bits able(int generation, int role) const { return role == 1 && generation >= 1 ? 1 : 0; }

  void add_type(Place& place, int number, int far, Bits fills, Bits provides) {
    const Kind& kind = kinds_[static_cast<std::size_t>(number)];
    Choice choice{
        "type " + std::to_string(number), true, {}, fills, provides, kind.out + kind.in, 0, {}};
    if (far > 0 && in_100(60)) choice.work = {Level::work, double(draw(5, 40)), draw(0, 3) * 100.0};
    for (const int pool : by_kind_[number]) {
      const auto g = static_cast<std::size_t>(pool);
      choice.sources.push_back(
          {pool, chance_[g], kind.salvage * chance_[g], inside_[g] ? kind.out : 0});
    }
    if (kind.price > 0) choice.sources.push_back({kNone, 0.99, kind.price, 0});
    if (!choice.sources.empty()) place.choices.push_back(choice);
  }

  // Types of different generations in places that are joined refuse each other or want work.
  void add_pairs(Host& host) {
    const int places = shape_.roles;
    for (int a = 0; a < places; ++a)
      for (int b = a + 1; b < places; ++b) {
        if (!in_100(20)) continue;
        const auto &froms_a = from_[static_cast<std::size_t>(a)],
                   &froms_b = from_[static_cast<std::size_t>(b)];
        for (std::size_t i = 0; i < froms_a.size(); ++i)
          for (std::size_t j = 0; j < froms_b.size(); ++j) {
            if (froms_a[i] == froms_b[j]) continue;
            PairRule rule{a, static_cast<int>(i), b, static_cast<int>(j), in_100(35), {}};
            if (!rule.refused && in_100(60))
              rule.work = {Level::work, double(draw(5, 45)), draw(0, 9) * 100.0};
            host.pairs.push_back(rule);
          }
      }
  }

  std::mt19937 random_;
  WorkshopShape shape_;
  Problem room_;
  std::vector<Kind> kinds_;
  std::vector<int> kinds_of_;
  std::map<std::tuple<int, double, bool>, int> pools_;
  std::map<int, std::vector<int>> by_kind_;
  std::vector<double> chance_;
  std::vector<char> inside_;
  std::vector<int> generation_;
  std::vector<std::vector<double>> own_;  ///< chance of the own part; 0 = none that works
  std::vector<std::vector<int>> from_;    ///< generation of each choice of the host in hand
};

}  // namespace

plan::Problem workshop(std::uint32_t seed, const WorkshopShape& shape) {
  return Loft(seed, shape).run();
}

}  // namespace benchgraft::test
