#include "support/plan_compact.hpp"

#include <algorithm>
#include <cmath>

#include "num/integer_program.hpp"

namespace benchgraft::test {
namespace {

using namespace plan;

constexpr double kLowestChance = 1e-3;  // below it no set is worth building here

class Compact {
 public:
  Compact(const Problem& room, int pieces) : room_(room), pieces_(pieces) {}

  Result<Answer> run(double seconds) {
    for (const auto& pool : room_.pools) pool_rows_.push_back(row(-num::kNoLimit, pool.on_shelf));
    if (room_.minutes) minute_row_ = row(-num::kNoLimit, *room_.minutes);
    for (const auto& set : room_.sets) add_set(set);
    for (std::size_t h = 0; h < room_.hosts.size(); ++h) add_host(h);
    program_.seconds = seconds;
    program_.close_enough = 0.25;
    auto solved = num::solve(program_);
    if (!solved) return solved.error();
    return read(solved.value());
  }

 private:
  int row(double low, double high) {
    program_.rows.push_back({low, high});
    return static_cast<int>(program_.rows.size()) - 1;
  }
  int column(double value, double high, bool whole) {
    program_.columns.push_back({value, 0, high, whole, {}});
    return static_cast<int>(program_.columns.size()) - 1;
  }
  void count(int column, int row, double amount) {
    auto& entries = program_.columns[static_cast<std::size_t>(column)].entries;
    for (auto& [there, sum] : entries)
      if (there == row) {
        sum += amount;
        return;
      }
    entries.emplace_back(row, amount);
  }
  void cost(int column, double money, double minutes) {
    program_.columns[static_cast<std::size_t>(column)].value -=
        money + minutes * room_.money_per_minute;
    if (minute_row_ != kNone && minutes > 0) count(column, minute_row_, minutes);
  }

  void add_set(const Carcass& set) {
    const bool may = set.may_strip && !set.holds.empty();
    const int strip = column(0, may ? 1 : 0, true);
    strips_.push_back(strip);
    cost(strip, 0, set.strip_minutes);
    for (const auto& supply : set.holds)
      count(strip, pool_rows_[static_cast<std::size_t>(supply.pool)], -supply.count);
    set_rows_.push_back(row(-num::kNoLimit, 1));
    count(strip, set_rows_.back(), 1);
  }

  void add_host(std::size_t h) {
    const Host& host = room_.hosts[h];
    const int built = column(0, 1, true);
    builts_.push_back(built);
    takes_.emplace_back();
    for (std::size_t s = 0; s < room_.sets.size(); ++s)
      if (room_.sets[s].host == static_cast<int>(h)) count(built, set_rows_[s], 1);
    if (host.must) count(built, row(1, 1), 1);
    const int log_row = row(0, 0);  // sum of logs = what the pieces hold
    const int opened_row = row(-num::kNoLimit, 0);
    const int opened = column(0, 1, true);
    cost(opened, 0, host.open_minutes);
    count(opened, opened_row, -static_cast<double>(host.places.size()));
    for (std::size_t p = 0; p < host.places.size(); ++p) {
      const int one = row(0, 0);
      count(built, one, -1);
      takes_.back().emplace_back();
      for (const auto& choice : host.places[p].choices) {
        takes_.back().back().emplace_back();
        for (const auto& source : choice.sources) {
          const int take = column(0, source.chance > kLowestChance ? 1 : 0, true);
          takes_.back().back().back().push_back(take);
          count(take, one, 1);
          cost(take, choice.money + source.money, choice.minutes + source.minutes);
          if (source.pool != kNone)
            count(take, pool_rows_[static_cast<std::size_t>(source.pool)], 1);
          if (choice.changes && host.places[p].frees != kNone)
            count(take, pool_rows_[static_cast<std::size_t>(host.places[p].frees)], -1);
          if (choice.changes) count(take, opened_row, 1);
          if (source.chance > kLowestChance) count(take, log_row, std::log(source.chance));
        }
      }
    }
    add_roles(host, built, h);
    add_rules(host, built, h);
    add_prices(host, built, h, log_row);
  }

  void count_choice(std::size_t h, std::size_t p, std::size_t c, int row, double amount) {
    for (const int take : takes_[h][p][c]) count(take, row, amount);
  }

  void add_roles(const Host& host, int built, std::size_t h) {
    for (Bits bit = 1; bit != 0 && bit <= host.required; bit <<= 1) {
      if (!(host.required & bit)) continue;
      const int filled = row(0, num::kNoLimit);
      count(built, filled, -1);
      for (std::size_t p = 0; p < host.places.size(); ++p)
        for (std::size_t c = 0; c < host.places[p].choices.size(); ++c)
          if (host.places[p].choices[c].fills & bit) count_choice(h, p, c, filled, 1);
    }
  }

  // Refused pairs exclude each other; the dearest work is at least each work that is asked for.
  void add_rules(const Host& host, int built, std::size_t h) {
    work_ = column(-1, num::kNoLimit, false);
    level_work_ = column(0, 1, true);
    level_unsure_ = column(0, 1, true);
    const auto ask = [&](const Work& work,
                         const std::vector<std::pair<std::size_t, std::size_t>>& who) {
      if (!work.needed()) return;
      const double dear = work.money + work.minutes * room_.money_per_minute;
      const int least = row(-num::kNoLimit, 0), level = row(-num::kNoLimit, 0);
      for (const auto& [p, c] : who) {
        count_choice(h, p, c, least, dear);
        count_choice(h, p, c, level, 1);
      }
      if (who.size() == 2) count(built, least, -dear), count(built, level, -1);
      count(work_, least, -1);
      count(work.level == Level::unsure ? level_unsure_ : level_work_, level, -1);
      if (work.level == Level::work) count(level_unsure_, level, -1);
    };
    for (std::size_t p = 0; p < host.places.size(); ++p)
      for (std::size_t c = 0; c < host.places[p].choices.size(); ++c)
        ask(host.places[p].choices[c].work, {{p, c}});
    for (const auto& rule : host.pairs) {
      const auto pa = static_cast<std::size_t>(rule.place_a),
                 ca = static_cast<std::size_t>(rule.choice_a);
      const auto pb = static_cast<std::size_t>(rule.place_b),
                 cb = static_cast<std::size_t>(rule.choice_b);
      ask(rule.work, {{pa, ca}, {pb, cb}});
      if (!rule.refused) continue;
      const int not_both = row(-num::kNoLimit, 0);
      count(built, not_both, -1);
      count_choice(h, pa, ca, not_both, 1);
      count_choice(h, pb, cb, not_both, 1);
    }
  }

  // Pieces of log chance for every price and level; reports of success are all counted.
  void add_prices(const Host& host, int built, std::size_t h, int log_row) {
    double notes = 0, low = 0;
    for (const auto& place : host.places) {
      double most = 0, least = 0;
      for (const auto& choice : place.choices) {
        most = std::max(most, choice.notes);
        for (const auto& source : choice.sources)
          if (source.chance > kLowestChance) least = std::min(least, std::log(source.chance));
      }
      notes += most;
      low += least;
    }
    const int one = row(0, 0);
    count(built, one, -1);
    for (std::size_t k = 0; k <= host.tiers.size(); ++k) {
      const double price = k < host.tiers.size() ? host.tiers[k].price : 0;
      std::vector<int> need_rows;
      const Bits needs = k < host.tiers.size() ? host.tiers[k].needs & ~host.provides : 0;
      for (Bits bit = 1; bit != 0 && bit <= needs; bit <<= 1)
        if (needs & bit) {
          need_rows.push_back(row(-num::kNoLimit, 0));
          for (std::size_t p = 0; p < host.places.size(); ++p)
            for (std::size_t c = 0; c < host.places[p].choices.size(); ++c)
              if (host.places[p].choices[c].provides & bit)
                count_choice(h, p, c, need_rows.back(), -1);
        }
      for (int l = 0; l < 3; ++l) {
        const double worth = price * host.evidence[static_cast<std::size_t>(l)].mean(notes);
        for (int j = 0; j < pieces_; ++j)
          add_piece(worth, l, low * (j + 1) / pieces_, low * j / pieces_, one, log_row, need_rows);
      }
    }
  }

  void add_piece(double worth, int level, double from, double to, int one, int log_row,
                 const std::vector<int>& need_rows) {
    const double slope = to > from ? (std::exp(to) - std::exp(from)) / (to - from) : 0;
    const int in = column(worth * std::exp(to), 1, true);
    const int below = column(-worth * slope, num::kNoLimit, false);  // how far below `to`
    count(in, one, 1);
    count(in, log_row, -to);
    count(below, log_row, 1);
    const int inside = row(-num::kNoLimit, 0);
    count(below, inside, 1);
    count(in, inside, -(to - from));
    for (const int need : need_rows) count(in, need, 1);
    // A piece of a better level than the rebuild needs is not open.
    if (level == 2) return;
    const int open = row(-num::kNoLimit, 1);
    count(in, open, 1);
    count(level_unsure_, open, 1);
    if (level == 1) return;
    const int plain = row(-num::kNoLimit, 1);
    count(in, plain, 1);
    count(level_work_, plain, 1);
  }

  Answer read(const num::IntegerAnswer& solved) const {
    Answer answer;
    answer.best.stripped.assign(room_.sets.size(), 0);
    answer.bound = solved.bound;
    if (solved.amounts.empty()) return answer;
    const auto on = [&](int column) {
      return solved.amounts[static_cast<std::size_t>(column)] > 0.5;
    };
    for (std::size_t s = 0; s < strips_.size(); ++s) answer.best.stripped[s] = on(strips_[s]);
    for (std::size_t h = 0; h < builts_.size(); ++h) {
      if (!on(builts_[h])) continue;
      Built built{static_cast<int>(h), {}, {}};
      for (const auto& place : takes_[h])
        for (std::size_t c = 0; c < place.size(); ++c)
          for (std::size_t s = 0; s < place[c].size(); ++s)
            if (on(place[c][s])) {
              built.choices.push_back(static_cast<int>(c));
              built.sources.push_back(static_cast<int>(s));
            }
      answer.best.built.push_back(std::move(built));
    }
    const auto value = value_of(room_, answer.best);
    answer.value = value ? value.value() : 0;
    if (!value) answer.best = {{}, std::vector<char>(room_.sets.size(), 0)};
    return answer;
  }

  const Problem& room_;
  int pieces_;
  num::IntegerProgram program_;
  std::vector<int> pool_rows_, set_rows_, strips_, builts_;
  std::vector<std::vector<std::vector<std::vector<int>>>> takes_;  // host, place, choice, source
  int minute_row_ = kNone, work_ = kNone, level_work_ = kNone, level_unsure_ = kNone;
};

}  // namespace

Result<plan::Answer> plan_by_one_program(const plan::Problem& room, int pieces, double seconds) {
  return Compact(room, pieces).run(seconds);
}

}  // namespace benchgraft::test
