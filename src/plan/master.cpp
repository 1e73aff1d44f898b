#include "plan/master.hpp"

#include <algorithm>

namespace benchgraft::plan {
namespace {

constexpr double kNeverPaid = 3;

std::vector<int> key_of(const Built& built) {
  std::vector<int> key = built.choices;
  key.insert(key.end(), built.sources.begin(), built.sources.end());
  return key;
}

bool forbidden(const Banned& banned, const Built& built) {
  if (banned.empty()) return false;
  for (std::size_t p = 0; p < built.choices.size(); ++p)
    if (banned[p][static_cast<std::size_t>(built.choices[p])]
              [static_cast<std::size_t>(built.sources[p])])
      return true;
  return false;
}

}  // namespace

Master::Master(const Problem& problem, double penalty)
    : problem_(problem), penalty_(penalty), set_of_host_(problem.hosts.size(), kNone) {
  const auto row = [&](double high) {
    rows_.push_back({-num::kNoLimit, high});
    return program_.add_row(-num::kNoLimit, high);
  };
  for (const auto& pool : problem.pools) row(pool.on_shelf);
  for (std::size_t s = 0; s < problem.sets.size(); ++s) {
    set_row_.push_back(row(1));
    if (problem.sets[s].host != kNone)
      set_of_host_[static_cast<std::size_t>(problem.sets[s].host)] = static_cast<int>(s);
  }
  for (std::size_t h = 0; h < problem.hosts.size(); ++h) host_row_.push_back(row(1));
  if (problem.minutes) minute_row_ = row(*problem.minutes);
  for (std::size_t s = 0; s < problem.sets.size(); ++s) {
    const auto& set = problem.sets[s];
    num::Entries entries{{set_row_[s], 1}};
    for (const auto& supply : set.holds) entries.push_back({supply.pool, -supply.count});
    if (minute_row_ != kNone) entries.push_back({minute_row_, set.strip_minutes});
    const bool may = set.may_strip && !set.holds.empty();
    strip_column_.push_back(
        add_column(-set.strip_minutes * problem.money_per_minute, may ? 1 : 0, entries));
  }
  // A wished-for host, or one that a branch insists on, may be left out at a price nobody pays.
  for (std::size_t h = 0; h < problem.hosts.size(); ++h)
    add_column(-penalty, 1, {{host_row_[h], 1}});
  first_rebuild_ = columns_.size();
}

int Master::add_column(double value, double high, const num::Entries& entries) {
  // Two parts of one pool in one rebuild are one entry.
  num::Entries merged;
  for (const auto& [row, amount] : entries) {
    const auto same = std::find_if(merged.begin(), merged.end(),
                                   [row = row](const auto& e) { return e.first == row; });
    if (same == merged.end())
      merged.emplace_back(row, amount);
    else
      same->second += amount;
  }
  std::erase_if(merged, [](const auto& entry) { return entry.second == 0; });
  columns_.push_back({value, 0, high, true, merged});
  return program_.add_column(value, 0, high, merged);
}

num::Entries Master::entries_of(const Built& built, double minutes) const {
  const auto h = static_cast<std::size_t>(built.host);
  num::Entries entries{{set_row_[static_cast<std::size_t>(set_of_host_[h])], 1}, {host_row_[h], 1}};
  const auto& places = problem_.hosts[h].places;
  for (std::size_t p = 0; p < places.size(); ++p) {
    const auto& choice = places[p].choices[static_cast<std::size_t>(built.choices[p])];
    const int pool = choice.sources[static_cast<std::size_t>(built.sources[p])].pool;
    if (pool != kNone) entries.push_back({pool, 1});
    if (choice.changes && places[p].frees != kNone) entries.push_back({places[p].frees, -1});
  }
  if (minute_row_ != kNone) entries.push_back({minute_row_, minutes});
  return entries;
}

bool Master::add(const Found& found) {
  const auto at = static_cast<int>(rebuilds_.size());
  if (!known_.emplace(std::pair{found.built.host, key_of(found.built)}, at).second) return false;
  rebuilds_.push_back(found);
  shut_.push_back(0);
  // No limit of its own: the host's row is the limit, so that the duals show all it is worth.
  add_column(found.worth.value, num::kNoLimit, entries_of(found.built, found.worth.minutes));
  return true;
}

void Master::enter(const Branch& branch) {
  const auto limit = [&](std::size_t column, double low, double high) {
    columns_[column].low = low;
    columns_[column].high = high;
    program_.limit_column(static_cast<int>(column), low, high);
  };
  for (std::size_t s = 0; s < problem_.sets.size(); ++s) {
    const bool may = problem_.sets[s].may_strip && !problem_.sets[s].holds.empty();
    const double high = may && branch.stripped[s] != 0 ? 1 : 0;
    limit(static_cast<std::size_t>(strip_column_[s]), branch.stripped[s] == 1 ? high : 0, high);
  }
  for (std::size_t h = 0; h < problem_.hosts.size(); ++h) {
    const bool insists = problem_.hosts[h].must || branch.built[h] == 1;
    auto& row = rows_[static_cast<std::size_t>(host_row_[h])];
    row = {insists ? 1 : -num::kNoLimit, 1};
    program_.limit_row(host_row_[h], row.low, row.high);
    // Leaving it out after all costs more than any wish: only a branch without a solution does.
    const auto left_out = strip_column_.size() + h;
    columns_[left_out].value = branch.built[h] == 1 ? -kNeverPaid * penalty_ : -penalty_;
    program_.value_column(static_cast<int>(left_out), columns_[left_out].value);
  }
  for (std::size_t k = 0; k < rebuilds_.size(); ++k) {
    const auto h = static_cast<std::size_t>(rebuilds_[k].built.host);
    shut_[k] = branch.built[h] == 0 ||
               (!branch.banned.empty() && forbidden(branch.banned[h], rebuilds_[k].built));
    limit(first_rebuild_ + k, 0, shut_[k] ? 0 : num::kNoLimit);
  }
}

std::optional<Master::Solution> Master::solve() {
  const auto answer = program_.solve();
  if (answer.status != num::Status::optimal) return std::nullopt;
  Solution solution;
  solution.value = answer.value;
  const auto dual = [&](int row) { return answer.duals[static_cast<std::size_t>(row)]; };
  for (std::size_t g = 0; g < problem_.pools.size(); ++g)
    solution.prices.pools.push_back(std::max(0.0, answer.duals[g]));
  if (minute_row_ != kNone) solution.prices.minute = std::max(0.0, dual(minute_row_));
  for (std::size_t h = 0; h < problem_.hosts.size(); ++h)
    solution.host_price.push_back(dual(host_row_[h]) +
                                  dual(set_row_[static_cast<std::size_t>(set_of_host_[h])]));
  for (const int column : strip_column_)
    solution.stripped.push_back(answer.amounts[static_cast<std::size_t>(column)]);
  solution.built.assign(problem_.hosts.size(), 0);
  for (std::size_t k = 0; k < rebuilds_.size(); ++k) {
    solution.amounts.push_back(answer.amounts[first_rebuild_ + k]);
    solution.built[static_cast<std::size_t>(rebuilds_[k].built.host)] += solution.amounts.back();
  }
  return solution;
}

num::IntegerProgram Master::whole_numbers(const std::vector<char>& keep) const {
  num::IntegerProgram program;
  program.rows = rows_;
  for (std::size_t j = 0; j < columns_.size(); ++j)
    if (j < first_rebuild_ || keep[j - first_rebuild_]) {
      program.columns.push_back(columns_[j]);
      program.columns.back().high = std::min(1.0, columns_[j].high);
    }
  return program;
}

Allotment Master::read(const std::vector<double>& amounts, const std::vector<char>& keep) const {
  Allotment allotment;
  for (const int column : strip_column_)
    allotment.stripped.push_back(amounts[static_cast<std::size_t>(column)] > 0.5);
  std::size_t j = first_rebuild_;
  for (std::size_t k = 0; k < rebuilds_.size(); ++k) {
    if (!keep[k]) continue;
    if (amounts[j++] > 0.5) allotment.built.push_back(rebuilds_[k].built);
  }
  return allotment;
}

std::vector<double> Master::amounts_of(const Allotment& allotment,
                                       const std::vector<char>& keep) const {
  std::vector<double> amounts(first_rebuild_, 0.0);
  std::vector<double> of_rebuild(rebuilds_.size(), 0.0);
  std::vector<char> used(problem_.hosts.size(), 0);
  for (std::size_t s = 0; s < allotment.stripped.size(); ++s)
    if (allotment.stripped[s]) amounts[static_cast<std::size_t>(strip_column_[s])] = 1;
  for (const auto& built : allotment.built) {
    const auto at = known_.find({built.host, key_of(built)});
    if (at == known_.end() || !keep[static_cast<std::size_t>(at->second)]) return {};
    of_rebuild[static_cast<std::size_t>(at->second)] = 1;
    used[static_cast<std::size_t>(built.host)] = 1;
  }
  for (std::size_t h = 0; h < used.size(); ++h)
    if (!used[h] && rows_[static_cast<std::size_t>(host_row_[h])].low > 0)
      amounts[static_cast<std::size_t>(strip_column_.size()) + h] = 1;
  for (std::size_t k = 0; k < rebuilds_.size(); ++k)
    if (keep[k]) amounts.push_back(of_rebuild[k]);
  return amounts;
}

}  // namespace benchgraft::plan
