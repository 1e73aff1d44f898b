#include "sheets/plan_page.hpp"

#include <cmath>

#include <fmt/format.h>

#include "base/text.hpp"
#include "sheets/words.hpp"

namespace benchgraft::sheets {
namespace {

Line plain(const std::string& text, const std::string& code = "") {
  Line line;
  line.text = sentence(text);
  line.code = code;
  return line;
}

Block block_of(const std::string& heading) { return {heading, 1, "", {}, {}, false, false}; }

Line proof_line(const plan::Plan& plan, const std::string& currency) {
  Line line;
  line.mark = fmt::format("Worth {}", money_text(plan.value, currency));
  if (plan.proven)
    line.text = "Proven: no other use of this room, as it is on record, is worth more.";
  else if (plan.value.minor > 0)
    line.text = fmt::format(
        "No use of this room, as it is on record, is worth more than {}: at most {} % better.",
        money_text(plan.bound, currency),
        std::ceil(100 * static_cast<double>(plan.bound.minor - plan.value.minor) /
                  static_cast<double>(plan.value.minor)));
  else
    line.text = fmt::format(
        "The search was stopped: no use of this room, as it is on record, is worth more than {}.",
        money_text(plan.bound, currency));
  line.tone = plan.proven ? Tone::good : Tone::work;
  return line;
}

std::string origin_words(const plan::PlannedPart& part) {
  switch (part.origin) {
    case plan::Origin::own:
      return "its own";
    case plan::Origin::shelf:
      return part.part.empty() ? "shelf" : "shelf, " + part.part;
    case plan::Origin::donor:
      return part.part.empty() ? "out of " + part.donor
                               : fmt::format("{}, out of {}", part.part, part.donor);
    case plan::Origin::bought:
      return "to be bought";
  }
  return "";
}

Line part_line(const plan::PlannedPart& part) {
  return plain(fmt::format("{}: {}, {}, {} likely to work", capitalised(part.position), part.type,
                           origin_words(part), percent_text(part.chance)));
}

Line rebuild_line(const plan::PlannedRebuild& rebuild, const std::string& currency) {
  std::string model = rebuild.model;
  if (!rebuild.variant.empty()) model += ", " + rebuild.variant;
  Line line = plain(fmt::format("{} ({}): fetches {}, {} likely to work, worth {}", rebuild.host,
                                model, money_text(rebuild.price, currency),
                                percent_text(rebuild.chance), money_text(rebuild.value, currency)),
                    rebuild.host);
  line.aside = minutes_text(rebuild.work_minutes);
  line.mark = verdict_mark(rebuild.verdict);
  line.tone = tone_of(rebuild.verdict);
  for (const auto& part : rebuild.parts)
    if (part.origin != plan::Origin::own) line.under.push_back(part_line(part));
  if (!rebuild.why.empty()) line.under.push_back(plain(rebuild.why));
  for (const auto& question : rebuild.questions) {
    Line asked = plain(question);
    asked.mark = "Settle first";
    asked.tone = Tone::ask;
    line.under.push_back(std::move(asked));
  }
  return line;
}

Block rebuilds_block(const std::string& heading, const std::vector<plan::PlannedRebuild>& rebuilds,
                     const std::string& currency) {
  Block block = block_of(heading);
  for (const auto& rebuild : rebuilds) block.lines.push_back(rebuild_line(rebuild, currency));
  return block;
}

Block sets_block(const plan::Plan& plan) {
  Block block = block_of("Every set");
  for (const auto& set : plan.sets) {
    Line line = plain(
        fmt::format("{}{}. {}", set.code,
                    set.model.empty() ? ", model not known" : ", " + set.model, sentence(set.why)),
        set.code);
    line.mark = capitalised(use_words(set.use));
    block.lines.push_back(std::move(line));
  }
  return block;
}

Block purchases_block(const plan::Plan& plan, const std::string& currency) {
  Block block = block_of("Buy");
  for (const auto& buy : plan.purchases)
    block.lines.push_back(
        plain(fmt::format("{} x {} ({}), {}, for {}", buy.count, buy.type, buy.role,
                          money_text(buy.price, currency), buy.for_host)));
  return block;
}

Block tests_block(const plan::Plan& plan, const std::string& currency) {
  Block block = block_of("Test first");
  for (const auto& test : plan.tests)
    block.lines.push_back(
        plain(fmt::format("{} ({}): knowing is worth {}. {}", test.part, test.type,
                          money_text(test.worth, currency), sentence(test.why)),
              test.part));
  return block;
}

Block remarks_block(const plan::Plan& plan) {
  Block block = block_of("To know");
  for (const auto& remark : plan.remarks) block.lines.push_back(plain(remark));
  return block;
}

}  // namespace

std::string use_words(plan::Use use) {
  switch (use) {
    case plan::Use::host:
      return "build it";
    case plan::Use::stripped:
      return "strip it";
    case plan::Use::kept:
      return "keep it";
    case plan::Use::left:
      return "leave it";
    case plan::Use::not_judged:
      return "not judged";
  }
  return "";
}

Page plan_page(const plan::Plan& plan, const std::string& currency) {
  Page page;
  page.title = "Plan of the room";
  page.verdict = proof_line(plan, currency);
  if (!plan.method.empty()) page.figures.push_back(sentence("Worked out by " + plan.method));
  page.blocks.push_back(rebuilds_block("Build", plan.rebuilds, currency));
  if (plan.rebuilds.empty()) page.blocks.back().lead = "Nothing here is worth building today.";
  page.blocks.push_back(
      rebuilds_block("Try after settling these questions", plan.after_questions, currency));
  page.blocks.push_back(purchases_block(plan, currency));
  page.blocks.push_back(tests_block(plan, currency));
  page.blocks.push_back(sets_block(plan));
  page.blocks.push_back(remarks_block(plan));
  std::erase_if(page.blocks,
                [](const Block& block) { return block.lines.empty() && block.lead.empty(); });
  page.foot = {"Before a set is opened, read its sheet: benchgraft sheet CODE.",
               "Ask why about a set or a part by its code: benchgraft why CODE."};
  return page;
}

}  // namespace benchgraft::sheets
