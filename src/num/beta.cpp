#include "num/beta.hpp"

#include <cmath>
#include <string>

#include <boost/math/distributions/beta.hpp>

namespace benchgraft::num {
namespace {

Result<boost::math::beta_distribution<double>> distribution(const Beta& beta) {
  if (!(beta.works > 0) || !(beta.fails > 0) || !std::isfinite(beta.works + beta.fails))
    return Error{ErrorKind::bad_input, "A chance from counts needs counts above 0, not " +
                                           std::to_string(beta.works) + " and " +
                                           std::to_string(beta.fails) + "."};
  return boost::math::beta_distribution<double>(beta.works, beta.fails);
}

Result<void> between_0_and_1(double share) {
  if (share >= 0 && share <= 1) return {};
  return Error{ErrorKind::bad_input,
               "A chance lies between 0 and 1, not at " + std::to_string(share) + "."};
}

}  // namespace

double mean(const Beta& beta) { return beta.works / (beta.works + beta.fails); }

double standard_deviation(const Beta& beta) {
  const double n = beta.works + beta.fails;
  return std::sqrt(beta.works * beta.fails / (n * n * (n + 1)));
}

Result<double> quantile(const Beta& beta, double share) {
  if (auto good = between_0_and_1(share); !good) return good.error();
  auto known = distribution(beta);
  if (!known) return known.error();
  try {
    return boost::math::quantile(known.value(), share);
  } catch (const std::exception& error) {
    return Error{ErrorKind::limit,
                 "The chance cannot be worked out from these counts: " + std::string(error.what())};
  }
}

Result<double> above(const Beta& beta, double chance) {
  if (auto good = between_0_and_1(chance); !good) return good.error();
  auto known = distribution(beta);
  if (!known) return known.error();
  try {
    return boost::math::cdf(boost::math::complement(known.value(), chance));
  } catch (const std::exception& error) {
    return Error{ErrorKind::limit,
                 "The chance cannot be worked out from these counts: " + std::string(error.what())};
  }
}

double next_two_work(const Beta& beta) {
  const double n = beta.works + beta.fails;
  return beta.works / n * (beta.works + 1) / (n + 1);
}

}  // namespace benchgraft::num
