#include "stories/loft.hpp"

#include <gtest/gtest.h>

#include "sheets/judgement_page.hpp"
#include "tasks/rebuild_asked.hpp"

namespace benchgraft::stories {

std::string source(const std::string& path) {
  return std::string(BENCHGRAFT_SOURCE_DIR) + "/" + path;
}

std::string in_one_line(const std::string& page) {
  std::string line;
  for (const char c : page)
    if (c != '\n' && c != ' ')
      line += c;
    else if (!line.empty() && line.back() != ' ')
      line += ' ';
  return line;
}

Asked asked(const std::string& rebuild) {
  tasks::RebuildAsked question;
  question.named = source("data/demo/rebuilds/" + rebuild + ".toml");
  question.knowledge = {source("data"), {source("data/demo/catalogue")}};
  const auto judged = tasks::judge_asked(question);
  EXPECT_TRUE(judged.ok()) << (judged ? "" : judged.error().message);
  if (!judged) return {};
  const auto& judgement = judged.value().judgement;
  const auto page =
      sheets::judgement_page(judgement, {judged.value().rebuild.name, judged.value().currency});
  return {judgement, in_one_line(sheets::as_text(page))};
}

std::set<std::string> told_for_certain(const fit::Judgement& judgement) {
  std::set<std::string> rules;
  for (const auto& one : judgement.reasons)
    if (one.will && one.verdict != fit::Verdict::unknown) rules.insert(one.rule);
  return rules;
}

const fit::Reason* reason(const fit::Judgement& judgement, const std::string& rule,
                          const std::string& words) {
  for (const auto& one : judgement.reasons)
    if (one.rule == rule && one.says.find(words) != std::string::npos) return &one;
  return nullptr;
}

}  // namespace benchgraft::stories
