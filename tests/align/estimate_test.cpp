#include "align/estimate.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "shipped.hpp"

namespace benchgraft::align {
namespace {

using ::testing::HasSubstr;

Question about(const std::string& setting, std::vector<Reading> readings) {
  Question question;
  question.setting = shipped(setting);
  question.readings = std::move(readings);
  return question;
}

Estimate estimated(const std::string& setting, std::vector<Reading> readings) {
  const auto result = estimate(about(setting, std::move(readings)));
  EXPECT_TRUE(result.ok()) << (result.ok() ? "" : result.error().message);
  return result.ok() ? result.value() : Estimate{};
}

// Common practice, no source: on one set the red bar was purplish below, a good red from 45 to 50,
// then orange and green above.
std::string word_of_that_set(int value) {
  if (value < 45) return "purplish";
  if (value <= 50) return "red";
  return value < 57 ? "orange" : "green";
}
std::vector<Reading> of_that_set(const std::vector<int>& values) {
  std::vector<Reading> readings;
  for (const int value : values)
    readings.push_back(said("red bar", value, word_of_that_set(value)));
  return readings;
}

TEST(RedBar, is_put_between_45_and_50_by_the_six_words_of_that_set) {
  const Estimate found = estimated("wheel index", of_that_set({40, 43, 45, 50, 53, 57}));
  EXPECT_GE(found.value, 45);
  EXPECT_LE(found.value, 50);
  EXPECT_TRUE(found.settled);
  EXPECT_GE(found.interval.low, 43);
  EXPECT_LE(found.interval.high, 53);
  ASSERT_TRUE(found.band.has_value());
  EXPECT_GE(found.band->low, 44);
  EXPECT_LE(found.band->high, 51);
}

TEST(RedBar, is_put_between_45_and_50_by_fewer_words_that_hold_it_from_both_sides_or_saw_it_red) {
  const std::vector<int> all = {40, 43, 45, 50, 53, 57};
  int tried = 0;
  for (unsigned subset = 1; subset < 64; ++subset) {
    std::vector<int> values;
    for (unsigned i = 0; i < 6; ++i)
      if ((subset >> i & 1U) != 0) values.push_back(all[i]);
    const bool red = (subset & 0b001100U) != 0;
    const bool below = (subset & 0b000011U) != 0, above = (subset & 0b110000U) != 0;
    if (!red && !(below && above)) continue;
    ++tried;
    const Estimate found = estimated("wheel index", of_that_set(values));
    EXPECT_GE(found.value, 45) << ::testing::PrintToString(values);
    EXPECT_LE(found.value, 50) << ::testing::PrintToString(values);
  }
  EXPECT_EQ(tried, 57);
}

TEST(RedBar, after_any_two_words_outside_the_window_the_next_value_narrows_it) {
  for (int a = 5; a < 90; a += 3)
    for (int b = a + 1; b < 90; b += 4) {
      if (word_of_that_set(a) == "red" || word_of_that_set(b) == "red") continue;
      const double next = estimated("wheel index", of_that_set({a, b})).next;
      if (a < 45 && b > 50) {
        EXPECT_GT(next, a) << a << " and " << b;
        EXPECT_LT(next, b) << a << " and " << b;
      } else if (b < 45) {
        EXPECT_GT(next, b) << a << " and " << b;
      } else {
        EXPECT_LT(next, a) << a << " and " << b;
      }
    }
}

TEST(RedBar, is_found_on_that_set_by_following_the_next_values_from_any_start) {
  for (int start = 0; start <= 255; start += 15) {
    Question question = about("wheel index", {});
    question.own_range = catalogue::Range{0, 100};
    if (start > 100) continue;
    int value = start, taken = 0;
    for (; taken < 8; ++taken) {
      question.readings.push_back(said("red bar", value, word_of_that_set(value)));
      const auto found = estimate(question);
      ASSERT_TRUE(found.ok());
      if (found.value().settled) {
        EXPECT_GE(found.value().value, 45);
        EXPECT_LE(found.value().value, 50);
        break;
      }
      value = static_cast<int>(found.value().next);
    }
    EXPECT_LT(taken, 8) << "from " << start;
  }
}

// Common practice, no source: jagged at 113, jagged again well below 97, smoothest near 97. How far
// from 97 an eye still calls it smooth is assumed here: six.
TEST(FineLines, are_put_near_97_from_jagged_at_113_by_words_alone) {
  Question question = about("pixel shift gain", {said("fine lines", 113, "jagged")});
  question.own_range = catalogue::Range{0, 255};
  question.own_step = 1;
  for (auto& observer : question.setting.observers)
    if (observer.usual_width)
      observer.usual_width =
          catalogue::Range{128 * observer.usual_width->low, 128 * observer.usual_width->high};
  for (;;) {
    const auto found = estimate(question);
    ASSERT_TRUE(found.ok());
    if (found.value().settled) {
      EXPECT_NEAR(found.value().value, 97, 6);
      break;
    }
    const double off = std::abs(found.value().next - 97);
    question.readings.push_back(said("fine lines", found.value().next,
                                     off <= 6   ? "smooth"
                                     : off < 24 ? "jagged"
                                                : "very jagged"));
    ASSERT_LE(question.readings.size(), 8U);
  }
}

// Test vector of the secant: displacement -0.20 at 0.70 and -0.08 at 0.80 meet zero at 0.8667.
TEST(Line, through_two_photos_of_the_comb_is_the_secant) {
  const Estimate found = estimated("pixel shift gain", {read("photo of the comb", 0.70, -0.20),
                                                        read("photo of the comb", 0.80, -0.08)});
  EXPECT_NEAR(found.value, 0.8667, 0.02);
  EXPECT_LE(found.interval.low, 0.8667);
  EXPECT_GE(found.interval.high, 0.8667);
  EXPECT_FALSE(found.settled) << "nobody has seen it near zero yet";
}

TEST(Line, with_one_reading_says_nothing_about_the_side) {
  const Estimate found = estimated("pixel shift gain", {read("photo of the comb", 0.70, -0.20)});
  EXPECT_FALSE(found.settled);
  EXPECT_GT(found.interval.high - found.interval.low, 1);
}

TEST(Observers, of_one_setting_add_up) {
  const std::vector<Reading> words = of_that_set({40, 57});
  const Estimate by_words = estimated("wheel index", words);
  std::vector<Reading> both = {read("photo of the index bars", 40, -12.0),
                               read("photo of the index bars", 57, 15.0)};
  both.insert(both.end(), words.begin(), words.end());
  const Estimate together = estimated("wheel index", both);
  EXPECT_LT(together.interval.high - together.interval.low,
            0.7 * (by_words.interval.high - by_words.interval.low));
}

TEST(Estimate, is_the_same_twice) {
  const auto readings = of_that_set({40, 57, 53});
  const Estimate first = estimated("wheel index", readings);
  const Estimate second = estimated("wheel index", readings);
  EXPECT_EQ(first.value, second.value);
  EXPECT_EQ(first.next, second.next);
  EXPECT_EQ(first.interval, second.interval);
  EXPECT_EQ(first.chance, second.chance);
}

TEST(Estimate, begins_where_the_setting_stands) {
  Question question = about("wheel index", {});
  question.start = 62;
  const auto found = estimate(question);
  ASSERT_TRUE(found.ok());
  EXPECT_EQ(found.value().next, 62);
  EXPECT_FALSE(found.value().settled);
}

TEST(Estimate, names_the_reading_that_contradicts_the_others) {
  auto readings = of_that_set({40, 43, 47, 53, 57});
  readings.push_back(said("red bar", 200, "purplish"));
  const Estimate found = estimated("wheel index", readings);
  ASSERT_FALSE(found.remarks.empty());
  EXPECT_EQ(found.remarks.front(),
            "\"purplish\" at 200 does not go with the other readings; look again.");
  EXPECT_GE(found.value, 45);
  EXPECT_LE(found.value, 50);
}

TEST(Estimate, says_when_the_range_ends_too_early) {
  const Estimate found =
      estimated("wheel index", {said("red bar", 200, "purplish"), said("red bar", 240, "purplish"),
                                said("red bar", 255, "purplish")});
  ASSERT_FALSE(found.remarks.empty());
  EXPECT_EQ(found.remarks.front(),
            "The best value seems to lie beyond the end of the range 0 to 255.");
}

TEST(Threshold, is_found_from_the_good_side) {
  catalogue::Observer flicker;
  flicker.name = "white field";
  flicker.response = catalogue::Response::threshold;
  flicker.words = {{"steady", catalogue::Meaning::good}, {"flickers", catalogue::Meaning::above}};
  Question question;
  question.setting.name = "lamp power trim";
  question.setting.range = catalogue::Range{0, 15};
  question.setting.step = 1;
  question.setting.observers = {flicker};
  question.readings = {said("white field", 4, "steady"), said("white field", 12, "flickers"),
                       said("white field", 8, "steady"), said("white field", 10, "flickers"),
                       said("white field", 9, "steady")};
  const auto found = estimate(question);
  ASSERT_TRUE(found.ok());
  EXPECT_EQ(found.value().value, 9);
  EXPECT_LE(found.value().interval.low, 9.5);
  EXPECT_GE(found.value().interval.high, 9.5);
}

std::string refused(const Question& question) {
  const auto result = estimate(question);
  return result.ok() ? "" : result.error().message;
}

TEST(Question, is_refused_with_one_sentence_when_it_cannot_be_answered) {
  EXPECT_EQ(refused(about("wheel index", {said("red bar", 40, "pinkish")})),
            "The red bar does not answer \"pinkish\"; say one of: magenta, purplish, red, orange, "
            "yellow or green.");
  EXPECT_EQ(refused(about("wheel index", {read("red bar", 40, 3)})),
            "The red bar does not answer 3; say one of: magenta, purplish, red, orange, yellow or "
            "green.");
  EXPECT_EQ(refused(about("wheel index", {said("green bar light", 40, "bright")})),
            "The reading \"bright\" of \"green bar light\" is no number; give it in lux.");
  EXPECT_EQ(refused(about("wheel index", {said("red bar", 300, "red")})),
            "The value 300 lies outside the range 0 to 255 of the setting \"wheel index\".");
  EXPECT_THAT(refused(about("wheel index", {said("white field", 40, "white")})),
              HasSubstr("The setting \"wheel index\" has no observer \"white field\""));
  EXPECT_THAT(refused(about("channel list", {})),
              HasSubstr("The range of the setting \"channel list\" is not recorded"));
  Question question = about("wheel index", of_that_set({40}));
  question.own_range = catalogue::Range{50, 50};
  EXPECT_EQ(refused(question),
            "A range from 50 to 50 leaves nothing to choose; the low end comes first and below the "
            "high end.");
  question.own_range = catalogue::Range{0, 10};
  question.own_step = 20;
  EXPECT_EQ(refused(question),
            "A step of 20 does not suit a range from 0 to 10; it wants 2 to 1000000 steps.");
  question = about("wheel index", std::vector<Reading>(201, said("red bar", 40, "red")));
  EXPECT_EQ(refused(question), "201 readings are too many; give the last 200 at most.");
}

}  // namespace
}  // namespace benchgraft::align
