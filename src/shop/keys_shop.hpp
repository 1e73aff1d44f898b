// The keys of sets, parts, rebuild records, wishes and terms: each listed once, for reading,
// checking, comparing and writing. This is the form with ids that the journal keeps.
#pragma once

#include "catalogue/read_keys.hpp"
#include "catalogue/writing.hpp"
#include "shop/id_text.hpp"
#include "shop/shop.hpp"
#include "shop/words.hpp"

namespace benchgraft::shop {

using catalogue::kChance;
using catalogue::kMust;
using catalogue::kNotNegative;
using catalogue::kPositive;
using catalogue::kSections;
using catalogue::kSentence;
using catalogue::Of;
using catalogue::words;

}  // namespace benchgraft::shop

namespace benchgraft::catalogue {

template <>
struct Thing<shop::Set> {
  static constexpr std::string_view kCalled = "set";
};
template <>
struct Thing<shop::Part> {
  static constexpr std::string_view kCalled = "part";
};
template <>
struct Thing<shop::RecordedPart> {
  static constexpr std::string_view kCalled = "part of a rebuild";
};
template <>
struct Thing<shop::RebuildRecord> {
  static constexpr std::string_view kCalled = "rebuild";
};
template <>
struct Thing<shop::Wish> {
  static constexpr std::string_view kCalled = "wish";
};
template <>
struct Thing<shop::Terms> {
  static constexpr std::string_view kCalled = "shop file";
};

}  // namespace benchgraft::catalogue

namespace benchgraft::shop {

template <class V, Of<Set> S>
void each_key(V& v, S& s) {
  v.key("id", id_text(s.id), kMust);
  v.key("code", s.code, kMust);
  v.key("owner", s.owner);
  v.key("consent", words(s.consent, kConsentWords));
  v.key("kind", s.kind);
  v.key("model", s.model);
  v.key("variant", s.variant);
  v.key("candidates", s.candidates);
  v.key("looks", words(s.looks, kLooksWords));
  v.key("missing", s.missing);
  v.key("complaint", s.complaint, kSentence);
  v.key("place", s.place);
  v.key("taken_in", s.taken_in);
  v.key("fate", words(s.fate, kFateWords));
  v.key("note", s.note, kSentence);
}

template <class V, Of<Part> S>
void each_key(V& v, S& s) {
  v.key("id", id_text(s.id), kMust);
  v.key("code", s.code, kMust);
  v.key("type", s.type);
  v.key("candidates", s.candidates);
  v.key("roles", s.roles);
  v.key("state", words(s.state, kStateWords));
  v.key("tested_how", s.tested_how, kSentence);
  v.key("tested_in", s.tested_in);
  v.key("tested_on", s.tested_on);
  v.key("run_hours", s.run_hours, kNotNegative);
  v.key("chance", s.chance, kChance);
  v.key("in_set", id_text(s.in_set));
  v.key("position", s.position);
  v.key("place", s.place);
  v.key("from", s.from);
  v.key("note", s.note, kSentence);
  v.key("change", s.changes, kSections);
}

template <class V, Of<RecordedPart> S>
void each_key(V& v, S& s) {
  v.key("position", s.position, kMust);
  v.key("part", id_text(s.part), kMust);
}

template <class V, Of<RebuildRecord> S>
void each_key(V& v, S& s) {
  v.key("id", id_text(s.id), kMust);
  v.key("name", s.name, kMust);
  v.key("host", id_text(s.host), kMust);
  v.key("parts", s.parts);
  v.key("state", s.state, kMust);
  v.key("started", s.started);
  v.key("finished", s.finished);
  v.key("work_minutes", s.work_minutes, kNotNegative);
  v.key("note", s.note, kSentence);
}

template <class V, Of<Wish> S>
void each_key(V& v, S& s) {
  v.key("id", id_text(s.id), kMust);
  v.key("wish", words(s.sort, kWishWords), kMust);
  v.key("set", s.set);
  v.key("part", s.part);
  v.key("note", s.note, kSentence);
}

template <class V, Of<Terms> S>
void each_key(V& v, S& s) {
  v.key("currency", s.currency);
  v.key("per_hour_minor", s.per_hour, kNotNegative);
  v.key("hours", s.hours, kNotNegative);
  v.key("mains_volts", s.mains_volts, kPositive);
  v.key("mains_hz", s.mains_hz, kPositive);
  v.key("touch_profile", s.touch_profile);
  v.key("chance_untested", s.chance_untested, kChance);
  v.key("chance_good", s.chance_good, kChance);
  v.key("chance_suspect", s.chance_suspect, kChance);
  v.key("note", s.note, kSentence);
}

}  // namespace benchgraft::shop
