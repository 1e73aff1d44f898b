#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "catalogue/text.hpp"
#include "steps/steps.hpp"

namespace benchgraft::steps {
namespace {

using catalogue::Catalogue;
using testing::Contains;
using testing::HasSubstr;

// A lamp set with the usual minutes and a lamp that has to cool.
constexpr const char* kKinds = R"toml(
format = 1
family = "kinds"

[[set_kind]]
set_kind = "lamp set"
open_minutes = 12
close_minutes = 10
role = [
  { role = "supply", out_minutes = 6, in_minutes = 9 },
  { role = "lamp driver", out_minutes = 10, in_minutes = 14, after = ["supply"] },
  { role = "colour wheel", out_minutes = 15, in_minutes = 20 },
  { role = "lamp", out_minutes = 2, in_minutes = 3 },
]
hazard = [
  { hazard = "weight", caution = "Two persons." },
  { hazard = "hot lamp", caution = "Let it cool.", waiting_minutes = 60, roles = ["lamp"] },
  { hazard = "charge", caution = "Discharge it.", waiting_minutes = 2, roles = ["supply"] },
]

[[set_kind]]
set_kind = "flat set"
open_minutes = 8
role = [ { role = "supply" }, { role = "panel" } ]

[[setting]]
setting = "flip"
[[setting]]
setting = "index"
after = ["flip"]
)toml";

Catalogue known(const std::string& more = "") {
  auto kinds = catalogue::read_family(kKinds, "kinds.toml");
  EXPECT_TRUE(kinds) << (kinds ? "" : kinds.error().message);
  std::vector<catalogue::Family> families{kinds.value()};
  if (!more.empty()) {
    auto family = catalogue::read_family("format = 1\nfamily = \"more\"\n" + more, "more.toml");
    EXPECT_TRUE(family) << (family ? "" : family.error().message);
    families.push_back(family.value());
  }
  auto all = Catalogue::from_families(families);
  EXPECT_TRUE(all) << (all ? "" : all.error().message);
  return all.value();
}

fit::Seat seat(const std::string& position, const std::string& role,
               std::vector<std::string> after = {}, bool changed = false) {
  fit::Seat made;
  made.position = position;
  made.roles = {role};
  made.type = "N-" + position;
  made.was = changed ? "O-" + position : "";
  made.from = changed ? "D1" : "host";
  made.changed = changed;
  made.after = std::move(after);
  return made;
}

fit::Judgement judged(std::vector<fit::Seat> seats, const std::string& kind = "lamp set") {
  fit::Judgement made;
  made.verdict = fit::Verdict::fits_with_work;
  made.kind = kind;
  made.seats = std::move(seats);
  return made;
}

WorkOrder ordered(const Catalogue& catalogue, const fit::Judgement& judgement) {
  auto work = order(catalogue, judgement);
  EXPECT_TRUE(work) << (work ? "" : work.error().message);
  return work ? work.value() : WorkOrder{};
}

std::vector<std::string> places(const WorkOrder& work, Stage stage) {
  std::vector<std::string> found;
  for (const auto& step : work.steps)
    if (step.stage == stage) found.push_back(step.position + step.piece);
  return found;
}

const Step* titled(const WorkOrder& work, const std::string& part) {
  for (const auto& step : work.steps)
    if (step.title.find(part) != std::string::npos) return &step;
  return nullptr;
}

std::vector<std::string> texts(const std::vector<Statement>& statements) {
  std::vector<std::string> found;
  for (const auto& said : statements) found.push_back(said.text);
  return found;
}

std::string everything(const WorkOrder& work) {
  std::string all;
  for (const auto& step : work.steps) {
    all += step.title + "\n" + step.cut + "\n";
    for (const auto& said : step.details) all += said.text + "\n";
    for (const auto& said : step.not_before) all += said.text + "\n";
    for (const auto& said : step.cautions) all += said.text + "\n";
    for (const auto& said : step.watch) all += said + "\n";
  }
  return all;
}

// With a model on record only what it says is in the way; without, what is usual for the kind.
constexpr const char* kModel = "[[model]]\nmodel = \"M\"\nkind = \"lamp set\"\n";

TEST(Order, takes_out_what_was_put_in_after_the_changed_part_and_puts_it_back_last) {
  auto judgement = judged({seat("low", "supply", {}, true), seat("middle", "colour wheel", {"low"}),
                           seat("top", "lamp", {"middle"}), seat("apart", "panel")});
  judgement.model = "M";
  const auto work = ordered(known(kModel), judgement);
  EXPECT_THAT(places(work, Stage::take_out), testing::ElementsAre("top", "middle", "low"));
  EXPECT_THAT(places(work, Stage::put_in), testing::ElementsAre("low", "middle", "top"));
}

TEST(Order, follows_the_kind_where_no_position_says_anything) {
  const auto work = ordered(known(), judged({seat("driver", "lamp driver", {}, true),
                                             seat("supply", "supply", {}, true)}));
  EXPECT_THAT(places(work, Stage::put_in), testing::ElementsAre("supply", "driver"));
}

TEST(Order, lets_a_recorded_order_win_over_the_usual_one) {
  auto judgement =
      judged({seat("driver", "lamp driver", {}, true), seat("supply", "supply", {"driver"}, true)});
  judgement.model = "M";
  const auto work = ordered(known(kModel), judgement);
  EXPECT_THAT(places(work, Stage::put_in), testing::ElementsAre("driver", "supply"));
}

TEST(Order, names_the_positions_that_wait_for_each_other) {
  const auto work =
      order(known(), judged({seat("a", "supply", {"b"}, true), seat("b", "colour wheel", {"c"}),
                             seat("c", "lamp", {"a"})}));
  ASSERT_FALSE(work);
  EXPECT_EQ(work.error().kind, ErrorKind::bad_input);
  EXPECT_THAT(work.error().message, HasSubstr("in a circle"));
  for (const char* name : {"\"a\"", "\"b\"", "\"c\""})
    EXPECT_THAT(work.error().message, HasSubstr(name));
}

TEST(Order, does_settings_only_after_those_they_wait_for_however_far_apart) {
  auto judgement = judged({});
  judgement.settings = {{"third", "redo", "", "", "", 1, 0, ""},
                        {"second", "check", "", "", "", 1, 0, ""},
                        {"first", "set", "", "", "", 1, 0, ""}};
  const auto work = ordered(known(R"toml(
[[setting]]
setting = "first"
[[setting]]
setting = "second"
after = ["first"]
[[setting]]
setting = "third"
after = ["second"]
)toml"),
                            judgement);
  std::vector<std::string> titles;
  for (const auto& step : work.steps)
    if (step.stage == Stage::adjust) titles.push_back(step.title);
  EXPECT_THAT(titles, testing::ElementsAre("Set first.", "Check second.", "Redo third."));
}

TEST(Order, fits_a_carried_over_piece_when_its_record_says) {
  auto catalogue = known(R"toml(
[[part_type]]
part_type = "O-engine"
kind = "light engine"
roles = ["light"]
carries = [ { piece = "light shield", kind = "shield", after = ["light"] },
            { piece = "foam", kind = "pad" } ]
)toml");
  auto judgement =
      judged({seat("engine", "light", {}, true), seat("lamp", "lamp", {"light shield"})});
  judgement.companions = {{"light shield", "piece", "the old engine", "", "light", {}, {}, "AAA"},
                          {"foam", "piece", "the old engine", "", "light", {}, {}, "BBB"}};
  const auto work = ordered(catalogue, judgement);
  EXPECT_THAT(places(work, Stage::put_in), testing::ElementsAre("engine", "light shield", "lamp"));
  EXPECT_THAT(places(work, Stage::bench), testing::ElementsAre("foam"));
  EXPECT_EQ(titled(work, "Move the foam across")->code, "BBB");
}

TEST(Order, puts_power_on_in_stages_and_lights_only_behind_closed_covers) {
  const auto work = ordered(known(), judged({seat("supply", "supply"),
                                             seat("driver", "lamp driver"), seat("lamp", "lamp")}));
  std::vector<std::string> titles;
  for (const auto& step : work.steps)
    if (step.stage == Stage::first_power) titles.push_back(step.title);
  ASSERT_EQ(titles.size(), 5U);
  EXPECT_THAT(titles[0], HasSubstr("supply alone, lamp driver unplugged"));
  EXPECT_THAT(titles[1], HasSubstr("logic, fans and wheel"));
  EXPECT_THAT(titles[2], HasSubstr("prove it dead, join the lamp driver"));
  EXPECT_THAT(titles[3], HasSubstr("Shut the lamp door and fit every shield and cover"));
  EXPECT_THAT(titles[4], HasSubstr("First light, with lamp door and covers on"));
  EXPECT_THAT(texts(titled(work, "supply alone")->details),
              Contains(HasSubstr("insulating sleeve")));
}

TEST(Order, skips_the_stages_of_light_for_a_set_without_a_lamp_driver) {
  const auto work = ordered(known(), judged({seat("supply", "supply", {}, true)}, "flat set"));
  EXPECT_EQ(std::count_if(work.steps.begin(), work.steps.end(),
                          [](const Step& step) { return step.stage == Stage::first_power; }),
            1);
  EXPECT_THAT(everything(work), testing::Not(HasSubstr("lamp ")));
}

TEST(Order, measures_bond_and_insulation_before_any_mains) {
  const auto work = ordered(known(), judged({seat("supply", "supply", {}, true)}));
  const auto* cold = titled(work, "Measure bond and insulation cold");
  const auto* power = titled(work, "First power");
  ASSERT_TRUE(cold != nullptr && power != nullptr);
  EXPECT_LT(cold, power);
}

TEST(Order, proves_the_set_dead_by_meter_before_the_first_part_comes_out) {
  const auto work = ordered(known(), judged({seat("supply", "supply", {}, true)}));
  const auto* dead = titled(work, "Prove it dead by meter");
  const auto* out = titled(work, "Take out the supply");
  ASSERT_TRUE(dead != nullptr && out != nullptr);
  EXPECT_LT(dead, out);
}

TEST(Order, counts_the_longest_wait_once_and_apart_from_work) {
  const auto work = ordered(
      known(), judged({seat("supply", "supply", {}, true), seat("lamp", "lamp", {}, true)}));
  double cooling = 0, worked = 0, waited = 0;
  for (const auto& step : work.steps) {
    if (step.stage == Stage::make_safe) cooling += step.waiting_minutes;
    worked += step.work_minutes.value_or(0);
    waited += step.waiting_minutes;
  }
  EXPECT_EQ(cooling, 60);
  EXPECT_EQ(work.work_minutes, worked);
  EXPECT_EQ(work.waiting_minutes, waited);
}

TEST(Order, does_not_wait_for_a_lamp_nobody_goes_near) {
  const auto work =
      ordered(known(), judged({seat("supply", "supply", {}, true), seat("lamp", "lamp")}));
  for (const auto& step : work.steps)
    if (step.stage == Stage::make_safe) {
      EXPECT_LE(step.waiting_minutes, 2);
    }
}

TEST(Order, counts_steps_whose_minutes_nobody_recorded) {
  const auto work = ordered(known(), judged({seat("panel", "panel", {}, true)}, "flat set"));
  EXPECT_FALSE(titled(work, "Take out the panel")->work_minutes);
  EXPECT_GE(work.without_minutes, 2);
}

TEST(Order, says_a_caution_on_every_step_of_its_roles_once) {
  auto judgement = judged({seat("lamp", "lamp", {}, true), seat("supply", "supply")});
  const auto work = ordered(known(), judgement);
  for (const char* title : {"Take out the lamp", "Put in the lamp", "First light"}) {
    const auto* step = titled(work, title);
    ASSERT_NE(step, nullptr) << title;
    EXPECT_EQ(std::count(step->cautions.begin(), step->cautions.end(),
                         StepCaution{"hot lamp", "Let it cool."}),
              1)
        << title;
  }
  EXPECT_THAT(titled(work, "Open the set")->cautions,
              testing::ElementsAre(StepCaution{"weight", "Two persons."}));
}

TEST(Order, says_a_caution_also_where_only_the_kind_knows_that_it_is_met) {
  auto judgement = judged({seat("wheel", "colour wheel", {}, true), seat("supply", "supply")});
  judgement.cautions = {{"charge", "Discharge it.", {"colour wheel"}, 2},
                        {"weight", "Two persons.", {}, 0}};
  const auto work = ordered(known(), judgement);
  const StepCaution charge{"charge", "Discharge it."};
  for (const char* title : {"Take out the wheel", "Prove it dead by meter"})
    EXPECT_EQ(std::count(titled(work, title)->cautions.begin(), titled(work, title)->cautions.end(),
                         charge),
              1)
        << title;
  EXPECT_EQ(titled(work, "Open the set")->cautions.size(), 1U);
}

TEST(Order, says_the_caution_of_mains_on_every_step_with_the_plug_in) {
  auto judgement = judged({seat("supply", "supply"), seat("driver", "lamp driver", {}, true)});
  judgement.cautions = {{"mains", "One hand.", {}, 0}};
  const auto work = ordered(known(), judgement);
  int live = 0;
  for (const auto& step : work.steps) {
    const bool said = std::count(step.cautions.begin(), step.cautions.end(),
                                 StepCaution{"mains", "One hand."}) == 1;
    EXPECT_EQ(said, !step.cut.empty() || step.title == "Open the set.") << step.title;
    live += step.cut.empty() ? 0 : 1;
  }
  EXPECT_EQ(live, 5) << "three powers, touch current, soak";
}

TEST(Order, takes_out_an_old_part_that_nobody_recorded) {
  auto put_in = seat("driver", "lamp driver", {}, true);
  put_in.was.clear();
  EXPECT_NE(titled(ordered(known(), judged({put_in})), "Take out the old driver, if there is one."),
            nullptr);
  auto built = judged({put_in});
  built.model = "M";
  built.variant = "standard";
  EXPECT_EQ(titled(ordered(known(kModel), built), "Take out the old driver"), nullptr)
      << "the factory left that place empty";
}

fit::Reason clash(fit::Verdict before, std::vector<std::string> roles, bool safety = false) {
  fit::Reason reason;
  reason.code = "CCC";
  reason.before = before;
  reason.verdict = fit::Verdict::fits_with_work;
  reason.roles = std::move(roles);
  reason.not_before = "not before it is re-pinned";
  reason.safety = safety;
  return reason;
}

TEST(Order, holds_a_clash_back_where_it_is_joined_and_where_it_meets_power) {
  auto judgement = judged({seat("supply", "supply", {}, true),
                           seat("driver", "lamp driver", {}, true), seat("lamp", "lamp")});
  judgement.reasons = {clash(fit::Verdict::destroys, {"lamp driver", "supply"})};
  const auto work = ordered(known(), judgement);
  const Statement held{"not before it is re-pinned", "CCC"};
  EXPECT_THAT(titled(work, "Put in the driver")->not_before, Contains(held));
  EXPECT_THAT(titled(work, "supply alone")->not_before, Contains(held));
  EXPECT_TRUE(titled(work, "Put in the supply")->not_before.empty());
}

TEST(Order, holds_a_rule_of_safety_back_until_the_very_first_power) {
  auto judgement = judged({seat("driver", "lamp driver", {}, true), seat("lamp", "lamp")});
  judgement.reasons = {clash(fit::Verdict::fits_with_work, {"lamp"}, true)};
  const auto work = ordered(known(), judgement);
  EXPECT_EQ(titled(work, "supply alone")->not_before.size(), 1U);
  EXPECT_TRUE(titled(work, "Put in the driver")->not_before.empty());
}

constexpr const char* kTwoAlike = R"toml(
[[part_type]]
part_type = "O-supply"
kind = "supply board"
roles = ["supply"]
[[part_type.port]]
port = "P1"
connector = { family = "2.0 mm crimp", ways = 6, half = "socket" }
[[part_type.port]]
port = "P2"
connector = { family = "2.0 mm crimp", ways = 6, half = "socket" }
[[part_type.port]]
port = "P3"
connector = { family = "2.0 mm crimp", ways = 4, half = "socket" }
)toml";

TEST(Order, has_both_ends_marked_where_two_plugs_are_alike) {
  const auto work = ordered(known(kTwoAlike), judged({seat("supply", "supply", {}, true)}));
  EXPECT_THAT(
      texts(titled(work, "Take out the supply")->details),
      Contains("P1 of O-supply and P2 of O-supply take the same plug: mark both ends of each "
               "lead before you pull it."));
}

TEST(Order, joins_a_link_when_its_last_end_is_in) {
  auto judgement =
      judged({seat("supply", "supply", {}, true), seat("driver", "lamp driver", {}, true)});
  fit::Link link;
  link.from_role = "supply", link.from_type = "N-supply", link.from_port = "BUS";
  link.to_role = "lamp driver", link.to_type = "N-driver", link.to_port = "IN";
  link.carries = "bus";
  link.touched = true;
  judgement.links = {link};
  const auto work = ordered(known(), judgement);
  const std::string join = "Join BUS of N-supply to IN of N-driver (bus).";
  EXPECT_THAT(texts(titled(work, "Put in the driver")->details), Contains(join));
  EXPECT_THAT(texts(titled(work, "Put in the supply")->details), testing::Not(Contains(join)));
}

TEST(Order, never_tells_anybody_to_join_what_destroys) {
  auto judgement =
      judged({seat("supply", "supply", {}, true), seat("driver", "lamp driver", {}, true)});
  fit::Link link;
  link.from_role = "supply", link.from_type = "N-supply", link.from_port = "BUS";
  link.to_role = "lamp driver", link.to_type = "N-driver", link.to_port = "IN";
  link.verdict = fit::Verdict::destroys;
  judgement.links = {link};
  const auto text = everything(ordered(known(), judgement));
  EXPECT_THAT(text, HasSubstr("Never join BUS of N-supply to IN of N-driver."));
  EXPECT_THAT(text, testing::Not(HasSubstr("Join BUS")));
}

TEST(Order, redoes_settings_in_their_order_and_leaves_those_that_travel) {
  auto judgement = judged({});
  judgement.settings = {{"index", "redo", "14", "", "Try it.", 10, 5, "I"},
                        {"flip", "set", "left-right", "", "", 5, 0, "F"},
                        {"gain", "travels", "", "", "", 15, 0, "G"}};
  const auto work = ordered(known(), judgement);
  std::vector<std::string> titles;
  for (const auto& step : work.steps)
    if (step.stage == Stage::adjust) titles.push_back(step.title);
  EXPECT_THAT(titles, testing::ElementsAre("Set flip.", "Redo index."));
  EXPECT_THAT(texts(titled(work, "Redo index")->details), Contains("Start with 14."));
}

TEST(Order, asks_safety_questions_first) {
  auto judgement = judged({seat("supply", "supply", {}, true)});
  fit::Question plain, safety;
  plain.text = "Which pin is 12 V?";
  safety.text = "Is contact 3 hot?";
  safety.safety = true;
  judgement.questions = {plain, safety};
  const auto work = ordered(known(), judgement);
  EXPECT_LT(titled(work, "contact 3"), titled(work, "Which pin"));
}

RC_GTEST_PROP(Order, respects_every_recorded_after, ()) {
  const auto count = *rc::gen::inRange<std::size_t>(1, 14);
  std::vector<fit::Seat> seats;
  for (std::size_t i = 0; i < count; ++i) {
    std::vector<std::string> after;
    for (std::size_t j = 0; j < i; ++j)
      if (*rc::gen::inRange(0, 4) == 0) after.push_back("p" + std::to_string(j));
    seats.push_back(seat("p" + std::to_string(i), "role" + std::to_string(i), after,
                         *rc::gen::inRange(0, 3) == 0));
  }
  for (std::size_t i = count; i > 1; --i)
    std::swap(seats[i - 1], seats[*rc::gen::inRange<std::size_t>(0, i)]);
  auto judgement = judged(seats);
  judgement.model = "M";
  auto work = order(known(kModel), judgement);
  RC_ASSERT(work);
  const auto in = places(work.value(), Stage::put_in);
  const auto out = places(work.value(), Stage::take_out);
  const auto at = [](const std::vector<std::string>& list, const std::string& name) {
    return std::find(list.begin(), list.end(), name) - list.begin();
  };
  for (const auto& each : seats) {
    const bool moved = at(in, each.position) != static_cast<std::ptrdiff_t>(in.size());
    RC_ASSERT(!each.changed || moved);
    for (const auto& below : each.after) {
      const bool below_moved = at(in, below) != static_cast<std::ptrdiff_t>(in.size());
      // Whatever sits on something that moves has to move too, out before it and in after it.
      RC_ASSERT(!below_moved || moved);
      if (!below_moved) continue;
      RC_ASSERT(at(in, below) < at(in, each.position));
      RC_ASSERT(at(out, each.position) < at(out, below));
    }
  }
  RC_ASSERT(in.size() == out.size());
}

RC_GTEST_PROP(Order, never_says_to_defeat_what_protects, ()) {
  std::vector<fit::Seat> seats;
  for (const char* role : {"supply", "lamp driver", "lamp", "colour wheel", "panel"})
    if (*rc::gen::inRange(0, 2) == 0)
      seats.push_back(seat(role, role, {}, *rc::gen::inRange(0, 2) == 0));
  auto text = everything(order(known(), judged(seats)).value());
  // The only sentences about holding or bridging are the ones that forbid it.
  for (const std::string word : {"bridge", "hold ", "held"}) {
    for (auto at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
      const auto start = text.rfind('\n', at) + 1;
      const auto line = text.substr(start, text.find('\n', at) - start);
      const bool forbids = line.find("ever hold") != std::string::npos ||
                           line.find("none is held") != std::string::npos ||
                           line.find("never") != std::string::npos;
      RC_ASSERT(forbids);
    }
  }
}

}  // namespace
}  // namespace benchgraft::steps
