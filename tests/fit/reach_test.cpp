// Can a lead touch a fan, and does it reach at all? Points are mm in the cabinet.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/fit_bench.hpp"

namespace benchgraft::fit {
namespace {

using namespace fit_bench;
using ::testing::HasSubstr;

/// The published example: ends 200 mm apart, a lead of 240 mm reaches 66 mm to the side
/// (0.5 sqrt(240^2 - 200^2) = 66.3).
Judgement reach(const std::string& lead_mm, const std::string& fan_at,
                const std::string& fan = "fan_radius_mm = 20",
                const std::string& old_lead_mm = "200",
                const std::string& at = "at_mm = [200, 0, 0]") {
  const auto plug = [](const std::string& mm) {
    return port("P", "supply", kPlug, {contact(1, kSupplyIn), contact(2, kGround)},
                R"(known = "measured", lead_mm = )" + mm);
  };
  return judged(part("OLD-1", "display driver", "", plug(old_lead_mm)) +
                    part("NEW-1", "display driver", "", plug(lead_mm)) +
                    part("HOST-1", "supply", "",
                         port("S", "display driver", kSocket,
                              {contact(1, kSupplyOut), contact(2, kGround)})) +
                    part("FAN-1", "lamp fan", fan) + R"([[model]]
model = "Tern 40"
kind = "bench set"
protection = "II"
position = [
  { position = "display driver", at_mm = [0, 0, 0] },
  { position = "supply", )" +
                    at + R"( },
  { position = "lamp fan", at_mm = )" +
                    fan_at + R"( },
]
[[model.variant]]
variant = "standard"
parts = { "display driver" = "OLD-1", supply = "HOST-1", "lamp fan" = "FAN-1" }
)",
                swap("display driver", "NEW-1"));
}

TEST(LeadReachesFan, inside_the_ellipsoid_enlarged_by_ten_millimetres) {
  // Fan of radius 20 + 10: its rim is 30 mm nearer than its centre.
  const auto j = reach("240", "[100, 95, 0]");
  EXPECT_EQ(reason(j, "lead reaches fan").verdict, Verdict::fits_with_work) << told(j);
  EXPECT_THAT(reason(j, "lead reaches fan").not_before, HasSubstr("tied back"));
  EXPECT_FALSE(has(reach("240", "[100, 130, 0]"), "lead reaches fan"))
      << told(reach("240", "[100, 130, 0]"));
}

TEST(LeadReachesFan, is_said_of_the_fan_it_can_touch_and_not_of_a_part_without_a_fan) {
  EXPECT_FALSE(has(reach("240", "[100, 95, 0]", ""), "lead reaches fan"));
}

TEST(LeadReachesFan, a_longer_lead_between_unknown_places_may_reach_one) {
  const auto j = reach("300", "[100, 95, 0]", "fan_radius_mm = 20", "200", "roles = [\"supply\"]");
  EXPECT_FALSE(reason(j, "lead reaches fan").will) << "only may: " << told(j);
  EXPECT_EQ(j.verdict, Verdict::fits);
  EXPECT_FALSE(
      has(reach("200", "[100, 95, 0]", "fan_radius_mm = 20", "200", "roles = [\"supply\"]"),
          "lead reaches fan"));
}

TEST(LeadTooShort, for_the_way_between_the_places) {
  EXPECT_EQ(reason(reach("150", "[0, 900, 0]"), "lead too short").before, Verdict::does_not_fit);
  const auto close = reach("190", "[0, 900, 0]");
  EXPECT_EQ(reason(close, "lead too short").before, Verdict::unknown)
      << "places are paced off by eye: " << told(close);
  EXPECT_FALSE(has(reach("200", "[0, 900, 0]"), "lead too short"));
}

TEST(LeadTooShort, is_no_news_when_the_old_lead_was_no_longer) {
  EXPECT_FALSE(has(reach("150", "[0, 900, 0]", "fan_radius_mm = 20", "150"), "lead too short"));
}

TEST(LeadTooShort, shorter_than_before_between_unknown_places_is_asked_about) {
  const auto j = reach("150", "[0, 900, 0]", "fan_radius_mm = 20", "200", "roles = [\"supply\"]");
  EXPECT_EQ(reason(j, "lead too short").before, Verdict::unknown) << told(j);
}

TEST(LeadTooShort, is_not_said_without_places_to_compare_with) {
  const auto j = judged(Meeting{.plug = {contact(1, kSupplyIn), contact(2, kGround)},
                                .socket = {contact(1, kSupplyOut), contact(2, kGround)},
                                .plug_more = R"(known = "measured", lead_mm = 300)"});
  EXPECT_EQ(j.verdict, Verdict::fits) << "places are not recorded: nothing to compare with";
}

TEST(LeadTooShort, a_replaced_lead_counts_with_its_new_length) {
  const std::string shorter = R"({ change = "lead replaced", port = "P", lead_mm = 150 })";
  const auto plug = port("P", "supply", kPlug, {contact(1, kSupplyIn), contact(2, kGround)},
                         R"(known = "measured", lead_mm = 300)");
  const std::string body =
      part("OLD-1", "display driver", "", plug) + part("NEW-1", "display driver", "", plug) +
      part("HOST-1", "supply", "",
           port("S", "display driver", kSocket, {contact(1, kSupplyOut), contact(2, kGround)})) +
      R"([[model]]
model = "Tern 40"
kind = "bench set"
position = [{ position = "display driver", at_mm = [0, 0, 0] }, { position = "supply", at_mm = [200, 0, 0] }]
[[model.variant]]
variant = "standard"
parts = { "display driver" = "OLD-1", supply = "HOST-1" }
)";
  EXPECT_FALSE(has(judged(body, swap("display driver", "NEW-1")), "lead too short"));
  EXPECT_TRUE(has(judged(body, swap("display driver", "NEW-1", "D1", shorter)), "lead too short"));
}

}  // namespace
}  // namespace benchgraft::fit
