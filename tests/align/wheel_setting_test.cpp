#include "align/wheel_setting.hpp"

#include <algorithm>
#include <cmath>
#include <iostream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "simulated_wheel.hpp"

namespace benchgraft::align {
namespace {

constexpr int kWheels = 60;

double even(std::mt19937_64& random, double low, double high) {
  return low + (high - low) * static_cast<double>(random() % 100000) / 100000;
}

/// A set whose wheel index is wrong: turned wheel, right value, degrees for one step.
struct WrongSet {
  SimulatedWheel turned;
  double right = 0, per_step = 0;

  explicit WrongSet(std::mt19937_64& random) : turned(any_wheel(random)) {
    right = even(random, 60, 200);
    per_step = even(random, 0.35, 1.2) * (random() % 5 == 0 ? -1 : 1);
  }
  [[nodiscard]] WheelQuestion question() const {
    WheelQuestion asked;
    asked.wheel = wheel_of(turned.letters, turned.degrees).value();
    asked.scale = {0, 255, 1};
    return asked;
  }
  BarsAt at(double value, bool lux, std::mt19937_64& random) {
    turned.late = per_step * (value - right);
    BarsAt look{value, {}};
    for (const Hue bar : kBars) {
      const Triple light = turned.bar(bar == Hue::red ? 'R' : bar == Hue::green ? 'G' : 'B');
      SeenBar seen{bar, "", {}, {}};
      if (lux)
        seen.lux = light[1] * even(random, 0.95, 1.05);
      else
        seen.word = called(light, random);
      look.bars.push_back(seen);
    }
    return look;
  }
  /// Degrees from the nearest right value, which comes again after every period.
  [[nodiscard]] double off(double value, double period) const {
    const double late = per_step * (value - right);
    return std::abs(late - period * std::round(late / period));
  }
};

struct Tally {
  std::vector<std::size_t> looks;
  int clean = 0, settled = 0;
};

Tally adjust_many(bool lux, std::size_t most) {
  std::mt19937_64 random(31);
  Tally tally;
  for (int i = 0; i < kWheels; ++i) {
    WrongSet set(random);
    WheelQuestion question = set.question();
    double value = std::clamp(set.right + even(random, -60, 60), 0.0, 255.0);
    value = std::round(value);
    WheelEstimate found;
    while (question.looks.size() < most) {
      question.looks.push_back(set.at(value, lux, random));
      const auto result = estimate_wheel(question);
      EXPECT_TRUE(result.ok());
      found = result.value();
      if (found.setting.settled) break;
      value = found.setting.next;
    }
    if (found.setting.settled) ++tally.settled;
    tally.looks.push_back(question.looks.size());
    // 5 % of a neighbour is what an eye hardly sees; a little more is let pass here.
    const double narrowest =
        *std::min_element(set.turned.degrees.begin(), set.turned.degrees.end());
    const double share = neighbour_share(set.off(found.setting.value, period(question.wheel)),
                                         narrowest - set.turned.spoke - 2 * set.turned.guard,
                                         set.turned.spoke, set.turned.guard);
    if (share <= 0.07) ++tally.clean;
  }
  std::sort(tally.looks.begin(), tally.looks.end());
  std::cout << (lux ? "lux" : "words") << ": median " << tally.looks[kWheels / 2]
            << " looks, settled " << tally.settled << ", clean " << tally.clean << " of " << kWheels
            << "\n";
  return tally;
}

TEST(WheelSetting, is_found_by_words_alone) {
  const Tally tally = adjust_many(false, 8);
  EXPECT_LE(tally.looks[kWheels / 2], 6U);
  EXPECT_GE(tally.clean, kWheels * 90 / 100);
}

TEST(WheelSetting, is_found_by_a_lux_meter_alone) {
  const Tally tally = adjust_many(true, 8);
  EXPECT_LE(tally.looks[kWheels / 2], 6U);
  EXPECT_GE(tally.clean, kWheels * 90 / 100);
}

BarsAt words(double value, const std::string& red, const std::string& green,
             const std::string& blue) {
  return {value, {{Hue::red, red, {}, {}}, {Hue::green, green, {}, {}}, {Hue::blue, blue, {}, {}}}};
}

TEST(WheelSetting, gives_degrees_and_microseconds_for_one_step) {
  WheelQuestion question;
  question.wheel = wheel_of("RGBRGB").value();
  question.scale = {0, 255, 1};
  question.looks = {words(40, "purplish", "yellowish", "light blue"),
                    words(48, "red", "green", "blue"), words(57, "yellow", "turquoise", "violet"),
                    words(70, "green", "blue", "magenta")};
  const WheelEstimate found = estimate_wheel(question).value();
  EXPECT_NEAR(found.setting.value, 48, 2);
  EXPECT_GT(found.degrees_per_unit.per_unit, 0.8);
  EXPECT_LT(found.degrees_per_unit.per_unit, 3);
  EXPECT_NEAR(found.microseconds_per_unit, found.degrees_per_unit.per_unit * 23.15, 0.05);
  EXPECT_TRUE(found.setting.settled);
}

TEST(WheelSetting, goes_the_whole_segment_when_the_colours_come_in_a_ring) {
  WheelQuestion question;
  question.wheel = wheel_of("RGBRGB").value();
  question.scale = {0, 255, 1};
  question.degrees_per_unit = 1.5;
  question.looks = {words(120, "green", "blue", "red")};
  const WheelEstimate found = estimate_wheel(question).value();
  EXPECT_EQ(found.last.fault, WheelFault::segments_off);
  EXPECT_NEAR(found.setting.value, 80, 8);
}

TEST(WheelSetting, refuses_what_it_cannot_use) {
  WheelQuestion question;
  question.wheel = wheel_of("RGB").value();
  question.scale = {0, 255, 1};
  EXPECT_EQ(estimate_wheel(question).error().message,
            "No bar was seen; show pure red, green and blue bars at the present value.");
  question.looks = {{300, {{Hue::red, "red", {}, {}}}}};
  EXPECT_EQ(estimate_wheel(question).error().message,
            "The value 300 lies outside the range 0 to 255 of the wheel index.");
  question.looks = {{30, {{Hue::white, "white", {}, {}}}}};
  EXPECT_THAT(estimate_wheel(question).error().message, ::testing::HasSubstr("proves nothing"));
  question.looks = {{30, {{Hue::red, "red", {}, {}}}}};
  question.degrees_per_unit = 0;
  EXPECT_EQ(estimate_wheel(question).error().message,
            "0 degrees for one step cannot be; leave it out when it is not known.");
}

}  // namespace
}  // namespace benchgraft::align
