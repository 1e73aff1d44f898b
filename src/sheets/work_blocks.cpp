#include <algorithm>
#include <map>
#include <string_view>

#include <fmt/format.h>

#include "base/text.hpp"
#include "sheets/judgement_page.hpp"
#include "sheets/words.hpp"

namespace benchgraft::sheets {
namespace {

Line under(const std::string& mark, const std::string& text, const std::string& code, Tone tone) {
  Line line;
  line.mark = mark;
  line.text = sentence(text);
  line.code = code;
  line.tone = tone;
  return line;
}

// The mark says it, so the words need not say it again.
Line not_before(const steps::Statement& said) {
  std::string_view text = said.text;
  for (const std::string_view start : {"Not before ", "not before "})
    if (text.starts_with(start)) text.remove_prefix(start.size());
  if (constexpr std::string_view kDone = "this is done: "; text.starts_with(kDone))
    return under("Do first", std::string(text.substr(kDone.size())), said.code, Tone::danger);
  Line line = under("Not before", "", said.code, Tone::danger);
  line.text = std::string(text) + (text.ends_with('.') ? "" : ".");
  return line;
}

std::string minutes_aside(const steps::Step& step) {
  std::string text;
  if (step.work_minutes && *step.work_minutes > 0) text = minutes_text(*step.work_minutes);
  if (!step.work_minutes) text = "minutes not on record";
  if (step.waiting_minutes > 0)
    text += (text.empty() ? "wait " : ", then wait ") + minutes_text(step.waiting_minutes);
  return text;
}

// A hazard is told in full where it is first met: in the donors, in the set, and again with power.
// After that its name stands on the step, and the words open by a touch.
class Cautions {
 public:
  void enter(steps::Stage stage) {
    if (stage == steps::Stage::make_safe || stage == steps::Stage::first_power) told_.clear();
  }

  std::vector<Line> lines(const std::vector<steps::StepCaution>& cautions, int step) {
    std::vector<Line> said;
    std::vector<std::string> names, steps_of, texts;
    for (const auto& caution : cautions) {
      const auto [first, fresh] = told_.emplace(caution.text, step);
      if (fresh || caution.hazard.empty()) {
        const auto mark =
            caution.hazard.empty() ? "Caution" : fmt::format("Caution, {}", caution.hazard);
        said.push_back(under(mark, caution.text, "", Tone::danger));
        continue;
      }
      names.push_back(caution.hazard);
      texts.push_back(caution.text);
      const auto told_on = std::to_string(first->second);
      if (std::find(steps_of.begin(), steps_of.end(), told_on) == steps_of.end())
        steps_of.push_back(told_on);
    }
    if (!names.empty()) {
      said.push_back(under("Caution",
                           fmt::format("{}; in full on step{} {}", listed(names),
                                       steps_of.size() > 1 ? "s" : "", listed(steps_of)),
                           "", Tone::danger));
      said.back().more = texts;
    }
    return said;
  }

 private:
  std::map<std::string, int> told_;
};

Line step_line(const steps::Step& step, int number, Cautions& cautions) {
  Line line;
  line.text = step.title;
  line.code = step.code;
  line.aside = minutes_aside(step);
  line.tick = true;
  line.under = cautions.lines(step.cautions, number);
  for (const auto& said : step.not_before) line.under.push_back(not_before(said));
  // What to fetch is the step itself; elsewhere the caution comes before the hand does.
  auto details = line.under.begin() + (step.stage == steps::Stage::fetch ? 0 : line.under.size());
  for (const auto& detail : step.details)
    details =
        std::next(line.under.insert(details, under("", detail.text, detail.code, Tone::plain)));
  for (const auto& seen : step.watch) line.under.push_back(under("Watch", seen, "", Tone::work));
  if (!step.cut.empty()) {
    line.under.push_back(under("Pull the plug at once on", "", "", Tone::danger));
    line.under.back().text = step.cut + ".";
  }
  return line;
}

}  // namespace

std::vector<Block> work_blocks(const steps::WorkOrder& work) {
  std::vector<Block> blocks;
  Cautions cautions;
  int number = 0;
  const steps::Step* before = nullptr;
  for (const auto& step : work.steps) {
    if (before == nullptr || before->stage != step.stage) {
      blocks.push_back({steps::to_text(step.stage), 2, "", {}, {}, false, true});
      cautions.enter(step.stage);
    }
    blocks.back().lines.push_back(step_line(step, ++number, cautions));
    before = &step;
  }
  return blocks;
}

}  // namespace benchgraft::sheets
