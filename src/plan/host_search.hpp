// The best ways to build one host when every part has a price: branch and bound over its places.
//
// Worth of a rebuild = A e^q - c with A price x evidence, q the sum of log chances, c the sum of
// costs. For fixed choices it is convex in (q, c), so only corners of the hull of attainable (q, c)
// can be best, and the hull of a sum of places is the sum of their hulls: its corners are found by
// merging edges by slope. The same hulls over all choices left bound every unfinished rebuild.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <vector>

#include "plan/effort.hpp"

namespace benchgraft::plan {

/// What the other rebuilds would pay: per part of each pool, and per minute beyond its wage.
struct Prices {
  std::vector<double> pools;
  double minute = 0;
};

/// Sources of one host that may not be used: [place][choice][source]; empty = all may.
using Banned = std::vector<std::vector<std::vector<char>>>;

struct Found {
  Built built;
  Worth worth;
  double net = 0;  ///< worth after what the prices take
};

class HostSearch {
 public:
  HostSearch(const Problem& problem, int host);
  ~HostSearch();
  HostSearch(HostSearch&&) noexcept;

  /// The rebuild with the highest net above `floor`, or nothing. Stops early, with what it has,
  /// once the effort is over.
  std::optional<Found> best(const Prices& prices, double floor, Effort& effort,
                            const Banned* banned = nullptr);
  /// The most that a rebuild which the last `best` did not get to could net; -infinity when it
  /// ended by itself.
  [[nodiscard]] double cut_off() const { return cut_off_; }
  /// Every rebuild with net at least `floor`, best first; nothing when there are more than `most`
  /// or the effort is over.
  std::optional<std::vector<Found>> all(const Prices& prices, double floor, std::size_t most,
                                        Effort& effort, const Banned* banned = nullptr);
  /// A whole judgement was kinder than the tables somewhere.
  [[nodiscard]] bool shared_work() const;
  /// Rebuilds judged as a whole so far.
  [[nodiscard]] std::size_t judged() const;

 private:
  class Search;
  struct Known;
  std::unique_ptr<Known> known_;
  double cut_off_;
};

}  // namespace benchgraft::plan
