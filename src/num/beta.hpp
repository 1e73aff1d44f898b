// A chance known from counts: Beta(works, fails).
#pragma once

#include "base/result.hpp"

namespace benchgraft::num {

/// Prior or posterior of a chance; `works` and `fails` are counts, prior ones included, above 0.
struct Beta {
  double works = 1;
  double fails = 1;
  /// The same after `more_work` successes and `more_fail` failures.
  [[nodiscard]] Beta after(double more_work, double more_fail) const {
    return {works + more_work, fails + more_fail};
  }
};

double mean(const Beta& beta);
double standard_deviation(const Beta& beta);
/// The chance that lies above `share` (0..1) of the distribution.
Result<double> quantile(const Beta& beta, double share);
/// Probability that the chance is more than `chance`.
Result<double> above(const Beta& beta, double chance);
/// Probability that the next two both work.
double next_two_work(const Beta& beta);

}  // namespace benchgraft::num
