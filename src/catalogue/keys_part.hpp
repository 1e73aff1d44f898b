// The keys of part types, ports and changes: each listed once, for reading, checking and writing.
// size: a straight-line table, one line a key
#pragma once

#include "catalogue/demand.hpp"
#include "catalogue/part_type.hpp"

namespace benchgraft::catalogue {

template <>
struct Thing<Contact> {
  static constexpr std::string_view kCalled = "contact";
};
template <>
struct Thing<Connector> {
  static constexpr std::string_view kCalled = "connector";
};
template <>
struct Thing<Port> {
  static constexpr std::string_view kCalled = "port";
};
template <>
struct Thing<Wire> {
  static constexpr std::string_view kCalled = "wire";
};
template <>
struct Thing<TraitValue> {
  static constexpr std::string_view kCalled = "trait value";
};
template <>
struct Thing<MainsSide> {
  static constexpr std::string_view kCalled = "mains side";
};
template <>
struct Thing<Shape> {
  static constexpr std::string_view kCalled = "shape";
};
template <>
struct Thing<Piece> {
  static constexpr std::string_view kCalled = "piece";
};
template <>
struct Thing<Fellow> {
  static constexpr std::string_view kCalled = "fellow";
};
template <>
struct Thing<Rail> {
  static constexpr std::string_view kCalled = "rail";
};
template <>
struct Thing<Counter> {
  static constexpr std::string_view kCalled = "counter";
};
template <>
struct Thing<EngineOptics> {
  static constexpr std::string_view kCalled = "light path";
};
template <>
struct Thing<PartType> {
  static constexpr std::string_view kCalled = "part type";
};
template <>
struct Thing<Change> {
  static constexpr std::string_view kCalled = "change";
};

template <class V, Of<Contact> S>
void each_key(V& v, S& s) {
  v.key("n", loose(s.number), kMust);
  v.key("signal", s.signal);
  v.key("class", words(s.net_class, kNetClassWords));
  v.key("domain", words(s.domain, kDomainWords));
  v.key("volts", s.volts);
  v.key("amps", s.amps, kNotNegative);
  v.key("direction", words(s.direction, kDirectionWords));
  v.key("drive", words(s.drive, kDriveWords));
  v.key("pull_up", s.pull_up);
  v.key("active", words(s.active, kLevelWords));
  v.key("idle", words(s.idle, kLevelWords));
  v.key("logic_volts", s.logic_volts, kNotNegative);
  v.key("hertz", s.hertz, kNotNegative);
  v.key("protocol", s.protocol);
  v.key("waits_s", s.waits_s, kNotNegative);
  v.key("rail", s.rail);
  v.key("mark", s.mark);
  v.key("colour", s.colour);
  v.key("note", s.note, kSentence);
}

template <class V, Of<Connector> S>
void each_key(V& v, S& s) {
  v.key("family", s.family);
  v.key("pitch_mm", s.pitch_mm, kPositive);
  v.key("ways", s.ways, kAtLeastOne);
  v.key("gaps", s.gaps, kAtLeastOne);
  v.key("half", words(s.half, kHalfWords));
  v.key("key", s.key);
  v.key("one_at", words(s.one_at, kOneAtWords));
  v.key("ribbon_side", words(s.ribbon_side, kRibbonSideWords));
}

template <class V, Of<Port> S>
void each_key(V& v, S& s) {
  v.key("port", s.name, kMust);
  v.key("to", s.to);
  v.key("carries", s.carries);
  v.key("connector", s.connector);
  v.key("contacts", s.contacts);
  v.key("edge", words(s.edge, kEdgeWords));
  v.key("lead_mm", s.lead_mm, kNotNegative);
  v.key("known", words(s.known, kSourceWords));
  v.key("note", s.note, kSentence);
}

template <class V, Of<Wire> S>
void each_key(V& v, S& s) {
  v.key("from", joined(s.from_end, s.from_contact, '.', "END.CONTACT", true), kMust);
  v.key("to", joined(s.to_end, s.to_contact, '.', "END.CONTACT", true), kMust);
  v.key("colour", s.colour);
  v.key("area_mm2", s.area_mm2, kPositive);
}

template <class V, Of<Piece> S>
void each_key(V& v, S& s) {
  v.key("piece", s.name, kMust);
  v.key("kind", s.kind);
  v.key("after", s.after);
}

template <class V, Of<TraitValue> S>
void each_key(V& v, S& s) {
  v.key("trait", s.trait, kMust);
  v.key("words", s.words);
  v.key("number", s.number);
}

template <class V, Of<MainsSide> S>
void each_key(V& v, S& s) {
  v.key("amps", s.amps, kNotNegative);
  v.key("polarised", s.polarised);
  v.key("cord_anchored", s.cord_anchored);
  v.key("switch_in", words(s.switch_in, kPoleWords));
  v.key("fuse_in", words(s.fuse_in, kPoleWords));
  v.key("fuse_amps", s.fuse_amps, kPositive);
  v.key("fuse_standard", words(s.fuse_standard, kFuseStandardWords));
  v.key("fuse_speed", words(s.fuse_speed, kFuseSpeedWords));
  v.key("creepage_mm", s.creepage_mm, kNotNegative);
  v.key("clearance_mm", s.clearance_mm, kNotNegative);
}

template <class V, Of<Shape> S>
void each_key(V& v, S& s) {
  v.key("size_mm", s.size_mm, kPositive);
  v.key("under_mm", s.under_mm, kNotNegative);
  v.key("holes", s.holes);
  v.key("socket_panel", s.socket_panel);
}

template <class V, Of<Fellow> S>
void each_key(V& v, S& s) {
  v.key("role", s.role, kMust);
  v.key("types", s.types, kMust);
  v.key("why", s.why, kSentence);
  v.key("safety", s.safety);
}

template <class V, Of<Rail> S>
void each_key(V& v, S& s) {
  v.key("rail", s.name, kMust);
  v.key("volts", s.volts);
  v.key("amps", s.amps, kNotNegative);
  v.key("least_amps", s.least_amps, kNotNegative);
}

template <class V, Of<Counter> S>
void each_key(V& v, S& s) {
  v.key("counter", s.name, kMust);
  v.key("speaks_of", s.speaks_of);
}

template <class V, Of<EngineOptics> S>
void each_key(V& v, S& s) {
  v.key("lens", s.lens);
  v.key("mount", words(s.mount, kMountWords));
  v.key("throw_ratio", s.throw_ratio, kPositive);
  v.key("lumens", s.lumens, kNotNegative);
}

template <class V, Of<PartType> S>
void each_key(V& v, S& s) {
  v.key("part_type", s.name, kMust);
  v.key("revision", s.revision);
  v.key("maker", s.maker);
  v.key("kind", s.kind, kMust);
  v.key("roles", s.roles, kMust);
  v.key("mount", s.mount);
  v.key("carries", s.carries);
  v.key("needs", s.needs);
  v.key("rail", s.rails);
  v.key("wire", s.wires);
  v.key("length_mm", s.length_mm, kNotNegative);
  v.key("provides", s.provides);
  v.key("stores", s.stores);
  v.key("counter", s.counters);
  v.key("fellow", s.fellows);
  v.key("has", s.has);
  v.key("takes", s.takes);
  v.key("memory_of", s.memory_of);
  v.key("wipes_memory", s.wipes_memory);
  v.key("sticker", s.sticker);
  v.key("service_menu", s.service_menu, kSentence);
  v.key("optics", s.optics);
  v.key("flip_default", words(s.flip_default, kFlipWords));
  v.key("lamp_watts", s.lamp_watts, kPositive);
  v.key("lamp_volts", s.lamp_volts, kNotNegative);
  v.key("mains", s.mains);
  v.key("shape", s.shape);
  v.key("protection", words(s.protection, kProtectionWords));
  v.key("inlet_wires", s.inlet_wires, Demand{.low = 2, .high = 3});
  v.key("mains_volts", s.mains_volts, kNotNegative);
  v.key("y_nf", s.y_nf, kNotNegative);
  v.key("fan_radius_mm", s.fan_radius_mm, kPositive);
  v.key("mass_kg", s.mass_kg, kNotNegative);
  v.key("hazards", s.hazards);
  v.key("substances", s.substances);
  v.key("price_minor", s.price, kNotNegative);
  v.key("delivery_days", s.delivery_days, kNotNegative);
  v.key("salvage_minor", s.salvage, kNotNegative);
  v.key("note", s.note, kSentence);
  v.key("port", s.ports, kSections);
}

template <class V, Of<Change> S>
void each_key(V& v, S& s) {
  v.key("change", words(s.sort, kChangeSortWords), kMust);
  v.key("port", s.port);
  v.key("from", loose(s.from));
  v.key("to", loose(s.to));
  v.key("piece", s.piece);
  v.key("piece_kind", s.piece_kind);
  v.key("setting", s.setting);
  v.key("contact", s.contact);
  v.key("now", s.now);
  v.key("lead_mm", s.lead_mm, kNotNegative);
  v.key("note", s.note, kSentence);
}

}  // namespace benchgraft::catalogue
