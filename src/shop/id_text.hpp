// Ids inside the keys of structs: written as their 32 digits.
#pragma once

#include <optional>
#include <string>

#include "base/id.hpp"
#include "catalogue/read_keys.hpp"
#include "catalogue/writing.hpp"

namespace benchgraft::shop {

/// An id, or an optional one, written as its 32 digits.
template <class S>
struct IdText {
  S& id;
};
template <class S>
IdText<S> id_text(S& id) {
  return {id};
}

template <class Tag>
std::string value_text(const IdText<const Id<Tag>>& v) {
  return catalogue::quoted(to_text(v.id));
}
template <class Tag>
std::string value_text(const IdText<const std::optional<Id<Tag>>>& v) {
  return catalogue::quoted(to_text(*v.id));
}
template <class Tag>
bool is_said(const IdText<const Id<Tag>>& v, const catalogue::Demand&) {
  return !v.id.empty();
}
template <class Tag>
bool is_said(const IdText<const std::optional<Id<Tag>>>& v, const catalogue::Demand&) {
  return v.id.has_value();
}
template <class Tag>
void read_value(catalogue::Reading& r, const catalogue::TomlNode& node, std::string_view key,
                IdText<Id<Tag>> out, const catalogue::Demand&) {
  auto id = id_from_text<Tag>(node.text);
  if (!id) return r.wrong(node, key, "must be 32 digits of 0-9 and a-f in quotes");
  out.id = id.value();
}
template <class Tag>
void read_value(catalogue::Reading& r, const catalogue::TomlNode& node, std::string_view key,
                IdText<std::optional<Id<Tag>>> out, const catalogue::Demand& demand) {
  Id<Tag> id;
  read_value(r, node, key, IdText<Id<Tag>>{id}, demand);
  out.id = id;
}

}  // namespace benchgraft::shop
