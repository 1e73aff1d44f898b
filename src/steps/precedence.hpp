// "This before that" over numbered things: a steady order, or the circle that forbids one.
#pragma once

#include <cstddef>
#include <utility>
#include <vector>

namespace benchgraft::steps {

class Precedence {
 public:
  explicit Precedence(std::size_t count) : next_(count) {}

  [[nodiscard]] std::size_t size() const { return next_.size(); }
  void require(std::size_t first, std::size_t then);
  /// Adds the wish unless it would close a circle. Says whether it was added.
  bool prefer(std::size_t first, std::size_t then);

  /// True when `then` has to wait for `first`, directly or through others.
  [[nodiscard]] bool reaches(std::size_t first, std::size_t then) const;
  /// Every thing that has to wait for one of `firsts`, and these themselves.
  [[nodiscard]] std::vector<bool> waiting_for(const std::vector<std::size_t>& firsts) const;

  struct Outcome {
    std::vector<std::size_t> order;   ///< all things, when there is no circle
    std::vector<std::size_t> circle;  ///< each waits for the one before it, the first for the last
  };
  /// Among the things that are free, the lowest number comes first. cost: n log n + pairs.
  [[nodiscard]] Outcome sorted() const;

 private:
  [[nodiscard]] std::vector<std::size_t> circle_among(const std::vector<std::size_t>& left) const;

  std::vector<std::vector<std::size_t>> next_;
};

}  // namespace benchgraft::steps
