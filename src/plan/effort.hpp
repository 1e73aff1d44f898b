// How much looking is left: steps, which do not depend on the machine, and seconds, which do.
#pragma once

#include <algorithm>
#include <cstddef>

#include "num/stopwatch.hpp"
#include "plan/answer.hpp"

namespace benchgraft::plan {

class Effort {
 public:
  explicit Effort(const Limits& limits) : steps_(limits.steps), seconds_(limits.seconds) {}

  void spend(std::size_t steps) {
    steps_ -= std::min(steps, steps_);
    spent_ += steps;
    since_looked_ += steps;
    if (since_looked_ < kBetweenLooks) return;
    since_looked_ = 0;
    if (watch_.seconds() > seconds_) steps_ = 0;
  }
  /// Judging a rebuild as a whole takes about as long as this many steps.
  void spend_judgement() { spend(kStepsOfJudgement); }
  [[nodiscard]] bool over() const { return steps_ == 0; }
  /// A share of what is left, so that one search does not take it all; to be `used` up afterwards.
  [[nodiscard]] Effort part(double share) const {
    Limits limits;
    limits.steps = static_cast<std::size_t>(share * static_cast<double>(steps_));
    limits.seconds = share * seconds_left();
    return Effort(limits);
  }
  void used(const Effort& part) { spend(part.spent_); }
  /// Looks at the clock now.
  bool over_now() {
    since_looked_ = kBetweenLooks;
    spend(0);
    return over();
  }
  [[nodiscard]] double seconds_left() const { return std::max(0.0, seconds_ - watch_.seconds()); }

 private:
  static constexpr std::size_t kBetweenLooks = 5000, kStepsOfJudgement = 500;
  std::size_t steps_;
  double seconds_;
  std::size_t since_looked_ = 0, spent_ = 0;
  num::Stopwatch watch_;
};

}  // namespace benchgraft::plan
