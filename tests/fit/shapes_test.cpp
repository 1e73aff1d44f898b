// Does the part go into its place, and does it touch anything there.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/fit_bench.hpp"

namespace benchgraft::fit {
namespace {

using namespace fit_bench;
using ::testing::HasSubstr;

/// A board of shape `shape` put into a place with the room `room`; `ports` of the new board.
Judgement put_in(const std::string& shape, const std::string& room, const std::string& ports = "",
                 const std::string& cabinet = "") {
  const std::string body =
      part("M-1", "picture processing") +
      part("M-2", "picture processing", shape.empty() ? "" : "shape = {" + shape + "}", ports);
  const std::string host = "[[model]]\nmodel = \"Tern 40\"\nkind = \"bench set\"\n" +
                           (cabinet.empty() ? std::string("protection = \"II\"") : cabinet) +
                           "\n[[model.position]]\nposition = \"picture processing\"\nroom = {" +
                           room +
                           "}\n[[model.variant]]\nvariant = \"standard\"\n[model.variant.parts]\n"
                           "\"picture processing\" = \"M-1\"\n";
  return judged(body + host, swap("picture processing", "M-2"));
}

TEST(NoRoom, a_board_wider_than_its_place_does_not_fit) {
  const auto j = put_in("size_mm = [210, 30, 80]", "size_mm = [200, 40, 90]");
  EXPECT_EQ(reason(j, "no room").before, Verdict::does_not_fit) << told(j);
  EXPECT_THAT(reason(j, "no room").says, HasSubstr("210 mm wide"));
  EXPECT_FALSE(has(put_in("size_mm = [200, 40, 90]", "size_mm = [200, 40, 90]"), "no room"));
  EXPECT_FALSE(has(put_in("size_mm = [210, 30, 80]", "standoff_mm = 6"), "no room"));
}

TEST(SocketPanel, another_pattern_than_the_cut_outs_take_is_work) {
  const auto j = put_in("socket_panel = \"five in a row\"", "socket_panels = [\"three\"]");
  EXPECT_EQ(reason(j, "socket panel").before, Verdict::fits_with_work) << told(j);
  EXPECT_FALSE(has(put_in("socket_panel = \"three\"", "socket_panels = [\"two\", \"three\"]"),
                   "socket panel"));
}

TEST(StandOff, leads_longer_than_the_stand_offs_touch_metal) {
  const auto j = put_in("under_mm = 7", "standoff_mm = 6");
  EXPECT_EQ(reason(j, "stand-off").before, Verdict::does_not_fit) << told(j);
  EXPECT_FALSE(reason(j, "stand-off").safety);
  EXPECT_FALSE(has(put_in("under_mm = 5.9", "standoff_mm = 6"), "stand-off"));
}

const std::string kMainsPort =
    port("IN", "mains inlet", kPlug, {contact(1, kMainsIn), contact(2, kMainsIn)});

// IEC 62368-1 table 14, pollution degree 2, 2500 V transient: 1.5 mm basic, 3.0 mm reinforced (read
// as an excerpt).
TEST(StandOff, a_five_millimetre_lead_with_mains_over_six_millimetres_is_too_near) {
  const auto doubled = put_in("under_mm = 5", "standoff_mm = 6", kMainsPort);
  EXPECT_EQ(reason(doubled, "stand-off").before, Verdict::does_not_fit) << told(doubled);
  EXPECT_TRUE(reason(doubled, "stand-off").safety);
  EXPECT_THAT(reason(doubled, "stand-off").says, HasSubstr("1.0 mm are left and 3 mm are needed"));
  EXPECT_FALSE(has(put_in("under_mm = 3", "standoff_mm = 6", kMainsPort), "stand-off"));
  const std::string earthed = "protection = \"I\"";
  EXPECT_TRUE(has(put_in("under_mm = 4.6", "standoff_mm = 6", kMainsPort, earthed), "stand-off"));
  EXPECT_FALSE(has(put_in("under_mm = 4.5", "standoff_mm = 6", kMainsPort, earthed), "stand-off"));
}

TEST(StandOff, one_that_stands_under_the_board_without_a_hole_is_told_before_it_is_screwed_down) {
  const auto j = put_in("holes = [\"a\", \"b\"]", "standoffs = [\"a\", \"b\", \"c\"]");
  EXPECT_EQ(reason(j, "stand-off").before, Verdict::fits_with_work) << told(j);
  EXPECT_THAT(reason(j, "stand-off").says, HasSubstr("stand-off c"));
  EXPECT_EQ(reason(j, "stand-off").not_before, "not before stand-off c is out or insulated");
  EXPECT_FALSE(has(put_in("holes = [\"a\", \"b\"]", "standoffs = [\"a\", \"b\"]"), "stand-off"));
}

TEST(StandOff, a_hole_without_one_wants_support) {
  const auto j = put_in("holes = [\"a\", \"b\"]", "standoffs = [\"a\"]");
  EXPECT_EQ(reason(j, "stand-off").before, Verdict::fits_with_work) << told(j);
  EXPECT_THAT(reason(j, "stand-off").says, HasSubstr("Hole b"));
}

Judgement at_edge(const std::string& edge) {
  const auto board = [](const std::string& name, const std::string& where) {
    return part(name, "picture processing", "",
                port("P", "keys", kPlug, {contact(1, kGround)},
                     "known = \"measured\", edge = \"" + where + "\""));
  };
  return judged(board("M-1", "left") + board("M-2", edge) + part("K-1", "keys") +
                    model("Tern 40", {{"picture processing", "M-1"}, {"keys", "K-1"}}),
                swap("picture processing", "M-2"));
}

TEST(OtherEdge, a_socket_that_moved_to_the_other_edge_is_told) {
  EXPECT_EQ(reason(at_edge("right"), "other edge").before, Verdict::fits_with_work)
      << told(at_edge("right"));
  EXPECT_FALSE(has(at_edge("left"), "other edge"));
}

}  // namespace
}  // namespace benchgraft::fit
