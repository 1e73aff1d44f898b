// Pieces that come off with the old part, pieces a part needs, pieces that are gone.
#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/fit_bench.hpp"

namespace benchgraft::fit {
namespace {

using namespace fit_bench;
using ::testing::HasSubstr;

struct Pieces {
  std::string old_part{}, new_part{}, host_part{};  ///< changes of the part types
  std::string rebuild = swap("display driver", "NEW-1", "Wren 40");
};

Judgement judged_pieces(const Pieces& p) {
  return judged(part("OLD-1", "display driver", p.old_part) +
                    part("NEW-1", "display driver", p.new_part) +
                    part("HOST-1", "supply", p.host_part) +
                    model("Tern 40", {{"display driver", "OLD-1"}, {"supply", "HOST-1"}}),
                p.rebuild);
}

const std::string kShield = R"(carries = [{ piece = "light shield", kind = "shield" }])";
const std::string kNeedsShield = R"(needs = [{ piece = "light shield", kind = "shield" }])";

bool comes_along(const Judgement& j, const std::string& what, const std::string& from) {
  return std::any_of(j.companions.begin(), j.companions.end(),
                     [&](const Companion& c) { return c.what == what && c.from == from; });
}

TEST(CarriedPiece, comes_across_from_the_old_part_and_is_on_before_power) {
  const auto j = judged_pieces({.old_part = kShield});
  EXPECT_EQ(j.verdict, Verdict::fits_with_work);
  EXPECT_EQ(reason(j, "carried piece").before, Verdict::fits_with_work) << told(j);
  EXPECT_TRUE(reason(j, "carried piece").safety) << "a shield keeps ultraviolet in";
  EXPECT_THAT(reason(j, "carried piece").not_before, HasSubstr("light shield"));
  EXPECT_TRUE(comes_along(j, "light shield", "the old display driver")) << told(j);
}

TEST(CarriedPiece, that_the_new_part_has_too_stays_quiet) {
  const auto j = judged_pieces({.old_part = kShield, .new_part = kShield});
  EXPECT_EQ(j.verdict, Verdict::fits) << told(j);
  EXPECT_TRUE(j.companions.empty());
}

TEST(CarriedPiece, a_bracket_is_no_safety_matter) {
  const auto j = judged_pieces({.old_part = R"(carries = [{ piece = "stay", kind = "bracket" }])"});
  EXPECT_FALSE(reason(j, "carried piece").safety);
  EXPECT_EQ(reason(j, "carried piece").not_before, "");
}

TEST(CarriedPiece, is_asked_about_when_the_new_parts_pieces_are_not_recorded) {
  const auto j = judged_pieces({.old_part = kShield, .new_part = "-carries"});
  EXPECT_TRUE(asks(j, "Does NEW-1 bring its own light shield?")) << told(j);
}

TEST(CarriedPiece, what_sat_on_the_old_part_is_asked_when_nobody_wrote_it_down) {
  const auto j = judged_pieces({.old_part = "-carries"});
  EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
  EXPECT_TRUE(asks(j, "screwed or clipped to OLD-1"));
}

TEST(CarriedPiece, what_sat_on_a_part_nobody_knows_is_asked_as_well) {
  const auto j = judged(part("NEW-1", "display driver", R"(mount = "plate")") +
                            model("Tern 40", {{"display driver", ""}}, "", ""),
                        swap("display driver", "NEW-1"));
  EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
  EXPECT_TRUE(asks(j, "screwed or clipped to the old display driver")) << told(j);
}

TEST(MissingPiece, the_host_lost_the_part_that_carried_it) {
  const auto known = catalogue_of(kBenchSet + part("OLD-1", "display driver", kShield) +
                                  part("NEW-1", "display driver") +
                                  model("Tern 40", {{"display driver", "OLD-1"}}));
  auto rebuild = rebuild_of(kHost + swap("display driver", "NEW-1"));
  rebuild.missing = {"display driver"};
  const auto answer = judge(known, rebuild);
  ASSERT_TRUE(answer.ok());
  const auto& j = answer.value();
  EXPECT_EQ(reason(j, "missing piece").before, Verdict::does_not_fit) << told(j);
  EXPECT_TRUE(comes_along(j, "light shield", "find or make"));
}

TEST(MissingPiece, the_new_part_needs_one_that_nothing_brings) {
  const auto j = judged_pieces({.new_part = kNeedsShield});
  EXPECT_EQ(reason(j, "missing piece").before, Verdict::does_not_fit) << told(j);
  EXPECT_EQ(judged_pieces({.new_part = kNeedsShield + ", " + kShield}).verdict, Verdict::fits);
  EXPECT_EQ(judged_pieces({.new_part = kNeedsShield, .host_part = kShield}).verdict, Verdict::fits)
      << "it stays on a part of the host";
}

TEST(MissingPiece, what_a_part_needs_near_it_is_asked_when_nobody_wrote_it_down) {
  const auto j = judged_pieces({.new_part = "-needs"});
  EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
}

TEST(PieceGone, from_the_part_that_goes_in_is_found_or_made) {
  const auto gone = swap("display driver", "NEW-1", "Wren 40",
                         R"({ change = "piece gone", piece = "light shield" })");
  const auto j = judged_pieces({.new_part = kShield, .rebuild = gone});
  EXPECT_EQ(reason(j, "missing piece").before, Verdict::does_not_fit) << told(j);
  EXPECT_THAT(reason(j, "missing piece").says, HasSubstr("gone from"));
}

TEST(PieceGone, from_the_new_part_is_taken_from_the_old_one) {
  const auto gone = swap("display driver", "NEW-1", "Wren 40",
                         R"({ change = "piece gone", piece = "light shield" })");
  const auto j = judged_pieces({.old_part = kShield, .new_part = kShield, .rebuild = gone});
  EXPECT_FALSE(has(j, "missing piece")) << told(j);
  EXPECT_TRUE(has(j, "carried piece"));
}

TEST(PieceGone, from_the_hosts_own_part_is_seen_too) {
  const std::string seen = R"([[seen]]
place = "supply"
type = "HOST-1"
change = [{ change = "piece gone", piece = "light shield" }]
)";
  const auto j = judged_pieces(
      {.host_part = kShield, .rebuild = seen + swap("display driver", "NEW-1", "Wren 40")});
  EXPECT_EQ(reason(j, "missing piece").before, Verdict::does_not_fit) << told(j);
}

TEST(PieceGone, that_was_added_again_stays_quiet) {
  const auto back = swap("display driver", "NEW-1", "Wren 40",
                         R"({ change = "piece gone", piece = "light shield" },
  { change = "piece added", piece = "light shield", piece_kind = "shield" })");
  const auto j = judged_pieces({.new_part = kShield, .rebuild = back});
  EXPECT_FALSE(has(j, "missing piece")) << told(j);
}

}  // namespace
}  // namespace benchgraft::fit
