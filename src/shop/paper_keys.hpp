// The keys of the shop's TOML files in which things are named by code.
#pragma once

#include "catalogue/keys_knowledge.hpp"
#include "shop/keys_shop.hpp"
#include "shop/rows.hpp"

namespace benchgraft::shop {

struct ChangesPaper {
  std::vector<PartChanges> parts;
};
struct RebuildsPaper {
  std::vector<RebuildOnPaper> rebuilds;
};

}  // namespace benchgraft::shop

namespace benchgraft::catalogue {

template <>
struct Thing<shop::PartChanges> {
  static constexpr std::string_view kCalled = "part";
};
template <>
struct Thing<shop::PartInRebuild> {
  static constexpr std::string_view kCalled = "part of a rebuild";
};
template <>
struct Thing<shop::RebuildOnPaper> {
  static constexpr std::string_view kCalled = "rebuild";
};
template <>
struct Thing<shop::ChangesPaper> {
  static constexpr std::string_view kCalled = "file of changes";
};
template <>
struct Thing<shop::RebuildsPaper> {
  static constexpr std::string_view kCalled = "file of rebuilds";
};

}  // namespace benchgraft::catalogue

namespace benchgraft::shop {

template <class V, Of<PartChanges> S>
void each_key(V& v, S& s) {
  v.key("part", s.part, kMust);
  v.key("change", s.changes, kSections);
}

template <class V, Of<PartInRebuild> S>
void each_key(V& v, S& s) {
  v.key("position", s.position, kMust);
  v.key("part", s.part, kMust);
}

template <class V, Of<RebuildOnPaper> S>
void each_key(V& v, S& s) {
  v.key("id", id_text(s.id));
  v.key("name", s.name, kMust);
  v.key("host", s.host, kMust);
  v.key("parts", s.parts);
  v.key("state", s.state, kMust);
  v.key("started", catalogue::loose(s.started));
  v.key("finished", catalogue::loose(s.finished));
  v.key("work_minutes", s.work_minutes, kNotNegative);
  v.key("note", s.note, kSentence);
}

template <class V, Of<ChangesPaper> S>
void each_key(V& v, S& s) {
  v.key("part", s.parts, kSections);
}

template <class V, Of<RebuildsPaper> S>
void each_key(V& v, S& s) {
  v.key("rebuild", s.rebuilds, kSections);
}

}  // namespace benchgraft::shop
