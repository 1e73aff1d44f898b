// Which way round the picture comes up, how bright, and whether it fills the screen.
#include "fit/orientation.hpp"

#include <cmath>
#include <random>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/fit_bench.hpp"

namespace benchgraft::fit {
namespace {

using namespace fit_bench;
using catalogue::Flip;
using ::testing::HasSubstr;

Vector minus(const Vector& a, const Vector& b) { return {a[0] - b[0], a[1] - b[1], a[2] - b[2]}; }

/// The normal of the mirror that turns a beam travelling along `in` into one along `out`.
Vector mirror(const Vector& in, const Vector& out) { return minus(out, in); }

TEST(Needed, by_counts_agrees_with_the_propagated_beam_for_one_and_two_mirrors) {
  const Vector up_and_back{0, 0.6, -0.8}, forward{0, 0, 1};
  const Vector large = mirror(up_and_back, forward);
  for (const bool lens : {false, true}) {
    EXPECT_EQ(propagate({up_and_back, {0, 0.8, 0.6}}, {large}, lens),
              needed_flip(true, 1, lens, false))
        << lens;
    const Vector small = mirror(forward, up_and_back);
    EXPECT_EQ(propagate({forward, {0, 1, 0}}, {small, large}, lens),
              needed_flip(true, 2, lens, false))
        << lens;
  }
}

TEST(Needed, mirror_writing_depends_on_counts_only) {
  // Chirality: an odd number of mirrors + seen from behind changes it, lens and mount never do.
  for (const bool behind : {false, true})
    for (const bool lens : {false, true})
      for (const bool inverted : {false, true})
        for (int mirrors = 0; mirrors < 5; ++mirrors) {
          const Flip flip = needed_flip(behind, mirrors, lens, inverted);
          EXPECT_EQ(flip.h != flip.v, (mirrors + (behind ? 1 : 0)) % 2 != 0);
        }
}

double dot(const Vector& a, const Vector& b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }

Vector turned_by(const Vector& x, const Vector& n) {
  const double k = 2 * dot(x, n) / dot(n, n);
  return {x[0] - k * n[0], x[1] - k * n[1], x[2] - k * n[2]};
}

TEST(Propagate, a_random_chain_of_mirrors_writes_mirrored_exactly_when_their_number_is_even) {
  constexpr std::uint32_t kSeed = 20260531;
  std::mt19937 random(kSeed);
  std::normal_distribution<double> normal;
  const auto vector = [&] { return Vector{normal(random), normal(random), normal(random)}; };
  for (int round = 0; round < 2000; ++round) {
    Vector travel = vector();
    const double length = std::sqrt(dot(travel, travel));
    travel = {travel[0] / length, travel[1] / length, travel[2] / length};
    Vector up = vector();
    const double along = dot(up, travel);
    up = {up[0] - along * travel[0], up[1] - along * travel[1], up[2] - along * travel[2]};
    std::vector<Vector> normals;
    Vector beam = travel;
    const std::size_t mirrors = 1 + random() % 4;
    while (normals.size() + 1 < mirrors) {
      normals.push_back(vector());
      beam = turned_by(beam, normals.back());
    }
    normals.push_back(mirror(beam, {0, 0, 1}));  // the last one sends it to the viewer
    const Flip flip = propagate({travel, up}, normals, random() % 2 != 0);
    EXPECT_EQ(flip.h != flip.v, mirrors % 2 == 0) << "seed " << kSeed << " round " << round;
  }
}

TEST(Propagate, ignores_a_mirror_without_a_direction) {
  const Beam beam{{0, 0.6, -0.8}, {0, 0.8, 0.6}};
  EXPECT_EQ(propagate(beam, {{0, 0, 0}}, false), propagate(beam, {}, false));
}

/// An engine in a cabinet of `host` optics, its memory from a cabinet of `donor` optics.
struct Cabinets {
  std::string host = R"(fold_mirrors = 1, seen_from_behind = true, mount = "upright")";
  std::string donor = R"(fold_mirrors = 2, seen_from_behind = true, mount = "upright")";
  std::string engine = R"(lens = true, mount = "upright", throw_ratio = 0.5)";
  std::string engine_facts{};
  std::string more{};
  std::string rebuild = swap("engine optics", "E-2", "Wren 40");
};

Judgement judged_light(const Cabinets& c) {
  const auto optics = [](const std::string& list) { return "optics = { " + list + " }"; };
  return judged(
      part("E-1", "engine optics",
           R"(roles = ["engine optics", "display driver"], stores = ["flip"], )" +
               optics(c.engine)) +
          part("E-2", "engine optics",
               R"(roles = ["engine optics", "display driver"], stores = ["flip"], )" +
                   optics(c.engine) + (c.engine_facts.empty() ? "" : ", " + c.engine_facts)) +
          model("Tern 40", {{"engine optics", "E-1"}}, optics(c.host)) +
          model("Wren 40", {{"engine optics", "E-2"}}, optics(c.donor)) +
          "[[setting]]\nsetting = \"flip\"\ndepends_on = [\"engine optics\"]\n"
          "stored_in = \"display driver\"\nflip = true\n" +
          c.more,
      c.rebuild);
}

TEST(Orientation, one_fold_mirror_fewer_mirrors_the_picture_and_only_left_right_is_toggled) {
  const auto j = judged_light({});
  EXPECT_TRUE(j.orientation.known) << told(j);
  EXPECT_EQ(j.orientation.comes_up, (Flip{true, false}));
  EXPECT_EQ(j.orientation.toggle, (Flip{true, false}));
  EXPECT_EQ(reason(j, "orientation").before, Verdict::fits_with_work);
  EXPECT_THAT(j.orientation.says, AllOf(HasSubstr("fewer"), HasSubstr("left-right flip only")));
  ASSERT_EQ(j.settings.size(), 1U);
  EXPECT_EQ(j.settings.front().predicted, "toggle left-right");
}

TEST(Orientation, the_same_fold_and_mount_comes_up_right) {
  const auto j =
      judged_light({.donor = R"(fold_mirrors = 1, seen_from_behind = true, mount = "upright")"});
  EXPECT_TRUE(j.orientation.known);
  EXPECT_EQ(j.orientation.toggle, Flip{}) << told(j);
  EXPECT_FALSE(has(j, "orientation")) << "nothing to do, nothing to say";
}

TEST(Orientation, an_inverted_mount_toggles_both_flips) {
  const auto j =
      judged_light({.donor = R"(fold_mirrors = 1, seen_from_behind = true, mount = "inverted")"});
  EXPECT_EQ(j.orientation.toggle, (Flip{true, true})) << told(j);
}

TEST(Orientation, the_set_the_memory_comes_from_outranks_the_boards_own_default) {
  const auto j = judged_light({.engine_facts = R"(flip_default = "none")"});
  EXPECT_EQ(j.orientation.toggle, (Flip{true, false})) << told(j);
}

TEST(Orientation, of_a_memory_from_nowhere_known_is_looked_at_and_never_promised) {
  const std::string nowhere = R"(diagonal_in = 40)";
  for (const char* made_for : {"left-right", "both", "none"}) {
    const auto j = judged_light(
        {.donor = nowhere, .engine_facts = std::string("flip_default = \"") + made_for + "\""});
    EXPECT_FALSE(j.orientation.known) << told(j);
    EXPECT_TRUE(asks(j, "the flip stored in the memory")) << told(j);
  }
}

TEST(Orientation, every_missing_fact_is_asked_for_and_named) {
  const std::string host = Cabinets{}.host, engine = Cabinets{}.engine;
  for (const auto& [leave_out, words] :
       {std::pair{"-fold_mirrors", "fold mirrors"}, std::pair{"-seen_from_behind", "from behind"},
        std::pair{"-mount", "mount in the cabinet"}}) {
    const auto j = judged_light({.host = facts(host, leave_out)});
    EXPECT_FALSE(j.orientation.known) << leave_out;
    EXPECT_TRUE(asks(j, words)) << told(j);
  }
  for (const auto& [leave_out, words] :
       {std::pair{"-lens", "lens of the engine"}, std::pair{"-mount", "mount of the engine"}}) {
    const auto j = judged_light({.engine = facts(engine, leave_out)});
    EXPECT_FALSE(j.orientation.known) << leave_out;
    EXPECT_TRUE(asks(j, words)) << told(j);
  }
}

const std::string kRear = R"([[set_kind]]
set_kind = "rear set"
rear = true
role = [{ role = "engine optics" }, { role = "display driver" }]
)";

Judgement thrown(const std::string& host, const std::string& engine = "throw_ratio = 0.5",
                 const std::string& donor = "diagonal_in = 50") {
  const std::string rear = R"(kind = "rear set", optics = { fold_mirrors = 1, )";
  return judged(kRear + part("E-1", "engine optics") +
                    part("E-2", "engine optics",
                         "optics = { lens = true" + (engine.empty() ? "" : ", " + engine) + " }") +
                    model("Tern 40", {{"engine optics", "E-1"}}, rear + host + " }") +
                    model("Wren 40", {{"engine optics", "E-2"}}, rear + donor + " }"),
                swap("engine optics", "E-2", "Wren 40"));
}

TEST(LightAndThrow, a_picture_wider_than_the_screen_does_not_fit) {
  EXPECT_EQ(reason(thrown("width_mm = 1000, throw_mm = 550"), "light and throw").before,
            Verdict::does_not_fit);
  EXPECT_THAT(reason(thrown("width_mm = 1000, throw_mm = 550"), "light and throw").says,
              HasSubstr("10 % too large"));
  EXPECT_FALSE(has(thrown("width_mm = 1000, throw_mm = 505"), "light and throw"));
  EXPECT_THAT(reason(thrown("width_mm = 1000, throw_mm = 450"), "light and throw").says,
              HasSubstr("too small"));
}

TEST(LightAndThrow, takes_the_width_from_the_diagonal_at_16_to_9) {
  // 50 in: width 0.8716 x 1270 mm = 1106.9 mm, so a throw of 553.5 mm at ratio 0.5.
  EXPECT_FALSE(has(thrown("diagonal_in = 50, throw_mm = 553"), "light and throw"));
  EXPECT_TRUE(has(thrown("diagonal_in = 50, throw_mm = 600"), "light and throw"));
}

TEST(LightAndThrow, the_same_light_on_a_larger_screen_is_dimmer_by_the_area) {
  // Published example: 50 in light on 61 in is 0.672 times as bright.
  const auto j = thrown("diagonal_in = 61, throw_mm = 675");
  EXPECT_THAT(reason(j, "light and throw").says, HasSubstr("0.67 times")) << told(j);
  EXPECT_EQ(reason(j, "light and throw").before, Verdict::fits);
}

TEST(LightAndThrow, is_asked_for_when_throw_or_screen_is_not_recorded) {
  EXPECT_EQ(thrown("width_mm = 1000").verdict, Verdict::unknown);
  EXPECT_TRUE(asks(thrown("width_mm = 1000"), "way from lens to screen"));
  EXPECT_TRUE(asks(thrown("width_mm = 1000, throw_mm = 500", ""), "throw ratio"));
}

}  // namespace
}  // namespace benchgraft::fit
