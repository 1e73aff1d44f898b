// What two parts have to agree on beyond their contacts. The first tests compare by hand; the last
// goes through every trait that comes with the program.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "catalogue/text.hpp"
#include "support/fit_bench.hpp"

namespace benchgraft::fit {
namespace {

using namespace fit_bench;
using ::testing::HasSubstr;
using ::testing::Not;

const std::string kSegments = R"(
[[trait]]
trait = "wheel segments"
of = ["engine optics"]
taken_by = ["display driver"]
compare = "round"
verdict = "does_not_fit"
says = "Colours come out exchanged."
turned = "The index takes it up."
work_minutes = 45
ask = true
)";

std::string has_words(const std::string& trait, const std::string& word) {
  return "has = [{trait = \"" + trait + "\", words = [\"" + word + "\"]}]";
}
std::string takes_words(const std::string& trait, const std::string& words) {
  return "takes = [{trait = \"" + trait + "\", words = [" + words + "]}]";
}

/// An engine with `wheel` put in where the driver says `driver`.
Judgement wheel_meets(const std::string& wheel, const std::string& driver) {
  return judged(kSegments + part("E-1", "engine optics") + part("E-2", "engine optics", wheel) +
                    part("D-1", "display driver", driver) +
                    model("Tern 40", {{"engine optics", "E-1"}, {"display driver", "D-1"}}),
                swap("engine optics", "E-2"));
}

TEST(TraitClash, two_exchanged_segments_do_not_fit_and_one_that_agrees_is_quiet) {
  const auto clash =
      wheel_meets(has_words("wheel segments", "RBG"), takes_words("wheel segments", R"("RGB")"));
  EXPECT_EQ(reason(clash, "trait clash").before, Verdict::does_not_fit) << told(clash);
  EXPECT_THAT(reason(clash, "trait clash").says, HasSubstr("E-2 has RBG, D-1 takes RGB"));
  const auto quiet = wheel_meets(has_words("wheel segments", "RGB"),
                                 takes_words("wheel segments", R"("RGBW", "RGB")"));
  EXPECT_FALSE(has(quiet, "trait clash")) << told(quiet);
}

TEST(TraitClash, the_same_round_begun_at_another_mark_is_only_work) {
  const auto j =
      wheel_meets(has_words("wheel segments", "GBR"), takes_words("wheel segments", R"("RGB")"));
  EXPECT_EQ(reason(j, "trait clash").before, Verdict::fits_with_work) << told(j);
  EXPECT_THAT(reason(j, "trait clash").says, HasSubstr("The index takes it up"));
  // Doubled is not turned: six segments are no three.
  const auto six =
      wheel_meets(has_words("wheel segments", "RGBRGB"), takes_words("wheel segments", R"("RGB")"));
  EXPECT_EQ(reason(six, "trait clash").before, Verdict::does_not_fit) << told(six);
}

TEST(TraitClash, what_one_or_both_leave_out_is_a_question_and_never_fine) {
  for (const auto& [wheel, driver] : std::vector<std::pair<std::string, std::string>>{
           {has_words("wheel segments", "RGB"), ""},
           {"", takes_words("wheel segments", R"("RGB")")},
           {"", ""}}) {
    const auto j = wheel_meets(wheel, driver);
    EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
    EXPECT_EQ(reason(j, "trait clash").verdict, Verdict::unknown) << told(j);
    EXPECT_FALSE(j.questions.empty());
  }
}

TEST(TraitClash, parts_that_stay_as_the_factory_built_them_are_not_asked) {
  const auto j = judged(
      kSegments + part("E-1", "engine optics") + part("D-1", "display driver") +
          part("K-1", "keys") + part("K-2", "keys") +
          model("Tern 40", {{"engine optics", "E-1"}, {"display driver", "D-1"}, {"keys", "K-1"}}),
      swap("keys", "K-2"));
  EXPECT_FALSE(has(j, "trait clash")) << told(j);
}

const std::string kOhms = R"(
[[trait]]
trait = "ohms"
of = ["keys"]
taken_by = ["sound"]
compare = "number"
unit = "ohm"
verdict = "fits_with_work"
says = "It runs hot."
)";

Judgement ohms(const std::string& has, const std::string& takes) {
  return judged(kOhms + part("K-1", "keys") +
                    part("K-2", "keys", "has = [{trait = \"ohms\", number = " + has + "}]") +
                    part("S-1", "sound", "takes = [{trait = \"ohms\", number = " + takes + "}]") +
                    model("Tern 40", {{"keys", "K-1"}, {"sound", "S-1"}}),
                swap("keys", "K-2"));
}

TEST(TraitClash, a_number_has_to_lie_inside_what_is_taken) {
  EXPECT_FALSE(has(ohms("8", "[6, 8]"), "trait clash"));
  EXPECT_EQ(reason(ohms("4", "[6, 8]"), "trait clash").before, Verdict::fits_with_work);
  EXPECT_THAT(reason(ohms("4", "[6, 8]"), "trait clash").says,
              HasSubstr("K-2 has 4 ohm, S-1 takes 6 to 8 ohm"));
  const auto overlaps = ohms("[7, 9]", "[6, 8]");
  EXPECT_EQ(reason(overlaps, "trait clash").verdict, Verdict::unknown) << told(overlaps);
}

TEST(TraitClash, a_part_reflashed_on_the_bench_counts_as_it_is_now) {
  const std::string body =
      kSegments + part("E-1", "engine optics") +
      part("E-2", "engine optics", has_words("wheel segments", "RBG")) +
      part("D-1", "display driver", takes_words("wheel segments", R"("RGB")")) +
      model("Tern 40", {{"engine optics", "E-1"}, {"display driver", "D-1"}});
  const auto j = judged(
      body, swap("engine optics", "E-2", "shelf",
                 R"({change = "now has", now = {trait = "wheel segments", words = ["RGB"]}})"));
  EXPECT_FALSE(has(j, "trait clash")) << told(j);
}

TEST(TraitClash, as_before_compares_the_new_part_with_the_old_one) {
  const std::string blows = R"(
[[trait]]
trait = "blows"
of = ["lamp fan"]
compare = "as before"
verdict = "fits_with_work"
says = "Air goes the other way."
work_minutes = 5
)";
  const auto turned = [&](const std::string& now) {
    return judged(blows + part("F-1", "lamp fan", has_words("blows", "out")) +
                      part("F-2", "lamp fan", has_words("blows", now)) +
                      model("Tern 40", {{"lamp fan", "F-1"}}),
                  swap("lamp fan", "F-2"));
  };
  EXPECT_EQ(reason(turned("in"), "trait clash").before, Verdict::fits_with_work);
  EXPECT_FALSE(has(turned("out"), "trait clash"));
}

TEST(TraitClash, the_cabinet_itself_can_have_a_trait) {
  const std::string size = R"(
[[trait]]
trait = "inches"
of = ["cabinet"]
taken_by = ["picture processing"]
compare = "number"
verdict = "fits_with_work"
says = "Geometry of another size."
)";
  const auto into = [&](const std::string& inches) {
    return judged(size + part("M-1", "picture processing") +
                      part("M-2", "picture processing",
                           "takes = [{trait = \"inches\", number = " + inches + "}]") +
                      model("Tern 40", {{"picture processing", "M-1"}},
                            "has = [{trait = \"inches\", number = 46}]"),
                  swap("picture processing", "M-2"));
  };
  EXPECT_EQ(reason(into("52"), "trait clash").before, Verdict::fits_with_work) << told(into("52"));
  EXPECT_FALSE(has(into("46"), "trait clash")) << told(into("46"));
}

TEST(TraitClash, no_adaptation_cures_a_trait_that_concerns_safety) {
  const std::string wave = R"(
[[trait]]
trait = "waveform"
of = ["lamp"]
taken_by = ["lamp driver"]
compare = "word"
verdict = "destroys"
safety = true
says = "The burner bursts."

[[adaptation]]
adaptation = "wrong work"
cures = [{rule = "trait clash", signal = "waveform"}]
)";
  const std::string lamp = "lamp_watts = 120, lamp_volts = [60, 90], ";
  const auto j = judged(wave + part("L-1", "lamp", lamp) +
                            part("L-2", "lamp", lamp + has_words("waveform", "a")) +
                            part("B-1", "lamp driver", lamp + takes_words("waveform", "\"b\"")) +
                            model("Tern 40", {{"lamp", "L-1"}, {"lamp driver", "B-1"}}),
                        swap("lamp", "L-2"));
  EXPECT_EQ(reason(j, "trait clash").verdict, Verdict::destroys) << told(j);
  EXPECT_TRUE(j.adaptations.empty());
}

// ---- every trait that comes with the program

const catalogue::Catalogue& kinds() {
  static const auto loaded =
      catalogue::load_catalogue({std::string(BENCHGRAFT_SOURCE_DIR) + "/data/kinds"});
  EXPECT_TRUE(loaded.ok()) << loaded.error().message;
  return loaded.value();
}

Judgement judged_with_kinds(const std::string& body, const std::string& rebuild) {
  auto own = catalogue::read_family(
      "format = 1\nfamily = \"tern\"\n[[part_kind]]\npart_kind = \"board\"\n" + kBenchSet + body,
      "tern.toml");
  EXPECT_TRUE(own.ok()) << own.error().message << "\n" << body;
  if (!own) return {};
  auto families = kinds().families();
  families.push_back(std::move(own).value());
  auto known = catalogue::Catalogue::from_families(std::move(families));
  EXPECT_TRUE(known.ok()) << known.error().message;
  if (!known) return {};
  auto answer = judge(known.value(), rebuild_of(kHost + rebuild));
  EXPECT_TRUE(answer.ok()) << answer.error().message;
  return answer ? std::move(answer).value() : Judgement{};
}

std::string value(const catalogue::Trait& trait, bool other) {
  const std::string name = "{trait = \"" + trait.name + "\", ";
  if (trait.compare == catalogue::TraitCompare::within)
    return name + (other ? "number = 9}" : "number = 4}");
  return name + (other ? "words = [\"XYZ\"]}" : "words = [\"ABC\"]}");
}

/// The shipped trait `trait` between a part that is put in and one that stays.
Judgement shipped(const catalogue::Trait& trait, const std::string& has, const std::string& takes) {
  const bool before = trait.compare == catalogue::TraitCompare::same_as_old;
  const std::string of = trait.of.front();
  const bool cabinet = of == "cabinet";
  const std::string by = before ? "" : trait.taken_by.front();
  std::string body =
      cabinet ? "" : part("OLD-1", of, before && !takes.empty() ? "has = [" + takes + "]" : "");
  if (!cabinet) body += part("NEW-1", of, has.empty() ? "" : "has = [" + has + "]");
  std::vector<std::pair<std::string, std::string>> parts;
  if (!cabinet) parts.emplace_back(of, "OLD-1");
  const std::string stays = takes.empty() ? "" : "takes = [" + takes + "]";
  if (!before) {
    body += part("STAY-1", by, cabinet ? "" : stays);
    parts.emplace_back(by, "STAY-1");
  }
  if (cabinet) body += part("NEW-1", by, stays);
  body += model("Tern 40", parts, cabinet && !has.empty() ? "has = [" + has + "]" : "");
  return judged_with_kinds(body, swap(cabinet ? by : of, "NEW-1"));
}

TEST(EveryShippedTrait, fires_on_a_clash_is_quiet_when_they_agree_and_asks_when_one_is_missing) {
  const auto& known = kinds();
  int tried = 0;
  for (const auto* trait : known.traits()) {
    SCOPED_TRACE(trait->name);
    ++tried;
    const auto clash = shipped(*trait, value(*trait, false), value(*trait, true));
    ASSERT_TRUE(has_signal(clash, "trait clash", trait->name)) << told(clash);
    const auto& found = reason_about(clash, "trait clash", trait->name);
    EXPECT_GE(found.before, Verdict::fits_with_work);
    EXPECT_THAT(found.says, HasSubstr(trait->says));
    EXPECT_THAT(
        found.facts.back().text + found.facts[found.facts.size() - 2].text,
        HasSubstr(trait->compare == catalogue::TraitCompare::same_as_old ? "OLD-1" : trait->name));
    EXPECT_FALSE(trait->source.empty());
    const auto quiet = shipped(*trait, value(*trait, false), value(*trait, false));
    EXPECT_FALSE(has_signal(quiet, "trait clash", trait->name)) << told(quiet);
    if (trait->compare == catalogue::TraitCompare::same_as_old) continue;
    for (const auto& half :
         {shipped(*trait, value(*trait, false), ""), shipped(*trait, "", value(*trait, false))}) {
      ASSERT_TRUE(has_signal(half, "trait clash", trait->name)) << told(half);
      EXPECT_EQ(reason_about(half, "trait clash", trait->name).verdict, Verdict::unknown);
    }
  }
  EXPECT_GE(tried, 25);
}

}  // namespace
}  // namespace benchgraft::fit
