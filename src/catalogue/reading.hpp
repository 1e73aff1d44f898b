// Fills structs from a TOML tree by walking their each_key() lists; keeps the first fault.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "catalogue/keys_knowledge.hpp"
#include "catalogue/toml_tree.hpp"

namespace benchgraft::catalogue {

/// One file being read. After the first fault every further step does nothing.
class Reading {
 public:
  explicit Reading(const std::string& file) : file_(file) {}

  [[nodiscard]] const std::string& file() const { return file_; }
  [[nodiscard]] bool failed() const { return error_.has_value(); }
  [[nodiscard]] const Error& error() const { return *error_; }

  void fault(int line, const std::string& sentence);
  /// `key = value must be ...`
  void wrong(const TomlNode& node, std::string_view key, std::string_view must);
  void not_a_word(const TomlNode& node, std::string_view key,
                  const std::vector<std::string>& known);
  void missing(const TomlNode& table, std::string_view thing, std::string_view key);
  /// Faults the first key of `table` that is not in `known`.
  void refuse_unknown(const TomlNode& table, std::string_view thing,
                      const std::vector<std::string>& known);

 private:
  const std::string& file_;
  std::optional<Error> error_;
};

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

void read_value(Reading& r, const TomlNode& node, std::string_view key, std::string& out,
                const Demand& d);
void read_value(Reading& r, const TomlNode& node, std::string_view key, bool& out, const Demand& d);
void read_value(Reading& r, const TomlNode& node, std::string_view key, double& out,
                const Demand& d);
void read_value(Reading& r, const TomlNode& node, std::string_view key, int& out, const Demand& d);
void read_value(Reading& r, const TomlNode& node, std::string_view key, Money& out,
                const Demand& d);
void read_value(Reading& r, const TomlNode& node, std::string_view key, Range& out,
                const Demand& d);
void read_value(Reading& r, const TomlNode& node, std::string_view key, Point& out,
                const Demand& d);
void read_value(Reading& r, const TomlNode& node, std::string_view key, Loose<std::string> out,
                const Demand& d);
void read_value(Reading& r, const TomlNode& node, std::string_view key, Joined<std::string> out,
                const Demand& d);
void read_value(Reading& r, const TomlNode& node, std::string_view key,
                std::map<std::string, std::string>& out, const Demand& d);

template <Keyed T>
void read_value(Reading& r, const TomlNode& node, std::string_view key, T& out, const Demand& d);

template <class T>
struct IsOptional : std::false_type {};
template <class T>
struct IsOptional<std::optional<T>> : std::true_type {};

template <class E, class List>
void read_value(Reading& r, const TomlNode& node, std::string_view key, Worded<E, List> out,
                const Demand&) {
  std::vector<std::string> known;
  for (const auto& [value, word] : out.list) {
    if (node.sort == TomlNode::Sort::text && node.text == word) {
      out.value = value;
      return;
    }
    known.emplace_back(word);
  }
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
    else if constexpr (requires { field.list = {field.name}; })
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
