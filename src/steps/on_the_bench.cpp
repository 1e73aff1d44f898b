// Questions, chosen work, re-pins and pieces that are moved across before anything goes in.
#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "steps/stages.hpp"

namespace benchgraft::steps {
namespace {

std::optional<double> minutes_of(const Site& site, const std::string& code) {
  const auto* reason = site.reason(code);
  if (reason == nullptr || reason->work_minutes <= 0) return std::nullopt;
  return reason->work_minutes;
}

void questions(const Site& site, Steps& steps) {
  auto asked = site.judged().questions;
  std::stable_sort(asked.begin(), asked.end(),
                   [](const auto& a, const auto& b) { return a.safety && !b.safety; });
  for (const auto& question : asked) {
    auto made = step(Stage::bench, "Settle: " + question.text, question.work_minutes);
    made.code = question.code;
    if (!question.role.empty()) made.roles = {question.role};
    made.details.push_back(
        {"Write the answer down. If it is not the one hoped for, stop here and "
         "have the rebuild judged again.",
         ""});
    steps.push_back(std::move(made));
  }
}

bool cures(const fit::ChosenAdaptation& chosen, const std::string& code) {
  return std::find(chosen.codes.begin(), chosen.codes.end(), code) != chosen.codes.end();
}

void wire(const fit::Repin& repin, Step& made) {
  if (!repin.conductor.empty()) made.details.push_back({sentence(repin.conductor), ""});
  if (!repin.length.empty()) made.details.push_back({sentence("length: " + repin.length), ""});
}

// Re-pins that are not already told as a piece of chosen work.
void repins(const Site& site, Steps& steps) {
  const auto& chosen = site.judged().adaptations;
  for (const auto& repin : site.judged().repins) {
    if (std::any_of(chosen.begin(), chosen.end(),
                    [&](const auto& work) { return cures(work, repin.code); }))
      continue;
    auto made =
        step(Stage::bench,
             repin.crossover ? fmt::format("Make a crossover lead from {} of {} to {} of {}.",
                                           repin.port, repin.part, repin.socket, repin.into)
                             : fmt::format("Re-pin the plug {} of {}; it goes into {} of {}.",
                                           repin.port, repin.part, repin.socket, repin.into),
             minutes_of(site, repin.code));
    made.code = repin.code;
    for (const auto& move : repin.moves)
      made.details.push_back(
          {fmt::format("{}: from contact {} to contact {}.",
                       capitalised(move.signal.empty() ? "wire" : move.signal), move.from, move.to),
           ""});
    wire(repin, made);
    made.details.push_back({"Check every contact with the meter before it is joined.", ""});
    steps.push_back(std::move(made));
  }
}

void adaptations(const Site& site, Steps& steps) {
  for (const auto& chosen : site.judged().adaptations) {
    auto made = step(Stage::bench, sentence(chosen.name), chosen.work_minutes);
    made.waiting_minutes = chosen.waiting_minutes;
    for (const auto& code : chosen.codes) {
      if (made.code.empty()) made.code = code;
      if (const auto* reason = site.reason(code))
        made.roles.insert(made.roles.end(), reason->roles.begin(), reason->roles.end());
    }
    for (const auto& todo : chosen.steps) made.details.push_back({sentence(todo), ""});
    for (const auto& repin : site.judged().repins)
      if (cures(chosen, repin.code)) wire(repin, made);
    for (const auto& first : chosen.after)
      made.not_before.push_back({fmt::format("not before this is done: {}", first), ""});
    if (!chosen.risk.empty()) made.cautions.push_back({"", sentence(chosen.risk)});
    steps.push_back(std::move(made));
  }
}

}  // namespace

void on_the_bench(const Site& site, const Handling& handling, Steps& steps) {
  questions(site, steps);
  for (const auto& item : handling.on_bench) {
    auto made = step(Stage::bench,
                     fmt::format("Move the {} across{}.", item.piece, from_words(item.piece_from)),
                     kPieceMinutes);
    made.code = item.code;
    made.piece = item.piece;
    made.roles = item.roles;
    steps.push_back(std::move(made));
  }
  adaptations(site, steps);
  repins(site, steps);
}

}  // namespace benchgraft::steps
