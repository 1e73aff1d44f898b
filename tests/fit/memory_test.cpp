// What a set remembers and how it is reached.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/fit_bench.hpp"

namespace benchgraft::fit {
namespace {

using namespace fit_bench;
using ::testing::HasSubstr;
using ::testing::Not;

// A board "M" with memory made for the display driver "D".
std::string bound(const std::string& more = "") {
  const std::string memory = "memory_of = [\"display driver\"]";
  return part("M-1", "picture processing", memory) + part("M-2", "picture processing", memory) +
         part("D-1", "display driver") + part("D-2", "display driver", more) +
         model("Tern 40", {{"picture processing", "M-1"}, {"display driver", "D-1"}});
}

TEST(BoundMemory, stays_with_the_part_it_was_made_for) {
  const auto j = judged(bound(), swap("picture processing", "M-2", "shelf"));
  EXPECT_EQ(reason(j, "bound memory").before, Verdict::fits_with_work) << told(j);
  EXPECT_THAT(reason(j, "bound memory").says, HasSubstr("move the memory of the old"));
  EXPECT_THAT(reason(j, "bound memory").not_before, HasSubstr("read out"));
  const auto both = judged(
      bound(), swap("picture processing", "M-2", "K7") + swap("display driver", "D-2", "K7"));
  EXPECT_FALSE(has(both, "bound memory")) << told(both);
}

TEST(BoundMemory, says_who_writes_over_it_at_the_first_start) {
  const auto j = judged(bound("wipes_memory = true"), swap("display driver", "D-2", "shelf"));
  EXPECT_THAT(reason(j, "bound memory").says, HasSubstr("D-2 writes over it at its first start"))
      << told(j);
  const auto keeps = judged(bound("wipes_memory = false"), swap("display driver", "D-2", "shelf"));
  EXPECT_THAT(reason(keeps, "bound memory").says, Not(HasSubstr("writes over")));
}

TEST(StickerVolts, a_supply_is_trimmed_to_the_part_with_the_sticker) {
  const std::string body = part("S-1", "supply") + part("S-2", "supply") +
                           part("D-1", "display driver", "sticker = [\"Vs\", \"Va\"]") +
                           model("Tern 40", {{"supply", "S-1"}, {"display driver", "D-1"}});
  const auto j = judged(body, swap("supply", "S-2"));
  EXPECT_EQ(reason(j, "sticker volts").before, Verdict::fits_with_work) << told(j);
  EXPECT_THAT(reason(j, "sticker volts").not_before, HasSubstr("Vs and Va"));
  EXPECT_TRUE(asks(j, "What does the sticker on D-1 say"));
  const std::string plain = part("S-1", "supply") + part("S-2", "supply") +
                            part("D-1", "display driver") +
                            model("Tern 40", {{"supply", "S-1"}, {"display driver", "D-1"}});
  EXPECT_FALSE(has(judged(plain, swap("supply", "S-2")), "sticker volts"));
}

// A gain kept by the display driver, reached with the keys.
std::string gain(const std::string& keys, const std::string& new_driver = "") {
  return R"(
[[setting]]
setting = "gain"
depends_on = ["engine optics"]
stored_in = "display driver"
reached_with = ["keys"]
)" + part("D-1", "display driver") +
         part("D-2", "display driver", "stores = [\"gain\"], " + new_driver) +
         part("E-1", "engine optics") + (keys.empty() ? "" : part(keys, "keys")) +
         model("Tern 40", {{"display driver", "D-1"}, {"engine optics", "E-1"}, {"keys", keys}});
}

TEST(OutOfReach, a_setting_that_must_be_redone_wants_what_opens_it) {
  const auto lost = judged(gain("K-1"), "missing = [\"keys\"]\n" + swap("display driver", "D-2"));
  EXPECT_EQ(reason(lost, "out of reach").before, Verdict::fits_with_work) << told(lost);
  EXPECT_THAT(reason(lost, "out of reach").says, HasSubstr("Gain cannot be set"));
  const auto there = judged(gain("K-1"), swap("display driver", "D-2"));
  EXPECT_FALSE(has(there, "out of reach")) << told(there);
}

TEST(OutOfReach, asks_how_the_menu_is_opened_until_somebody_wrote_it_down) {
  EXPECT_TRUE(asks(judged(gain("K-1"), swap("display driver", "D-2")), "service menu of D-2"));
  EXPECT_FALSE(
      asks(judged(gain("K-1", "service_menu = \"Hold both keys.\""), swap("display driver", "D-2")),
           "service menu"));
}

}  // namespace
}  // namespace benchgraft::fit
