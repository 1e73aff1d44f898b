#include "sheets/surprises.hpp"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "base/text.hpp"
#include "sheets/words.hpp"

namespace benchgraft::sheets {
namespace {

using fit::Verdict;

bool is_danger(const fit::Reason& reason) {
  return reason.verdict == Verdict::destroys || reason.before == Verdict::destroys;
}

// Statements said once are not said again in another group.
class Told {
 public:
  bool first_time(const std::string& code) { return code.empty() || codes_.insert(code).second; }

 private:
  std::set<std::string> codes_;
};

Line line_of(const std::string& text, const std::string& code, Tone tone = Tone::plain) {
  Line line;
  line.text = sentence(text);
  line.code = code;
  line.tone = tone;
  return line;
}

Line line_of(const fit::Reason& reason) {
  Line line = line_of(reason.says, reason.code, tone_of(reason.before));
  if (is_danger(reason)) line.mark = "Danger";
  if (!reason.not_before.empty())
    line.under.push_back(line_of(reason.not_before, "", Tone::danger));
  return line;
}

template <class Wanted>
Block reasons_block(const fit::Judgement& judged, const std::string& heading, Told& told,
                    Wanted wanted) {
  Block block{heading, 2, "", {}, {}, false, false};
  for (const auto& reason : judged.reasons)
    if (reason.will && wanted(reason) && told.first_time(reason.code))
      block.lines.push_back(line_of(reason));
  return block;
}

// ", from the old engine", ", to be bought", ": find or buy one".
std::string source_words(const std::string& from) {
  if (from.empty() || from == "elsewhere") return "";
  if (from == "buy" || from == "bought") return ", to be bought";
  if (from.starts_with("find")) return ": " + from;
  return ", from " + from;
}

Block come_along(const fit::Judgement& judged, Told& told) {
  Block block{"Must come along", 2, "", {}, {}, false, false};
  for (const auto& along : judged.companions) {
    std::string text = along.what;
    text += source_words(along.from);
    if (!along.types.empty() && along.types != std::vector{along.what})
      text += fmt::format(" ({} would do)", listed(along.types));
    Line line = line_of(text, along.code);
    if (!along.why.empty()) line.under.push_back(line_of(along.why, ""));
    told.first_time(along.code);
    block.lines.push_back(std::move(line));
  }
  return block;
}

// The reason that says a capability goes or comes names it in its sentence.
std::string code_naming(const fit::Judgement& judged, const std::string& capability) {
  for (const auto& reason : judged.reasons)
    if (std::find(reason.signals.begin(), reason.signals.end(), capability) !=
            reason.signals.end() ||
        reason.says.find(capability) != std::string::npos)
      return reason.code;
  return "";
}

Block will_be_lost(const fit::Judgement& judged, Told& told) {
  Block block{"Will be lost", 2, "", {}, {}, false, false};
  for (const auto& lost : judged.lost) {
    const auto code = code_naming(judged, lost);
    told.first_time(code);
    block.lines.push_back(line_of(lost, code, Tone::bad));
  }
  return block;
}

std::string setting_words(const fit::SettingToDo& todo) {
  const std::string start =
      todo.predicted.empty() ? "" : fmt::format("; start with {}", todo.predicted);
  if (todo.action == "check") return fmt::format("{}: check it{}", todo.name, start);
  if (todo.action == "set") return fmt::format("{}: set it{}", todo.name, start);
  if (todo.action == "travels")
    return fmt::format("{}: comes with its part, nothing to do", todo.name);
  return fmt::format("{}: redo it{}", todo.name, start);
}

Block must_be_redone(const fit::Judgement& judged, Told& told) {
  Block block{"Must be redone", 2, "", {}, {}, false, false};
  if (!judged.orientation.code.empty() && told.first_time(judged.orientation.code))
    block.lines.push_back(line_of(judged.orientation.says, judged.orientation.code));
  for (const auto& todo : judged.settings)
    if (todo.action != "travels") {
      told.first_time(todo.code);
      block.lines.push_back(line_of(setting_words(todo), todo.code));
    }
  for (const auto& counter : judged.counters) {
    told.first_time(counter.code);
    block.lines.push_back(line_of(counter.says, counter.code));
  }
  return block;
}

Block to_settle(const fit::Judgement& judged) {
  Block block{"To settle by measuring, before power", 2, "", {}, {}, false, false};
  auto asked = judged.questions;
  std::stable_sort(asked.begin(), asked.end(),
                   [](const auto& a, const auto& b) { return a.safety && !b.safety; });
  for (const auto& question : asked) {
    Line line = line_of(question.text, question.code, Tone::ask);
    if (question.safety) line.mark = "Safety";
    line.aside = minutes_text(question.work_minutes);
    block.lines.push_back(std::move(line));
  }
  return block;
}

// A question says everything its "not recorded" reason says, and what to do about it.
bool is_asked_as_question(const fit::Judgement& judged, const fit::Reason& reason) {
  return reason.verdict == Verdict::unknown && reason.rule == "not recorded" &&
         !judged.questions.empty();
}

Block good_to_know(const fit::Judgement& judged, Told& told) {
  Block block{"Good to know", 2, "", {}, {}, true, false};
  for (const auto& gained : judged.gained) {
    const auto code = code_naming(judged, gained);
    if (told.first_time(code)) block.lines.push_back(line_of("New: " + gained, code, Tone::good));
  }
  for (const auto& todo : judged.settings)
    if (todo.action == "travels" && told.first_time(todo.code))
      block.lines.push_back(line_of(setting_words(todo), todo.code));
  for (const auto& out : judged.struck_out)
    block.lines.push_back(
        line_of(out.place.empty()
                    ? fmt::format("Not variant {}: {}", out.candidate, out.because)
                    : fmt::format("The {} is not {}: {}", out.place, out.candidate, out.because),
                ""));
  for (const auto& reason : judged.reasons)
    if (reason.will && reason.verdict == Verdict::fits && told.first_time(reason.code))
      block.lines.push_back(line_of(reason));
  return block;
}

// "May": one line for each role, with the minutes to set aside for looking.
Block look_here(const fit::Judgement& judged, Told& told) {
  Block block{
      "Look here: usual for this kind, not on record for this set", 2, "", {}, {}, true, false};
  for (const auto& look : judged.look_here) {
    auto same = std::find_if(block.lines.begin(), block.lines.end(),
                             [&](const Line& line) { return line.mark == capitalised(look.role); });
    if (same == block.lines.end()) {
      Line line;
      line.mark = capitalised(look.role);
      same = block.lines.insert(block.lines.end(), line);
    }
    same->text += (same->text.empty() ? "" : " ") + sentence(look.look);
  }
  for (const auto& reason : judged.reasons)
    if (!reason.will && told.first_time(reason.code))
      block.lines.push_back(line_of(reason.says, reason.code));
  return block;
}

bool is_not_judged(const fit::Judgement& judged) {
  return std::any_of(judged.reasons.begin(), judged.reasons.end(),
                     [](const fit::Reason& reason) { return reason.rule == "not judged"; });
}

bool nothing_put_in(const fit::Judgement& judged) {
  return judged.reasons.empty() && std::none_of(judged.seats.begin(), judged.seats.end(),
                                                [](const fit::Seat& seat) { return seat.changed; });
}

std::string verdict_words(const fit::Judgement& judged) {
  if (is_not_judged(judged)) return "Transplants of this kind of set are not judged.";
  if (nothing_put_in(judged)) return "Nothing is put in: it is the set as it was built.";
  switch (judged.verdict) {
    case Verdict::destroys:
      return "As it stands this rebuild destroys parts or endangers people. Do not build it.";
    case Verdict::does_not_fit:
      return "As it stands these parts do not make one working set.";
    case Verdict::unknown:
      return judged.questions.empty()
                 ? "Something that matters is not on record."
                 : fmt::format(
                       "{} to settle with the set open, before power.",
                       capitalised(counted(judged.questions.size(), "question", "questions")));
    case Verdict::fits_with_work:
      return "It goes together once the work below is done.";
    case Verdict::fits:
      return "It goes together as it is.";
  }
  return "";
}

std::string danger_words(const fit::Judgement& judged) {
  const auto& reasons = judged.reasons;
  const bool danger = judged.verdict != Verdict::destroys &&
                      std::any_of(reasons.begin(), reasons.end(), [](const fit::Reason& reason) {
                        return reason.will && is_danger(reason);
                      });
  return danger ? " Mind the danger below." : "";
}

}  // namespace

Line verdict_line(const fit::Judgement& judged) {
  Line line;
  line.mark = verdict_mark(judged.verdict);
  line.text = verdict_words(judged) + danger_words(judged);
  line.tone = tone_of(judged.verdict);
  return line;
}

std::vector<Block> surprises(const fit::Judgement& judged) {
  Told told;
  std::vector<Block> all;
  all.push_back(reasons_block(judged, "Danger", told, is_danger));
  all.push_back(reasons_block(judged, "Will not fit", told, [](const fit::Reason& reason) {
    return reason.verdict == Verdict::does_not_fit;
  }));
  auto along = come_along(judged, told);
  auto lost = will_be_lost(judged, told);
  auto redone = must_be_redone(judged, told);
  all.push_back(reasons_block(judged, "Fits only with work", told, [](const fit::Reason& reason) {
    return reason.verdict == Verdict::fits_with_work;
  }));
  all.push_back(std::move(along));
  all.push_back(std::move(lost));
  all.push_back(std::move(redone));
  all.push_back(to_settle(judged));
  all.push_back(reasons_block(judged, "Not known", told, [&](const fit::Reason& reason) {
    return reason.verdict == Verdict::unknown && !is_asked_as_question(judged, reason);
  }));
  all.push_back(good_to_know(judged, told));
  all.push_back(look_here(judged, told));
  std::erase_if(all, [](const Block& block) { return block.lines.empty(); });
  return all;
}

}  // namespace benchgraft::sheets
