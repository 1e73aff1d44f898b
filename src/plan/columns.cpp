#include "plan/columns.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "plan/master.hpp"

namespace benchgraft::plan {
namespace {

constexpr double kNever = -std::numeric_limits<double>::infinity();
constexpr double kPays = 1e-4;       // minor units of money a new rebuild has to gain
constexpr double kBroken = 1e-6;     // how far from a whole number counts as broken
constexpr int kNodesOfChoice = 500;  // of the integer program's tree, per call
constexpr double kLeastSecondsOfChoice = 1;
constexpr std::size_t kNodesBetweenChoices = 25;
// What one search may take of the effort left: never all, and less where more hosts wait.
constexpr double kMostOfOneHost = 0.15, kTurnsAtOnce = 2;

// More than any plan could gain by leaving a wished-for host out.
double left_out_costs(const Problem& problem) {
  double sum = 1;
  for (const auto& host : problem.hosts) {
    double highest = 0;
    for (const auto& tier : host.tiers) highest = std::max(highest, tier.price);
    sum += highest;
    if (!host.must) continue;
    sum += problem.money_per_minute * host.open_minutes;
    double work = 0;
    const auto cost = [&](double money, double minutes) {
      return money + problem.money_per_minute * minutes;
    };
    for (const auto& place : host.places) {
      double dearest = 0;
      for (const auto& choice : place.choices)
        for (const auto& source : choice.sources) {
          work = std::max(work, cost(choice.work.money, choice.work.minutes));
          dearest =
              std::max(dearest, cost(choice.money + source.money, choice.minutes + source.minutes));
        }
      sum += dearest;
    }
    for (const auto& rule : host.pairs)
      work = std::max(work, cost(rule.work.money, rule.work.minutes));
    sum += work;
  }
  for (const auto& set : problem.sets) sum += problem.money_per_minute * set.strip_minutes;
  return 2 * sum;
}

class Columns {
 public:
  Columns(const Problem& problem, const Limits& limits)
      : problem_(problem),
        limits_(limits),
        effort_(limits),
        penalty_(left_out_costs(problem)),
        master_(problem, penalty_) {
    for (std::size_t h = 0; h < problem.hosts.size(); ++h)
      searches_.emplace_back(problem, static_cast<int>(h));
    best_.best.stripped.assign(problem.sets.size(), 0);
  }

  Result<Answer> run(const Allotment& start) {
    take_over(start);
    Branch root{std::vector<signed char>(problem_.sets.size(), -1),
                std::vector<signed char>(problem_.hosts.size(), -1),
                std::vector<Banned>(problem_.hosts.size()), at_most()};
    open_.push_back(root);
    while (!open_.empty() && !stopped()) {
      const auto next =
          std::max_element(open_.begin(), open_.end(),
                           [](const Branch& a, const Branch& b) { return a.bound < b.bound; });
      Branch branch = std::move(*next);
      open_.erase(next);
      if (branch.bound <= score_ + limits_.close_enough / 2) {
        open_.clear();
        break;
      }
      if (auto done = explore(std::move(branch)); !done) return done.error();
    }
    // Cut short: the best of what there is.
    if (chosen_from_ < master_.rebuilds().size() && (!open_.empty() || unfinished_ > score_))
      if (auto chosen = choose(root); !chosen) return chosen.error();
    return finish();
  }

 private:
  // Every host at its highest price.
  [[nodiscard]] double at_most() const {
    double sum = 0;
    for (const auto& host : problem_.hosts) {
      double highest = 0;
      for (const auto& tier : host.tiers) highest = std::max(highest, tier.price);
      sum += highest;
    }
    return sum;
  }

  bool stopped() { return effort_.over_now(); }

  // Makes the rebuilds that pay in this branch, takes what is whole, splits what is broken.
  Result<void> explore(Branch branch) {
    master_.enter(branch);
    const auto solution = generate(branch);
    if (!solution || branch.bound <= score_ + limits_.close_enough / 2) {
      if (!solution) unfinished_ = std::max(unfinished_, branch.bound);
      return {};
    }
    if (nodes_++ % kNodesBetweenChoices == 0) {
      if (auto chosen = choose(branch); !chosen) return chosen.error();
      if (branch.bound <= score_ + limits_.close_enough / 2) return {};
    }
    split(branch, *solution);
    return {};
  }

  // Adds rebuilds until none pays any more; lowers the bound of the branch on the way. Nothing when
  // the time is up.
  std::optional<Master::Solution> generate(Branch& branch) {
    for (;;) {
      auto solution = master_.solve();
      if (!solution) return std::nullopt;
      double upper = solution->value;
      bool more = false;
      for (std::size_t h = 0; h < problem_.hosts.size(); ++h) {
        if (branch.built[h] == 0) continue;
        const double floor = solution->host_price[h] + kPays;
        Effort part = effort_.part(
            std::min(kMostOfOneHost, kTurnsAtOnce / static_cast<double>(problem_.hosts.size())));
        const auto found = searches_[h].best(solution->prices, floor, part, &branch.banned[h]);
        effort_.used(part);
        const double net = found ? found->net : floor;
        upper += std::max(net, searches_[h].cut_off()) - solution->host_price[h];
        if (found) more = master_.add(*found) || more;
        if (effort_.over()) return std::nullopt;
      }
      branch.bound = std::min(branch.bound, upper);
      if (!more || branch.bound <= score_ + limits_.close_enough / 2) return solution;
      if (stopped()) return std::nullopt;
    }
  }

  // The best choice among the rebuilds made so far, in the room as it is.
  Result<void> choose(const Branch& branch) {
    const Branch everything{std::vector<signed char>(problem_.sets.size(), -1),
                            std::vector<signed char>(problem_.hosts.size(), -1),
                            std::vector<Banned>(problem_.hosts.size()), 0};
    master_.enter(everything);
    const std::vector<char> keep(master_.rebuilds().size(), 1);
    auto program = master_.whole_numbers(keep);
    program.start = master_.amounts_of(best_.best, keep);
    program.seconds = std::max(kLeastSecondsOfChoice, effort_.seconds_left() / 3);
    chosen_from_ = master_.rebuilds().size();
    program.nodes = kNodesOfChoice;
    program.close_enough = limits_.close_enough / 4;
    const auto answer = num::solve(program);
    if (!answer) return answer.error();
    if (!answer.value().amounts.empty()) consider(master_.read(answer.value().amounts, keep));
    master_.enter(branch);
    return {};
  }

  void consider(Allotment allotment) {
    const auto value = value_of(problem_, allotment);
    if (!value) return;
    std::vector<char> built(problem_.hosts.size(), 0);
    for (const auto& one : allotment.built) built[static_cast<std::size_t>(one.host)] = 1;
    std::vector<int> unmet;
    for (std::size_t h = 0; h < built.size(); ++h)
      if (problem_.hosts[h].must && !built[h]) unmet.push_back(static_cast<int>(h));
    const double score = value.value() - penalty_ * static_cast<double>(unmet.size());
    if (score <= score_) return;
    score_ = score;
    best_.best = std::move(allotment);
    best_.value = value.value();
    best_.unmet = std::move(unmet);
  }

  void take_over(const Allotment& start) {
    consider({{}, std::vector<char>(problem_.sets.size(), 0)});
    if (start.stripped.size() == problem_.sets.size()) consider(start);
    for (const auto& built : best_.best.built) master_.add({built, worth_of(problem_, built), 0});
  }

  // Two branches that leave out the broken amount nearest to a half; none when all are whole.
  void split(const Branch& branch, const Master::Solution& solution) {
    double most = kBroken;
    int set = kNone, host = kNone;
    const auto broken = [](double amount) { return std::min(amount, 1 - amount); };
    for (std::size_t s = 0; s < solution.stripped.size(); ++s)
      if (branch.stripped[s] == -1 && broken(solution.stripped[s]) > most)
        most = broken(solution.stripped[s]), set = static_cast<int>(s);
    for (std::size_t h = 0; h < solution.built.size(); ++h)
      if (branch.built[h] == -1 && broken(solution.built[h]) > most)
        most = broken(solution.built[h]), host = static_cast<int>(h), set = kNone;
    if (set != kNone) return fork(branch, &Branch::stripped, static_cast<std::size_t>(set));
    if (host != kNone) return fork(branch, &Branch::built, static_cast<std::size_t>(host));
    split_rebuild(branch, solution);
  }

  void fork(const Branch& branch, std::vector<signed char> Branch::*what, std::size_t at) {
    for (const signed char decided : {1, 0}) {
      Branch child = branch;
      (child.*what)[at] = decided;
      open_.push_back(std::move(child));
    }
  }

  // All sets are used whole, but some host is built in two ways at once: they differ in a source.
  void split_rebuild(const Branch& branch, const Master::Solution& solution) {
    const auto& rebuilds = master_.rebuilds();
    std::vector<int> first(problem_.hosts.size(), kNone);
    Allotment whole;
    for (const double amount : solution.stripped) whole.stripped.push_back(amount > 0.5);
    for (std::size_t k = 0; k < solution.amounts.size(); ++k) {
      if (solution.amounts[k] <= kBroken) continue;
      const auto& built = rebuilds[k].built;
      int& other = first[static_cast<std::size_t>(built.host)];
      if (other != kNone)
        return fork_source(branch, rebuilds[static_cast<std::size_t>(other)].built, built);
      other = static_cast<int>(k);
      whole.built.push_back(built);
    }
    const double before = score_;
    consider(std::move(whole));
    if (score_ == before) unfinished_ = std::max(unfinished_, branch.bound);
  }

  void fork_source(const Branch& branch, const Built& a, const Built& b) {
    const auto h = static_cast<std::size_t>(a.host);
    const auto& places = problem_.hosts[h].places;
    std::size_t p = 0;
    while (a.choices[p] == b.choices[p] && a.sources[p] == b.sources[p]) ++p;
    for (const bool insists : {true, false}) {
      Branch child = branch;
      Banned& banned = child.banned[h];
      if (banned.empty())
        for (const auto& place : places) {
          banned.emplace_back();
          for (const auto& choice : place.choices)
            banned.back().emplace_back(choice.sources.size(), 0);
        }
      for (std::size_t c = 0; c < places[p].choices.size(); ++c)
        for (std::size_t s = 0; s < places[p].choices[c].sources.size(); ++s) {
          const bool this_one =
              static_cast<int>(c) == a.choices[p] && static_cast<int>(s) == a.sources[p];
          if (this_one != insists) banned[p][c][s] = 1;
        }
      open_.push_back(std::move(child));
    }
  }

  Result<Answer> finish() {
    double upper = std::max(score_, unfinished_);
    for (const auto& branch : open_) upper = std::max(upper, branch.bound);
    for (const auto& search : searches_) {
      best_.looked_at += search.judged();
      best_.shared_work = best_.shared_work || search.shared_work();
    }
    if (best_.looked_at == 0) best_.looked_at = master_.rebuilds().size();
    best_.bound = upper + penalty_ * static_cast<double>(best_.unmet.size());
    best_.bound = std::max(best_.bound, best_.value);
    best_.proven = best_.bound <= best_.value + limits_.close_enough && !best_.shared_work;
    return std::move(best_);
  }

  const Problem& problem_;
  Limits limits_;
  Effort effort_;
  double penalty_;
  Master master_;
  std::vector<HostSearch> searches_;
  std::vector<Branch> open_;
  double score_ = kNever;       ///< of the best so far, penalties taken off
  double unfinished_ = kNever;  ///< the most a branch cut short could be worth
  std::size_t nodes_ = 0, chosen_from_ = 0;
  Answer best_;
};

}  // namespace

Result<Answer> plan_by_columns(const Problem& problem, const Limits& limits,
                               const Allotment& start) {
  return Columns(problem, limits).run(start);
}

}  // namespace benchgraft::plan
