// What whole judgements teach about rebuilds not judged yet.
//
// A finding of a judged rebuild is put down to a smallest set of changes that, with every other
// place as it is, still gives it. Around that small rebuild every other choice is tried, place by
// place: where one takes the finding away, the finding hangs on that place too. Every rebuild with
// these changes, and none of those cures, is then taken to have the same finding. Assumption:
// nothing else cures it (docs/methods/plan.md). A few rebuilds drawn at random have to agree before
// a lesson is kept; where a judgement shows the contrary later, the bound is marked as unsure.
#pragma once

#include <functional>
#include <random>
#include <set>
#include <vector>

#include "plan/problem.hpp"

namespace benchgraft::plan {

/// The choices of one place with which a finding holds.
struct Site {
  std::size_t place = 0;
  std::vector<char> holds;  ///< per choice
  bool operator==(const Site&) const = default;
};

struct Lesson {
  std::vector<Site> where;  ///< by rising depth; empty: every rebuild of this host
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
  explicit Lessons(const Host& host);

  using Ask = std::function<const Whole&(const std::vector<int>&)>;
  /// True when the tables refuse these two choices together.
  using Refused = std::function<bool(std::size_t, int, std::size_t, int)>;
  /// Learns from the judgement of `choices`: of a refused one, why; else what it costs. Asks for
  /// about as many rebuilds as the host has choices.
  void learn(const std::vector<int>& choices, const Whole& judged, const Ask& ask,
             const Refused& refused);

  /// Files the lessons by the order in which places are filled.
  void file(const std::vector<std::size_t>& order);

  /// Grows with every new lesson.
  [[nodiscard]] std::size_t count() const { return all_.size(); }
  /// How many refusals hang on each place.
  [[nodiscard]] std::vector<std::size_t> refusals_by_place() const;
  /// What holds before any place is filled.
  [[nodiscard]] Taught from_the_start() const;
  /// Adds what holds once the place at `depth` is filled; kNone in `choices` = not filled yet.
  void hear(std::size_t depth, const std::vector<int>& choices, Taught& taught) const;
  /// Everything that holds for these choices.
  [[nodiscard]] Taught about(const std::vector<int>& choices) const;

 private:
  using Places = std::set<std::size_t>;

  void learn_one(const std::vector<int>& choices, const std::vector<int>& small,
                 const Finding& finding, Places kept, const Ask& ask, const Refused& refused);
  [[nodiscard]] std::vector<int> least(const std::vector<int>& choices, const Finding& finding,
                                       const Places& kept, const Ask& ask) const;
  [[nodiscard]] std::vector<Site> around(const std::vector<int>& small, const Finding& finding,
                                         const Ask& ask, const Refused& refused) const;
  [[nodiscard]] std::vector<char> staying(const std::vector<int>& small, std::size_t place,
                                          const Finding& finding, const Ask& ask) const;
  bool doubted(std::vector<Site>& where, const std::vector<int>& small, const Finding& finding,
               const Ask& ask, const Refused& refused);
  [[nodiscard]] bool put_in(const std::vector<int>& choices, std::size_t place) const;
  [[nodiscard]] std::size_t changes(const std::vector<int>& choices) const;
  void keep(std::vector<Site> where, const Finding& finding);
  void file(std::size_t lesson);

  const Host& host_;
  std::vector<int> untouched_;      ///< per place: the choice that changes nothing, or kNone
  std::vector<std::size_t> depth_;  ///< of each place
  std::vector<Lesson> all_;
  std::vector<std::vector<std::size_t>> by_filled_;  ///< lessons, by how many places are filled
  std::mt19937 random_{1};
};

}  // namespace benchgraft::plan
