// What the host and the parts may be, narrowed by what was seen, with a reason for every candidate
// that was struck out.
#include <algorithm>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/fit_bench.hpp"

namespace benchgraft::fit {
namespace {

using namespace fit_bench;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

/// Two variants that differ in lamp and lamp driver; the tuner sits only in "late".
const std::string kTwoVariants =
    part("L-1", "lamp", "lamp_watts = 120, lamp_volts = [60, 90]") +
    part("L-2", "lamp", "lamp_watts = 150, lamp_volts = [60, 90]") +
    part("L-3", "lamp", "lamp_watts = 150, lamp_volts = [60, 90]") +
    part("D-1", "lamp driver", "lamp_watts = 120, lamp_volts = [60, 90]") +
    part("D-2", "lamp driver", "lamp_watts = 150, lamp_volts = [60, 90]") + part("A-1", "sound") +
    part("A-2", "sound") + part("T-1", "tuner") + R"([[model]]
model = "Tern 40"
kind = "bench set"
protection = "II"
position = [{ position = "lamp" }, { position = "lamp driver" }, { position = "sound" },
  { position = "tuner", optional = true }]
[[model.variant]]
variant = "early"
parts = { lamp = "L-1", "lamp driver" = "D-1", sound = "A-1" }
[[model.variant]]
variant = "late"
parts = { lamp = "L-2", "lamp driver" = "D-2", sound = "A-1", tuner = "T-1" }
)";

std::string seen(const std::string& place, const std::string& type) {
  return "[[seen]]\nplace = \"" + place + "\"\ntype = \"" + type + "\"\n";
}

TEST(Variants, a_lamp_that_was_seen_leaves_one_and_says_why) {
  const auto j = judged(kTwoVariants, seen("lamp", "L-1") + swap("sound", "A-2"));
  EXPECT_THAT(j.variants_left, ElementsAre("early"));
  ASSERT_EQ(j.struck_out.size(), 1U);
  EXPECT_EQ(j.struck_out.front().candidate, "late");
  EXPECT_THAT(j.struck_out.front().because,
              AllOf(HasSubstr("L-1 was seen"), HasSubstr("built with L-2")));
  EXPECT_EQ(j.variant, "early");
  EXPECT_EQ(j.verdict, Verdict::fits) << told(j);
}

TEST(Variants, a_stated_one_strikes_out_the_others) {
  const auto j = judged(kTwoVariants, "variant = \"late\"\n" + swap("sound", "A-2"));
  EXPECT_THAT(j.variants_left, ElementsAre("late"));
  EXPECT_THAT(j.struck_out.front().because, HasSubstr("said to be late"));
}

TEST(Variants, what_the_factory_left_empty_is_a_sign_too) {
  const auto j = judged(kTwoVariants, seen("tuner", "T-1") + swap("sound", "A-2"));
  EXPECT_THAT(j.variants_left, ElementsAre("late")) << told(j);
}

TEST(Contradiction, of_two_things_seen_names_both_with_their_lines) {
  const std::string said = refused(
      kTwoVariants, seen("lamp", "L-1") + seen("sound", "A-1") + seen("lamp driver", "D-2"));
  EXPECT_THAT(said, AllOf(HasSubstr("fits no recorded variant"),
                          HasSubstr("rebuild.toml, line 4 (seen at the lamp: L-1) leaves early"),
                          HasSubstr("rebuild.toml, line 10 (seen at the lamp driver: D-2) leaves "
                                    "late")))
      << said;
  EXPECT_THAT(said, Not(HasSubstr("A-1"))) << "it has no part in it";
}

TEST(Contradiction, of_one_thing_seen_names_what_stands_against_every_variant) {
  const std::string said = refused(kTwoVariants, seen("lamp", "L-3"));
  EXPECT_THAT(said,
              AllOf(HasSubstr("line 4 (seen at the lamp: L-3)"),
                    HasSubstr("early was built with L-1"), HasSubstr("late was built with L-2")))
      << said;
}

TEST(Contradiction, of_the_stated_variant_and_a_part_names_both) {
  const std::string said = refused(kTwoVariants, "variant = \"late\"\n" + seen("lamp", "L-1"));
  EXPECT_THAT(said, AllOf(HasSubstr("line 5 (seen at the lamp: L-1) leaves early"),
                          HasSubstr("line 4 (said to be late) leaves late")))
      << said;
}

TEST(Contradiction, of_the_shops_own_records_names_the_records) {
  auto rebuild = rebuild_of(kHost + seen("lamp", "L-1") + seen("lamp driver", "D-2"));
  rebuild.seen[0].where = {"part K7R", 0};
  rebuild.seen[1].where = {"part M4", 0};
  const auto answer = judge(catalogue_of(kBenchSet + kTwoVariants), rebuild);
  ASSERT_FALSE(answer.ok());
  EXPECT_THAT(answer.error().message, AllOf(HasSubstr("part K7R (seen at the lamp: L-1)"),
                                            HasSubstr("part M4 (seen at the lamp driver: D-2)")));
}

TEST(Contradiction, of_a_number_and_a_port_on_one_part_names_the_note_and_the_record) {
  const std::string said = refused(kTwoVariants, seen("lamp", "L-1") + "ports = [\"CN9\"]\n");
  EXPECT_THAT(said, AllOf(HasSubstr("rebuild.toml, line 4"), HasSubstr("port CN9 was seen"),
                          HasSubstr("tern.toml, line ")))
      << said;
}

TEST(Variants, a_slip_of_the_pen_is_told_with_the_nearest_name_and_the_line) {
  EXPECT_THAT(refused(kTwoVariants, "variant = \"earyl\"\n" + swap("sound", "A-2")),
              AllOf(HasSubstr("rebuild.toml, line 4"), HasSubstr("did you mean \"early\"?")));
  EXPECT_THAT(refused(kTwoVariants, "variant = \"zzz\"\n" + swap("sound", "A-2")),
              HasSubstr("it was built as early or late"));
}

TEST(Kinds, a_slip_of_the_pen_is_told_with_the_nearest_name) {
  const auto answer = judge(catalogue_of(kBenchSet + kTwoVariants),
                            rebuild_of("format = 1\nrebuild = \"r\"\nkind = \"bnech set\"\n"));
  ASSERT_FALSE(answer.ok());
  EXPECT_THAT(answer.error().message, HasSubstr("did you mean \"bench set\"?"));
}

/// A [[seen]] with `signs` instead of a printed number.
std::string sign(const std::string& place, const std::string& signs) {
  return "[[seen]]\nplace = \"" + place + "\"\n" + signs + "\n";
}

std::string because(const Judgement& j, const std::string& candidate) {
  for (const auto& struck : j.struck_out)
    if (struck.candidate == candidate) return struck.because;
  return "not struck out";
}

TEST(Variants, a_place_that_was_never_filled_strikes_out_those_that_fill_it) {
  const auto j = judged(kTwoVariants, sign("tuner", "empty = true"));
  EXPECT_THAT(j.variants_left, ElementsAre("early"));
  EXPECT_THAT(because(j, "late"), HasSubstr("never filled"));
}

/// Two builds that differ in the sound board only: revision, port, ability; and in a sign.
std::string two_boards(const std::string& first, const std::string& second,
                       const std::string& port_of_second = "") {
  return part("B-1", "sound", first) + part("B-2", "sound", second, port_of_second) +
         part("T-1", "tuner", "provides = [\"stereo\"]") + R"([[model]]
model = "Tern 40"
kind = "bench set"
protection = "II"
provides = []
position = [{ position = "sound" }, { position = "tuner", optional = true }]
[[model.variant]]
variant = "one"
signs = ["grey door"]
parts = { sound = "B-1" }
[[model.variant]]
variant = "two"
signs = ["black door"]
parts = { sound = "B-2", tuner = "T-1" }
)";
}
std::string two_revisions() {
  std::string body = two_boards("revision = \"A\"", "revision = \"B\"");
  for (const std::string from : {"\"B-1\"", "\"B-2\""})
    for (auto at = body.find(from); at != std::string::npos; at = body.find(from, at + 1)) {
      const bool declared = body.compare(at - 12, 12, "part_type = ") == 0;
      body.replace(at, from.size(), declared ? "\"B\"" : from == "\"B-1\"" ? "\"B/A\"" : "\"B/B\"");
    }
  return body;
}

TEST(Variants, the_printed_revision_alone_leaves_one) {
  const auto j = judged(two_revisions(), sign("sound", "revision = \"B\""));
  EXPECT_THAT(j.variants_left, ElementsAre("two"));
  EXPECT_THAT(because(j, "one"), HasSubstr("revision B is printed on it"));
  const auto numbered = judged(two_revisions(), sign("sound", "type = \"B\"\nrevision = \"A\""));
  EXPECT_THAT(numbered.variants_left, ElementsAre("one"));
}

TEST(Variants, a_port_seen_or_seen_to_be_missing_leaves_one) {
  const std::string body = two_boards("", "", port("CN5", "supply", kPlug, {contact(1, kGround)}));
  EXPECT_THAT(judged(body, sign("sound", "ports = [\"CN5\"]")).variants_left, ElementsAre("two"));
  EXPECT_THAT(judged(body, sign("sound", "without_ports = [\"CN5\"]")).variants_left,
              ElementsAre("one"));
  const std::string unrecorded = two_boards("-port", "-port");
  EXPECT_EQ(judged(unrecorded, sign("sound", "ports = [\"CN5\"]")).variants_left.size(), 2U)
      << "ports nobody recorded speak against nothing";
}

TEST(Variants, an_ability_of_a_part_or_of_the_whole_set_leaves_one) {
  const std::string body = two_boards("", "provides = [\"surround\"]");
  EXPECT_THAT(judged(body, sign("sound", "can = [\"surround\"]")).variants_left,
              ElementsAre("two"));
  EXPECT_THAT(judged(body, sign("cabinet", "cannot = [\"stereo\"]")).variants_left,
              ElementsAre("one"))
      << "no tuner";
  EXPECT_THAT(judged(body, sign("cabinet", "can = [\"stereo\"]")).variants_left,
              ElementsAre("two"));
  std::string open = body;
  open.erase(open.find("provides = []\nposition"), 14);
  EXPECT_EQ(judged(open, sign("cabinet", "can = [\"stereo\"]")).variants_left.size(), 2U)
      << "what the cabinet can do is not recorded";
}

TEST(Variants, a_sign_leaves_those_that_have_it) {
  const auto j = judged(two_boards("", ""), sign("cabinet", "signs = [\"grey door\"]"));
  EXPECT_THAT(j.variants_left, ElementsAre("one"));
  EXPECT_THAT(because(j, "two"), AllOf(HasSubstr("grey door"), HasSubstr("black door")));
  ASSERT_EQ(j.struck_out.front().facts.size(), 2U);
  EXPECT_EQ(j.struck_out.front().facts[0].where.file, "rebuild.toml");
  EXPECT_EQ(j.struck_out.front().facts[1].where.file, "tern.toml");
}

/// Three builds, two lamps, three drivers.
const std::string kThreeVariants = part("L-1", "lamp") + part("L-2", "lamp") +
                                   part("D-1", "lamp driver") + part("D-2", "lamp driver") +
                                   part("D-3", "lamp driver") + part("A-1", "sound") +
                                   part("A-2", "sound") + R"([[model]]
model = "Tern 40"
kind = "bench set"
protection = "II"
position = [{ position = "lamp" }, { position = "lamp driver" }, { position = "sound" }]
[[model.variant]]
variant = "one"
parts = { lamp = "L-1", "lamp driver" = "D-1", sound = "A-1" }
[[model.variant]]
variant = "two"
parts = { lamp = "L-1", "lamp driver" = "D-2", sound = "A-1" }
[[model.variant]]
variant = "three"
parts = { lamp = "L-2", "lamp driver" = "D-3", sound = "A-1" }
)";

TEST(Candidates, and_variants_narrow_each_other_to_the_end) {
  // The driver is D-2 or D-3: not "one". The lamp is L-1: not "three". So it is "two", and the
  // driver can only be D-2.
  const auto j = judged(
      kThreeVariants, sign("lamp driver", R"(candidates = ["D-2", "D-3"])") + seen("lamp", "L-1"));
  EXPECT_THAT(j.variants_left, ElementsAre("two"));
  EXPECT_THAT(because(j, "D-3"), AllOf(HasSubstr("two is left"), HasSubstr("built with D-2")));
  EXPECT_THAT(because(j, "one"), HasSubstr("D-2 or D-3 was seen as the lamp driver"));
  EXPECT_THAT(j.questions, IsEmpty()) << told(j);
}

TEST(Candidates, from_a_model_are_those_it_was_built_with) {
  const std::string donor = R"([[model]]
model = "Heron 42"
kind = "bench set"
[[model.position]]
position = "sound"
[[model.variant]]
variant = "only"
parts = { sound = "A-2" }
)";
  const std::string part = R"([[part]]
place = "sound"
candidates = ["A-1", "A-2"]
from = "Heron 42"
)";
  const auto j = judged(kThreeVariants + donor, "variant = \"one\"\n" + part);
  EXPECT_THAT(because(j, "A-1"), AllOf(HasSubstr("comes from Heron 42"), HasSubstr("A-2")));
  EXPECT_FALSE(asks(j, "printed number"));
}

TEST(Candidates, of_a_part_put_in_are_narrowed_by_what_is_on_it) {
  const std::string body =
      kThreeVariants +
      part("A-3", "sound", "", port("CN5", "supply", kPlug, {contact(1, kGround)}));
  const auto j = judged(body, R"(variant = "one"
[[part]]
place = "sound"
candidates = ["A-2", "A-3"]
without_ports = ["CN5"]
)");
  EXPECT_THAT(because(j, "A-3"), HasSubstr("no port CN5 was seen on it"));
}

TEST(Look, at_the_place_that_leaves_the_fewest_cases) {
  // The lamp leaves 2 or 1 of 3 (5/3 on average), the driver always one.
  const auto j = judged(kThreeVariants, swap("sound", "A-2"));
  ASSERT_TRUE(j.look_first) << told(j);
  EXPECT_EQ(j.look_first->place, "lamp driver");
  EXPECT_EQ(j.look_first->says, "Look at the lamp driver: it tells one, two and three apart.");
  EXPECT_DOUBLE_EQ(j.look_first->expected_left, 1);
  EXPECT_EQ(j.look_first->cases, 3U);
  ASSERT_FALSE(j.questions.empty());
  EXPECT_EQ(j.questions.front().text, j.look_first->says) << "it is asked first";
}

TEST(Look, is_not_at_a_place_whose_own_part_is_lost) {
  const auto j =
      judged(kThreeVariants, "missing = [\"lamp driver\"]\n" + swap("lamp driver", "D-2"));
  ASSERT_TRUE(j.look_first) << told(j);
  EXPECT_EQ(j.look_first->says, "Look at the lamp: it tells one or two from three.");
  EXPECT_DOUBLE_EQ(j.look_first->expected_left, 5.0 / 3);
}

TEST(Look, of_two_that_tell_as_much_the_quicker) {
  std::string kind = kBenchSet;
  const auto minutes = [&](const std::string& role, int out) {
    const std::string text = "{ role = \"" + role + "\"";
    kind.insert(kind.find(text) + text.size(), fmt::format(", out_minutes = {}", out));
  };
  minutes("lamp", 9);
  minutes("lamp driver", 4);
  const auto known = catalogue_of(kind + kTwoVariants);
  const auto j = judge(known, rebuild_of(kHost + "missing = [\"tuner\"]\n" + swap("sound", "A-2")));
  ASSERT_TRUE(j.ok()) << j.error().message;
  ASSERT_TRUE(j.value().look_first);
  EXPECT_EQ(j.value().look_first->says, "Look at the lamp driver: it tells early from late.");
  EXPECT_EQ(j.value().look_first->minutes, 4);
}

TEST(Look, at_a_part_in_the_hand_when_it_tells_more_than_the_host) {
  const std::string body = kTwoVariants + part("A-3", "sound") + part("A-4", "sound");
  const auto j = judged(body, R"([[part]]
place = "sound"
candidates = ["A-2", "A-3", "A-4"]
)");
  ASSERT_TRUE(j.look_first) << told(j);
  EXPECT_EQ(j.look_first->says, "Read the printed number on the sound: is it A-2, A-3 or A-4?");
  EXPECT_EQ(j.look_first->cases, 6U);
  EXPECT_DOUBLE_EQ(j.look_first->expected_left, 2);
  EXPECT_TRUE(asks(j, "it tells early from late")) << "what is left open is asked too";
}

TEST(Look, is_for_a_sign_where_all_variants_record_theirs) {
  const auto j = judged(two_boards("", ""), swap("tuner", "T-1"));
  ASSERT_TRUE(j.look_first) << told(j);
  EXPECT_EQ(j.look_first->says, "Look for this on the set, \"grey door\": it tells one from two.");
}

TEST(Look, is_none_when_all_is_known) {
  EXPECT_FALSE(judged(kTwoVariants, "variant = \"late\"\n" + swap("sound", "A-2")).look_first);
}

TEST(Variants, that_matter_are_asked_for_by_the_place_that_tells_them_apart) {
  const auto j = judged(kTwoVariants, swap("lamp", "L-3"));
  EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
  EXPECT_THAT(j.variants_left, ElementsAre("early", "late"));
  EXPECT_TRUE(has(j, "lamp power"));
  EXPECT_THAT(reason(j, "lamp power").says, HasSubstr("If it is early"));
  EXPECT_TRUE(asks(j, "it tells early from late"));
}

TEST(Variants, that_all_judge_alike_do_not_matter_to_the_verdict) {
  const auto j = judged(kTwoVariants, swap("sound", "A-2"));
  EXPECT_EQ(j.verdict, Verdict::fits) << told(j);
}

TEST(Candidates, of_a_part_are_all_judged_and_the_question_says_how_to_tell) {
  const std::string one_of = R"([[part]]
place = "lamp"
candidates = ["L-1", "L-3"]
)";
  const auto j = judged(kTwoVariants, "variant = \"early\"\n" + one_of);
  EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
  EXPECT_TRUE(asks(j, "is it L-1 or L-3?")) << told(j);
  EXPECT_THAT(reason(j, "lamp power").says, HasSubstr("If the lamp is L-3"));
}

TEST(Candidates, that_would_all_destroy_destroy) {
  const std::string one_of = R"([[part]]
place = "lamp"
candidates = ["L-2", "L-3"]
)";
  EXPECT_EQ(judged(kTwoVariants, "variant = \"early\"\n" + one_of).verdict, Verdict::destroys);
}

TEST(Candidates, of_which_none_goes_in_do_not_fit_whichever_it_is) {
  // L-2 burns on that driver, L-4 does not sit there: both are worse than not known.
  const std::string body = kTwoVariants + part("L-4", "lamp", "mount = \"rail\"");
  std::string seated = body;
  seated.replace(seated.find("{ position = \"lamp\" }"), 21,
                 "{ position = \"lamp\", seats = [\"plate\"] }");
  const auto j = judged(seated, R"(variant = "early"
[[part]]
place = "lamp"
candidates = ["L-2", "L-4"]
)");
  EXPECT_EQ(j.verdict, Verdict::does_not_fit) << told(j);
  EXPECT_EQ(j.chance, 0);
  EXPECT_THAT(reason(j, "lamp power").says, HasSubstr("If the lamp is L-2"));
  EXPECT_EQ(reason(j, "lamp power").before, Verdict::destroys);
}

TEST(Candidates, keep_every_question_of_every_case) {
  const std::string body =
      kTwoVariants + part("A-3", "sound", "-mount") + part("A-4", "sound", "-port");
  const std::string one_of = R"(variant = "early"
[[part]]
place = "sound"
candidates = ["A-2", "A-3", "A-4"]
)";
  const auto j = judged(body, one_of);
  EXPECT_EQ(j.verdict, Verdict::unknown);
  EXPECT_TRUE(asks(j, "Does A-3 sit on the holes")) << told(j);
  EXPECT_TRUE(asks(j, "connectors of the sound A-4")) << told(j);
}

TEST(Candidates, that_cannot_do_the_job_are_not_among_those_asked_about) {
  const std::string one_of = R"(variant = "early"
[[part]]
place = "sound"
candidates = ["A-2", "L-1"]
)";
  const auto j = judged(kTwoVariants, one_of);
  const bool struck = std::any_of(j.struck_out.begin(), j.struck_out.end(),
                                  [](const StruckOut& s) { return s.candidate == "L-1"; });
  EXPECT_TRUE(struck) << told(j);
}

}  // namespace
}  // namespace benchgraft::fit
