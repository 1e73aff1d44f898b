#include "align/wheel_delay.hpp"

#include <algorithm>
#include <cmath>
#include <iostream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "align/estimate.hpp"
#include "shipped.hpp"
#include "simulated_wheel.hpp"

namespace benchgraft::align {
namespace {

using ::testing::HasSubstr;

std::vector<SeenBar> words(const std::string& red, const std::string& green,
                           const std::string& blue) {
  std::vector<SeenBar> bars;
  for (const auto& [bar, word] : {std::pair{Hue::red, red}, {Hue::green, green}, {Hue::blue, blue}})
    if (!word.empty()) bars.push_back({bar, word, {}, {}});
  return bars;
}

Diagnosis by_words(const std::string& red, const std::string& green, const std::string& blue,
                   std::string_view wheel = "RGBRGB") {
  const auto found = diagnose(wheel_of(wheel).value(), words(red, green, blue));
  ensure(found.ok(), "words for three bars");
  return found.value();
}

TEST(Delay, knows_late_from_early_by_three_words) {
  const Diagnosis late = by_words("orange", "turquoise", "violet");
  EXPECT_EQ(late.fault, WheelFault::late);
  EXPECT_GT(late.late, 8);
  EXPECT_LT(late.late, 30);
  EXPECT_TRUE(late.curable);
  EXPECT_THAT(late.sentence, HasSubstr("late"));
  EXPECT_THAT(late.sentence, HasSubstr("the delay setting cures it"));
  const Diagnosis early = by_words("purplish", "yellowish", "light blue");
  EXPECT_EQ(early.fault, WheelFault::early);
  EXPECT_LT(early.late, -8);
  EXPECT_GT(early.late, -30);
}

TEST(Delay, swaps_the_words_for_a_wheel_that_runs_red_blue_green) {
  EXPECT_EQ(by_words("purplish", "yellowish", "light blue", "RBG").fault, WheelFault::late);
  EXPECT_EQ(by_words("orange", "turquoise", "violet", "RBG").fault, WheelFault::early);
}

TEST(Delay, sees_no_error_in_clean_bars) {
  const Diagnosis clean = by_words("red", "green", "blue");
  EXPECT_EQ(clean.fault, WheelFault::none);
  EXPECT_LE(clean.interval.low, 0);
  EXPECT_GE(clean.interval.high, 0);
}

TEST(Delay, tells_a_ring_of_colours_from_an_exchange) {
  const Diagnosis next = by_words("green", "blue", "red");
  EXPECT_EQ(next.fault, WheelFault::segments_off);
  EXPECT_EQ(next.segments, 1);
  EXPECT_TRUE(next.curable);
  const Diagnosis before = by_words("blue", "red", "green");
  EXPECT_EQ(before.fault, WheelFault::segments_off);
  EXPECT_EQ(before.segments, -1);
  const Diagnosis exchanged = by_words("green", "red", "blue");
  EXPECT_EQ(exchanged.fault, WheelFault::exchanged);
  EXPECT_FALSE(exchanged.curable);
  EXPECT_EQ(exchanged.pair, (std::pair{Hue::red, Hue::green}));
  EXPECT_EQ(
      exchanged.sentence,
      "Red and green are exchanged: this wheel runs in another order than the board sends. No "
      "delay and no mark cures that; wheel and board of one set belong together.");
}

TEST(Delay, asks_for_all_three_bars_when_one_says_too_little) {
  const Diagnosis one = by_words("green", "", "");
  EXPECT_EQ(one.fault, WheelFault::unclear);
  EXPECT_FALSE(one.curable);
  EXPECT_THAT(one.sentence, HasSubstr("give the colour of all three"));
}

std::string refused(const std::vector<SeenBar>& bars) {
  const auto found = diagnose(wheel_of("RGBRGB").value(), bars);
  return found.ok() ? "" : found.error().message;
}

TEST(Delay, never_takes_a_white_field_as_proof) {
  EXPECT_EQ(
      refused({{Hue::white, "white", {}, {}}}),
      "A white field looks the same at every delay and proves nothing; show pure red, green and "
      "blue bars.");
}

TEST(Delay, refuses_what_cannot_have_been_seen) {
  EXPECT_EQ(refused({}), "No bar was seen; show pure red, green and blue bars.");
  EXPECT_THAT(
      refused(words("pinkish", "", "")),
      HasSubstr("\"pinkish\" is no word for the colour of the red bar; say one of: red, orange, "));
  EXPECT_EQ(refused({{Hue::red, "", -3, {}}}),
            "-3 lux on the red bar cannot be; the reading must be above 0.");
  EXPECT_EQ(refused({{Hue::red, "", {}, Xyz{0, 0, 0}}}),
            "The colour measured on the red bar cannot be; take it again.");
  EXPECT_EQ(refused({{Hue::red, "red", {}, {}}, {Hue::red, "orange", {}, {}}}),
            "The red bar is given twice; keep one.");
  EXPECT_EQ(refused({{Hue::cyan, "turquoise", {}, {}}}),
            "A cyan bar is not used; show pure red, green and blue bars.");
}

constexpr int kWheels = 200;
enum class By { word, lux, colour };

std::vector<SeenBar> look(const SimulatedWheel& wheel, By by, std::mt19937_64& random,
                          const std::string& order = "RGB") {
  const auto shaken = [&] {  // even, with a standard deviation of 1 %
    return 1 + 0.017 * (static_cast<double>(random() % 2001) / 1000 - 1);
  };
  std::vector<SeenBar> bars;
  for (std::size_t i = 0; i < kBars.size(); ++i) {
    const Triple light = wheel.bar(order[i]);
    SeenBar seen{kBars[i], "", {}, {}};
    if (by == By::word) seen.word = called(light, random);
    if (by == By::lux) seen.lux = light[1] * (1 + 5 * (shaken() - 1));
    if (by == By::colour)
      seen.light = Xyz{light[0] * shaken(), light[1] * shaken(), light[2] * shaken()};
    bars.push_back(seen);
  }
  return bars;
}

struct Tally {
  std::vector<double> errors;
  int held = 0, sides = 0, sided = 0;
  [[nodiscard]] double part(double share) {
    std::sort(errors.begin(), errors.end());
    return errors[static_cast<std::size_t>(share * static_cast<double>(errors.size() - 1))];
  }
};

/// `own_lights`: whether the colours of this set's segments were measured before.
Tally find_many(By by, bool own_lights) {
  std::mt19937_64 random(404);
  Tally tally;
  for (int i = 0; i < kWheels; ++i) {
    SimulatedWheel turned = any_wheel(random);
    const double segment = *std::min_element(turned.degrees.begin(), turned.degrees.end());
    turned.late = 0.45 * segment * (2.0 * i / (kWheels - 1) - 1);
    Wheel wheel = wheel_of(turned.letters, turned.degrees).value();
    BarErrors errors;
    for (std::size_t s = 0; own_lights && s < wheel.segments.size(); ++s) {
      wheel.segments[s].light = {turned.light[s][0], turned.light[s][1], turned.light[s][2]};
      errors.primary_colour = 0.003, errors.primary_luminance = 0.03;
    }
    const Diagnosis found = diagnose(wheel, look(turned, by, random), errors).value();
    tally.errors.push_back(std::abs(found.late - turned.late));
    if (found.interval.low <= turned.late && turned.late <= found.interval.high) ++tally.held;
    if (std::abs(turned.late) > 8) {
      ++tally.sided;
      if ((found.late > 0) == (turned.late > 0)) ++tally.sides;
    }
  }
  std::cout << "error in degrees: median " << tally.part(0.5) << ", 95 % within "
            << tally.part(0.95) << "; interval held " << tally.held << " of " << kWheels
            << "; side right " << tally.sides << " of " << tally.sided << "\n";
  return tally;
}

TEST(Delay, is_found_from_measured_colours_of_a_set_whose_segments_are_known) {
  Tally tally = find_many(By::colour, true);
  EXPECT_LE(tally.part(0.5), 1.5);
  EXPECT_LE(tally.part(0.95), 6);
  EXPECT_GE(tally.held, kWheels * 85 / 100);
  EXPECT_GE(tally.sides, tally.sided * 98 / 100);
}

TEST(Delay, is_found_roughly_from_measured_colours_of_an_unknown_set) {
  Tally tally = find_many(By::colour, false);
  EXPECT_LE(tally.part(0.5), 8);
  EXPECT_GE(tally.held, kWheels * 85 / 100);
  EXPECT_GE(tally.sides, tally.sided * 95 / 100);
}

TEST(Delay, is_found_roughly_by_words) {
  Tally tally = find_many(By::word, false);
  EXPECT_LE(tally.part(0.5), 8);
  EXPECT_GE(tally.held, kWheels * 85 / 100);
  EXPECT_GE(tally.sides, tally.sided * 75 / 100);
}

TEST(Delay, is_found_from_three_lux_readings_of_a_set_whose_segments_are_known) {
  Tally tally = find_many(By::lux, true);
  EXPECT_LE(tally.part(0.5), 3);
  EXPECT_GE(tally.held, kWheels * 85 / 100);
  EXPECT_GE(tally.sides, tally.sided * 95 / 100);
}

TEST(Delay, finds_every_exchange_and_takes_no_ring_for_one) {
  std::mt19937_64 random(77);
  for (const By by : {By::colour, By::word}) {
    int exchanged = 0, rings = 0, tried = 0;
    while (tried < kWheels) {
      SimulatedWheel turned = any_wheel(random);
      if (turned.letters.size() == 4) continue;  // a clear segment breaks the ring
      ++tried;
      turned.late = static_cast<double>(random() % 11) - 5;
      const Wheel wheel = wheel_of(turned.letters, turned.degrees).value();
      const std::string order = std::array{"GRB", "RBG", "BGR"}[random() % 3];
      if (diagnose(wheel, look(turned, by, random, order)).value().fault == WheelFault::exchanged)
        ++exchanged;
      turned.late += turned.degrees[0] * (random() % 2 == 0 ? 1 : -1);
      if (diagnose(wheel, look(turned, by, random)).value().fault == WheelFault::segments_off)
        ++rings;
    }
    EXPECT_GE(exchanged, kWheels * 97 / 100);
    EXPECT_GE(rings, kWheels * 95 / 100);
  }
}

// Two readings with known angles give degrees for one step, and so microseconds.
TEST(Steps, become_degrees_and_microseconds) {
  Question question;
  question.setting = shipped("wheel index");
  question.readings = {read("photo of the index bars", 40, -12),
                       read("photo of the index bars", 60, 18)};
  question.readings[0].error = question.readings[1].error = 0.5;
  const Estimate found = estimate(question).value();
  ASSERT_TRUE(found.slope.has_value());
  EXPECT_NEAR(found.slope->per_unit, 1.5, 1e-9);
  EXPECT_NEAR(microseconds(found.slope->per_unit, 120), 34.7, 0.05);
  EXPECT_NEAR(found.value, 48, 1);
}

}  // namespace
}  // namespace benchgraft::align
