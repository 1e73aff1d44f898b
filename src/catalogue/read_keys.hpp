// Fills structs from a TOML tree by walking their each_key() lists.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "catalogue/reading.hpp"

namespace benchgraft::catalogue {

/// The names of all keys of a struct, in their order.
class KeyNames {
 public:
  template <class F>
  void key(std::string_view name, F&&, const Demand& = {}) {
    names.emplace_back(name);
  }
  std::vector<std::string> names;
};

template <class T>
const std::vector<std::string>& key_names() {
  static const std::vector<std::string> kNames = [] {
    KeyNames keys;
    T nothing{};
    each_key(keys, nothing);
    return std::move(keys.names);
  }();
  return kNames;
}

template <Keyed T>
void read_value(Reading& r, const TomlNode& node, std::string_view key, T& out, const Demand& d);

template <class E, class List>
void read_value(Reading& r, const TomlNode& node, std::string_view key, Worded<E, List> out,
                const Demand&) {
  if (node.sort == TomlNode::Sort::text)
    for (const auto& [value, word] : out.list)
      if (node.text == word) {
        out.value = value;
        return;
      }
  std::vector<std::string> known;
  known.reserve(out.list.size());
  for (const auto& [value, word] : out.list) known.emplace_back(word);
  r.not_a_word(node, key, known);
}

template <class L, class S>
void read_value(Reading& r, const TomlNode& node, std::string_view key, OrName<L, S> out,
                const Demand& d) {
  out.list.clear();
  read_value(r, node, key, out.list, d);
  if (out.list.empty()) out.list = {out.name};
}

template <class T>
void read_value(Reading& r, const TomlNode& node, std::string_view key, std::optional<T>& out,
                const Demand& d) {
  T value{};
  read_value(r, node, key, value, d);
  // An empty text says nothing, so it is left unknown.
  if constexpr (std::same_as<T, std::string>)
    if (value.empty()) return;
  if (!r.failed()) out = std::move(value);
}

template <class T>
void read_value(Reading& r, const TomlNode& node, std::string_view key, std::vector<T>& out,
                const Demand& d) {
  if (node.sort != TomlNode::Sort::list)
    return r.wrong(node, key, "must be a list [ ... ], also when it has one entry");
  if (d.must && node.list.empty()) return r.wrong(node, key, "must name at least one");
  out.reserve(node.list.size());
  Demand each = d;
  each.must = true;
  for (const auto& one : node.list) {
    T value{};
    read_value(r, one, key, value, each);
    if (r.failed()) return;
    out.push_back(std::move(value));
  }
}

/// Visits the keys of one table and fills the fields they belong to.
class TableReading {
 public:
  TableReading(Reading& reading, const TomlNode& table, std::string_view thing)
      : reading_(reading), table_(table), thing_(thing) {}

  template <class F>
  void key(std::string_view name, F&& field, const Demand& demand = {}) {
    if (reading_.failed()) return;
    if (const TomlEntry* entry = table_.find(name))
      read_value(reading_, entry->value, name, std::forward<F>(field), demand);
    else if (demand.must)
      reading_.missing(table_, thing_, name);
    else if constexpr (requires {
                         field.list;
                         field.name;
                       })
      field.list = {field.name};
  }

 private:
  Reading& reading_;
  const TomlNode& table_;
  std::string_view thing_;
};

template <Keyed T>
void read_value(Reading& r, const TomlNode& node, std::string_view key, T& out, const Demand&) {
  if (node.sort != TomlNode::Sort::table)
    return r.wrong(node, key, "must be a table { key = value, ... }");
  r.refuse_unknown(node, Thing<T>::kCalled, key_names<T>());
  if constexpr (requires { out.where; }) out.where = {r.file(), node.line};
  TableReading keys(r, node, Thing<T>::kCalled);
  each_key(keys, out);
}

}  // namespace benchgraft::catalogue
