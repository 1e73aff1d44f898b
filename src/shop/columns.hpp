// The columns of sets.csv, parts.csv and wishes.csv: each named once, with how a cell is read and
// written.
#pragma once

#include <string>
#include <vector>

#include "shop/shop.hpp"

namespace benchgraft::shop {

/// A part as paper names it: the set it is in by code.
struct PartOnPaper {
  Part part;
  std::string in_set;
  bool operator==(const PartOnPaper&) const = default;
};

inline Set& record_of(Set& set) { return set; }
inline Part& record_of(PartOnPaper& paper) { return paper.part; }
inline const Set& record_of(const Set& set) { return set; }
inline const Part& record_of(const PartOnPaper& paper) { return paper.part; }

template <class T>
struct Column {
  const char* name;
  std::string (*write)(const T& thing);
  /// Returns what is wrong with `cell` and the mend, or "". Cells come trimmed.
  std::string (*read)(const std::string& cell, T& thing);
};

const std::vector<Column<Set>>& set_columns();
const std::vector<Column<PartOnPaper>>& part_columns();
const std::vector<Column<Wish>>& wish_columns();

}  // namespace benchgraft::shop
