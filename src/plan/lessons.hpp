// What whole judgements teach about rebuilds not judged yet.
//
// A finding of a judged rebuild is put down to the places on which it hangs: those where some other
// choice, all else equal, makes it go away or cost less. Where putting the other changes back would
// take it away too, it has several causes, and is put down to those left when as many as possible
// are put back. Every rebuild with the same choices in these places is then taken to have the same
// finding. Assumption: nothing else cures it (docs/methods/plan.md); where a judgement shows the
// contrary, the bound is marked as unsure.
#pragma once

#include <functional>
#include <set>
#include <vector>

#include "plan/problem.hpp"

namespace benchgraft::plan {

struct Lesson {
  std::vector<std::pair<std::size_t, int>> where;  ///< place and choice, by rising depth; empty:
                                                   ///< every rebuild of this host
  Finding finding;
};

/// What several lessons say together about one rebuild.
struct Taught {
  bool refused = false;
  Level level = Level::plain;
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

  /// Grows with every new lesson.
  [[nodiscard]] std::size_t count() const { return count_; }
  /// What holds before any place is filled.
  [[nodiscard]] Taught from_the_start() const;
  /// Adds what holds once the place at `depth` is filled; kNone in `choices` = not filled yet.
  void hear(std::size_t depth, const std::vector<int>& choices, Taught& taught) const;
  /// Everything that holds for a complete rebuild.
  [[nodiscard]] Taught about(const std::vector<int>& choices) const;

 private:
  using Places = std::set<std::size_t>;

  [[nodiscard]] bool may_differ(std::size_t place) const;
  [[nodiscard]] bool changed(const std::vector<int>& choices, std::size_t place) const;
  [[nodiscard]] std::vector<Places> moved_by_one(const std::vector<int>& choices,
                                                 const std::vector<Finding>& findings,
                                                 const Ask& ask) const;
  [[nodiscard]] std::vector<int> least(const std::vector<int>& choices, const Finding& finding,
                                       const Places& but, const Ask& ask) const;
  [[nodiscard]] bool holds(const Lesson& lesson, const std::vector<int>& choices) const;
  void keep(const Places& places, const std::vector<int>& choices, const Finding& finding);

  const Host& host_;
  std::vector<int> untouched_;      ///< per place: the choice that changes nothing, or kNone
  std::vector<std::size_t> depth_;  ///< of each place
  std::vector<Lesson> always_;
  std::size_t count_ = 0;
  std::vector<std::vector<Lesson>> by_last_place_;  ///< per depth
};

}  // namespace benchgraft::plan
