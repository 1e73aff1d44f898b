// Rows of one .csv file meeting the sets or parts that are here: which row is which thing.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "shop/columns.hpp"
#include "shop/rows.hpp"

namespace benchgraft::shop {

/// Same id: that thing. No id: the thing with the code. Neither: a thing of which the row says
/// nothing new, else a new one. Codes of new things may stay empty: they are drawn when all rows
/// are known.
template <class T>
class RowMerge {
 public:
  RowMerge(std::vector<T>& things, const std::vector<Column<T>>& columns, const char* sort)
      : things_(things), columns_(columns), sort_(sort), here_(things.size()) {
    for (std::size_t i = 0; i < here_; ++i) {
      by_id_.emplace(record_of(things_[i]).id, i);
      by_code_.emplace(record_of(things_[i]).code, i);
    }
  }

  std::map<std::string, std::string> renamed;  ///< old code -> new code
  std::map<std::size_t, Where> named_at;       ///< thing -> the row that speaks of it

  /// `settle(row, before, after)` is called with each thing before and after the cells were taken.
  template <class Settle>
  Result<void> take(const std::vector<Row>& rows, const RandomBits& random, Settle settle) {
    std::vector<std::optional<std::size_t>> targets;
    for (const auto& row : rows) {
      auto target = named_target(row);
      if (!target) return target.error();
      targets.push_back(target.value());
      if (!target.value()) continue;
      const auto [first, fresh] = named_at.emplace(*target.value(), row.where);
      if (!fresh) return doubled(row, record_of(things_[*target.value()]).code, first->second);
    }
    for (std::size_t r = 0; r < rows.size(); ++r) {
      if (!targets[r]) targets[r] = unnamed_target(rows[r]);
      const bool fresh = !targets[r];
      const std::size_t at = targets[r].value_or(things_.size());
      if (fresh) things_.emplace_back();
      named_at[at] = rows[r].where;
      const T before = things_[at];
      take_cells(rows[r], things_[at]);
      settle(rows[r], before, things_[at]);
      auto& record = record_of(things_[at]);
      if (record.id.empty()) record.id = {{random(), random()}};
      if (!fresh && record.code != record_of(before).code)
        renamed[record_of(before).code] = record.code;
    }
    return {};
  }

 private:
  using IdOf = decltype(record_of(std::declval<T&>()).id);

  static bool names_the_thing(const std::string& column) {
    return column == "id" || column == "code";
  }

  // An empty cell for id or code names nothing; every other empty cell empties the field.
  void take_cells(const Row& row, T& thing) const {
    for (std::size_t k = 0; k < columns_.size(); ++k) {
      if (!row.cells[k] || (row.cells[k]->empty() && names_the_thing(columns_[k].name))) continue;
      columns_[k].read(*row.cells[k], thing);
    }
  }

  Error conflict(const Row& row, const std::string& sentence) const {
    return {ErrorKind::conflict, place_of(row.where) + sentence};
  }

  Error doubled(const Row& row, const std::string& name, const Where& first) const {
    return conflict(row, fmt::format("{} {} stands in {}, line {} too; keep one of the two rows.",
                                     sort_, name, first.file, first.line));
  }

  // The thing that the row names by id or code, or nothing; fails when it names two.
  Result<std::optional<std::size_t>> named_target(const Row& row) {
    T scratch{};
    take_cells(row, scratch);
    const auto& said = record_of(scratch);
    for (const auto& name : {said.id.empty() ? "" : to_text(said.id), said.code}) {
      if (name.empty()) continue;
      const auto [first, fresh] = spoken_.emplace(name, row.where);
      if (!fresh) return doubled(row, name, first->second);
    }
    const auto id = by_id_.find(said.id);
    const auto code = by_code_.find(said.code);
    const bool id_here = id != by_id_.end(), code_here = code != by_code_.end();
    if (said.id.empty()) {
      if (code_here) return std::optional(code->second);
      return std::optional<std::size_t>{};
    }
    if (code_here && (!id_here || id->second != code->second))
      return conflict(
          row, fmt::format("code {} is already on the {} with id {}, not {}; give one of them "
                           "another code.",
                           said.code, sort_, to_text(record_of(things_[code->second]).id),
                           to_text(said.id)));
    return id_here ? std::optional(id->second) : std::nullopt;
  }

  // What the columns of `row` say about `thing`, as one text.
  std::string said_by(const Row& row, const T& thing) const {
    std::string text;
    for (std::size_t k = 0; k < columns_.size(); ++k)
      if (row.cells[k] && !names_the_thing(columns_[k].name))
        text += columns_[k].write(thing) + '\x1f';
    return text;
  }

  std::optional<std::size_t> unnamed_target(const Row& row) {
    T scratch{};
    take_cells(row, scratch);
    if (!record_of(scratch).id.empty() || !record_of(scratch).code.empty()) return std::nullopt;
    std::string columns;
    for (const auto& cell : row.cells) columns += cell ? '1' : '0';
    const auto [like, fresh] = alike_.try_emplace(columns);
    if (fresh)
      for (std::size_t i = here_; i-- > 0;) like->second[said_by(row, things_[i])].push_back(i);
    auto& found = like->second[said_by(row, scratch)];
    while (!found.empty()) {
      const std::size_t at = found.back();
      found.pop_back();
      if (!named_at.contains(at)) return at;
    }
    return std::nullopt;
  }

  std::vector<T>& things_;
  const std::vector<Column<T>>& columns_;
  const char* sort_;
  std::size_t here_;
  std::map<std::decay_t<IdOf>, std::size_t> by_id_;
  std::map<std::string, std::size_t> by_code_;
  std::map<std::string, Where> spoken_;  ///< ids and codes named by rows
  std::map<std::string, std::map<std::string, std::vector<std::size_t>>> alike_;
};

}  // namespace benchgraft::shop
