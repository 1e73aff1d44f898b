#include "align/redo.hpp"

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "shipped.hpp"

namespace benchgraft::align {
namespace {

using ::testing::ElementsAre;

std::vector<std::string> names(const Result<std::vector<ToRedo>>& todo) {
  std::vector<std::string> out;
  if (!todo) return {todo.error().message};
  for (const auto& one : todo.value()) out.push_back(one.setting);
  return out;
}

std::vector<std::string> order(const std::vector<std::string>& asked) {
  return names(to_redo(shipped_settings(), asked));
}

TEST(Redo, goes_from_flip_through_place_index_shift_and_white_to_the_counter) {
  EXPECT_THAT(
      order({"lamp counter", "white balance", "pixel shift gain", "wheel index", "picture flip",
             "picture size and place"}),
      ElementsAre("picture flip", "picture size and place", "wheel index", "pixel shift order",
                  "pixel shift gain", "panel convergence", "white balance", "lamp counter"));
}

TEST(Redo, brings_along_what_hangs_on_a_changed_flip) {
  const auto todo = to_redo(shipped_settings(), std::vector<std::string>{"picture flip"}).value();
  const auto gain = std::find_if(todo.begin(), todo.end(), [](const ToRedo& one) {
    return one.setting == "pixel shift gain";
  });
  ASSERT_NE(gain, todo.end());
  EXPECT_EQ(gain->why, "pixel shift order");
  EXPECT_THAT(gain->after, ::testing::Contains("picture flip"));
}

TEST(Redo, brings_nothing_along_when_no_flip_is_changed) {
  EXPECT_THAT(order({"wheel index"}), ElementsAre("wheel index"));
  EXPECT_THAT(order({}), ElementsAre());
}

TEST(Redo, refuses_a_setting_nobody_recorded) {
  EXPECT_THAT(order({"wheel indx"}),
              ElementsAre("No setting \"wheel indx\" is recorded; did you mean \"wheel index\"?"));
}

TEST(Redo, refuses_settings_that_wait_for_each_other) {
  std::vector<catalogue::Setting> ring(2);
  ring[0].name = "a", ring[0].after = {"b"};
  ring[1].name = "b", ring[1].after = {"a"};
  const std::vector<std::string> asked{"a", "b"};
  EXPECT_FALSE(to_redo(ring, asked).ok());
}

TEST(FoundBefore, is_the_newest_value_of_the_same_two_parts) {
  std::vector<catalogue::SwapNote> notes(4);
  const auto write = [&](std::size_t i, const char* moved, const char* stayed, const char* value,
                         const char* date) {
    notes[i].name = date;
    notes[i].moved = {moved};
    notes[i].stayed = {stayed};
    notes[i].found = {{"wheel index", value}};
    notes[i].date = date;
  };
  write(0, "CW-1", "FB-2", "47", "2026-01-01");
  write(1, "FB-2", "CW-1", "49", "2026-03-01");
  write(2, "CW-1", "FB-3", "60", "2026-04-01");
  write(3, "CW-1", "FB-2", "12", "2026-05-01");
  notes[3].result = catalogue::SwapResult::failed;
  const auto found = found_before(notes, "CW-1", "FB-2", "wheel index");
  ASSERT_TRUE(found.has_value());
  EXPECT_EQ(found->value, "49");
  EXPECT_EQ(found->date, "2026-03-01");
  EXPECT_FALSE(found_before(notes, "CW-1", "FB-2", "picture flip").has_value());
  EXPECT_FALSE(found_before(notes, "CW-9", "FB-2", "wheel index").has_value());
}

}  // namespace
}  // namespace benchgraft::align
