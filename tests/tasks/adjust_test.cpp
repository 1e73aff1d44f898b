#include "tasks/adjust.hpp"

#include <filesystem>
#include <fstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "sheets/page.hpp"

namespace benchgraft::tasks {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;

const Knowledge kShipped{std::string(BENCHGRAFT_SOURCE_DIR) + "/data", {}};

AdjustWords about(const std::string& setting, std::vector<std::string> readings) {
  AdjustWords words;
  words.setting = setting;
  words.readings = std::move(readings);
  return words;
}

std::string told(const AdjustWords& words) {
  const auto answer = adjust({}, kShipped, words);
  return answer.ok() ? sheets::as_text(answer.value().page) : answer.error().message;
}

TEST(Adjust, says_the_value_when_the_words_are_enough) {
  EXPECT_THAT(told(about("wheel index", {"40=purplish", "43=purplish", "45=red", "50=red",
                                         "53=orange", "57=green"})),
              AllOf(HasSubstr("Set wheel index to 4"), HasSubstr("45: red"),
                    HasSubstr("look at its colour")));
}

TEST(Adjust, says_where_to_look_when_they_are_not) {
  EXPECT_THAT(told(about("wheel index", {"40=purplish", "57=green"})),
              HasSubstr("Look at the value 4"));
  AdjustWords first = about("wheel index", {});
  first.start = 62;
  EXPECT_THAT(told(first), HasSubstr("Look at the value 62 first."));
}

TEST(Adjust, takes_numbers_and_the_range_of_this_set) {
  AdjustWords words = about("pixel shift gain", {"113=0.09", "75=-0.12", "97=0.004"});
  words.observer = "photo of the comb";
  words.low = 0, words.high = 255, words.step = 1;
  EXPECT_THAT(told(words), HasSubstr("Set pixel shift gain to 9"));
}

TEST(Adjust, reckons_with_the_wheel_itself) {
  AdjustWords words = about("wheel index", {"120=red:green,green:blue,blue:red"});
  words.wheel = "rgbrgb";
  words.degrees_per_step = 1.5;
  EXPECT_THAT(told(words), AllOf(HasSubstr("in a ring"), HasSubstr("about one segment")));
  words.readings = {"120=red:green,green:red,blue:blue"};
  EXPECT_THAT(told(words),
              AllOf(HasSubstr("Red and green are exchanged"),
                    HasSubstr("No value of this setting puts it right."), Not(HasSubstr("next"))));
}

TEST(Adjust, begins_where_it_ended_with_the_same_two_parts) {
  const auto folder = std::filesystem::path(::testing::TempDir()) / "adjust_notes";
  std::filesystem::create_directories(folder);
  std::ofstream(folder / "notes.toml") << R"(format = 1
family = "notes"

[[swap_note]]
swap_note = "wheel into the deep one"
into = "Harrowmere 44"
moved = ["QE-20/B"]
stayed = ["HD-20/A"]
found = [{setting = "wheel index", value = 47}]
result = "works"
date = 2026-03-14
)";
  const Knowledge demo{kShipped.data_dir, {folder.string()}};
  AdjustWords words = about("wheel index", {});
  words.parts = {"HD-20/A", "QE-20/B"};
  const auto found = adjust({}, demo, words);
  ASSERT_TRUE(found.ok()) << found.error().message;
  EXPECT_THAT(sheets::as_text(found.value().page),
              AllOf(HasSubstr("With HD-20/A and QE-20/B the value 47 was found on 2026-03-14"),
                    HasSubstr("Look at the value 47 first.")));
  words.parts = {"HD-20/A", "QE-99"};
  EXPECT_THAT(sheets::as_text(adjust({}, demo, words).value().page),
              HasSubstr("No swap note tells of a value with HD-20/A and QE-99."));
  words.parts = {"HD-20/A"};
  EXPECT_THAT(adjust({}, demo, words).error().message, HasSubstr("give --part twice"));
}

TEST(Adjust, answers_as_json) {
  const auto answer = adjust({}, kShipped, about("wheel index", {"47=red"}));
  ASSERT_TRUE(answer.ok());
  EXPECT_THAT(answer.value().json, AllOf(HasSubstr("\"setting\": \"wheel index\""),
                                         HasSubstr("\"settled\": "), HasSubstr("\"wheel\": null")));
}

TEST(Adjust, refuses_bad_input_with_one_sentence) {
  EXPECT_EQ(told(about("wheel indx", {})),
            "No setting \"wheel indx\" is recorded; did you mean \"wheel index\"?");
  EXPECT_EQ(
      told(about("wheel index", {"purplish"})),
      "\"purplish\" is no reading; write the value of the setting, = and what was seen, as in "
      "40=purplish.");
  EXPECT_THAT(told(about("wheel index", {"40=mauve"})), HasSubstr("does not answer \"mauve\""));
  AdjustWords white = about("wheel index", {"40=white:white"});
  white.wheel = "RGB";
  EXPECT_THAT(told(white), HasSubstr("A white field looks the same at every delay"));
  white.readings = {"40=orange"};
  EXPECT_THAT(told(white), HasSubstr("does not say which bar it is about"));
  white.readings = {"40=pink:orange"};
  EXPECT_EQ(told(white), "\"pink\" is no bar; say red, green or blue.");
  white.wheel = "RGQ";
  EXPECT_THAT(told(white), HasSubstr("is no colour of a segment"));
}

}  // namespace
}  // namespace benchgraft::tasks
