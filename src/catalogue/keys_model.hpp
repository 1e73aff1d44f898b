// The keys of models, kinds and touch limits: each listed once, for reading, checking and writing.
// size: a straight-line table, one line a key
#pragma once

#include "catalogue/demand.hpp"
#include "catalogue/kind.hpp"
#include "catalogue/knowledge.hpp"
#include "catalogue/model.hpp"

namespace benchgraft::catalogue {

template <>
struct Thing<Position> {
  static constexpr std::string_view kCalled = "position";
};
template <>
struct Thing<Room> {
  static constexpr std::string_view kCalled = "room";
};
template <>
struct Thing<Trait> {
  static constexpr std::string_view kCalled = "trait";
};
template <>
struct Thing<Prior> {
  static constexpr std::string_view kCalled = "prior";
};
template <>
struct Thing<Variant> {
  static constexpr std::string_view kCalled = "variant";
};
template <>
struct Thing<ModelOptics> {
  static constexpr std::string_view kCalled = "cabinet light path";
};
template <>
struct Thing<Price> {
  static constexpr std::string_view kCalled = "price";
};
template <>
struct Thing<StatedLink> {
  static constexpr std::string_view kCalled = "link";
};
template <>
struct Thing<Model> {
  static constexpr std::string_view kCalled = "model";
};
template <>
struct Thing<KindRole> {
  static constexpr std::string_view kCalled = "role";
};
template <>
struct Thing<KindLink> {
  static constexpr std::string_view kCalled = "link";
};
template <>
struct Thing<Hazard> {
  static constexpr std::string_view kCalled = "hazard";
};
template <>
struct Thing<Surprise> {
  static constexpr std::string_view kCalled = "surprise";
};
template <>
struct Thing<SetKind> {
  static constexpr std::string_view kCalled = "set kind";
};
template <>
struct Thing<PartKind> {
  static constexpr std::string_view kCalled = "part kind";
};
template <>
struct Thing<TouchLimit> {
  static constexpr std::string_view kCalled = "touch limit";
};

/// The verdicts a prior may be given for.
inline constexpr std::array<std::pair<std::string_view, std::string_view>, 5> kPriorWords{
    {{"fits", "fits"},
     {"fits_with_work", "fits_with_work"},
     {"unknown", "unknown"},
     {"does_not_fit", "does_not_fit"},
     {"destroys", "destroys"}}};
inline constexpr std::array<std::pair<std::string_view, std::string_view>, 3> kLooksWords{
    {{"good", "good"}, {"fair", "fair"}, {"poor", "poor"}}};

template <class V, Of<Room> S>
void each_key(V& v, S& s) {
  v.key("size_mm", s.size_mm, kPositive);
  v.key("standoff_mm", s.standoff_mm, kNotNegative);
  v.key("standoffs", s.standoffs);
  v.key("socket_panels", s.socket_panels);
}

template <class V, Of<Position> S>
void each_key(V& v, S& s) {
  v.key("position", s.name, kMust);
  v.key("roles", or_name(s.roles, s.name));
  v.key("optional", s.optional);
  v.key("seats", s.seats);
  v.key("room", s.room);
  v.key("after", s.after);
  v.key("at_mm", s.at_mm);
  v.key("note", s.note, kSentence);
}

template <class V, Of<Variant> S>
void each_key(V& v, S& s) {
  v.key("variant", s.name, kMust);
  v.key("provides", s.provides);
  v.key("signs", s.signs);
  v.key("note", s.note, kSentence);
  v.key("parts", s.parts, kSections);
}

template <class V, Of<ModelOptics> S>
void each_key(V& v, S& s) {
  v.key("fold_mirrors", s.fold_mirrors, kNotNegative);
  v.key("mirror_normals", s.mirror_normals);
  v.key("beam", s.beam);
  v.key("beam_up", s.beam_up);
  v.key("seen_from_behind", s.seen_from_behind);
  v.key("mount", words(s.mount, kMountWords));
  v.key("diagonal_in", s.diagonal_in, kPositive);
  v.key("throw_mm", s.throw_mm, kPositive);
  v.key("width_mm", s.width_mm, kPositive);
}

template <class V, Of<Price> S>
void each_key(V& v, S& s) {
  v.key("needs", s.needs);
  v.key("looks", words(s.looks, kLooksWords));
  v.key("price_minor", s.price, kMustNotNegative);
}

template <class V, Of<StatedLink> S>
void each_key(V& v, S& s) {
  v.key("from", s.from, kMust);
  v.key("to", s.to, kMust);
}

template <class V, Of<Model> S>
void each_key(V& v, S& s) {
  v.key("model", s.name, kMust);
  v.key("maker", s.maker);
  v.key("kind", s.kind, kMust);
  v.key("protection", words(s.protection, kProtectionWords));
  v.key("mains_volts", s.mains_volts, kNotNegative);
  v.key("provides", s.provides);
  v.key("has", s.has);
  v.key("optics", s.optics);
  v.key("mass_kg", s.mass_kg, kNotNegative);
  v.key("hazards", s.hazards);
  v.key("price", s.prices);
  v.key("link", s.links);
  v.key("note", s.note, kSentence);
  v.key("position", s.positions, kSections);
  v.key("variant", s.variants, kSections);
}

template <class V, Of<KindRole> S>
void each_key(V& v, S& s) {
  v.key("role", s.role, kMust);
  v.key("optional", s.optional);
  v.key("out_minutes", s.out_minutes, kNotNegative);
  v.key("in_minutes", s.in_minutes, kNotNegative);
  v.key("after", s.after);
}

template <class V, Of<KindLink> S>
void each_key(V& v, S& s) {
  v.key("from", s.from, kMust);
  v.key("to", s.to, kMust);
  v.key("carries", s.carries);
}

template <class V, Of<Hazard> S>
void each_key(V& v, S& s) {
  v.key("hazard", s.name, kMust);
  v.key("caution", s.caution, kMustSentence);
  v.key("waiting_minutes", s.waiting_minutes, kNotNegative);
  v.key("roles", s.roles);
  v.key("source", s.source, kSentence);
}

template <class V, Of<Surprise> S>
void each_key(V& v, S& s) {
  v.key("changed", s.changed, kMust);
  v.key("look", s.look, kMustSentence);
  v.key("work_minutes", s.work_minutes, kNotNegative);
  v.key("chance", s.chance, kChance);
  v.key("source", s.source, kSentence);
}

template <class V, Of<SetKind> S>
void each_key(V& v, S& s) {
  v.key("set_kind", s.name, kMust);
  v.key("judged", s.judged, Demand{.usual = true});
  v.key("not_judged", s.not_judged, kSentence);
  v.key("rear", s.rear);
  v.key("open_minutes", s.open_minutes, kNotNegative);
  v.key("close_minutes", s.close_minutes, kNotNegative);
  v.key("role", s.roles);
  v.key("link", s.links);
  v.key("hazard", s.hazards);
  v.key("surprise", s.surprises);
  v.key("note", s.note, kSentence);
}

template <class V, Of<Trait> S>
void each_key(V& v, S& s) {
  v.key("trait", s.name, kMust);
  v.key("of", s.of, kMust);
  v.key("taken_by", s.taken_by);
  v.key("compare", words(s.compare, kTraitCompareWords), kMust);
  v.key("unit", s.unit);
  v.key("verdict", words(s.verdict, kTraitVerdictWords), kMust);
  v.key("says", s.says, kMustSentence);
  v.key("turned", s.turned, kSentence);
  v.key("mend", s.mend, kSentence);
  v.key("work_minutes", s.work_minutes, kNotNegative);
  v.key("safety", s.safety);
  v.key("ask", s.ask);
  v.key("how", s.how, kSentence);
  v.key("source", s.source, kSentence);
}

template <class V, Of<Prior> S>
void each_key(V& v, S& s) {
  v.key("prior", words(s.verdict, kPriorWords), kMust);
  v.key("worked", s.worked, kMustNotNegative);
  v.key("failed", s.failed, kMustNotNegative);
  v.key("source", s.source, kSentence);
}

template <class V, Of<PartKind> S>
void each_key(V& v, S& s) {
  v.key("part_kind", s.name, kMust);
  v.key("usual_roles", s.usual_roles);
  v.key("note", s.note, kSentence);
}

template <class V, Of<TouchLimit> S>
void each_key(V& v, S& s) {
  v.key("profile", s.profile, kMust);
  v.key("edition", s.edition, kMust);
  v.key("test", s.test, kMust);
  v.key("protection", words(s.protection, kProtectionWords));
  v.key("milliamps", s.milliamps, Demand{.must = true, .low = 0, .above = true});
  v.key("source", s.source, kSentence);
}

}  // namespace benchgraft::catalogue
