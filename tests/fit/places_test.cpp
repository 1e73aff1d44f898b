// What sits in each place: known, seated, doing every job, with the fellows it asks for.
#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/fit_bench.hpp"

namespace benchgraft::fit {
namespace {

using namespace fit_bench;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

TEST(MissingPart, a_job_nothing_does_any_more_does_not_fit_and_says_what_would_do_it) {
  const std::string body = part("A-1", "display driver") + part("B-1", "sound") +
                           model("Tern 40", {{"display driver", "A-1"}, {"sound", "B-1"}});
  const auto j = judged(body, "missing = [\"sound\"]\n");
  EXPECT_EQ(reason(j, "missing part").before, Verdict::does_not_fit) << told(j);
  ASSERT_EQ(j.companions.size(), 1U);
  EXPECT_THAT(j.companions.front().types, ElementsAre("B-1"));
  EXPECT_FALSE(
      has(judged(body, "missing = [\"sound\"]\n" + swap("sound", "B-1", "shelf")), "missing part"));
}

TEST(MissingPart, an_optional_job_may_stay_undone) {
  const auto j = judged(part("A-1", "display driver") + part("B-1", "keys") +
                            model("Tern 40", {{"display driver", "A-1"}, {"keys", "B-1"}}),
                        "missing = [\"keys\"]\n");
  EXPECT_FALSE(has(j, "missing part")) << told(j);
}

const std::string kTwoJobs = R"(roles = ["picture processing", "tuner"])";

TEST(SeveralJobs, a_board_with_a_tuner_pushes_the_old_tuner_out) {
  const auto j = judged(part("MB-1", "picture processing") + part("TU-1", "tuner") +
                            part("MB-2", "picture processing", kTwoJobs) +
                            model("Tern 40", {{"picture processing", "MB-1"}, {"tuner", "TU-1"}}),
                        swap("picture processing", "MB-2"));
  EXPECT_EQ(reason(j, "several jobs").before, Verdict::fits_with_work) << told(j);
  EXPECT_THAT(reason(j, "several jobs").says, HasSubstr("already does the job of tuner"));
  EXPECT_FALSE(has(j, "missing part"));
}

TEST(SeveralJobs, the_next_generation_splits_them_and_one_job_is_left_open) {
  const std::string body = part("MB-2", "picture processing", kTwoJobs) +
                           part("MB-3", "picture processing") + part("TU-3", "tuner") +
                           model("Tern 40", {{"picture processing", "MB-2"}});
  const auto j = judged(body, swap("picture processing", "MB-3"));
  EXPECT_EQ(reason(j, "missing part").before, Verdict::does_not_fit) << told(j);
  EXPECT_THAT(reason(j, "missing part").roles, ElementsAre("tuner"));
  const auto both = judged(body, swap("picture processing", "MB-3") + swap("tuner", "TU-3"));
  EXPECT_FALSE(has(both, "missing part")) << told(both);
}

TEST(SeveralJobs, a_job_done_twice_is_said_even_when_the_old_board_has_to_stay) {
  const auto j = judged(part("MB-1", "picture processing") +
                            part("TA-1", "tuner", R"(roles = ["tuner", "sound"])") +
                            part("MB-2", "picture processing", kTwoJobs) +
                            model("Tern 40", {{"picture processing", "MB-1"}, {"tuner", "TA-1"}}),
                        swap("picture processing", "MB-2"));
  EXPECT_TRUE(has(j, "several jobs")) << told(j);
}

TEST(FellowPart, the_lamp_follows_the_engine_that_asks_for_it) {
  const std::string asks_for = R"(fellow = [{ role = "lamp", types = ["L-2"], why = "focus" }])";
  const std::string body = part("E-1", "engine optics") + part("E-2", "engine optics", asks_for) +
                           part("L-1", "lamp") + part("L-2", "lamp", "price_minor = 900") +
                           model("Tern 40", {{"engine optics", "E-1"}, {"lamp", "L-1"}});
  const auto follows = judged(body, swap("engine optics", "E-2"));
  EXPECT_EQ(reason(follows, "fellow part").verdict, Verdict::fits_with_work) << told(follows);
  ASSERT_EQ(follows.companions.size(), 1U);
  EXPECT_EQ(follows.companions.front().what, "L-2");
  EXPECT_EQ(follows.material.minor, 900);
  const auto chosen = judged(body, swap("engine optics", "E-2") + swap("lamp", "L-1"));
  EXPECT_EQ(reason(chosen, "fellow part").before, Verdict::does_not_fit) << told(chosen);
  const auto right = judged(body, swap("engine optics", "E-2") + swap("lamp", "L-2"));
  EXPECT_FALSE(has(right, "fellow part")) << told(right);
}

TEST(FellowPart, two_parts_that_ask_for_different_fellows_do_not_go_together) {
  const auto asks_for = [](const std::string& lamp) {
    return R"(fellow = [{ role = "lamp", types = [")" + lamp + R"("], safety = true }])";
  };
  const std::string body =
      part("E-1", "engine optics") + part("E-2", "engine optics", asks_for("L-2")) +
      part("D-1", "lamp driver", asks_for("L-1") + R"(, lamp_watts = 120)") +
      part("L-1", "lamp", "lamp_watts = 120") + part("L-2", "lamp", "lamp_watts = 120") +
      model("Tern 40", {{"engine optics", "E-1"}, {"lamp driver", "D-1"}, {"lamp", "L-1"}});
  const auto j = judged(body, swap("engine optics", "E-2"));
  EXPECT_EQ(j.verdict, Verdict::does_not_fit) << told(j);
}

TEST(FellowPart, the_host_part_that_asks_is_heard_as_well) {
  const std::string body =
      part("MB-1", "picture processing", R"(fellow = [{ role = "keys", types = ["K-1"] }])") +
      part("K-1", "keys") + part("K-2", "keys") +
      model("Tern 40", {{"picture processing", "MB-1"}, {"keys", "K-1"}});
  EXPECT_TRUE(has(judged(body, swap("keys", "K-2")), "fellow part"));
  EXPECT_FALSE(has(judged(body, swap("keys", "K-1", "shelf")), "fellow part"));
}

Judgement lamp_on(const std::string& lamp, const std::string& driver) {
  return judged(part("L-1", "lamp", "lamp_watts = 120, lamp_volts = [65, 85]") +
                    part("L-2", "lamp", lamp) + part("D-1", "lamp driver", driver) +
                    model("Tern 40", {{"lamp", "L-1"}, {"lamp driver", "D-1"}}),
                swap("lamp", "L-2"));
}
const std::string kDriver = "lamp_watts = 120, lamp_volts = [60, 90]";

TEST(LampPower, other_watts_destroy_and_nothing_cures_them) {
  for (const std::string watts : {"150", "100"}) {
    const auto j = lamp_on("lamp_watts = " + watts + ", lamp_volts = [65, 85]", kDriver);
    EXPECT_EQ(j.verdict, Verdict::destroys);
    EXPECT_TRUE(reason(j, "lamp power").safety);
    EXPECT_THAT(reason(j, "lamp power").says, HasSubstr("Never light this pair"));
  }
  EXPECT_EQ(lamp_on(kDriver, kDriver).verdict, Verdict::fits) << told(lamp_on(kDriver, kDriver));
}

TEST(LampPower, another_voltage_window_does_not_fit) {
  const auto j = lamp_on("lamp_watts = 120, lamp_volts = [85, 110]", kDriver);
  EXPECT_EQ(reason(j, "lamp power").before, Verdict::does_not_fit) << told(j);
}

TEST(LampPower, watts_nobody_recorded_are_asked_for) {
  EXPECT_TRUE(
      asks(lamp_on("lamp_volts = [65, 85]", kDriver), "lamp watts printed on the lamp L-2"));
  EXPECT_EQ(lamp_on("lamp_volts = [65, 85]", kDriver).verdict, Verdict::unknown);
  EXPECT_EQ(lamp_on(kDriver, "lamp_volts = [60, 90]").verdict, Verdict::unknown);
}

TEST(LampPower, a_voltage_window_recorded_on_one_side_only_is_asked_for) {
  EXPECT_EQ(lamp_on("lamp_watts = 120", kDriver).verdict, Verdict::unknown)
      << told(lamp_on("lamp_watts = 120", kDriver));
  EXPECT_EQ(lamp_on(kDriver, "lamp_watts = 120").verdict, Verdict::unknown);
}

Judgement mounted(const std::string& old_part, const std::string& new_part,
                  const std::string& seats = "") {
  return judged(part("A-1", "sound", old_part) + part("A-2", "sound", new_part) +
                    R"([[model]]
model = "Tern 40"
kind = "bench set"
protection = "II"
[[model.position]]
position = "sound"
)" + seats + R"([[model.variant]]
variant = "standard"
parts = { sound = "A-1" }
)",
                swap("sound", "A-2"));
}

TEST(Mount, other_holes_than_the_old_board_do_not_fit) {
  EXPECT_EQ(reason(mounted("", R"(mount = "rail")"), "mount").before, Verdict::does_not_fit);
  EXPECT_EQ(mounted("", "").verdict, Verdict::fits);
}

TEST(Mount, a_seat_of_the_place_takes_it) {
  const std::string seats = "seats = [\"plate\", \"rail\"]\n";
  EXPECT_EQ(mounted("", R"(mount = "rail")", seats).verdict, Verdict::fits);
  EXPECT_TRUE(has(mounted("", R"(mount = "frame")", seats), "mount"));
}

TEST(Mount, nobody_recorded_is_asked_for) {
  const auto j = mounted("", "-mount");
  EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
  EXPECT_TRUE(asks(j, "holes and stand-offs"));
  EXPECT_EQ(mounted("-mount", "").verdict, Verdict::unknown);
}

TEST(UnknownType, a_part_nobody_can_name_is_asked_for_and_is_never_fits) {
  const auto j = judged(part("A-1", "sound") + model("Tern 40", {{"sound", "A-1"}}),
                        "[[part]]\nplace = \"sound\"\nfrom = \"shelf\"\n");
  EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
  EXPECT_TRUE(asks(j, "Read the printed number"));
}

TEST(UnknownType, a_type_or_place_that_is_not_recorded_is_refused_with_the_nearest_name) {
  const std::string body = part("A-1", "sound") + model("Tern 40", {{"sound", "A-1"}});
  EXPECT_THAT(refused(body, swap("sound", "A-9")), HasSubstr("A-9"));
  EXPECT_THAT(refused(body, swap("sount", "A-1")), HasSubstr("did you mean \"sound\"?"));
}

TEST(UnknownType, a_change_that_cannot_be_is_refused) {
  const std::string body = part("A-1", "sound") + model("Tern 40", {{"sound", "A-1"}});
  EXPECT_THAT(
      refused(body, swap("sound", "A-1", "shelf", R"({ change = "plug cut", port = "Q" })")),
      HasSubstr("\"Q\""));
}

}  // namespace
}  // namespace benchgraft::fit
