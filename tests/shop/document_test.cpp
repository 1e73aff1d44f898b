// Every example of the page about the shop's format is read as it stands there.
#include <fstream>
#include <sstream>

#include <gtest/gtest.h>

#include "shop/columns.hpp"
#include "shop/text.hpp"
#include "support/some_shops.hpp"

namespace benchgraft::shop {
namespace {

std::string page() {
  std::ifstream file(BENCHGRAFT_SOURCE_DIR "/docs/formats/shop.md");
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

/// Blocks that start with ```csv sets.csv, and the like.
std::vector<NamedText> examples(const std::string& text) {
  std::vector<NamedText> found;
  std::istringstream lines(text);
  bool inside = false;
  for (std::string line; std::getline(lines, line);) {
    const bool fence = line.starts_with("```");
    if (fence && !inside && line.find(' ') != std::string::npos)
      found.push_back({line.substr(line.find(' ') + 1), ""});
    else if (inside && !fence)
      found.back().bytes += line + "\n";
    if (fence) inside = !inside;
  }
  return found;
}

TEST(ShopPage, has_examples_that_are_read_as_they_stand) {
  const auto texts = examples(page());
  ASSERT_EQ(texts.size(), 6U);
  auto bundle = sort_texts(texts);
  ASSERT_TRUE(bundle) << bundle.error().message;
  auto merged = merge({}, bundle.value(), support::repeatable(1));
  ASSERT_TRUE(merged) << merged.error().message;
  const Shop& shop = merged.value().after.shop;
  EXPECT_EQ(shop.sets.size(), 3U);
  EXPECT_EQ(shop.parts.size(), 4U);
  EXPECT_EQ(shop.wishes.size(), 2U);
  EXPECT_EQ(shop.rebuilds.size(), 1U);
  EXPECT_EQ(shop.part_by_code("R5")->changes.size(), 1U);
  EXPECT_EQ(shop.terms.hours, 24);
}

TEST(ShopPage, names_every_column) {
  const std::string text = page();
  const auto named = [&](const auto& columns) {
    for (const auto& column : columns)
      EXPECT_NE(text.find("`" + std::string(column.name) + "`"), std::string::npos) << column.name;
  };
  named(set_columns());
  named(part_columns());
  named(wish_columns());
}

}  // namespace
}  // namespace benchgraft::shop
