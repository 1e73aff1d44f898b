// The linear program over the rebuilds made so far: what each part, minute and set is worth.
#pragma once

#include <vector>

#include "num/integer_program.hpp"
#include "plan/host_search.hpp"

namespace benchgraft::plan {

/// What one branch of the search has decided.
struct Branch {
  std::vector<signed char> stripped;  ///< per set: -1 open, 0 no, 1 yes
  std::vector<signed char> built;     ///< per host
  std::vector<Banned> banned;         ///< per host
  double bound = 0;
};

/// Rows: pools, sets, hosts, minutes. Columns: strippings, wished-for hosts left out, rebuilds.
class Master {
 public:
  /// `penalty` is what leaving out a wished-for host costs.
  Master(const Problem& problem, double penalty);

  /// Adds a rebuild; false when it is there already.
  bool add(const Found& found);
  /// Shuts what the branch has decided against.
  void enter(const Branch& branch);

  struct Solution {
    double value = 0;
    Prices prices;
    std::vector<double> host_price;  ///< what a rebuild of each host has to beat
    std::vector<double> stripped;    ///< per set, 0..1
    std::vector<double> built;       ///< per host
    std::vector<double> amounts;     ///< per rebuild
  };
  /// Nothing when the solver gives up.
  std::optional<Solution> solve();

  [[nodiscard]] const std::vector<Found>& rebuilds() const { return rebuilds_; }
  /// The same as an integer program, limits of the branch included. `keep` = rebuilds that enter.
  [[nodiscard]] num::IntegerProgram whole_numbers(const std::vector<char>& keep) const;
  /// Reads a solution of whole_numbers(keep).
  [[nodiscard]] Allotment read(const std::vector<double>& amounts,
                               const std::vector<char>& keep) const;
  /// `allotment` as amounts of whole_numbers(keep); empty when a rebuild of it is not among them.
  [[nodiscard]] std::vector<double> amounts_of(const Allotment& allotment,
                                               const std::vector<char>& keep) const;
  [[nodiscard]] bool shut(std::size_t rebuild) const { return shut_[rebuild] != 0; }

 private:
  num::Entries entries_of(const Built& built, double minutes) const;
  int add_column(double value, double high, const num::Entries& entries);

  const Problem& problem_;
  double penalty_;
  num::LinearProgram program_;
  std::vector<num::Row> rows_;
  std::vector<num::Column> columns_;
  std::vector<int> set_row_, host_row_, strip_column_, set_of_host_;
  int minute_row_ = kNone;
  std::size_t first_rebuild_ = 0;
  std::vector<Found> rebuilds_;
  std::map<std::pair<int, std::vector<int>>, int> known_;
  std::vector<char> shut_;
};

}  // namespace benchgraft::plan
