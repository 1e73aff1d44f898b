// Settings that sit on another board than they were found with, counters that lie, abilities.
#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/fit_bench.hpp"

namespace benchgraft::fit {
namespace {

using namespace fit_bench;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

const std::string kWheelIndex = R"([[setting]]
setting = "wheel index"
depends_on = ["engine optics", "display driver"]
stored_in = "display driver"
found_by = "Middle of the bar."
work_minutes = 12
)";

/// Engine and display driver are two parts; either or both may be exchanged.
Judgement judged_settings(const std::string& rebuild,
                          const std::string& driver_facts = R"(stores = ["wheel index"])",
                          const std::string& more = kWheelIndex) {
  return judged(part("E-1", "engine optics", R"(optics = { lens = true })") +
                    part("E-2", "engine optics", R"(optics = { lens = true })") +
                    part("D-1", "display driver", driver_facts) +
                    part("D-2", "display driver", driver_facts) +
                    model("Tern 40", {{"engine optics", "E-1"}, {"display driver", "D-1"}}) +
                    model("Wren 40", {{"engine optics", "E-2"}, {"display driver", "D-2"}}) + more,
                rebuild);
}

std::string action(const Judgement& j, const std::string& setting) {
  for (const auto& todo : j.settings)
    if (todo.name == setting) return todo.action;
  return "";
}

TEST(SettingElsewhere, is_redone_when_its_memory_and_its_parts_come_apart) {
  for (const auto& rebuild :
       {swap("engine optics", "E-2", "Wren 40"), swap("display driver", "D-2", "Wren 40")}) {
    const auto j = judged_settings(rebuild);
    EXPECT_EQ(action(j, "wheel index"), "redo") << told(j);
    EXPECT_EQ(reason(j, "setting elsewhere").before, Verdict::fits_with_work);
    EXPECT_EQ(j.settings.front().work_minutes, 12);
    EXPECT_EQ(j.settings.front().found_by, "Middle of the bar.");
  }
}

TEST(SettingElsewhere, travels_when_memory_and_parts_come_from_the_same_set) {
  const auto j = judged_settings(swap("engine optics", "E-2", "Wren 40") +
                                 swap("display driver", "D-2", "Wren 40"));
  EXPECT_EQ(action(j, "wheel index"), "travels") << told(j);
  EXPECT_EQ(reason(j, "setting elsewhere").before, Verdict::fits);
  EXPECT_EQ(j.settings.front().work_minutes, 0);
}

TEST(SettingElsewhere, is_redone_when_two_sets_give_the_parts) {
  const auto j = judged_settings(swap("engine optics", "E-2", "Wren 40") +
                                 swap("display driver", "D-2", "shelf"));
  EXPECT_EQ(action(j, "wheel index"), "redo") << told(j);
}

TEST(SettingElsewhere, is_checked_when_nobody_wrote_down_who_keeps_it) {
  const auto j = judged_settings(swap("display driver", "D-2", "Wren 40"), "-stores");
  EXPECT_EQ(action(j, "wheel index"), "check") << told(j);
  EXPECT_TRUE(asks(j, "Which settings does D-2 keep"));
}

TEST(SettingElsewhere, is_left_alone_when_nothing_it_hangs_on_is_touched) {
  const auto j = judged_settings(swap("engine optics", "E-2", "Wren 40"),
                                 R"(stores = ["wheel index"])", R"([[setting]]
setting = "channel list"
depends_on = ["tuner"]
stored_in = "display driver"
)");
  EXPECT_EQ(action(j, "channel list"), "") << told(j);
}

TEST(SettingElsewhere, takes_the_value_a_swap_note_found_as_the_first_to_try) {
  const auto j = judged_settings(swap("engine optics", "E-2", "Wren 40"),
                                 R"(stores = ["wheel index"])", kWheelIndex + R"([[swap_note]]
swap_note = "done before"
into = "Tern 40"
moved = ["E-2"]
found = [{ setting = "wheel index", value = 37 }]
result = "works"
)");
  EXPECT_EQ(j.settings.front().predicted, "37") << told(j);
}

TEST(SettingElsewhere, a_memory_that_was_changed_does_not_travel) {
  const auto j = judged_settings(swap("engine optics", "E-2", "Wren 40") +
                                 swap("display driver", "D-2", "Wren 40",
                                      R"({ change = "memory changed", setting = "wheel index" })"));
  EXPECT_EQ(action(j, "wheel index"), "redo") << told(j);
}

TEST(SettingElsewhere, what_comes_after_a_toggled_flip_is_checked) {
  const auto j = judged(
      part("E-1", "engine optics", R"(optics = { lens = true, mount = "upright" })") +
          part(
              "E-2", "engine optics",
              R"(optics = { lens = true, mount = "upright" }, stores = ["flip", "order"], flip_default = "none")") +
          model("Tern 40", {{"engine optics", "E-1"}},
                R"(optics = { fold_mirrors = 1, seen_from_behind = true, mount = "upright" })") +
          R"([[setting]]
setting = "flip"
depends_on = ["engine optics"]
flip = true
[[setting]]
setting = "order"
depends_on = ["engine optics"]
after = ["flip"]
)",
      swap("engine optics", "E-2", "bought"));
  EXPECT_EQ(action(j, "flip"), "set") << told(j);
  EXPECT_EQ(action(j, "order"), "check") << told(j);
}

Judgement counted(
    const std::string& rebuild,
    const std::string& counter = R"(counter = [{ counter = "lamp hours", speaks_of = "lamp" }])") {
  return judged(
      part("MB-1", "picture processing", counter) + part("MB-2", "picture processing", counter) +
          part("L-1", "lamp", "lamp_watts = 100") + part("L-2", "lamp", "lamp_watts = 100") +
          model("Tern 40", {{"picture processing", "MB-1"}, {"lamp", "L-1"}}),
      rebuild);
}
const std::string kSeenLamp = "[[seen]]\nplace = \"lamp\"\ntype = \"L-1\"\nrun_hours = 1400\n";

TEST(CounterLies, after_the_lamp_the_menu_still_shows_the_old_hours) {
  const auto j = counted(kSeenLamp + "[[part]]\nplace = \"lamp\"\ntype = \"L-2\"\nrun_hours = 0\n");
  ASSERT_EQ(j.counters.size(), 1U) << told(j);
  EXPECT_EQ(j.counters.front().shows, "1400 h");
  EXPECT_EQ(j.counters.front().truth, "0 h");
  EXPECT_EQ(reason(j, "counter lies").before, Verdict::fits_with_work);
}

TEST(CounterLies, after_the_board_it_speaks_of_another_lamp) {
  const auto j = counted(kSeenLamp + swap("picture processing", "MB-2", "Wren 40"));
  ASSERT_EQ(j.counters.size(), 1U) << told(j);
  EXPECT_EQ(j.counters.front().truth, "1400 h");
  EXPECT_EQ(j.counters.front().shows, "") << "nobody read it";
}

TEST(CounterLies, not_when_board_and_lamp_come_together) {
  EXPECT_THAT(
      counted(swap("picture processing", "MB-2", "D1") + swap("lamp", "L-2", "D1")).counters,
      IsEmpty());
  EXPECT_EQ(
      counted(swap("picture processing", "MB-2", "D1") + swap("lamp", "L-2", "D2")).counters.size(),
      1U);
}

TEST(CounterLies, is_asked_about_when_nobody_wrote_down_what_a_board_counts) {
  const auto j = judged(part("MB-1", "picture processing",
                             R"(counter = [{ counter = "lamp hours", speaks_of = "lamp" }])") +
                            part("MB-2", "picture processing", "-counter") +
                            model("Tern 40", {{"picture processing", "MB-1"}}),
                        swap("picture processing", "MB-2"));
  EXPECT_TRUE(asks(j, "Does MB-2 count hours")) << told(j);
}

Judgement able(const std::string& was, const std::string& is, const std::string& cabinet = "") {
  return judged(part("MB-1", "picture processing", was) + part("MB-2", "picture processing", is) +
                    model("Tern 40", {{"picture processing", "MB-1"}}, cabinet),
                swap("picture processing", "MB-2"));
}

TEST(Capability, what_the_new_part_does_not_provide_is_lost_and_what_it_adds_is_gained) {
  const auto j =
      able(R"(provides = ["sound", "analogue tuner"])", R"(provides = ["sound", "digital tuner"])");
  EXPECT_THAT(j.lost, ElementsAre("analogue tuner")) << told(j);
  EXPECT_THAT(j.gained, ElementsAre("digital tuner"));
  EXPECT_EQ(j.verdict, Verdict::fits) << "the customer is told; nothing is broken";
  EXPECT_TRUE(has(j, "capability"));
}

TEST(Capability, what_the_cabinet_provides_stays) {
  const auto j = able(R"(provides = ["sound"])", "", R"(provides = ["sound"])");
  EXPECT_THAT(j.lost, IsEmpty()) << told(j);
}

TEST(Capability, what_nobody_recorded_is_neither_lost_nor_kept_but_asked_for) {
  const auto j = able(R"(provides = ["digital tuner"])", "-provides");
  EXPECT_THAT(j.lost, IsEmpty());
  EXPECT_TRUE(asks(j, "Which of these can MB-2 do: digital tuner?")) << told(j);
}

}  // namespace
}  // namespace benchgraft::fit
