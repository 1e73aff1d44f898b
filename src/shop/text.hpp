// The shop as text files for people: export, import. Format: docs/formats/shop.md.
#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <vector>

#include "base/id.hpp"
#include "base/result.hpp"
#include "catalogue/catalogue.hpp"
#include "shop/edits.hpp"

namespace benchgraft::shop {

inline constexpr std::size_t kLargestCsv = 64U << 20U;  ///< bytes

/// A file already read.
struct NamedText {
  std::string path;
  std::string bytes;
  bool operator==(const NamedText&) const = default;
};

/// The shop as files of one folder: shop.toml, sets.csv, parts.csv, and changes.toml, notes.toml,
/// rebuilds.toml, wishes.csv when there is something to say. `path` is the bare file name.
std::vector<NamedText> export_texts(const Shop& shop);

struct ShopRows;  ///< rows as read, with their places; see rows.hpp

/// Files sorted by what they hold, each checked alone.
struct Bundle {
  std::vector<catalogue::Family> families;
  std::shared_ptr<const ShopRows> rows;
  std::vector<std::string> rebuilds;  ///< paths of rebuild files: they are judged, not imported
};

/// Fails with file, line, column, value and mend on the first thing that is wrong.
Result<Bundle> sort_texts(const std::vector<NamedText>& texts);

struct Count {
  std::size_t made = 0, changed = 0, same = 0;
  bool operator==(const Count&) const = default;
};

struct Merged {
  Records after;
  Count sets, parts, notes, rebuilds, wishes, families;
  bool terms_changed = false;
};

/// `here` with everything of `bundle` in it. Same id: updated; without id: matched by code.
/// Fails when a code is already on another thing, and on whatever would contradict itself.
Result<Merged> merge(const Records& here, const Bundle& bundle, const RandomBits& random);

}  // namespace benchgraft::shop
