// The right plug in the wrong socket: every socket in reach is tried, not only the intended one.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/fit_bench.hpp"

namespace benchgraft::fit {
namespace {

using namespace fit_bench;
using ::testing::HasSubstr;

std::string sockets(const std::string& second_connector, const std::string& second_first) {
  return port("S", "display driver", kSocket, {contact(1, kSupplyOut), contact(2, kGround)},
              R"(carries = "rails", known = "measured")") +
         port("T", "lamp fan", second_connector, {second_first, contact(2, kGround)},
              R"(carries = "fan", known = "measured")");
}

std::string set_of(const std::string& new_ports, const std::string& host_ports) {
  return part("OLD-1", "display driver") + part("NEW-1", "display driver", "", new_ports) +
         part("HOST-1", "supply", "", host_ports) +
         model("Tern 40", {{"display driver", "OLD-1"}, {"supply", "HOST-1"}});
}

const std::string kOnePlug =
    port("P", "supply", kPlug, {contact(1, kSupplyIn), contact(2, kGround)},
         R"(carries = "rails", known = "measured")");

TEST(WrongSocket, a_like_socket_beside_the_right_one_that_destroys_is_marked) {
  const auto j = judged(set_of(kOnePlug, sockets(kSocket, contact(1, kSupplyOut, "volts = 12"))),
                        swap("display driver", "NEW-1"));
  const auto& wrong = reason(j, "wrong socket");
  EXPECT_EQ(wrong.verdict, Verdict::fits_with_work) << told(j);
  EXPECT_THAT(wrong.says,
              AllOf(HasSubstr("T socket of HOST-1"), HasSubstr("too high and burns it")));
  EXPECT_THAT(wrong.not_before, HasSubstr("marked"));
}

TEST(WrongSocket, one_that_does_not_mate_or_does_no_harm_is_left_alone) {
  const auto other = facts(kSocket, R"(family = "2.5 mm crimp")");
  EXPECT_FALSE(has(judged(set_of(kOnePlug, sockets(other, contact(1, kSupplyOut, "volts = 12"))),
                          swap("display driver", "NEW-1")),
                   "wrong socket"));
  EXPECT_FALSE(has(judged(set_of(kOnePlug, sockets(kSocket, contact(1, kSupplyOut))),
                          swap("display driver", "NEW-1")),
                   "wrong socket"));
}

TEST(WrongSocket, a_plug_that_stays_in_the_host_finds_two_like_sockets_on_the_new_board) {
  const std::string two = port("P", "supply", kSocket, {contact(1, kSupplyIn), contact(2, kGround)},
                               R"(carries = "rails", known = "measured")") +
                          port("Q", "lamp fan", kSocket, {contact(1, kGround), contact(2, kGround)},
                               R"(carries = "fan", known = "measured")");
  const auto j = judged(
      set_of(two, port("S", "display driver", kPlug, {contact(1, kSupplyOut), contact(2, kGround)},
                       R"(carries = "rails", known = "measured")")),
      swap("display driver", "NEW-1"));
  EXPECT_TRUE(has(j, "wrong socket")) << told(j);
  EXPECT_THAT(reason(j, "wrong socket").says, HasSubstr("Q socket of NEW-1"));
}

TEST(WrongSocket, out_of_reach_of_its_lead_is_no_danger) {
  const auto at = [](const std::string& lead) {
    const std::string plug =
        port("P", "supply", kPlug, {contact(1, kSupplyIn), contact(2, kGround)},
             R"(carries = "rails", known = "measured", lead_mm = )" + lead);
    std::string body =
        part("OLD-1", "display driver") + part("NEW-1", "display driver", "", plug) +
        part("HOST-1", "supply", "",
             port("S", "display driver", kSocket, {contact(1, kSupplyOut), contact(2, kGround)},
                  R"(carries = "rails", known = "measured")")) +
        part("FAN-1", "lamp fan", "",
             port("T", "display driver", kSocket,
                  {contact(1, kSupplyOut, "volts = 12"), contact(2, kGround)},
                  R"(carries = "fan", known = "measured")")) +
        R"(
[[model]]
model = "Tern 40"
kind = "bench set"
protection = "II"
position = [
  { position = "display driver", at_mm = [0, 0, 0] },
  { position = "supply", at_mm = [100, 0, 0] },
  { position = "lamp fan", at_mm = [500, 0, 0] },
]
[[model.variant]]
variant = "standard"
parts = { "display driver" = "OLD-1", supply = "HOST-1", "lamp fan" = "FAN-1" }
)";
    return judged(body, swap("display driver", "NEW-1"));
  };
  EXPECT_FALSE(has(at("300"), "wrong socket")) << told(at("300"));
  EXPECT_TRUE(has(at("600"), "wrong socket")) << told(at("600"));
}

TEST(WrongSocket, two_sockets_for_one_purpose_are_asked_about_whichever_part_is_new) {
  const auto two_sockets = [](const std::string& role) {
    return port("S1", role, kSocket, {contact(1, kSupplyOut), contact(2, kGround)}) +
           port("S2", role, kSocket, {contact(1, kSupplyOut), contact(2, kGround)});
  };
  const std::string plug = port("P", "sound", kPlug, {contact(1, kSupplyIn), contact(2, kGround)});
  const std::string body = part("BOARD-1", "display driver", "", plug) +
                           part("BOARD-2", "display driver", "", plug) +
                           part("AMP-1", "sound", "", two_sockets("display driver")) +
                           part("AMP-2", "sound", "", two_sockets("display driver")) +
                           model("Tern 40", {{"display driver", "BOARD-1"}, {"sound", "AMP-1"}});
  for (const auto& rebuild : {swap("display driver", "BOARD-2"), swap("sound", "AMP-2")}) {
    const auto j = judged(body, rebuild);
    EXPECT_EQ(j.verdict, Verdict::unknown) << told(j);
    EXPECT_TRUE(asks(j, "Which of S1 and S2")) << told(j);
  }
}

TEST(WrongSocket, a_stated_link_says_which_of_two_sockets_it_is) {
  const auto two_sockets =
      port("S1", "display driver", kSocket, {contact(1, kGround), contact(2, kGround)}) +
      port("S2", "display driver", kSocket, {contact(1, kSupplyOut), contact(2, kGround)});
  const std::string plug = port("P", "supply", kPlug, {contact(1, kSupplyIn), contact(2, kGround)});
  const auto with = [&](const std::string& link) {
    return judged(part("BOARD-1", "display driver") + part("BOARD-2", "display driver", "", plug) +
                      part("PSU-1", "supply", "", two_sockets) +
                      model("Tern 40", {{"display driver", "BOARD-1"}, {"supply", "PSU-1"}}, link),
                  swap("display driver", "BOARD-2"));
  };
  const auto stated = with(R"(link = [{ from = "display driver:P", to = "supply:S2" }])");
  ASSERT_EQ(stated.links.size(), 1U);
  EXPECT_EQ(stated.links.front().to_port, "S2");
  EXPECT_FALSE(has(stated, "class clash")) << told(stated);
}

}  // namespace
}  // namespace benchgraft::fit
