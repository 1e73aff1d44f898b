// What was read from the shop's text files, before it meets the shop: codes are not looked up yet.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "catalogue/toml_tree.hpp"
#include "shop/shop.hpp"

namespace benchgraft::shop {

inline std::string place_of(const Where& where) { return catalogue::place(where.file, where.line); }

/// One row of a .csv file; `cells` in the order of the columns list, nothing where a column is
/// absent.
struct Row {
  Where where;
  std::vector<std::optional<std::string>> cells;
};

/// The changes of one part, by code.
struct PartChanges {
  std::string part;
  std::vector<catalogue::Change> changes;
  Where where;
};

struct PartInRebuild {
  std::string position;
  std::string part;  ///< code
};

/// A rebuild record that names host and parts by code.
struct RebuildOnPaper {
  RecordId id;  ///< empty when not written
  std::string name;
  std::string host;
  std::vector<PartInRebuild> parts;
  std::string state;
  std::string started, finished;
  std::optional<double> work_minutes;
  std::string note;
  Where where;
};

/// Terms as a tree: only the keys that are written change anything.
struct TermsOnPaper {
  catalogue::TomlNode keys;
  std::string file;
};

struct ShopRows {
  std::vector<Row> sets, parts, wishes;
  std::vector<PartChanges> changes;
  std::vector<catalogue::SwapNote> notes;
  std::vector<RebuildOnPaper> rebuilds;
  std::vector<TermsOnPaper> terms;
};

}  // namespace benchgraft::shop
