#include "num/beta.hpp"

#include <cmath>

#include <gtest/gtest.h>

namespace benchgraft::num {
namespace {

// Prior, successes of n, and what the posterior says. Model: Gelman et al., Bayesian Data Analysis,
// ch. 2 (from memory); the figures were recomputed with scipy.stats.beta.
struct Published {
  double works, fails, s, n, mean, sd, q05, q50, q95, above_08, next2;
};
const Published kPublished[] = {
    {1, 1, 3, 3, 0.8, 0.163299, 0.472871, 0.840896, 0.987259, 0.5904, 0.666667},
    {0.5, 0.5, 3, 3, 0.875, 0.147902, 0.555933, 0.932622, 0.999397, 0.772547, 0.7875},
    {1, 1, 3, 4, 0.666667, 0.178174, 0.342592, 0.68619, 0.92356, 0.26272, 0.47619},
    {2, 1, 5, 7, 0.7, 0.13817, 0.450358, 0.713763, 0.902253, 0.261802, 0.509091},
    {4, 1, 2, 5, 0.6, 0.14771, 0.344941, 0.606915, 0.83125, 0.085642, 0.381818},
    {0.5, 0.5, 0, 2, 0.166667, 0.186339, 0.000868, 0.095526, 0.569259, 0.006566, 0.0625},
    {9, 1, 1, 3, 0.769231, 0.112604, 0.561895, 0.783314, 0.92813, 0.441654, 0.604396},
};

TEST(Beta, agrees_with_the_recomputed_textbook_cases) {
  for (const auto& row : kPublished) {
    const Beta posterior = Beta{row.works, row.fails}.after(row.s, row.n - row.s);
    EXPECT_NEAR(mean(posterior), row.mean, 1e-6);
    EXPECT_NEAR(standard_deviation(posterior), row.sd, 1e-6);
    EXPECT_NEAR(quantile(posterior, 0.05).value(), row.q05, 1e-6);
    EXPECT_NEAR(quantile(posterior, 0.5).value(), row.q50, 1e-6);
    EXPECT_NEAR(quantile(posterior, 0.95).value(), row.q95, 1e-6);
    EXPECT_NEAR(above(posterior, 0.8).value(), row.above_08, 1e-6);
    EXPECT_NEAR(next_two_work(posterior), row.next2, 1e-6);
  }
}

// Bayesian Data Analysis, section 2.4: 437 girls in 980 births with a uniform prior; the book gives
// mean 0.446, standard deviation 0.016, median 0.446, 95 % from 0.415 to 0.477 (from memory).
TEST(Beta, agrees_with_the_example_of_980_births) {
  const Beta posterior = Beta{1, 1}.after(437, 980 - 437);
  EXPECT_NEAR(mean(posterior), 0.446, 5e-4);
  EXPECT_NEAR(standard_deviation(posterior), 0.016, 5e-4);
  EXPECT_NEAR(quantile(posterior, 0.5).value(), 0.446, 5e-4);
  EXPECT_NEAR(quantile(posterior, 0.025).value(), 0.415, 5e-4);
  EXPECT_NEAR(quantile(posterior, 0.975).value(), 0.477, 5e-4);
}

TEST(Beta, gives_back_the_share_below_its_own_quantile) {
  const Beta beta{3.5, 1.25};
  for (const double share : {0.01, 0.2, 0.5, 0.9, 0.999})
    EXPECT_NEAR(1 - above(beta, quantile(beta, share).value()).value(), share, 1e-9);
}

TEST(Beta, refuses_counts_and_chances_that_cannot_be) {
  EXPECT_FALSE(quantile({0, 1}, 0.5).ok());
  EXPECT_FALSE(above({1, -1}, 0.5).ok());
  EXPECT_FALSE(quantile({std::nan(""), 1}, 0.5).ok());
  const auto outside = above({1, 1}, 1.5);
  ASSERT_FALSE(outside.ok());
  EXPECT_EQ(outside.error().message, "A chance lies between 0 and 1, not at 1.500000.");
}

}  // namespace
}  // namespace benchgraft::num
