#include "support/plan_twin.hpp"

#include <algorithm>
#include <map>

namespace benchgraft::test {
namespace {

using plan::Problem;

// What is left in every pool, and minutes in thousandths as the last number. Pools may go below
// zero on the way: a host looked at later may free a part.
using State = std::vector<long>;

struct Score {
  int unmet = 0;
  double value = 0;
  [[nodiscard]] bool better_than(const Score& other) const {
    return unmet != other.unmet ? unmet < other.unmet : value > other.value;
  }
};
using Table = std::map<State, Score>;

struct Way {
  State change;
  double value = 0;
};

void offer(Table& table, const State& state, const Score& score) {
  const auto [at, added] = table.try_emplace(state, score);
  if (!added && score.better_than(at->second)) at->second = score;
}

class Twin {
 public:
  explicit Twin(const Problem& room) : room_(room) {}

  TwinAnswer run() {
    State start;
    for (const auto& pool : room_.pools) start.push_back(pool.on_shelf);
    start.push_back(0);
    Table table{{start, {}}};
    for (const auto& set : room_.sets) table = with(set, table);
    Score best{1 << 20, 0};
    for (const auto& [state, score] : table) {
      bool good = std::all_of(state.begin(), state.end() - 1, [](long n) { return n >= 0; });
      if (room_.minutes && state.back() > *room_.minutes * 1000 + 1) good = false;
      if (good && score.better_than(best)) best = score;
    }
    return {best.value, best.unmet};
  }

 private:
  Table with(const plan::Carcass& set, const Table& before) {
    const bool missed = set.host >= 0 && room_.hosts[set.host].must;
    Way strip{State(room_.pools.size() + 1, 0), -set.strip_minutes * room_.money_per_minute};
    for (const auto& supply : set.holds) strip.change[supply.pool] += supply.count;
    strip.change.back() = static_cast<long>(set.strip_minutes * 1000 + 0.5);
    std::vector<Way> ways;
    if (set.host >= 0) {
      std::vector<int> choices, sources;
      collect(set.host, choices, sources, ways);
    }
    Table after;
    for (const auto& [state, score] : before) {
      offer(after, state, {score.unmet + missed, score.value});
      if (set.may_strip)
        offer(after, plus(state, strip), {score.unmet + missed, score.value + strip.value});
      for (const auto& way : ways)
        offer(after, plus(state, way), {score.unmet, score.value + way.value});
    }
    return after;
  }

  static State plus(State state, const Way& way) {
    for (std::size_t i = 0; i < state.size(); ++i) state[i] += way.change[i];
    return state;
  }

  void collect(int host, std::vector<int>& choices, std::vector<int>& sources,
               std::vector<Way>& ways) {
    const auto& places = room_.hosts[host].places;
    if (choices.size() == places.size()) {
      Way way{State(room_.pools.size() + 1, 0), 0};
      if (worth(host, choices, sources, way)) ways.push_back(way);
      return;
    }
    const auto& place = places[choices.size()];
    for (std::size_t c = 0; c < place.choices.size(); ++c)
      for (std::size_t s = 0; s < place.choices[c].sources.size(); ++s) {
        choices.push_back(static_cast<int>(c));
        sources.push_back(static_cast<int>(s));
        collect(host, choices, sources, ways);
        choices.pop_back();
        sources.pop_back();
      }
  }

  bool worth(int number, const std::vector<int>& choices, const std::vector<int>& sources,
             Way& way) {
    const auto& host = room_.hosts[number];
    auto whole = by_hand(room_, number, choices);
    if (!whole.allowed) return false;
    if (room_.whole) whole = room_.whole(number, choices);
    if (!whole.allowed) return false;
    for (std::size_t p = 0; p < host.places.size(); ++p) {
      const auto& choice = host.places[p].choices[choices[p]];
      const auto& source = choice.sources[sources[p]];
      whole.minutes += source.minutes;
      whole.money += source.money;
      whole.chance *= source.chance;
      if (source.chance <= 0) return false;  // a part that cannot work is not put in
      if (source.pool >= 0) --way.change[source.pool];
      if (choice.changes && host.places[p].frees >= 0) ++way.change[host.places[p].frees];
    }
    way.change.back() = static_cast<long>(whole.minutes * 1000 + 0.5);
    way.value = whole.price * whole.chance - whole.money - whole.minutes * room_.money_per_minute;
    return true;
  }

  const Problem& room_;
};

}  // namespace

plan::Whole by_hand(const Problem& room, int number, const std::vector<int>& choices,
                    plan::Level* found_level, double* found_notes) {
  const auto& host = room.hosts[number];
  plan::Whole sum;
  unsigned long filled = 0, able = host.provides;
  double dearest = -1;
  plan::Work work;
  plan::Level level = plan::Level::plain;
  double notes = 0;
  bool opened = false;
  const auto consider = [&](const plan::Work& one) {
    const double cost = one.money + one.minutes * room.money_per_minute;
    if (one.level > level) level = one.level;
    if (one.level != plan::Level::plain && cost > dearest) dearest = cost, work = one;
  };
  for (std::size_t p = 0; p < host.places.size(); ++p) {
    const auto& choice = host.places[p].choices[choices[p]];
    filled |= choice.fills;
    able |= choice.provides;
    sum.minutes += choice.minutes;
    sum.money += choice.money;
    opened = opened || choice.changes;
    notes += choice.notes;
    consider(choice.work);
  }
  for (const auto& rule : host.pairs) {
    if (choices[rule.place_a] != rule.choice_a || choices[rule.place_b] != rule.choice_b) continue;
    if (rule.refused) sum.allowed = false;
    consider(rule.work);
  }
  if ((filled & host.required) != host.required) sum.allowed = false;
  for (const auto& tier : host.tiers)
    if ((able & tier.needs) == tier.needs) sum.price = std::max(sum.price, tier.price);
  sum.minutes += (opened ? host.open_minutes : 0) + work.minutes;
  sum.money += work.money;
  const auto& counts = host.evidence[static_cast<std::size_t>(level)];
  sum.chance = (counts.works + notes) / (counts.works + counts.fails + notes);
  if (found_level) *found_level = level;
  if (found_notes) *found_notes = notes;
  return sum;
}

TwinAnswer plan_by_trying_everything(const plan::Problem& room) { return Twin(room).run(); }

}  // namespace benchgraft::test
