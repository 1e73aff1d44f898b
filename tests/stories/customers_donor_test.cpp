// The cheapest donor is a customer's. Its parts are left alone, the wish for one is refused with
// the reason, and the next best is named.
#include <filesystem>
#include <fstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "stories/loft.hpp"
#include "tasks/move_files.hpp"
#include "tasks/plan_room.hpp"
#include "tasks/wish.hpp"

namespace benchgraft::stories {
namespace {

using ::testing::HasSubstr;

// W2 lacks a main board. W4 has a good one and belongs to a customer; W5 has one and is for parts.
const char* const kSets = R"(code,owner,consent,model,variant,looks,complaint
W2,the loft,may strip,Sill 32,standard,good,"dead, standby light on"
W4,a customer,must go back,Sill 32,standard,good,lines on the right half
W5,the yard,may strip,Sill 32,standard,poor,screen broken
)";

const char* const kTerms = R"(format = 1
currency = "EUR"
per_hour_minor = 1200
mains_volts = 230
mains_hz = 50
chance_good = 0.98
)";

struct Fitted {
  const char *position, *type;
};
const std::vector<Fitted> kSill = {
    {"panel light", "ZL-32"}, {"panel", "ZP-32"},           {"inlet", "ZI-2"},
    {"supply", "ZS-32"},      {"inverter", "ZV-32"},        {"main board", "ZM-32/A"},
    {"keys", "ZK-32"},        {"remote receiver", "ZR-32"}, {"loudspeakers", "ZA-32"},
    {"rail lead", "ZW-10"},   {"picture ribbon", "ZW-20"},  {"remote control", "ZX-32"}};

std::string parts() {
  const std::string letters = "ACDEFHJKMNPR";
  std::string text = "code,type,state,in_set,position\n";
  for (const std::string set : {"W2", "W4", "W5"})
    for (std::size_t i = 0; i < kSill.size(); ++i) {
      const std::string position = kSill[i].position;
      const bool bad = position == (set == "W2" ? "main board" : "panel");
      text += set + letters[i] + "," + kSill[i].type + "," + (bad ? "bad" : "good") + "," + set +
              "," + position + "\n";
    }
  return text;
}

class CustomersDonor : public ::testing::Test {
 protected:
  CustomersDonor() {
    std::string name =
        (std::filesystem::temp_directory_path() / "benchgraft-story-XXXXXX").string();
    folder_ = ::mkdtemp(name.data());
    write("sets.csv", kSets);
    write("parts.csv", parts());
    write("shop.toml", kTerms);
    at_ = {folder_ + "/loft.shop", "bench 1"};
    knowledge_.data_dir = source("data");
    const auto made = tasks::import_paths(
        at_, knowledge_, {folder_, source("data/demo/catalogue/stavecombe_tube_lit.toml")});
    EXPECT_TRUE(made.ok()) << (made ? "" : made.error().message);
  }
  ~CustomersDonor() override { std::filesystem::remove_all(folder_); }
  CustomersDonor(const CustomersDonor&) = delete;
  CustomersDonor& operator=(const CustomersDonor&) = delete;

  [[nodiscard]] plan::Plan planned() const {
    const auto room = tasks::load_room(at_, knowledge_);
    EXPECT_TRUE(room.ok()) << (room ? "" : room.error().message);
    auto plan = tasks::plan_of(room.value(), {});
    EXPECT_TRUE(plan.ok()) << (plan ? "" : plan.error().message);
    return std::move(plan).value();
  }

  [[nodiscard]] std::string page() const {
    const auto answer = tasks::plan_room(at_, knowledge_, {});
    EXPECT_TRUE(answer.ok()) << (answer ? "" : answer.error().message);
    return in_one_line(sheets::as_text(answer.value().page));
  }

  tasks::ShopAt at_;
  tasks::Knowledge knowledge_;

 private:
  void write(const std::string& file, const std::string& text) const {
    std::ofstream(folder_ + "/" + file) << text;
  }
  std::string folder_;
};

void expect_main_board_from_w5(const plan::Plan& plan) {
  ASSERT_EQ(plan.rebuilds.size(), 1U);
  const auto& built = plan.rebuilds.front();
  EXPECT_EQ(built.host, "W2");
  bool changed = false;
  for (const auto& part : built.parts) {
    EXPECT_NE(part.donor, "W4") << part.position;
    if (part.position != "main board") continue;
    changed = true;
    EXPECT_EQ(part.part, "W5H");
    EXPECT_EQ(part.donor, "W5");
  }
  EXPECT_TRUE(changed);
}

TEST_F(CustomersDonor, is_left_whole_and_the_next_best_gives_the_part) {
  expect_main_board_from_w5(planned());
  const auto text = page();
  EXPECT_THAT(text, HasSubstr("Main board: ZM-32/A, W5H, out of W5"));
  EXPECT_THAT(text, HasSubstr("W4, Sill 32. It must go back to its owner and gives no parts."));
}

TEST_F(CustomersDonor, is_refused_even_when_asked_for_and_the_reason_is_told) {
  const auto wish = tasks::make_wish(at_, "use part in", "W2", "W4H", "it lies there anyway");
  ASSERT_TRUE(wish.ok()) << (wish ? "" : wish.error().message);
  expect_main_board_from_w5(planned());
  EXPECT_THAT(page(), HasSubstr("The wish to use part W4H in W2 cannot be met: it is in W4, which "
                                "must go back to its owner."));
}

}  // namespace
}  // namespace benchgraft::stories
