// Touch current, orientation and chances against published or independently recomputed figures.
#include <array>
#include <cmath>

#include <gtest/gtest.h>

#include "fit/earth.hpp"
#include "fit/notes.hpp"
#include "fit/orientation.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Flip;

/// I = 2 pi f C V, recomputed; C in nF, I in mA.
struct Leakage {
  double volts, hertz, nanofarad, milliamps;
};
constexpr std::array<Leakage, 20> kLeakage{{
    {120, 60, 1.0, 0.04524},  {120, 60, 2.2, 0.09953},  {120, 60, 4.7, 0.21262},
    {120, 60, 10.0, 0.45239}, {132, 60, 1.0, 0.04976},  {132, 60, 2.2, 0.10948},
    {132, 60, 4.7, 0.23389},  {132, 60, 10.0, 0.49763}, {230, 50, 1.0, 0.07226},
    {230, 50, 2.2, 0.15896},  {230, 50, 4.7, 0.33961},  {230, 50, 10.0, 0.72257},
    {253, 50, 1.0, 0.07948},  {253, 50, 2.2, 0.17486},  {253, 50, 4.7, 0.37357},
    {253, 50, 10.0, 0.79482}, {264, 60, 1.0, 0.09953},  {264, 60, 2.2, 0.21896},
    {264, 60, 4.7, 0.46777},  {264, 60, 10.0, 0.99526},
}};

TEST(YCapacitors, current_at_nominal_values) {
  for (const auto& row : kLeakage)
    EXPECT_NEAR(y_capacitor_current(row.nanofarad, row.volts, row.hertz).nominal, row.milliamps,
                5e-6)
        << row.volts << " V " << row.nanofarad << " nF";
}

TEST(YCapacitors, interval_over_capacitor_and_mains_tolerance) {
  // -20 % capacitance at nominal mains; +20 % at mains +10 % (usual, from memory).
  for (const auto& row : kLeakage) {
    const auto current = y_capacitor_current(row.nanofarad, row.volts, row.hertz);
    EXPECT_NEAR(current.low, 0.8 * row.milliamps, 1e-5);
    EXPECT_NEAR(current.high, 1.2 * 1.1 * row.milliamps, 1e-5);
  }
}

/// Largest capacitance that keeps the limit, recomputed; C in nF.
struct Largest {
  double volts, hertz, limit_ma, nanofarad;
};
constexpr std::array<Largest, 9> kLargest{{
    {120, 60, 0.25, 5.5262},
    {120, 60, 0.5, 11.0524},
    {120, 60, 3.5, 77.367},
    {230, 50, 0.25, 3.4599},
    {230, 50, 0.5, 6.9198},
    {230, 50, 3.5, 48.4385},
    {264, 60, 0.25, 2.5119},
    {264, 60, 0.5, 5.0238},
    {264, 60, 3.5, 35.1668},
}};

TEST(YCapacitors, largest_capacitance_for_a_limit) {
  for (const auto& row : kLargest)
    EXPECT_NEAR(y_capacitor_current(row.nanofarad, row.volts, row.hertz).nominal, row.limit_ma,
                1e-4 * row.limit_ma);
}

// Test vectors recomputed by propagating a frame through mirrors: viewer on +z, large mirror hit
// along (0, .6, -.8), which it turns to the viewer.
const Vector kBeam{0, 0.6, -0.8}, kUp{0, 0.8, 0.6}, kToViewer{0, 0, 1};

Vector mirror(const Vector& in, const Vector& out) {
  return {out[0] - in[0], out[1] - in[1], out[2] - in[2]};
}

TEST(Orientation, test_vectors_of_the_rear_projection_frame) {
  const Vector large = mirror(kBeam, kToViewer);
  const Vector small = mirror({0, 0, 1}, kBeam);
  // No mirror: the engine fires straight at the screen, which is seen from behind.
  EXPECT_EQ(propagate({{0, 0, 1}, {0, 1, 0}}, {}, false), (Flip{true, false}));
  EXPECT_EQ(propagate({{0, 0, 1}, {0, 1, 0}}, {}, true), (Flip{false, true}));
  EXPECT_EQ(propagate({kBeam, kUp}, {large}, false), (Flip{false, false}));
  EXPECT_EQ(propagate({kBeam, kUp}, {large}, true), (Flip{true, true}));
  // Engine rolled by 180 degrees.
  EXPECT_EQ(propagate({kBeam, {0, -0.8, -0.6}}, {large}, true), (Flip{false, false}));
  // A small mirror first, the engine firing (0, 0, 1).
  EXPECT_EQ(propagate({{0, 0, 1}, {0, 1, 0}}, {small, large}, true), (Flip{false, true}));
}

TEST(Orientation, test_vectors_by_counts) {
  // (from behind, fold mirrors, lens, inverted) -> (left-right, upside-down), the same vectors.
  EXPECT_EQ(needed_flip(true, 0, false, false), (Flip{true, false}));
  EXPECT_EQ(needed_flip(true, 0, true, false), (Flip{false, true}));
  EXPECT_EQ(needed_flip(true, 1, false, false), (Flip{false, false}));
  EXPECT_EQ(needed_flip(true, 1, true, false), (Flip{true, true}));
  EXPECT_EQ(needed_flip(true, 1, true, true), (Flip{false, false}));
  EXPECT_EQ(needed_flip(true, 2, true, false), (Flip{false, true}));
}

TEST(Orientation, from_a_one_mirror_to_a_two_mirror_cabinet_only_left_right_is_toggled) {
  EXPECT_EQ(needed_flip(true, 1, true, false) ^ needed_flip(true, 2, true, false),
            (Flip{true, false}));
}

/// Beta posterior means, recomputed; the first prior is uniform.
struct Posterior {
  double a, b, worked, tried, mean;
};
constexpr std::array<Posterior, 8> kPosterior{{
    {1, 1, 3, 3, 0.8},
    {0.5, 0.5, 3, 3, 0.875},
    {1, 1, 3, 4, 0.666667},
    {2, 1, 5, 7, 0.7},
    {4, 1, 2, 5, 0.6},
    {0.5, 0.5, 0, 2, 0.166667},
    {9, 1, 1, 3, 0.769231},
    // Published: 437 of 980 with a uniform prior, mean .446 (a textbook on Bayesian data analysis,
    // chapter 2, from memory; recomputed .446029).
    {1, 1, 437, 980, 0.446029},
}};

TEST(Chance, is_the_mean_of_the_beta_posterior) {
  for (const auto& row : kPosterior) {
    Tally tally;
    tally.worked = row.worked;
    tally.failed = row.tried - row.worked;
    EXPECT_NEAR(posterior_mean({row.a, row.b}, tally), row.mean, 1e-6) << row.mean;
  }
}

TEST(Chance, evidence_of_the_family_counts_half) {
  // Prior (1, 1), weight 0.5, family 6 of 8, own 1 of 1 -> Beta(5, 2), mean 0.714286 (recomputed).
  Tally tally;
  tally.worked = 0.5 * 6 + 1;
  tally.failed = 0.5 * 2;
  EXPECT_NEAR(posterior_mean({1, 1}, tally), 0.714286, 1e-6);
}

}  // namespace
}  // namespace benchgraft::fit
