#include "sheets/why_page.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "sheets/plan_page.hpp"
#include "sheets/words.hpp"

namespace benchgraft::sheets {
namespace {

Line plain(const std::string& text) {
  Line line;
  line.text = sentence(text);
  return line;
}

Block block_of(const std::string& heading) { return {heading, 1, "", {}, {}, false, false}; }

std::string place_words(const Where& where) {
  if (where.file.empty()) return "";
  return where.line > 0 ? fmt::format("{}:{}", where.file, where.line) : where.file;
}

Line fact_line(const fit::Fact& fact) {
  Line line = plain(fact.text);
  const auto place = place_words(fact.where);
  if (!place.empty()) {
    Line below;
    below.text = place;
    below.tone = Tone::quiet;
    line.under.push_back(std::move(below));
  }
  return line;
}

std::string sort_words(fit::RuleSort sort) {
  switch (sort) {
    case fit::RuleSort::single:
      return "it looks at one part in its place";
    case fit::RuleSort::pair:
      return "it looks at two parts and what joins them";
    case fit::RuleSort::whole:
      return "it looks at the whole set";
  }
  return "";
}

std::string sure_words(Source source) {
  switch (source) {
    case Source::measured:
      return "Measured.";
    case Source::verified:
      return "Verified by a finished rebuild or a swap note.";
    case Source::derived:
      return "Derived from what is recorded about the parts.";
    case Source::usual:
      return "Usual for this kind of set; not recorded for this one.";
    case Source::assumed:
      return "Assumed; nothing is recorded about it.";
  }
  return "";
}

Block rule_block(const fit::Reason& reason) {
  Block block = block_of("Rule");
  block.lines.push_back(plain(fmt::format("\"{}\": {}", reason.rule, sort_words(reason.sort))));
  if (reason.before != reason.verdict)
    block.lines.push_back(plain(fmt::format("As found: {}. With the work done: {}",
                                            lower_first(verdict_mark(reason.before)),
                                            lower_first(verdict_mark(reason.verdict)))));
  if (!reason.will)
    block.lines.push_back(plain("It may be so: usual for the kind, not a recorded fact"));
  if (reason.safety)
    block.lines.push_back(plain("A rule of safety: no swap that worked outranks it"));
  return block;
}

Block facts_block(const fit::Reason& reason) {
  Block block = block_of("Facts");
  for (const auto& fact : reason.facts) block.lines.push_back(fact_line(fact));
  if (block.lines.empty()) block.lead = "No recorded fact; that is the point of it.";
  return block;
}

Block change_block(const fit::Reason& reason) {
  Block block = block_of("What would change it");
  block.lead = reason.would_change.empty() ? "Another record of the facts above."
                                           : sentence(reason.would_change);
  return block;
}

// What the rebuild has to do because of it.
Block follows_block(const fit::Judgement& judged, const std::string& code) {
  Block block = block_of("What follows");
  // The sentence itself stands on top of the page already.
  const auto said = [&](const std::string& words) {
    return words.empty() || std::any_of(judged.reasons.begin(), judged.reasons.end(),
                                        [&](const fit::Reason& reason) {
                                          return reason.code == code && reason.says == words;
                                        });
  };
  for (const auto& reason : judged.reasons)
    if (reason.code == code && !reason.not_before.empty())
      block.lines.push_back(plain(reason.not_before));
  for (const auto& chosen : judged.adaptations)
    if (std::find(chosen.codes.begin(), chosen.codes.end(), code) != chosen.codes.end()) {
      Line line = plain("Work chosen: " + chosen.name);
      const auto place = place_words(chosen.where);
      if (!place.empty()) line.under.push_back(plain(place)), line.under.back().text = place;
      block.lines.push_back(std::move(line));
    }
  for (const auto& along : judged.companions)
    if (along.code == code)
      block.lines.push_back(
          plain(fmt::format("Must come along: {}. {}", along.what, sentence(along.why))));
  for (const auto& todo : judged.settings)
    if (todo.code == code) {
      Line line = plain(fmt::format("Setting: {}", todo.name));
      if (!todo.why.empty() && !said(todo.why)) line.under.push_back(plain(todo.why));
      block.lines.push_back(std::move(line));
    }
  for (const auto& counter : judged.counters)
    if (counter.code == code && !said(counter.says)) block.lines.push_back(plain(counter.says));
  if (judged.orientation.code == code && !said(judged.orientation.says))
    block.lines.push_back(plain(judged.orientation.says));
  return block;
}

Page reason_page(const fit::Judgement& judged, const fit::Reason& reason) {
  Page page;
  page.title = "Why " + reason.code;
  page.verdict.mark = verdict_mark(reason.verdict);
  page.verdict.text = sentence(reason.says);
  page.verdict.tone = tone_of(reason.before);
  page.blocks = {rule_block(reason), facts_block(reason)};
  Block sure = block_of("How sure");
  sure.lead = sure_words(reason.source);
  page.blocks.push_back(std::move(sure));
  page.blocks.push_back(change_block(reason));
  auto follows = follows_block(judged, reason.code);
  if (!follows.lines.empty()) page.blocks.push_back(std::move(follows));
  return page;
}

Page question_page(const fit::Question& question) {
  Page page;
  page.title = "Why " + question.code;
  page.verdict.mark = "To settle";
  page.verdict.text = sentence(question.text);
  page.verdict.tone = Tone::ask;
  Block block = block_of("Facts");
  block.lines.push_back(plain(
      fmt::format("On record for {} there is nothing under \"{}\"", question.about, question.key)));
  if (question.safety)
    block.lines.push_back(plain("It touches safety: only a measurement settles it"));
  page.blocks.push_back(std::move(block));
  Block sure = block_of("How sure");
  sure.lead = "Not known. What is not recorded is never taken for fine.";
  page.blocks.push_back(std::move(sure));
  Block change = block_of("What would change it");
  change.lead = fmt::format("Writing down \"{}\" of {}.", question.key, question.about);
  page.blocks.push_back(std::move(change));
  return page;
}

void add_rebuild(const plan::PlannedRebuild& rebuild, const std::string& currency, Page& page) {
  Block block = block_of("As host");
  block.lines.push_back(
      plain(fmt::format("Fetches {}, {} likely to work, {} of work, worth {} to the shop",
                        money_text(rebuild.price, currency), percent_text(rebuild.chance),
                        minutes_text(rebuild.work_minutes), money_text(rebuild.value, currency))));
  if (!rebuild.why.empty()) block.lines.push_back(plain(rebuild.why));
  page.blocks.push_back(std::move(block));
}

void add_part(const plan::PlannedRebuild& rebuild, const plan::PlannedPart& part, Page& page) {
  Block block = block_of("As part");
  std::string text = fmt::format("{} goes into {} as {}", part.type, rebuild.host, part.position);
  if (!part.donor.empty()) text += fmt::format(", out of {}", part.donor);
  block.lines.push_back(plain(text));
  block.lines.push_back(plain(fmt::format("{} likely to work", percent_text(part.chance))));
  page.blocks.push_back(std::move(block));
}

}  // namespace

Result<Page> why_page(const fit::Judgement& judged, const std::string& code) {
  for (const auto& reason : judged.reasons)
    if (reason.code == code) return reason_page(judged, reason);
  for (const auto& question : judged.questions)
    if (question.code == code) return question_page(question);
  Page page;
  page.title = "Why " + code;
  page.blocks = {follows_block(judged, code)};
  if (!page.blocks.front().lines.empty()) return page;
  return Error{ErrorKind::not_found,
               fmt::format("Nothing in this rebuild was said under the code {}; the codes stand in "
                           "brackets at the end of each line.",
                           code)};
}

Result<Page> why_page(const plan::Plan& plan, const std::string& code,
                      const std::string& currency) {
  Page page;
  page.title = "Why " + code;
  for (const auto& set : plan.sets)
    if (set.code == code) {
      page.verdict.mark = capitalised(use_words(set.use));
      page.verdict.text = sentence(set.why);
      page.figures.push_back(set.model.empty() ? "Model not known." : set.model + ".");
    }
  for (const auto* list : {&plan.rebuilds, &plan.after_questions})
    for (const auto& rebuild : *list) {
      if (rebuild.host == code) add_rebuild(rebuild, currency, page);
      for (const auto& part : rebuild.parts)
        if (part.part == code || part.donor == code) add_part(rebuild, part, page);
    }
  for (const auto& test : plan.tests)
    if (test.part == code) {
      Block block = block_of("Test first");
      block.lines.push_back(plain(test.why));
      page.blocks.push_back(std::move(block));
    }
  if (page.verdict.mark.empty() && page.blocks.empty())
    return Error{ErrorKind::not_found, fmt::format("The plan says nothing about {}.", code)};
  return page;
}

}  // namespace benchgraft::sheets
