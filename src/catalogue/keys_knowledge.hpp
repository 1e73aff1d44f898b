// The keys of adaptations, settings, swap notes, families and rebuilds: each listed once.
// size: a straight-line table, one line a key
#pragma once

#include "catalogue/catalogue.hpp"
#include "catalogue/keys_model.hpp"
#include "catalogue/keys_part.hpp"
#include "catalogue/rebuild_text.hpp"

namespace benchgraft::catalogue {

/// What stands in a file that holds one swap note, or the changes of one part, alone.
struct SwapNoteFile {
  std::vector<SwapNote> notes;
};
struct ChangesFile {
  std::vector<Change> changes;
};

template <>
struct Thing<Cure> {
  static constexpr std::string_view kCalled = "cure";
};
template <>
struct Thing<Adaptation> {
  static constexpr std::string_view kCalled = "adaptation";
};
template <>
struct Thing<JudgedWord> {
  static constexpr std::string_view kCalled = "word";
};
template <>
struct Thing<Observer> {
  static constexpr std::string_view kCalled = "observer";
};
template <>
struct Thing<Setting> {
  static constexpr std::string_view kCalled = "setting";
};
template <>
struct Thing<PlugNote> {
  static constexpr std::string_view kCalled = "plugged entry";
};
template <>
struct Thing<DidNote> {
  static constexpr std::string_view kCalled = "did entry";
};
template <>
struct Thing<FoundNote> {
  static constexpr std::string_view kCalled = "found entry";
};
template <>
struct Thing<SwapNote> {
  static constexpr std::string_view kCalled = "swap note";
};
template <>
struct Thing<ProposedPart> {
  static constexpr std::string_view kCalled = "part of a rebuild";
};
template <>
struct Thing<RebuildText> {
  static constexpr std::string_view kCalled = "rebuild file";
};
template <>
struct Thing<Family> {
  static constexpr std::string_view kCalled = "family file";
};
template <>
struct Thing<SwapNoteFile> {
  static constexpr std::string_view kCalled = "swap note file";
};
template <>
struct Thing<ChangesFile> {
  static constexpr std::string_view kCalled = "list of changes";
};

template <class V, Of<Cure> S>
void each_key(V& v, S& s) {
  v.key("rule", s.rule);
  v.key("type", s.type);
  v.key("port", s.port);
  v.key("signal", s.signal);
  v.key("role", s.role);
}

template <class V, Of<Adaptation> S>
void each_key(V& v, S& s) {
  v.key("adaptation", s.name, kMust);
  v.key("cures", s.cures);
  v.key("steps", s.steps, kSentence);
  v.key("work_minutes", s.work_minutes, kNotNegative);
  v.key("waiting_minutes", s.waiting_minutes, kNotNegative);
  v.key("material_minor", s.material, kNotNegative);
  v.key("risk", s.risk, kSentence);
  v.key("needs", s.needs);
  v.key("excludes", s.excludes);
  v.key("brings", s.brings);
  v.key("lost", s.lost);
  v.key("note", s.note, kSentence);
}

template <class V, Of<JudgedWord> S>
void each_key(V& v, S& s) {
  v.key("word", s.word, kMust);
  v.key("means", words(s.means, kMeaningWords), kMust);
}

template <class V, Of<Observer> S>
void each_key(V& v, S& s) {
  v.key("observer", s.name, kMust);
  v.key("shows", s.shows, kSentence);
  v.key("response", words(s.response, kResponseWords), kMust);
  v.key("words", s.words);
  v.key("unit", s.unit);
  v.key("best", words(s.best, kBestWords));
  v.key("uneven", s.uneven);
  v.key("wanted", s.wanted);
  v.key("error", s.error, kPositive);
  v.key("error_share", s.error_share, kPositive);
  v.key("tolerance", s.tolerance, kPositive);
  v.key("usual_width", s.usual_width, kPositive);
  v.key("pattern", s.pattern);
  v.key("source", s.source, kSentence);
}

template <class V, Of<Setting> S>
void each_key(V& v, S& s) {
  v.key("setting", s.name, kMust);
  v.key("depends_on", s.depends_on);
  v.key("stored_in", s.stored_in);
  v.key("found_by", s.found_by, kSentence);
  v.key("range", s.range);
  v.key("step", s.step, kPositive);
  v.key("unit", s.unit);
  v.key("degrees_per_step", s.degrees_per_step);
  v.key("work_minutes", s.work_minutes, kNotNegative);
  v.key("waiting_minutes", s.waiting_minutes, kNotNegative);
  v.key("after", s.after);
  v.key("reached_with", s.reached_with);
  v.key("flip", s.flip);
  v.key("note", s.note, kSentence);
  v.key("observer", s.observers, kSections);
}

template <class V, Of<PlugNote> S>
void each_key(V& v, S& s) {
  v.key("moved", joined(s.moved, s.port, ':', "REF:port", false), kMust);
  v.key("to", joined(s.to, s.socket, ':', "REF:socket", false), kMust);
  v.key("result", words(s.result, kPlugResultWords), kMust);
}

template <class V, Of<DidNote> S>
void each_key(V& v, S& s) {
  v.key("what", s.what, kMustSentence);
  v.key("cures", s.cures);
  v.key("work_minutes", s.work_minutes, kNotNegative);
}

template <class V, Of<FoundNote> S>
void each_key(V& v, S& s) {
  v.key("setting", s.setting, kMust);
  v.key("value", loose(s.value), kMust);
}

template <class V, Of<SwapNote> S>
void each_key(V& v, S& s) {
  v.key("swap_note", s.name, kMust);
  v.key("into", s.into, kMust);
  v.key("from", s.from);
  v.key("moved", s.moved);
  v.key("stayed", s.stayed);
  v.key("plugged", s.plugged);
  v.key("did", s.did);
  v.key("brought", s.brought);
  v.key("saw", words(s.saw, kSeenWords));
  v.key("saw_also", s.saw_also, kSentence);
  v.key("lost", s.lost);
  v.key("found", s.found);
  v.key("work_minutes", s.work_minutes, kNotNegative);
  v.key("result", words(s.result, kSwapResultWords), kMust);
  v.key("parts_known_good", s.parts_known_good);
  v.key("came_back", s.came_back);
  v.key("by", s.by);
  v.key("date", loose(s.date));
  v.key("note", s.note, kSentence);
}

template <class V, Of<ProposedPart> S>
void each_key(V& v, S& s) {
  v.key("place", s.place, kMust);
  v.key("type", s.type);
  v.key("candidates", s.candidates);
  v.key("from", s.from);
  v.key("run_hours", s.run_hours, kNotNegative);
  v.key("known_good", s.known_good);
  v.key("empty", s.empty);
  v.key("revision", loose(s.revision));
  v.key("ports", s.ports);
  v.key("without_ports", s.without_ports);
  v.key("can", s.can);
  v.key("cannot", s.cannot);
  v.key("signs", s.signs);
  v.key("change", s.changes);
}

template <class V, Of<RebuildText> S>
void each_key(V& v, S& s) {
  v.key("rebuild", s.name, kMust);
  v.key("model", s.model);
  v.key("kind", s.kind);
  v.key("variant", s.variant);
  v.key("missing", s.missing);
  v.key("note", s.note, kSentence);
  v.key("part", s.parts, kSections);
  v.key("seen", s.seen, kSections);
}

template <class V, Of<Family> S>
void each_key(V& v, S& s) {
  v.key("family", s.name, kMust);
  v.key("note", s.note, kSentence);
  v.key("part_type", s.part_types, kSections);
  v.key("model", s.models, kSections);
  v.key("adaptation", s.adaptations, kSections);
  v.key("setting", s.settings, kSections);
  v.key("swap_note", s.notes, kSections);
  v.key("set_kind", s.set_kinds, kSections);
  v.key("part_kind", s.part_kinds, kSections);
  v.key("touch_limit", s.limits, kSections);
  v.key("trait", s.traits, kSections);
  v.key("prior", s.priors, kSections);
}

template <class V, Of<SwapNoteFile> S>
void each_key(V& v, S& s) {
  v.key("swap_note", s.notes, kSections);
}

template <class V, Of<ChangesFile> S>
void each_key(V& v, S& s) {
  v.key("change", s.changes, kSections);
}

}  // namespace benchgraft::catalogue
