#include "support/plan_rooms.hpp"

#include <algorithm>
#include <random>
#include <string>

#include "support/plan_twin.hpp"

namespace benchgraft::test {
namespace {

using namespace plan;

class Maker {
 public:
  Maker(std::uint32_t seed, const RoomShape& shape) : random_(seed), shape_(shape) {}

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
    const double plain = draw(7, 10) / 10.0, work = plain * draw(6, 10) / 10.0;
    host.evidence = {{{plain, 1 - plain}, {work, 1 - work}, {work / 2, 1 - work / 2}}};
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
      if (one_in(4))
        choice.work = {one_in(4) ? Level::unsure : Level::work, double(draw(0, 20)),
                       double(draw(0, 3) * 100)};
      if (one_in(5)) choice.notes = draw(1, 3) / 2.0;
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
              {a, i, b, j, false, {Level::work, double(draw(0, 40)), double(draw(0, 5) * 100)}});
      }
  }

  // Hidden rules over one to three places of a host that the tables know nothing of: some refuse,
  // some cost, some lower the chance or the price.
  struct Rule {
    int host;
    std::vector<std::pair<std::size_t, int>> where;
    Finding finding;
    double price;  // times
  };

  void add_whole() {
    std::vector<Rule> rules;
    for (std::size_t h = 0; h < room_.hosts.size(); ++h)
      for (int i = draw(0, 6); i > 0; --i) {
        rules.push_back(hidden(static_cast<int>(h)));
        if (i % 2 || rules.size() < 2 || rules[rules.size() - 2].host != static_cast<int>(h))
          continue;
        rules.back().finding = rules[rules.size() - 2].finding;
        rules.back().price = rules[rules.size() - 2].price;
      }
    Problem tables = room_;
    room_.whole = [tables, rules](int host, const std::vector<int>& choices) {
      Level level = Level::plain;
      double notes = 0;
      Whole whole = by_hand(tables, host, choices, &level, &notes);
      const auto& data = tables.hosts[static_cast<std::size_t>(host)];
      for (const auto& rule : rules) {
        if (rule.host != host) continue;
        bool meets = true;
        for (const auto& [p, c] : rule.where) meets = meets && choices[p] == c;
        // A finding with several causes is one finding.
        meets =
            meets && std::none_of(whole.findings.begin(), whole.findings.end(),
                                  [&](const Finding& f) { return f.code == rule.finding.code; });
        if (!meets) continue;
        whole.allowed = whole.allowed && !rule.finding.refuses;
        whole.minutes += rule.finding.minutes;
        whole.money += rule.finding.money;
        whole.price *= rule.price;
        level = std::max(level, rule.finding.level);
        whole.findings.push_back(rule.finding);
      }
      // Not every report that could count does.
      whole.chance = data.evidence[static_cast<std::size_t>(level)].mean(notes * 0.7);
      return whole;
    };
  }

  Rule hidden(int h) {
    const auto& places = room_.hosts[static_cast<std::size_t>(h)].places;
    Rule rule{h, {}, {}, one_in(5) ? 0.6 : 1.0};
    for (std::size_t p = 0; p < places.size(); ++p)
      if (one_in(2))
        rule.where.emplace_back(p, draw(0, static_cast<int>(places[p].choices.size()) - 1));
    rule.finding = {static_cast<std::uint64_t>(++codes_), one_in(3), static_cast<Level>(draw(0, 2)),
                    double(draw(0, 30)), double(draw(0, 4) * 100)};
    return rule;
  }

  int codes_ = 0;
  std::mt19937 random_;
  RoomShape shape_;
  Problem room_;
  std::vector<double> chance_, salvage_;
};

}  // namespace

plan::Problem random_room(std::uint32_t seed, const RoomShape& shape) {
  return Maker(seed, shape).run();
}

}  // namespace benchgraft::test
