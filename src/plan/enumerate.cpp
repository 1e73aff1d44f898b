#include "plan/enumerate.hpp"

#include <algorithm>
#include <limits>

#include "plan/host_search.hpp"

namespace benchgraft::plan {
namespace {

constexpr double kNever = -std::numeric_limits<double>::infinity();
constexpr std::size_t kMostPerHost = 200'000;  // rebuilds of one host kept at once

// More than any rebuild of this host is worth.
double highest_price(const Host& host) {
  double highest = 0;
  for (const auto& tier : host.tiers) highest = std::max(highest, tier.price);
  return highest;
}

enum class Fate { undecided, built, stripped, left };

class Enumeration {
 public:
  Enumeration(const Problem& problem, const Limits& limits)
      : problem_(problem),
        limits_(limits),
        effort_(limits),
        none_{std::vector<double>(problem.pools.size(), 0.0), 0},
        fates_(problem.sets.size(), Fate::undecided) {
    for (std::size_t h = 0; h < problem.hosts.size(); ++h) {
      searches_.emplace_back(problem, static_cast<int>(h));
      const auto best = searches_.back().best(none_, kNever, effort_);
      alone_.push_back(effort_.over() ? highest_price(problem.hosts[h])
                       : best         ? best->net
                                      : kNever);
    }
    best_.best.stripped.assign(problem.sets.size(), 0);
    penalty_ = 1;
    for (const auto& host : problem.hosts)
      for (const auto& tier : host.tiers) penalty_ += tier.price;
    for (const double alone : alone_)
      if (alone < 0 && alone > kNever) penalty_ -= alone;
    penalty_ *= 10;
  }

  Answer run() {
    start();
    decide(0, 0);
    for (const auto& search : searches_) {
      best_.looked_at += search.judged();
      best_.shared_work = best_.shared_work || search.shared_work();
    }
    best_.value = score_ + penalty_ * static_cast<double>(best_.unmet.size());
    best_.bound =
        std::max(best_.value, skipped_ + penalty_ * static_cast<double>(best_.unmet.size()));
    best_.proven = best_.bound <= best_.value + limits_.close_enough && !best_.shared_work;
    return std::move(best_);
  }

 private:
  // Nothing built: something to beat.
  void start() {
    score_ = 0;
    for (const auto& set : problem_.sets) {
      score_ += unbuilt(set);
      if (unbuilt(set) < 0) best_.unmet.push_back(set.host);
    }
  }

  bool out_of_time() {
    effort_.spend(1);
    return effort_.over();
  }

  [[nodiscard]] double unbuilt(const Carcass& set) const {
    return set.host != kNone && problem_.hosts[static_cast<std::size_t>(set.host)].must ? -penalty_
                                                                                        : 0;
  }
  [[nodiscard]] double stripping(const Carcass& set) const {
    return unbuilt(set) - set.strip_minutes * problem_.money_per_minute;
  }
  [[nodiscard]] double alone(const Carcass& set) const {
    return set.host == kNone ? kNever : alone_[static_cast<std::size_t>(set.host)];
  }

  // No use of the sets from `from` on can add more than this.
  [[nodiscard]] double at_most(std::size_t from) const {
    double sum = 0;
    for (std::size_t s = from; s < problem_.sets.size(); ++s)
      sum += std::max(alone(problem_.sets[s]), unbuilt(problem_.sets[s]));
    return sum;
  }

  void skip(double upper) { skipped_ = std::max(skipped_, upper); }

  // Gives every set a use; `sure` is what the uses given so far could at most be worth.
  void decide(std::size_t next, double sure) {
    const double upper = sure + at_most(next);
    if (upper <= score_ + limits_.close_enough / 2) return;
    if (out_of_time()) return skip(upper);
    if (next == problem_.sets.size()) return build_all(sure);
    const auto& set = problem_.sets[next];
    if (alone(set) > kNever) {
      fates_[next] = Fate::built;
      decide(next + 1, sure + alone(set));
    }
    fates_[next] = Fate::left;
    decide(next + 1, sure + unbuilt(set));
    if (set.may_strip && !set.holds.empty()) {
      fates_[next] = Fate::stripped;
      decide(next + 1, sure + stripping(set));
    }
    fates_[next] = Fate::undecided;
  }

  // Each host takes the best of what those before it have left: something to beat, quickly.
  void one_after_another(double rest) {
    const auto all_stock = most_stock_;
    most_stock_ = sure_stock_;
    std::vector<Found> taken;
    for (const int host : hosts_) {
      const Host& data = problem_.hosts[static_cast<std::size_t>(host)];
      const auto banned = out_of_stock(data);
      auto found = searches_[static_cast<std::size_t>(host)].best(none_, kNever, effort_, &banned);
      if (!found) break;
      draw(problem_, found->built, most_stock_);
      taken.push_back(std::move(*found));
    }
    most_stock_ = all_stock;
    if (taken.size() < hosts_.size()) return;
    picked_.clear();
    for (const auto& found : taken) picked_.push_back(&found);
    keep(rest);
  }

  // The most that could be in each pool with these uses, and what surely is.
  void stock() {
    most_stock_.clear();
    for (const auto& pool : problem_.pools) most_stock_.push_back(pool.on_shelf);
    for (std::size_t s = 0; s < fates_.size(); ++s)
      if (fates_[s] == Fate::stripped)
        for (const auto& supply : problem_.sets[s].holds)
          most_stock_[static_cast<std::size_t>(supply.pool)] += supply.count;
    sure_stock_ = most_stock_;
    for (const int host : hosts_)
      for (const auto& place : problem_.hosts[static_cast<std::size_t>(host)].places)
        if (place.frees != kNone) ++most_stock_[static_cast<std::size_t>(place.frees)];
  }

  [[nodiscard]] Banned out_of_stock(const Host& host) const {
    Banned banned;
    for (const auto& place : host.places) {
      banned.emplace_back();
      for (const auto& choice : place.choices) {
        banned.back().emplace_back();
        for (const auto& source : choice.sources)
          banned.back().back().push_back(source.pool != kNone &&
                                         most_stock_[static_cast<std::size_t>(source.pool)] <= 0);
      }
    }
    return banned;
  }

  // With every use given: the rebuilds of each host that could be part of something better.
  void build_all(double sure) {
    hosts_.clear();
    double rest = 0;
    for (std::size_t s = 0; s < fates_.size(); ++s) {
      const auto& set = problem_.sets[s];
      if (fates_[s] == Fate::built)
        hosts_.push_back(set.host);
      else
        rest += fates_[s] == Fate::stripped ? stripping(set) : unbuilt(set);
    }
    stock();
    std::vector<double> best;
    std::vector<Banned> banned;
    double upper = rest;
    for (const int host : hosts_) {
      banned.push_back(out_of_stock(problem_.hosts[static_cast<std::size_t>(host)]));
      const auto found =
          searches_[static_cast<std::size_t>(host)].best(none_, kNever, effort_, &banned.back());
      if (effort_.over()) return skip(sure);
      if (!found) return;
      best.push_back(found->net);
      upper += found->net;
    }
    if (upper <= score_ + limits_.close_enough / 2) return;
    one_after_another(rest);
    if (upper <= score_ + limits_.close_enough / 2) return;
    lists_.clear();
    for (std::size_t i = 0; i < hosts_.size(); ++i) {
      const double floor = best[i] - (upper - score_);
      auto all = searches_[static_cast<std::size_t>(hosts_[i])].all(none_, floor, kMostPerHost,
                                                                    effort_, &banned[i]);
      if (!all) return skip(upper);
      lists_.push_back(std::move(*all));
    }
    picked_.assign(hosts_.size(), nullptr);
    combine(0, rest, upper, 0);
  }

  // One rebuild from each list, best first; `upper` counts the best of every list not picked yet.
  void combine(std::size_t next, double rest, double upper, double minutes) {
    if (upper <= score_ + limits_.close_enough / 2) return;
    if (out_of_time()) return skip(upper);
    if (next == lists_.size()) return keep(rest);
    for (const auto& found : lists_[next]) {
      effort_.spend(1);
      const double with = upper - lists_[next].front().net + found.net;
      if (with <= score_ + limits_.close_enough / 2) break;
      const double more = minutes + found.worth.minutes;
      if (problem_.minutes && more > *problem_.minutes + 1e-6) continue;
      picked_[next] = &found;
      combine(next + 1, rest, with, more);
    }
  }

  void keep(double rest) {
    Allotment allotment;
    for (const auto fate : fates_) allotment.stripped.push_back(fate == Fate::stripped);
    for (const auto* found : picked_) allotment.built.push_back(found->built);
    const auto value = value_of(problem_, allotment);
    if (!value) return;
    double score = rest;
    for (const auto* found : picked_) score += found->net;
    if (score <= score_) return;
    score_ = score;
    best_.best = std::move(allotment);
    best_.unmet.clear();
    for (std::size_t s = 0; s < fates_.size(); ++s)
      if (fates_[s] != Fate::built && unbuilt(problem_.sets[s]) < 0)
        best_.unmet.push_back(problem_.sets[s].host);
  }

  const Problem& problem_;
  Limits limits_;
  Effort effort_;
  Prices none_;
  std::vector<Fate> fates_;
  std::vector<HostSearch> searches_;
  std::vector<double> alone_;  ///< per host: its best when nobody else wants anything
  double penalty_ = 0;         ///< for a wished-for host that is not built
  double score_ = kNever;      ///< of the best so far, penalties taken off
  double skipped_ = kNever;    ///< the most that something not tried could be worth
  Answer best_;
  // Of the uses in hand:
  std::vector<int> hosts_;
  std::vector<int> most_stock_, sure_stock_;
  std::vector<std::vector<Found>> lists_;
  std::vector<const Found*> picked_;
};

}  // namespace

Answer enumerate(const Problem& problem, const Limits& limits) {
  return Enumeration(problem, limits).run();
}

}  // namespace benchgraft::plan
