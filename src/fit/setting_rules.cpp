// Whole rules: settings that now sit on another board than they were found with, and counters that
// will lie.
#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/rules.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Setting;

// Who keeps the value: the part type that says so, else whatever fills the setting's role.
const Place* keeper_of(const Assembly& set, const Setting& setting, bool& sure) {
  for (const auto& place : set.places)
    if (place.type && !place.empty && place.type->stores &&
        contains(*place.type->stores, setting.name)) {
      sure = true;
      return &place;
    }
  const Place* by_role = set.filling(setting.stored_in);
  sure = by_role && by_role->type && by_role->type->stores.has_value();
  return by_role;
}

std::string value_from_notes(const std::vector<NoteMatch>& notes, const std::string& setting,
                             const catalogue::SwapNote*& said) {
  for (const auto& match : notes)
    for (const auto& found : match.note->found)
      if (found.setting == setting && !match.by_family) {
        said = match.note;
        return found.value;
      }
  return {};
}

// Places that fill the roles a setting depends on, each once.
std::vector<const Place*> dependents(const Assembly& set, const Setting& setting) {
  std::vector<const Place*> parts;
  for (const auto& role : setting.depends_on) {
    const Place* place = set.filling(role);
    if (place && std::find(parts.begin(), parts.end(), place) == parts.end())
      parts.push_back(place);
  }
  return parts;
}

class SettingJudge {
 public:
  SettingJudge(Findings& findings, const std::vector<NoteMatch>& notes)
      : findings_(findings), notes_(notes) {}

  void run(const Setting& setting) {
    const auto parts = dependents(findings_.set, setting);
    bool sure = false;
    const Place* keeper = keeper_of(findings_.set, setting, sure);
    if (!keeper || parts.empty()) return;
    const bool touched = keeper->changed || std::any_of(parts.begin(), parts.end(),
                                                        [](const Place* p) { return p->changed; });
    if (setting.flip) return do_flip(setting, *keeper, touched);
    const bool all_here =
        std::all_of(setting.depends_on.begin(), setting.depends_on.end(),
                    [&](const auto& role) { return findings_.set.filling(role); });
    if (all_here && after_a_toggled_flip(setting))
      return record(setting, "check", *keeper, "the flip is toggled, which can swap its order");
    if (overwritten(*keeper, setting.name))
      return record(setting, "redo", *keeper,
                    fmt::format("the memory of {} was changed", called(*keeper)));
    if (!touched) return;
    if (!sure) return do_unsure(setting, *keeper);
    const bool together = std::all_of(parts.begin(), parts.end(), [&](const Place* p) {
      return p->origin() == keeper->origin();
    });
    if (together && keeper->same_make) return;  // like for like: the values come with the part
    if (together && keeper->changed)
      return record(setting, "travels", *keeper,
                    fmt::format("its value is stored on {}, which comes with the parts it was "
                                "found for; redo it if that "
                                "part stays behind",
                                keeper->type->reference()));
    record(setting, "redo", *keeper,
           fmt::format("its value on {} was found with other parts", called(*keeper)));
  }

 private:
  static std::string called(const Place& place) {
    return place.type ? place.type->reference() : "the " + place.position;
  }

  static bool overwritten(const Place& keeper, const std::string& setting) {
    return contains(keeper.memory_changed, setting) || contains(keeper.memory_changed, "");
  }

  bool after_a_toggled_flip(const Setting& setting) const {
    const auto& turn = findings_.out.orientation;
    if (!turn.known || turn.toggle == catalogue::Flip{}) return false;
    return std::any_of(setting.after.begin(), setting.after.end(), [&](const std::string& name) {
      const auto* first = findings_.known.setting(name);
      return first && first->flip;
    });
  }

  void do_flip(const Setting& setting, const Place& keeper, bool touched) {
    const auto& turn = findings_.out.orientation;
    if (!touched || (turn.known && turn.toggle == catalogue::Flip{})) return;
    if (!turn.known && findings_.out.orientation.says.empty() && !orientation_asked()) return;
    record(setting, turn.known ? "set" : "check", keeper,
           turn.known ? turn.says
                      : "which way round the picture comes up is not known before first power");
    if (!turn.known) return;
    findings_.out.settings.back().predicted = turn.toggle.h && turn.toggle.v
                                                  ? "toggle left-right and upside-down"
                                              : turn.toggle.h ? "toggle left-right"
                                                              : "toggle upside-down";
  }

  bool orientation_asked() const {
    return std::any_of(findings_.out.reasons.begin(), findings_.out.reasons.end(),
                       [](const Reason& r) { return r.rule == "orientation"; });
  }

  void do_unsure(const Setting& setting, const Place& keeper) {
    findings_.ask(fmt::format("Which settings does {} keep in its memory?", called(keeper)),
                  called(keeper), "stores", keeper.roles.front());
    record(setting, "check", keeper, "which part keeps its value is not recorded");
  }

  void record(const Setting& setting, const std::string& action, const Place& keeper,
              const std::string& why) {
    SettingToDo todo;
    todo.name = setting.name;
    todo.action = action;
    todo.why = why;
    todo.found_by = setting.found_by;
    const bool work = action != "travels";
    todo.work_minutes = work ? setting.work_minutes.value_or(10) : 0;
    todo.waiting_minutes = work ? setting.waiting_minutes.value_or(0) : 0;
    const catalogue::SwapNote* said = nullptr;
    if (work) todo.predicted = value_from_notes(notes_, setting.name, said);
    if (!setting.flip)
      todo.code = say(setting, action, keeper, why, said, todo.predicted);
    else
      todo.code = findings_.out.orientation.code;
    findings_.out.settings.push_back(std::move(todo));
  }

  std::string say(const Setting& setting, const std::string& action, const Place& keeper,
                  const std::string& why, const catalogue::SwapNote* said,
                  const std::string& value) {
    std::string text = fmt::format("{}: {}; {}.", capitalised(setting.name), action, why);
    if (said) text += fmt::format(" Try {} first (swap note \"{}\").", value, said->name);
    Reason& reason = findings_.add("setting elsewhere", RuleSort::whole,
                                   action == "travels" ? Verdict::fits : Verdict::fits_with_work,
                                   text, setting.name);
    reason.roles = {keeper.roles.front()};
    reason.signals = {setting.name};
    reason.work_minutes = 0;  // counted with the setting itself
    reason.facts = {
        {fmt::format("setting {} depends on {}", setting.name, listed(setting.depends_on)),
         setting.where}};
    if (keeper.type) reason.facts.push_back(fact_of(*keeper.type, "keeps " + setting.name));
    if (said) reason.facts.push_back(fact_of(*said));
    if (said) reason.source = Source::verified;
    reason.would_change = "Another record of which part stores it would change this.";
    return reason.code;
  }

  Findings& findings_;
  const std::vector<NoteMatch>& notes_;
};

void judge_counter(Findings& findings, const Place& holder, const catalogue::Counter& counter) {
  const Place* subject = findings.set.filling(counter.speaks_of);
  if (!subject || subject == &holder) return;
  const bool apart = (holder.changed || subject->changed) && holder.origin() != subject->origin();
  if (!apart) return;
  CounterToKnow lie;
  lie.name = counter.name;
  lie.speaks_of = counter.speaks_of;
  if (!holder.changed && subject->own_hours) lie.shows = number(*subject->own_hours) + " h";
  if (subject->run_hours)
    lie.truth = number(*subject->run_hours) + " h";
  else if (!subject->changed && subject->own_hours)
    lie.truth = number(*subject->own_hours) + " h";
  const std::string whose = holder.changed ? "the set " + holder.type->reference() + " comes from"
                                           : "the old " + counter.speaks_of;
  lie.says = fmt::format("{} on {} speaks of {}{}; the true hours of the {} are {}.",
                         capitalised(counter.name), holder.type->reference(), whose,
                         lie.shows.empty() ? "" : " (" + lie.shows + ")", counter.speaks_of,
                         lie.truth.empty() ? "not known" : lie.truth);
  Reason& reason = findings.add("counter lies", RuleSort::whole, Verdict::fits_with_work, lie.says,
                                holder.type->reference() + "|" + counter.name);
  reason.work_minutes = 3;
  reason.roles = {holder.roles.front(), counter.speaks_of};
  reason.types = {holder.type->reference()};
  reason.signals = {counter.name};
  reason.facts = {fact_of(*holder.type, "counts " + counter.name)};
  reason.would_change =
      "The counter and what it counts coming from the same set would change this.";
  lie.code = reason.code;
  findings.out.counters.push_back(std::move(lie));
}

}  // namespace

void judge_settings(Findings& findings, const std::vector<NoteMatch>& notes) {
  SettingJudge judge(findings, notes);
  for (const auto* setting : findings.known.settings()) judge.run(*setting);
}

void judge_counters(Findings& findings) {
  for (const auto& place : findings.set.places) {
    if (!place.type || place.empty) continue;
    if (place.type->counters) {
      for (const auto& counter : *place.type->counters) judge_counter(findings, place, counter);
    } else if (differs(place) && place.was && place.was->counters &&
               !place.was->counters->empty()) {
      findings.ask(fmt::format("Does {} count hours, and of what?", place.type->reference()),
                   place.type->reference(), "counter", place.roles.front());
    }
  }
}

}  // namespace benchgraft::fit
