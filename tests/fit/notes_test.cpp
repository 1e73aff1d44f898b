// What a swap note does to a judgement, and what it may never do.
#include "fit/notes.hpp"

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/fit_bench.hpp"

namespace benchgraft::fit {
namespace {

using namespace fit_bench;
using ::testing::Contains;
using ::testing::HasSubstr;

/// A note that NEW-1 went into the host; `more` = further lines of it.
std::string note(const std::string& more, const std::string& name = "note A") {
  return "[[swap_note]]\nswap_note = \"" + name +
         "\"\ninto = \"Tern 40\"\nmoved = [\"NEW-1\"]\nstayed = [\"HOST-1\"]\n" + more + "\n";
}
const std::string kWorks = "result = \"works\"";
std::string plugged(const std::string& result) {
  return R"(plugged = [{ moved = "NEW-1:P", to = "HOST-1:S", result = ")" + result + "\" }]\n";
}

Meeting agreeing() {
  return {.plug = {contact(1, kEnableIn), contact(2, kGround)},
          .socket = {contact(1, kEnableOut), contact(2, kGround)}};
}
Judgement with(Meeting m, const std::string& more) {
  m.more += more;
  return judged(m);
}

TEST(SwapNote, straight_in_stands_in_for_harmless_facts_nobody_recorded) {
  Meeting m = agreeing();
  m.plug[0] = contact(1, kEnableIn, "-drive");
  EXPECT_EQ(with(m, "").verdict, Verdict::unknown);
  const auto j = with(m, note(plugged("straight in") + kWorks));
  EXPECT_EQ(j.verdict, Verdict::fits) << told(j);
  EXPECT_EQ(reason(j, "swap note").source, Source::verified);
}

TEST(SwapNote, straight_in_answers_whether_an_unrecorded_connector_goes_in) {
  Meeting m = agreeing();
  m.plug_connector = "";
  EXPECT_EQ(with(m, "").verdict, Verdict::unknown);
  const auto j = with(m, note(plugged("straight in") + kWorks));
  EXPECT_EQ(j.verdict, Verdict::fits_with_work) << "its key is still not known: " << told(j);
  EXPECT_TRUE(has(j, "reversed plug"));
}

TEST(SwapNote, straight_in_never_stands_in_for_what_may_be_the_hot_side) {
  Meeting m = agreeing();
  m.plug[1] = contact(2, kGround, "-domain");
  m.socket[1] = contact(2, kHotGround);
  const auto j = with(m, note(plugged("straight in") + kWorks));
  EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
}

TEST(SwapNote, straight_in_against_a_derived_misfit_shows_both) {
  Meeting m = agreeing();
  m.plug[0] = contact(1, kEnableIn, R"(protocol = "serial")");
  const auto j = with(m, note(plugged("straight in") + kWorks));
  EXPECT_EQ(j.verdict, Verdict::fits_with_work) << told(j);
  EXPECT_THAT(reason(j, "records disagree").says,
              AllOf(HasSubstr("do not understand each other"), HasSubstr("note A")));
}

TEST(SwapNote, that_tells_what_was_done_about_the_order_explains_it_and_takes_no_danger_away) {
  Meeting m{.plug = {contact(1, kGround), contact(2, kEnableIn)},
            .socket = {contact(1, kEnableOut), contact(2, kGround)}};
  const auto without = with(m, "");
  ASSERT_TRUE(has(without, "class clash")) << told(without);
  const auto j =
      with(m, note(plugged("straight in") +
                   R"(did = [{ what = "exchanged contacts 1 and 2", cures = "class clash" }])"
                   "\n" +
                   kWorks));
  EXPECT_TRUE(has(j, "class clash")) << told(j);
  EXPECT_FALSE(has(j, "records disagree")) << told(j);
  EXPECT_EQ(reason(j, "class clash").before, reason(without, "class clash").before);
}

TEST(SwapNote, straight_in_against_a_derived_danger_leaves_it_unknown) {
  Meeting m = agreeing();
  m.socket[0] = contact(1, kEnableOut, "logic_volts = 5");
  const auto j = with(m, note(plugged("straight in") + kWorks));
  EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
  EXPECT_TRUE(asks(j, "Which is right"));
}

TEST(SwapNote, a_swap_that_worked_never_outranks_a_rule_of_safety) {
  const auto stays = [](Meeting m, const std::string& rule) {
    const Verdict without = judged(m).verdict;
    const auto j = with(m, note(plugged("straight in") + kWorks));
    EXPECT_EQ(j.verdict, without) << rule << "\n" << told(j);
    EXPECT_TRUE(has(j, rule)) << told(j);
    EXPECT_GE(j.verdict, Verdict::does_not_fit);
  };
  Meeting m = agreeing();
  m.socket[1] = contact(2, kHotGround);
  stays(m, "domain clash");
  m = agreeing();
  m.plug[0] = contact(1, kSupplyIn);
  m.socket[0] = contact(1, kSupplyOut, "volts = 12");
  stays(m, "over voltage");
  m = agreeing();
  m.plug[0] = contact(1, kDoor);
  m.socket[0] = contact(1, kUnused);
  stays(m, "safety loop open");
  m = agreeing();
  m.plug[0] = contact(1, kSensor);
  m.socket[0] = contact(1, kSensor, R"(protocol = "ntc 47k")");
  stays(m, "sensor curve");
  m = agreeing();
  m.plug[0] = contact(1, kEarth);
  m.socket[0] = contact(1, kUnused);
  stays(m, "earth path");
}

TEST(SwapNote, an_empty_contact_on_the_hot_side_is_not_voted_harmless) {
  Meeting m = agreeing();
  m.plug = {contact(1, kUnused), contact(2, kHotGround)};
  m.socket = {contact(1, kBusOut), contact(2, kHotGround)};
  m.plug_more = R"(known = "derived")";
  const auto j = with(m, note(plugged("straight in") + kWorks));
  EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
}

TEST(SwapNote, did_not_go_in_overrides_connectors_that_seem_to_fit_and_says_so) {
  const auto j = with(agreeing(), note(plugged("did not") + "result = \"failed\""));
  EXPECT_TRUE(has(j, "does not mate")) << told(j);
  EXPECT_THAT(reason(j, "does not mate").says, HasSubstr("note A"));
  EXPECT_TRUE(has(j, "records disagree")) << "both are shown: " << told(j);
}

TEST(SwapNote, straight_in_against_connectors_that_cannot_mate_shows_both) {
  Meeting m = agreeing();
  m.plug_connector = facts(kPlug, "ways = 3");
  const auto j = with(m, note(plugged("straight in") + kWorks));
  EXPECT_TRUE(has(j, "records disagree")) << told(j);
}

TEST(SwapNote, would_plug_but_must_not_destroys_until_the_contacts_explain_it) {
  const auto j = with(agreeing(), note(plugged("would plug but must not") + "result = \"failed\""));
  EXPECT_EQ(j.verdict, Verdict::destroys) << told(j);
  EXPECT_THAT(reason(j, "swap note").says, HasSubstr("do not explain it yet"));
  Meeting m = agreeing();
  m.socket[0] = contact(1, kSupplyOut);
  const auto explained = with(m, note(plugged("would plug but must not") + "result = \"failed\""));
  EXPECT_TRUE(has(explained, "class clash")) << told(explained);
  EXPECT_THAT(told(explained), Not(HasSubstr("do not explain it"))) << told(explained);
}

TEST(SwapNote, must_not_beats_another_note_that_went_straight_in_and_both_are_shown) {
  const auto j = with(agreeing(), note(plugged("would plug but must not") + "result = \"failed\"") +
                                      note(plugged("straight in") + kWorks, "note B"));
  EXPECT_EQ(j.verdict, Verdict::destroys) << told(j);
  const std::string all = told(j);
  EXPECT_THAT(all, HasSubstr("note A"));
  EXPECT_THAT(all, HasSubstr("note B"));
}

TEST(SwapNote, brought_is_a_companion) {
  const auto j = with(agreeing(), note("brought = [\"rubber foot\"]\n" + kWorks));
  ASSERT_EQ(j.companions.size(), 1U) << told(j);
  EXPECT_EQ(j.companions.front().what, "rubber foot");
  EXPECT_EQ(j.verdict, Verdict::fits_with_work);
}

TEST(SwapNote, did_is_work_with_that_technicians_minutes) {
  Meeting m = agreeing();
  m.plug[0] = contact(1, kEnableIn, R"(protocol = "serial")");
  const std::string did = note(
      R"(did = [{ what = "Fitted a translator.", cures = "protocol clash", work_minutes = 17 }])"
      "\n" +
      kWorks);
  const auto j = with(m, did);
  EXPECT_EQ(j.verdict, Verdict::fits_with_work) << told(j);
  ASSERT_EQ(j.adaptations.size(), 1U);
  EXPECT_EQ(j.adaptations.front().work_minutes, 17);
  EXPECT_EQ(with(agreeing(), did).verdict, Verdict::fits_with_work) << "it was done, so it is told";
}

TEST(SwapNote, what_was_done_in_a_swap_that_failed_or_did_damage_cures_nothing) {
  Meeting m = agreeing();
  m.plug[0] = contact(1, kEnableIn, R"(protocol = "serial")");
  for (const std::string result : {"failed", "damaged"}) {
    const auto j =
        with(m, note(R"(did = [{ what = "Fitted a translator.", cures = "protocol clash" }])"
                     "\nresult = \"" +
                     result + "\""));
    EXPECT_GE(j.verdict, Verdict::does_not_fit) << told(j);
  }
}

TEST(SwapNote, what_was_done_never_cures_a_fellow_asked_for_by_a_rule_of_safety) {
  const std::string body =
      part("OLD-1", "engine optics") +
      part("NEW-1", "engine optics",
           R"(fellow = [{ role = "lamp", types = ["L-2"], safety = true }])") +
      part("L-1", "lamp") + part("L-2", "lamp") + part("HOST-1", "supply") +
      model("Tern 40", {{"engine optics", "OLD-1"}, {"lamp", "L-1"}, {"supply", "HOST-1"}}) +
      note(R"(did = [{ what = "Lit it anyway.", cures = "fellow part" }])"
           "\n" +
           kWorks);
  const auto j = judged(body, swap("engine optics", "NEW-1") + swap("lamp", "L-1", "shelf"));
  EXPECT_GE(j.verdict, Verdict::does_not_fit) << told(j);
}

TEST(SwapNote, saw_is_the_orientation_where_the_mirrors_say_nothing) {
  const auto seen = [](const std::string& words) {
    return judged(part("E-1", "engine optics") + part("NEW-1", "engine optics") +
                      part("HOST-1", "supply") +
                      model("Tern 40", {{"engine optics", "E-1"}, {"supply", "HOST-1"}}) +
                      note("saw = \"" + words + "\"\n" + kWorks),
                  swap("engine optics", "NEW-1"));
  };
  EXPECT_EQ(seen("mirrored").orientation.toggle, (catalogue::Flip{true, false}));
  EXPECT_EQ(seen("upside down").orientation.toggle, (catalogue::Flip{false, true}));
  EXPECT_EQ(seen("turned").orientation.toggle, (catalogue::Flip{true, true}));
  EXPECT_TRUE(seen("right way round").orientation.known);
  EXPECT_EQ(seen("right way round").orientation.toggle, catalogue::Flip{});
}

TEST(SwapNote, lost_is_told_to_the_customer) {
  const auto j = with(agreeing(), note("lost = [\"teletext\"]\n" + kWorks));
  EXPECT_THAT(j.lost, Contains("teletext"));
}

TEST(SwapNote, damaged_destroys_until_the_contacts_explain_it) {
  const auto j = with(agreeing(), note("result = \"damaged\"\nsaw_also = \"Smoke.\""));
  EXPECT_EQ(j.verdict, Verdict::destroys) << told(j);
  EXPECT_THAT(reason(j, "swap note").says, HasSubstr("Smoke"));
  Meeting m = agreeing();
  m.socket[0] = contact(1, kSupplyOut);
  EXPECT_FALSE(has(with(m, note("result = \"damaged\"")), "swap note"));
}

TEST(SwapNote, damage_is_not_explained_by_a_cured_danger_elsewhere) {
  // The lamp driver beside it gets too high a voltage, which an adaptation cures; the note is about
  // NEW-1, whose contacts agree.
  Meeting m = agreeing();
  const std::string body =
      part("OLD-1", "display driver") +
      part("NEW-1", "display driver", "", port("P", "sound", kPlug, m.plug)) +
      part("HOST-1", "sound", "",
           port("S", "display driver", kSocket, m.socket) +
               port("T", "tuner", kSocket,
                    {contact(1, kSupplyOut, "volts = 12"), contact(2, kGround)})) +
      part("T-1", "tuner") +
      part("T-2", "tuner", "",
           port("P", "sound", facts(kPlug, ""), {contact(1, kSupplyIn), contact(2, kGround)})) +
      model("Tern 40", {{"display driver", "OLD-1"}, {"sound", "HOST-1"}, {"tuner", "T-1"}}) +
      "[[adaptation]]\nadaptation = \"regulator\"\ncures = [{ rule = \"over voltage\", port = "
      "\"T\" }]\n" +
      note("result = \"damaged\"");
  const auto j = judged(body, swap("display driver", "NEW-1") + swap("tuner", "T-2"));
  EXPECT_EQ(j.verdict, Verdict::destroys) << told(j);
  EXPECT_TRUE(has(j, "swap note"));
}

TEST(SwapNote, failed_with_good_parts_is_a_question_and_with_doubtful_ones_is_told) {
  const auto good = with(agreeing(), note("result = \"failed\"\nparts_known_good = true"));
  EXPECT_EQ(good.verdict, Verdict::unknown) << told(good);
  EXPECT_TRUE(asks(good, "Why did swap note \"note A\" fail"));
  const auto doubtful = with(agreeing(), note("result = \"failed\"\nparts_known_good = false"));
  EXPECT_EQ(doubtful.verdict, Verdict::fits) << told(doubtful);
  EXPECT_THAT(reason(doubtful, "swap note").says, HasSubstr("the part is suspected"));
}

TEST(SwapNote, about_another_pair_or_an_altered_part_says_nothing) {
  const std::string other =
      "[[swap_note]]\nswap_note = \"note A\"\ninto = \"Wren 40\"\nmoved = [\"NEW-1\"]\n"
      "stayed = [\"HOST-9\"]\nresult = \"damaged\"\n";
  EXPECT_EQ(with(agreeing(), other).verdict, Verdict::fits);
  Meeting altered = agreeing();
  altered.changes = R"({ change = "piece added", piece = "clip", piece_kind = "bracket" })";
  EXPECT_NE(with(altered, note("result = \"damaged\"")).verdict, Verdict::destroys);
}

TEST(Evidence, success_and_failure_move_the_chance_from_the_prior_of_the_verdict) {
  const double none = with(agreeing(), "").chance;
  EXPECT_DOUBLE_EQ(none, 0.9) << "prior of fits: 9 to 1 (assumed)";
  EXPECT_DOUBLE_EQ(with(agreeing(), note(kWorks)).chance, 10.0 / 11);
  EXPECT_DOUBLE_EQ(with(agreeing(), note("result = \"failed\"\nparts_known_good = false")).chance,
                   0.9)
      << "counts against the part, not the pair";
  EXPECT_DOUBLE_EQ(with(agreeing(), note(kWorks + "\ncame_back = true")).chance, 9.0 / 11)
      << "coming back is a failure";
}

TEST(Evidence, a_pair_of_the_same_family_counts_half) {
  Meeting m = agreeing();
  m.more = part("NEW-9", "display driver") + model("Wren 40", {{"display driver", "NEW-9"}}) +
           "[[swap_note]]\nswap_note = \"kin\"\ninto = \"Wren 40\"\nmoved = [\"NEW-9\"]\n"
           "result = \"works\"\n";
  EXPECT_DOUBLE_EQ(judged(m).chance, 9.5 / 10.5);
}

TEST(Evidence, nothing_that_does_not_fit_has_a_chance) {
  Meeting m = agreeing();
  m.plug[0] = contact(1, kEnableIn, R"(protocol = "serial")");
  EXPECT_EQ(judged(m).chance, 0);
}

TEST(Reference, without_a_revision_means_every_revision) {
  catalogue::PartType type;
  type.name = "LD-20";
  type.revision = "B";
  EXPECT_TRUE(means("LD-20", type));
  EXPECT_TRUE(means("LD-20/B", type));
  EXPECT_FALSE(means("LD-20/A", type));
  EXPECT_FALSE(means("LD-2", type));
}

}  // namespace
}  // namespace benchgraft::fit
