// The rebuild files of the loft together show every rule there is, each at least once.
#include <algorithm>
#include <filesystem>
#include <map>

#include <gtest/gtest.h>

#include "base/text.hpp"
#include "fit/rule_names.hpp"
#include "stories/loft.hpp"

namespace benchgraft::stories {
namespace {

std::vector<std::string> rebuild_files() {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(source("data/demo/rebuilds")))
    if (entry.path().extension() == ".toml") names.push_back(entry.path().stem().string());
  std::sort(names.begin(), names.end());
  return names;
}

TEST(EveryRule, occurs_in_the_rebuild_files_of_the_loft) {
  const auto files = rebuild_files();
  ASSERT_GT(files.size(), 50U);
  std::map<std::string, std::vector<std::string>> shown_by;
  for (const auto& file : files)
    for (const auto& one : asked(file).judgement.reasons) shown_by[one.rule].push_back(file);
  std::string missing;
  for (const auto& rule : fit::rule_names())
    if (shown_by[rule].empty()) missing += "\n- " + rule;
  EXPECT_EQ(missing, "") << "no rebuild file of data/demo/rebuilds shows these rules";
}

TEST(EveryReason, stands_on_facts_and_says_what_would_change_it) {
  for (const auto& file : rebuild_files())
    for (const auto& one : asked(file).judgement.reasons) {
      EXPECT_FALSE(one.says.empty()) << file << ": " << one.rule;
      EXPECT_FALSE(one.code.empty()) << file << ": " << one.says;
      EXPECT_TRUE(!one.facts.empty() || !one.would_change.empty()) << file << ": " << one.says;
    }
}

}  // namespace
}  // namespace benchgraft::stories
