#include <map>

#include <fmt/format.h>

#include "base/text.hpp"
#include "sheets/judgement_page.hpp"
#include "sheets/words.hpp"

namespace benchgraft::sheets {
namespace {

constexpr std::string_view kNotBefore = "not before";

Line under(const std::string& mark, const std::string& text, const std::string& code, Tone tone) {
  Line line;
  line.mark = mark;
  line.text = sentence(text);
  line.code = code;
  line.tone = tone;
  return line;
}

Line not_before(const steps::Statement& said) {
  std::string text = said.text;
  if (lower_first(text).starts_with(kNotBefore))
    text = std::string(trimmed(std::string_view(text).substr(kNotBefore.size())));
  Line line = under("Not before", "", said.code, Tone::danger);
  line.text = text.empty() || text.back() == '.' ? text : text + ".";
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

// Within one stage a hazard is told in full once; after that its name and where the rest stands.
class Cautions {
 public:
  void new_stage() { told_.clear(); }

  Line line(const steps::StepCaution& caution, int step) {
    const auto [first, fresh] = told_.emplace(caution.text, step);
    if (fresh || caution.hazard.empty()) return under("Caution", caution.text, "", Tone::danger);
    return under("Caution", fmt::format("{}, in full on step {}", caution.hazard, first->second),
                 "", Tone::danger);
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
  for (const auto& caution : step.cautions) line.under.push_back(cautions.line(caution, number));
  for (const auto& said : step.not_before) line.under.push_back(not_before(said));
  for (const auto& detail : step.details)
    line.under.push_back(under("", detail.text, detail.code, Tone::plain));
  for (const auto& seen : step.watch) line.under.push_back(under("Watch", seen, "", Tone::work));
  if (!step.cut.empty())
    line.under.push_back(
        under("Pull the plug at once on", lower_first(step.cut), "", Tone::danger));
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
      cautions.new_stage();
    }
    blocks.back().lines.push_back(step_line(step, ++number, cautions));
    before = &step;
  }
  return blocks;
}

}  // namespace benchgraft::sheets
