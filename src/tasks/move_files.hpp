// Takes text files into the shop, and writes the shop out as text files.
#pragma once

#include <string>
#include <vector>

#include "tasks/knowledge.hpp"
#include "tasks/shop_at.hpp"

namespace benchgraft::tasks {

/// What came in, counted.
struct Imported {
  Recorded recorded;
  shop::Count sets, parts, notes, rebuilds, wishes, families;
  bool terms_changed = false;
  std::vector<std::string> rebuild_files;  ///< seen and left alone: they are judged, not imported
};

/// Everything of `paths` or nothing. Makes the shop when it is not there.
/// fails: a file that is wrong (file, line, value, mend); a catalogue that would not hold together.
Result<Imported> import_paths(const ShopAt& at, const Knowledge& knowledge,
                              const std::vector<std::string>& paths);

/// Writes FOLDER/shop/... and FOLDER/catalogue/...; importing FOLDER gives the same shop again.
/// out: the files written.
Result<std::vector<std::string>> export_folder(const ShopAt& at, const std::string& folder);

}  // namespace benchgraft::tasks
