// Which work makes good what was found: the cheapest set that does, and never a danger to life.
#include "fit/adapt.hpp"

#include <algorithm>
#include <array>
#include <random>
#include <set>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "catalogue/text.hpp"
#include "fit/rule_names.hpp"
#include "support/fit_adapt_twin.hpp"
#include "support/fit_bench.hpp"

namespace benchgraft::fit {
namespace {

using namespace fit_bench;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::UnorderedElementsAre;

std::string work(const std::string& name, const std::string& cures, const std::string& minutes,
                 const std::string& more = "") {
  return "[[adaptation]]\nadaptation = \"" + name + "\"\ncures = [" + cures +
         "]\nwork_minutes = " + minutes + "\n" + more + "\n";
}

/// Two findings: a protocol that differs on "enable" and a missing reply "lit".
Meeting two_faults() {
  return {.plug = {contact(1, kEnableIn, R"(protocol = "serial")"), contact(2, kLitIn)},
          .socket = {contact(1, kEnableOut), contact(2, kUnused)}};
}
const std::string kProtocol = R"({ rule = "protocol clash", port = "P" })";
const std::string kReply = R"({ rule = "missing reply", signal = "lit" })";

Judgement with(Meeting m, const std::string& adaptations) {
  m.more += adaptations;
  return judged(m);
}
std::vector<std::string> chosen(const Judgement& j) {
  std::vector<std::string> names;
  for (const auto& one : j.adaptations) names.push_back(one.name);
  return names;
}

TEST(Adaptation, turns_what_does_not_fit_into_work_and_keeps_it_on_the_step) {
  const auto j =
      with(two_faults(), work("translator", kProtocol, "20") + work("loop", kReply, "5"));
  EXPECT_EQ(j.verdict, Verdict::fits_with_work) << told(j);
  EXPECT_THAT(chosen(j), UnorderedElementsAre("translator", "loop"));
  EXPECT_EQ(reason(j, "missing reply").before, Verdict::does_not_fit);
  EXPECT_THAT(reason(j, "missing reply").not_before, HasSubstr("loop"));
}

TEST(Adaptation, the_cheapest_set_is_taken_not_the_cheapest_piece) {
  const std::string single = work("translator", kProtocol, "20") + work("loop", kReply, "15");
  const auto both =
      with(two_faults(), single + work("adapter board", kProtocol + ", " + kReply, "30"));
  EXPECT_THAT(chosen(both), ElementsAre("adapter board")) << told(both);
  const auto apart =
      with(two_faults(), single + work("adapter board", kProtocol + ", " + kReply, "40"));
  EXPECT_THAT(chosen(apart), UnorderedElementsAre("translator", "loop")) << told(apart);
}

TEST(Adaptation, material_is_weighed_against_minutes) {
  // 50 minor units a minute: 10 minutes and 600 cost more than 20 minutes.
  const auto j = with(two_faults(), work("quick", kProtocol, "10", "material_minor = 600") +
                                        work("slow", kProtocol, "20") + work("loop", kReply, "5"));
  EXPECT_THAT(chosen(j), Contains("slow")) << told(j);
}

TEST(Adaptation, needs_are_done_too_and_count) {
  const auto j =
      with(two_faults(), work("translator", kProtocol, "5", R"(needs = ["own supply"])") +
                             work("own supply", "", "50") +
                             work("other translator", kProtocol, "40") + work("loop", kReply, "5"));
  EXPECT_THAT(chosen(j), UnorderedElementsAre("other translator", "loop")) << told(j);
  const auto only =
      with(two_faults(), work("translator", kProtocol, "5", R"(needs = ["own supply"])") +
                             work("own supply", "", "50") + work("loop", kReply, "5"));
  EXPECT_THAT(chosen(only), UnorderedElementsAre("translator", "own supply", "loop"));
  EXPECT_EQ(only.verdict, Verdict::fits_with_work);
}

TEST(Adaptation, a_need_that_another_choice_already_brought_is_paid_once) {
  const auto j =
      with(two_faults(), work("translator", kProtocol, "5", R"(needs = ["own supply"])") +
                             work("loop", kReply, "5", R"(needs = ["own supply"])") +
                             work("own supply", "", "50") +
                             work("board", kProtocol + ", " + kReply, "70"));
  EXPECT_THAT(chosen(j), UnorderedElementsAre("translator", "loop", "own supply")) << told(j);
}

TEST(Adaptation, two_that_exclude_each_other_are_not_both_done) {
  const auto j =
      with(two_faults(), work("translator", kProtocol, "5", R"(excludes = ["loop"])") +
                             work("loop", kReply, "5") + work("dear translator", kProtocol, "90"));
  EXPECT_THAT(chosen(j), UnorderedElementsAre("dear translator", "loop")) << told(j);
  const auto stuck =
      with(two_faults(), work("translator", kProtocol, "5", R"(excludes = ["loop"])") +
                             work("loop", kReply, "5"));
  EXPECT_EQ(chosen(stuck).size(), 1U);
  EXPECT_EQ(stuck.verdict, Verdict::does_not_fit);
}

TEST(Adaptation, only_what_it_says_it_cures) {
  for (const std::string wrong : {R"({ rule = "protocol clash", type = "HOST-9" })",
                                  R"({ rule = "protocol clash", port = "Q" })",
                                  R"({ rule = "protocol clash", signal = "lit" })",
                                  R"({ rule = "protocol clash", role = "lamp" })",
                                  R"({ rule = "level clash", port = "P" })"}) {
    Meeting m = two_faults();
    m.more = part("HOST-9", "sound");
    EXPECT_FALSE(has(with(m, work("loop", kReply, "5")), "nothing"));
    m.plug[1] = contact(2, kGround);
    m.socket[1] = contact(2, kGround);
    const auto j = with(m, work("translator", wrong, "5"));
    EXPECT_THAT(chosen(j), IsEmpty()) << wrong << "\n" << told(j);
    EXPECT_EQ(j.verdict, Verdict::does_not_fit);
  }
  Meeting m = two_faults();
  m.plug[1] = contact(2, kGround);
  m.socket[1] = contact(2, kGround);
  const auto j = with(
      m,
      work(
          "translator",
          R"({ rule = "protocol clash", type = "NEW-1", port = "P", signal = "enable", role = "supply" })",
          "5"));
  EXPECT_THAT(chosen(j), ElementsAre("translator")) << told(j);
}

TEST(Adaptation, says_what_it_costs_in_abilities) {
  const auto j =
      with(two_faults(), work("translator", kProtocol, "5", R"(lost = ["remote control"])") +
                             work("loop", kReply, "5"));
  EXPECT_THAT(j.lost, Contains("remote control"));
}

TEST(Adaptation, is_not_chosen_for_what_is_only_unknown) {
  Meeting m = two_faults();
  m.plug[0] = contact(1, kEnableIn, "-direction");
  const auto j = with(m, work("anything", R"({ rule = "not recorded", port = "P" })", "1") +
                             work("loop", kReply, "5"));
  EXPECT_THAT(chosen(j), ElementsAre("loop")) << told(j);
  EXPECT_EQ(j.verdict, Verdict::unknown);
}

/// An adaptation that claims to cure every rule that may be cured at all, for every role.
std::string cure_all() {
  std::string cures;
  for (const auto& rule : rule_names())
    for (const std::string role : {"display driver", "supply", "lamp", "lamp driver", "keys"})
      if (!is_safety_rule(rule))
        cures += (cures.empty() ? "" : ", ") +
                 fmt::format("{{ rule = \"{}\", role = \"{}\" }}", rule, role);
  return work("cure all", cures, "1");
}

TEST(Adaptation, for_a_rule_of_safety_is_refused) {
  for (const std::string rule : {"domain clash", "earth path", "touch current", "lamp power",
                                 "mains range", "safety loop open", "sensor curve"}) {
    const std::string said =
        refused(part("A-1", "sound") + model("Tern 40", {{"sound", "A-1"}}) +
                    work("trick", fmt::format("{{ rule = \"{}\", role = \"sound\" }}", rule), "1"),
                "");
    EXPECT_THAT(said, HasSubstr("never by an adaptation")) << rule;
  }
}

TEST(Adaptation, that_names_nothing_but_a_rule_is_refused) {
  EXPECT_THAT(refused(part("A-1", "sound") + model("Tern 40", {{"sound", "A-1"}}) +
                          work("trick", R"({ rule = "mount" })", "1"),
                      ""),
              HasSubstr("wherever it shows"));
}

TEST(Adaptation, never_cures_joined_domains_or_an_open_safety_loop) {
  const auto still = [](const std::string& plug, const std::string& socket,
                        const std::string& changes = "") {
    Meeting m{.plug = {contact(1, plug), contact(2, kGround)},
              .socket = {contact(1, socket), contact(2, kGround)}};
    m.changes = changes;
    const auto j = with(m, cure_all());
    EXPECT_GE(j.verdict, Verdict::does_not_fit) << told(j);
  };
  still(kGround, kHotGround);
  still(kSupplyIn, kBusOut);
  still(kDoor, kUnused);
  still(kSensor, kUnused);
  still(kDoor, kGround);
  const std::string cut = R"({ change = "plug cut", port = "P" })";
  still(kDoor, kDoor, cut);
  still(kSensor, kSensor, cut);
  still(kMainsIn, kMainsOut, cut);
}

TEST(Adaptation, never_cures_a_door_loop_that_ends_at_a_part_without_a_socket_for_it) {
  const auto j =
      judged(part("D-1", "lamp driver", "lamp_watts = 100",
                  port("DOOR", "keys", kSocket, {contact(1, kDoor), contact(2, kDoor)})) +
                 part("K-1", "keys", "",
                      port("W", "lamp driver", kPlug, {contact(1, kDoor), contact(2, kDoor)})) +
                 part("K-2", "keys") + model("Tern 40", {{"lamp driver", "D-1"}, {"keys", "K-1"}}) +
                 cure_all(),
             swap("keys", "K-2"));
  EXPECT_GE(j.verdict, Verdict::does_not_fit) << told(j);
}

TEST(Adaptation, never_cures_the_wrong_lamp_power) {
  const auto j =
      judged(part("L-1", "lamp", "lamp_watts = 100") +
                 part("L-2", "lamp", "lamp_watts = 150, lamp_volts = [60, 90]") +
                 part("D-1", "lamp driver", "lamp_watts = 100, lamp_volts = [60, 90]") +
                 model("Tern 40", {{"lamp", "L-1"}, {"lamp driver", "D-1"}}) + cure_all(),
             swap("lamp", "L-2"));
  EXPECT_EQ(j.verdict, Verdict::destroys) << told(j);
}

TEST(Adaptation, that_another_needs_comes_before_it) {
  // Written and found the wrong way round on purpose: a chain of three.
  const auto j = with(
      two_faults(),
      work("translator", kProtocol, "5", R"(needs = ["own supply"])") + work("loop", kReply, "5") +
          work("own supply", "", "5", "needs = [\"drill a hole\"]\nbrings = [\"5 V module\"]") +
          work("drill a hole", "", "5"));
  EXPECT_THAT(chosen(j), ElementsAre("drill a hole", "own supply", "translator", "loop"));
  EXPECT_THAT(j.adaptations[2].after, ElementsAre("own supply"));
  EXPECT_THAT(reason(j, "protocol clash").not_before, HasSubstr("translator"));
}

TEST(Adaptation, has_what_it_asks_for_come_along_with_the_reason) {
  const auto j =
      with(two_faults(), work("translator", kProtocol, "5", R"(needs = ["own supply"])") +
                             work("loop", kReply, "5", R"(brings = ["wire"])") +
                             work("own supply", "", "50", R"(brings = ["5 V module"])"));
  ASSERT_EQ(j.companions.size(), 2U) << told(j);
  const auto& module = j.companions[0];
  EXPECT_EQ(module.what, "5 V module");
  EXPECT_EQ(module.sort, "for work");
  EXPECT_THAT(module.why, HasSubstr("own supply"));
  EXPECT_EQ(module.code, reason(j, "protocol clash").code) << "of the work that needs it";
  EXPECT_EQ(j.companions[1].code, reason(j, "missing reply").code);
}

TEST(Adaptation, that_is_not_chosen_brings_nothing_along) {
  const auto j = with(two_faults(), work("translator", kProtocol, "5") + work("loop", kReply, "5") +
                                        work("dear loop", kReply, "50", R"(brings = ["wire"])"));
  EXPECT_THAT(j.companions, IsEmpty());
}

struct Drawn {
  Meeting meeting;
  std::vector<fit_adapt_twin::Work> works;
};

constexpr int kFaults = 3;
constexpr std::size_t kWorks = 6;

/// Three findings of three rules on one joint.
Meeting three_faults() {
  Meeting m{.plug_connector = facts(kPlug, "ways = 3"),
            .socket_connector = facts(kSocket, "ways = 3")};
  m.plug = {contact(1, kEnableIn, R"(signal = "alpha", protocol = "serial")"),
            contact(2, kLitIn, R"(signal = "beta")"),
            contact(3, kEnableIn, R"(signal = "gamma", drive = "dry contact")")};
  m.socket = {contact(1, kEnableOut, R"(signal = "alpha")"), contact(2, kUnused),
              contact(3, kEnableOut, R"(signal = "gamma")")};
  return m;
}

std::string draw_links(std::mt19937& random, std::size_t i,
                       std::vector<fit_adapt_twin::Work>& works) {
  const std::size_t other = random() % kWorks;
  if (other == i) return "";
  if (random() % 3 == 0) {
    works[i].needs.insert(other);
    return fmt::format("needs = [\"w{}\"]", other);
  }
  if (random() % 3 != 0) return "";
  works[i].excludes.insert(other);
  works[other].excludes.insert(i);
  return fmt::format("excludes = [\"w{}\"]", other);
}

Drawn draw(std::mt19937& random) {
  const std::array<std::string, kFaults> rules{"protocol clash", "missing reply", "drive clash"};
  Drawn drawn{three_faults(), std::vector<fit_adapt_twin::Work>(kWorks)};
  for (std::size_t i = 0; i < kWorks; ++i) {
    std::string list;
    for (int f = 0; f < kFaults; ++f)
      if (random() % 3 == 0) {
        drawn.works[i].cures.insert(f);
        list += (list.empty() ? "" : ", ") + fmt::format("{{ rule = \"{}\", port = \"P\" }}",
                                                         rules[static_cast<std::size_t>(f)]);
      }
    const unsigned minutes = 1 + random() % 20;
    const unsigned material = random() % 3 == 0 ? 100 * (random() % 10) : 0;
    drawn.works[i].cost = minutes * kMinorPerMinute + material;
    drawn.meeting.more +=
        work(fmt::format("w{}", i), list, std::to_string(minutes),
             fmt::format("material_minor = {}\n", material) + draw_links(random, i, drawn.works));
  }
  return drawn;
}

TEST(Adaptation, random_choices_are_as_cheap_as_trying_every_subset_and_in_order) {
  constexpr std::uint32_t kSeed = 4711;
  constexpr int kCases = 500;
  std::mt19937 random(kSeed);
  int read = 0, round = 0, with_needs = 0;
  for (; read < kCases && round < 5 * kCases; ++round) {
    const Drawn drawn = draw(random);
    // A circle of needs, or a need that is excluded as well, is refused when the text is read.
    auto family = catalogue::read_family(
        "format = 1\nfamily = \"t\"\n" + kBenchSet + body_of(drawn.meeting), "t");
    if (!family.ok()) continue;
    std::vector<catalogue::Family> families{std::move(family).value()};
    if (!catalogue::Catalogue::from_families(std::move(families)).ok()) continue;
    ++read;
    const auto j = judged(drawn.meeting);
    fit_adapt_twin::Choice taken;
    for (const auto& one : j.reasons)
      if (one.verdict == Verdict::does_not_fit) ++taken.open;
    for (const auto& one : j.adaptations) {
      taken.cost += one.work_minutes * kMinorPerMinute + static_cast<double>(one.material.minor);
      if (!one.after.empty()) ++with_needs;
    }
    const auto best = fit_adapt_twin::try_all(drawn.works, kFaults);
    ASSERT_EQ(taken.open, best.open) << "seed " << kSeed << " round " << round << "\n"
                                     << drawn.meeting.more << told(j);
    ASSERT_EQ(taken.cost, best.cost) << "seed " << kSeed << " round " << round << "\n"
                                     << drawn.meeting.more << told(j);
    ASSERT_TRUE(fit_adapt_twin::needs_come_first(chosen(j), drawn.works))
        << "seed " << kSeed << " round " << round << "\n"
        << drawn.meeting.more << told(j);
  }
  EXPECT_EQ(read, kCases) << "seed " << kSeed << ", rounds " << round;
  EXPECT_GT(with_needs, 50) << "the cases drawn show no order";
}

}  // namespace
}  // namespace benchgraft::fit
