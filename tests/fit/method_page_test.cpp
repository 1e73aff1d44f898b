// The table of rules in docs/methods/fit.md and the rules of the code are the same, both ways.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "fit/contact_rules.hpp"
#include "fit/rule_names.hpp"
#include "support/fit_bench.hpp"
#include "support/fit_pattern.hpp"

namespace benchgraft::fit {
namespace {

using ::testing::UnorderedElementsAreArray;

std::string text_of(const std::filesystem::path& file) {
  std::ifstream in(file);
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

struct Row {
  std::string rule, sort;
  int columns = 0;
};

std::vector<Row> table() {
  std::vector<Row> rows;
  std::istringstream page(text_of(std::string(BENCHGRAFT_SOURCE_DIR) + "/docs/methods/fit.md"));
  bool inside = false;
  for (std::string line; std::getline(page, line);) {
    if (line.rfind("## ", 0) == 0) inside = line == "## The rules";
    const auto found = fit_pattern::match(line, R"(\| ([a-z -]+) \| (single|pair|whole) \|.*\|)");
    if (inside && !found.empty())
      rows.push_back(
          {found[1], found[2], static_cast<int>(std::count(line.begin(), line.end(), '|')) - 1});
  }
  return rows;
}

TEST(MethodPage, lists_every_rule_and_no_other) {
  std::vector<std::string> written;
  for (const auto& row : table()) {
    written.push_back(row.rule);
    EXPECT_EQ(row.columns, 6) << row.rule;
  }
  EXPECT_THAT(written, UnorderedElementsAreArray(rule_names()));
}

TEST(MethodPage, every_rule_name_the_code_gives_a_reason_is_listed) {
  // Reasons are made by add("name" ...), say("name" ...) and say_piece(..., "name" ...), or
  // renamed.
  const std::string named =
      R"re((add|say|say_piece)\([[:space:]]*(findings,[[:space:]]*)?"([a-z -]+)"|rule = "([a-z -]+)")re";
  std::set<std::string> used;
  std::string all;
  for (const auto& entry :
       std::filesystem::directory_iterator(std::string(BENCHGRAFT_SOURCE_DIR) + "/src/fit")) {
    if (entry.path().extension() != ".cpp" || entry.path().filename() == "rule_names.cpp") continue;
    const std::string text = text_of(entry.path());
    all += text;
    for (const auto& groups : fit_pattern::all_matches(text, named))
      used.insert(groups[3].empty() ? groups[4] : groups[3]);
  }
  EXPECT_GT(used.size(), 25U);
  for (const auto& rule : used) EXPECT_THAT(rule_names(), ::testing::Contains(rule));
  for (const auto& rule : rule_names())
    EXPECT_NE(all.find('"' + rule + '"'), std::string::npos) << rule << " is used nowhere";
}

TEST(MethodPage, every_contact_rule_is_listed) {
  for (int rule = 0; rule <= static_cast<int>(ContactRule::not_recorded); ++rule)
    EXPECT_THAT(rule_names(), ::testing::Contains(rule_name(static_cast<ContactRule>(rule))));
}

TEST(Cures, of_a_rule_that_does_not_exist_are_refused_with_the_nearest_name) {
  using namespace fit_bench;
  const std::string said = refused(part("A-1", "sound") + model("Tern 40", {{"sound", "A-1"}}) +
                                       "[[adaptation]]\nadaptation = \"a\"\ncures = [{ rule = "
                                       "\"mising reply\", role = \"sound\" }]\n",
                                   "");
  EXPECT_THAT(said, ::testing::HasSubstr("did you mean \"missing reply\"?"));
}

}  // namespace
}  // namespace benchgraft::fit
