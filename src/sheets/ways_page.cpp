#include "sheets/ways_page.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/text.hpp"
#include "sheets/words.hpp"

namespace benchgraft::sheets {
namespace {

using fit::Verdict;
using fit::WayStep;

std::string days_words(int days) { return days == 1 ? "1 day" : fmt::format("{} days", days); }

// "K7R out of D4", "K7R from the shelf", "one out of D4".
std::string source_words(const fit::WayChange& change) {
  const std::string what = change.called.empty() ? "one" : change.called;
  if (change.from == "shelf") return what + " from the shelf";
  return change.from.empty() ? what : fmt::format("{} out of {}", what, change.from);
}

std::string change_words(const fit::WayChange& change, const About& about) {
  switch (change.step) {
    case WayStep::put_in:
      return fmt::format("put in {} as the {}: {}", change.type, change.place,
                         source_words(change));
    case WayStep::buy:
      return fmt::format("buy {} as the {} for {}{}", change.type, change.place,
                         money_text(change.money, about.currency),
                         change.delivery_days
                             ? fmt::format(", {} to deliver", days_words(*change.delivery_days))
                             : ", delivery not on record");
    case WayStep::measure:
      return fmt::format("settle {} by measuring, before power",
                         counted(change.questions.size(), "question", "questions"));
  }
  return "";
}

std::string outcome_words(const fit::Way& way) {
  if (way.verdict == Verdict::unknown) return "then it hangs on what is measured";
  return way.verdict == Verdict::fits ? "then it fits" : "then it fits with work";
}

std::string cost_words(const fit::Way& way, const About& about) {
  const std::string money =
      way.money.minor == 0 ? "Nothing to buy" : money_text(way.money, about.currency) + " to spend";
  return fmt::format("{}, {} of work in all.", money, minutes_text(way.work_minutes));
}

Line way_line(const fit::WayChange& change, const About& about) {
  Line line;
  line.text = sentence(change_words(change, about));
  if (change.step == WayStep::put_in && change.work_minutes > 0)
    line.aside = minutes_text(change.work_minutes) + " to take it out";
  if (change.step == WayStep::measure) line.aside = minutes_text(change.work_minutes);
  for (const auto& question : change.questions) {
    Line under;
    under.text = sentence(question);
    under.tone = Tone::ask;
    line.under.push_back(std::move(under));
  }
  return line;
}

Block way_block(const fit::Way& way, std::size_t number, const About& about) {
  Block block{fmt::format("Way {}: {}", number, outcome_words(way)), 2, "", {}, {}, false, false};
  block.lead = fmt::format("{} Chance that it works at first power: {}.", cost_words(way, about),
                           percent_text(way.chance));
  for (const auto& change : way.changes) block.lines.push_back(way_line(change, about));
  return block;
}

Block in_the_way(const fit::WaysOut& ways) {
  Block block{"What stands in the way now", 1, "", {}, {}, false, false};
  for (const auto& reason : ways.in_the_way) {
    Line line;
    line.text = sentence(reason.says);
    line.code = reason.code;
    line.tone = tone_of(reason.verdict);
    if (reason.verdict == Verdict::destroys) line.mark = "Danger";
    block.lines.push_back(std::move(line));
  }
  return block;
}

// "Not to be had: ... : set C2 must go back to its owner. The next best is way 1."
Line refused_line(const fit::Way& way, bool next_best, const About& about) {
  Line line;
  line.mark = "Not to be had";
  line.tone = Tone::bad;
  std::vector<std::string> words;
  for (const auto& change : way.changes) words.push_back(change_words(change, about));
  line.text =
      fmt::format("{} would be cheaper, but {}. {}", capitalised(listed(words)), way.refused,
                  next_best ? "The next best is way 1." : "There is no other.");
  return line;
}

std::string verdict_words(const fit::WaysOut& ways, const About& about) {
  if (ways.now <= Verdict::fits_with_work) return "Nothing stands in the way.";
  if (ways.ways.empty())
    return "No way out was found with what is here, can be bought or can be measured.";
  const auto& best = ways.ways.front();
  return fmt::format("{} found. The cheapest: {}",
                     capitalised(counted(ways.ways.size(), "way out", "ways out")),
                     cost_words(best, about));
}

std::string search_words(const fit::WaysOut& ways) {
  if (ways.complete)
    return fmt::format(
        "{} judged whole; no cheaper way with up to {} parts was left out.",
        capitalised(counted(ways.judgements, "set of changes was", "sets of changes were")),
        fit::WaysAsked{}.most_changes);
  if (ways.proven > 0)
    return fmt::format(
        "The search stopped after {} judgements. Nothing cheaper than {} was left out; behind {} a "
        "cheaper way may have been.",
        ways.judgements, ways.proven == 1 ? "way 1" : fmt::format("ways 1 to {}", ways.proven),
        ways.proven == 1 ? "it" : "them");
  return fmt::format(
      "The search stopped after {} judgements: a cheaper way may have been left out.",
      ways.judgements);
}

using Json = nlohmann::ordered_json;

Json change_json(const fit::WayChange& change) {
  Json json = {{"step", fit::to_text(change.step)},
               {"place", change.place},
               {"type", change.type},
               {"part", change.called},
               {"from", change.from},
               {"price_minor", change.money.minor},
               {"work_minutes", change.work_minutes},
               {"questions", change.questions}};
  json["delivery_days"] = change.delivery_days ? Json(*change.delivery_days) : Json(nullptr);
  return json;
}

Json way_json(const fit::Way& way) {
  Json changes = Json::array();
  for (const auto& change : way.changes) changes.push_back(change_json(change));
  return {{"verdict", fit::to_text(way.verdict)},
          {"changes", std::move(changes)},
          {"spend_minor", way.money.minor},
          {"work_minutes", way.work_minutes},
          {"waiting_minutes", way.waiting_minutes},
          {"delivery_days", way.delivery_days},
          {"chance", way.chance},
          {"cost_minor", way.cost},
          {"refused", way.refused}};
}

}  // namespace

Page ways_page(const fit::WaysOut& ways, const About& about) {
  Page page;
  page.title = fmt::format("What would it take: {}", about.name);
  page.verdict.mark = verdict_mark(ways.now);
  page.verdict.text = verdict_words(ways, about);
  page.verdict.tone = tone_of(ways.now);
  if (ways.now > Verdict::fits_with_work) page.figures.push_back(search_words(ways));
  Block top{"Ways out, cheapest first", 1, "", {}, {}, false, false};
  if (ways.refused) top.lines.push_back(refused_line(*ways.refused, !ways.ways.empty(), about));
  if (!ways.ways.empty() || !top.lines.empty()) page.blocks.push_back(std::move(top));
  for (std::size_t i = 0; i < ways.ways.size(); ++i)
    page.blocks.push_back(way_block(ways.ways[i], i + 1, about));
  if (!ways.in_the_way.empty()) page.blocks.push_back(in_the_way(ways));
  page.foot = safety_foot();
  return page;
}

std::string ways_json(const fit::WaysOut& ways, const About& about) {
  Json json = {{"rebuild", about.name},      {"verdict", fit::to_text(ways.now)},
               {"currency", about.currency}, {"judgements", ways.judgements},
               {"complete", ways.complete},  {"proven", ways.proven}};
  json["ways"] = Json::array();
  for (const auto& way : ways.ways) json["ways"].push_back(way_json(way));
  json["refused"] = ways.refused ? way_json(*ways.refused) : Json(nullptr);
  json["in_the_way"] = Json::array();
  for (const auto& reason : ways.in_the_way)
    json["in_the_way"].push_back({{"code", reason.code},
                                  {"rule", reason.rule},
                                  {"verdict", fit::to_text(reason.verdict)},
                                  {"says", reason.says}});
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string way_out_words(const std::optional<fit::Way>& way, const About& about) {
  if (!way) return "No way out was found with what is here or sold; benchgraft ways says more.";
  std::vector<std::string> words;
  for (const auto& change : way->changes) words.push_back(change_words(change, about));
  return fmt::format("Cheapest way out: {}; {}. {}", listed(words, ", then "), outcome_words(*way),
                     cost_words(*way, about));
}

}  // namespace benchgraft::sheets
