// What swap notes about this very pair bring: companions, losses, damage, evidence.
#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/rules.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::SwapNote;
using catalogue::SwapResult;

std::string without_full_stop(std::string text) {
  while (!text.empty() && text.back() == '.') text.pop_back();
  return text;
}

bool already_listed(const Judgement& out, const std::string& what) {
  return std::any_of(out.companions.begin(), out.companions.end(),
                     [&](const Companion& companion) { return companion.what == what; });
}

Reason& say(Findings& findings, const NoteMatch& match, Verdict verdict, const std::string& text,
            const std::string& subject) {
  Reason& reason =
      findings.add("swap note", RuleSort::pair, verdict, text, match.note->name + "|" + subject);
  reason.source = Source::verified;
  reason.roles = {match.moved->roles.front()};
  reason.types = {match.moved->type->reference()};
  reason.facts = {fact_of(*match.note)};
  reason.would_change =
      "Correcting the note, or recording the contacts that explain it, would change this.";
  return reason;
}

void bring(Findings& findings, const NoteMatch& match) {
  for (const auto& what : match.note->brought) {
    if (already_listed(findings.out, what)) continue;
    Reason& reason = say(
        findings, match, Verdict::fits_with_work,
        fmt::format("The {} had to come along in swap note \"{}\".", what, match.note->name), what);
    reason.work_minutes = 3;
    reason.signals = {what};
    findings.out.companions.push_back({what,
                                       "piece",
                                       match.moved->from,
                                       "a swap note says so",
                                       match.moved->roles.front(),
                                       {},
                                       std::nullopt,
                                       reason.code});
  }
}

void lose(Findings& findings, const NoteMatch& match) {
  for (const auto& what : match.note->lost) {
    auto& lost = findings.out.lost;
    if (std::find(lost.begin(), lost.end(), what) != lost.end()) continue;
    lost.push_back(what);
    say(findings, match, Verdict::fits,
        fmt::format("{} was lost in swap note \"{}\": tell the customer.", capitalised(what),
                    match.note->name),
        "lost|" + what);
  }
}

bool worked(const SwapNote& note) {
  return (note.result == SwapResult::works || note.result == SwapResult::works_with) &&
         note.came_back != true;
}

void did(Findings& findings, const NoteMatch& match) {
  if (!worked(*match.note)) return;
  for (const auto& done : match.note->did) {
    const std::string what = without_full_stop(done.what);
    OfferedWork offered;
    offered.work.name = what;
    offered.work.steps = {capitalised(what) + "."};
    offered.work.work_minutes = done.work_minutes.value_or(10);
    offered.work.where = match.note->where;
    if (!done.cures.empty())
      for (const auto& reason : findings.out.reasons)
        if (reason.rule == done.cures && !reason.safety &&
            std::find(reason.types.begin(), reason.types.end(), match.moved->type->reference()) !=
                reason.types.end())
          offered.work.codes.push_back(reason.code);
    if (!offered.work.codes.empty()) {
      findings.offered.push_back(std::move(offered));
      continue;
    }
    Reason& reason = say(findings, match, Verdict::fits_with_work,
                         fmt::format("Swap note \"{}\" also did this: {}.", match.note->name, what),
                         "did|" + what);
    reason.work_minutes = done.work_minutes.value_or(0);
  }
}

// A finding that would have destroyed and that this very part has a share in.
Reason* explanation(Findings& findings, const NoteMatch& match) {
  for (auto& reason : findings.out.reasons)
    if (reason.before == Verdict::destroys && reason.rule != "swap note" &&
        contains(reason.types, match.moved->type->reference()))
      return &reason;
  return nullptr;
}

void heed_result(Findings& findings, const NoteMatch& match) {
  const auto& note = *match.note;
  Reason* explained = note.result == SwapResult::damaged ? explanation(findings, match) : nullptr;
  if (explained) {
    explained->facts.push_back(fact_of(note));
    explained->says += fmt::format(" Swap note \"{}\" with this part ended in damage.", note.name);
  }
  if (note.result == SwapResult::damaged && !explained) {
    Reason& reason = say(
        findings, match, Verdict::destroys,
        fmt::format(
            "Swap note \"{}\" ended in damage, and the recorded contacts do not explain it yet{}.",
            note.name, note.saw_also.empty() ? "" : ": " + note.saw_also),
        "damaged");
    reason.safety = true;
  } else if (note.result == SwapResult::failed) {
    say(findings, match, note.parts_known_good == true ? Verdict::unknown : Verdict::fits,
        fmt::format(
            "Swap note \"{}\" failed{}.", note.name,
            note.parts_known_good == true
                ? " with parts known good: find out why"
                : "; the parts were not known good, so the part is suspected, not the pair"),
        "failed");
    if (note.parts_known_good == true)
      findings.ask(fmt::format("Why did swap note \"{}\" fail with good parts?", note.name),
                   match.moved->type->reference(), "swap note", match.moved->roles.front());
  } else if (note.came_back == true) {
    say(findings, match, Verdict::fits,
        fmt::format("The set of swap note \"{}\" came back.", note.name), "back");
  }
}

}  // namespace

void judge_swap_notes(Findings& findings, const std::vector<NoteMatch>& notes) {
  std::vector<const SwapNote*> heeded;
  for (const auto& match : notes) {
    if (match.by_family || std::find(heeded.begin(), heeded.end(), match.note) != heeded.end())
      continue;
    heeded.push_back(match.note);
    bring(findings, match);
    lose(findings, match);
    did(findings, match);
    heed_result(findings, match);
  }
}

}  // namespace benchgraft::fit
