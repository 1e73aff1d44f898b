#include <filesystem>
#include <fstream>
#include <sstream>

#include <gtest/gtest.h>

#include "shop/text.hpp"
#include "support/some_shops.hpp"

namespace benchgraft::shop {
namespace {

std::vector<NamedText> demo_texts() {
  std::vector<NamedText> texts;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(
           std::filesystem::path(BENCHGRAFT_SOURCE_DIR) / "data" / "demo")) {
    if (!entry.is_regular_file()) continue;
    std::ifstream file(entry.path());
    std::ostringstream text;
    text << file.rdbuf();
    texts.push_back({entry.path().filename().string(), text.str()});
  }
  return texts;
}

TEST(DemoShop, is_imported_whole_and_changes_nothing_the_second_time) {
  auto bundle = sort_texts(demo_texts());
  ASSERT_TRUE(bundle) << bundle.error().message;
  auto once = merge({}, bundle.value(), support::repeatable(1));
  ASSERT_TRUE(once) << once.error().message;
  EXPECT_GE(once.value().sets.made, 9U);
  EXPECT_GE(once.value().parts.made, 100U);
  EXPECT_GE(once.value().families.made, 4U);
  EXPECT_FALSE(bundle.value().rebuilds.empty());
  auto again = merge(once.value().after, bundle.value(), support::repeatable(2));
  ASSERT_TRUE(again) << again.error().message;
  EXPECT_EQ(again.value().after, once.value().after);
}

}  // namespace
}  // namespace benchgraft::shop
