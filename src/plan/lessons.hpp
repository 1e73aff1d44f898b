// What whole judgements teach about rebuilds not judged yet.
//
// A finding of a judged rebuild is put down to the places on which it hangs: those where some other
// choice makes it go away or cost less, tried one place at a time. Every rebuild with the same
// choices in these places is then taken to have the same finding. Assumption: a finding that no
// single change takes away is not taken away by two at once elsewhere (docs/methods/plan.md).
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "plan/problem.hpp"

namespace benchgraft::plan {

struct Lesson {
  std::vector<std::pair<std::size_t, int>> where;  ///< place and choice, by rising depth
  Finding finding;
};

/// What several lessons say together about one rebuild.
struct Taught {
  bool refused = false;
  bool needs_work = false;
  double minutes = 0, money = 0;
  std::vector<std::uint64_t> counted;  ///< codes: one finding is counted once
  void add(const Finding& finding);
};

class Lessons {
 public:
  /// `order` = the places in the order the search fills them.
  Lessons(const Host& host, const std::vector<std::size_t>& order);

  using Ask = std::function<const Whole&(const std::vector<int>&)>;
  /// Learns from the judgement of `choices`; asks for every rebuild that differs in one place.
  void learn(const std::vector<int>& choices, const Whole& judged, const Ask& ask);

  /// Adds what holds once the place at `depth` is filled; kNone in `choices` = not filled yet.
  void hear(std::size_t depth, const std::vector<int>& choices, Taught& taught) const;
  /// Everything that holds for a complete rebuild.
  [[nodiscard]] Taught about(const std::vector<int>& choices) const;

 private:
  [[nodiscard]] bool holds(const Lesson& lesson, const std::vector<int>& choices) const;
  void keep(const std::vector<std::size_t>& places, const std::vector<int>& choices,
            const Finding& finding);

  const Host& host_;
  std::vector<std::size_t> depth_;                  ///< of each place
  std::vector<std::vector<Lesson>> by_last_place_;  ///< per depth
};

}  // namespace benchgraft::plan
