// What one step changed: each thing as it was before and as it is after.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "shop/shop.hpp"

namespace benchgraft::shop {

/// One family of the catalogue as its text.
struct FamilyText {
  std::string name;
  std::string text;
  bool operator==(const FamilyText&) const = default;
};

/// Everything that is recorded and journalled: the shop and the text of its catalogue.
struct Records {
  Shop shop;
  std::vector<FamilyText> families;
  bool operator==(const Records&) const = default;
};

/// `before` is empty for a new thing, `after` for one that was taken away.
template <class T>
struct Edit {
  std::optional<T> before, after;
  bool operator==(const Edit&) const = default;
};

struct Edits {
  std::vector<Edit<Set>> sets;
  std::vector<Edit<Part>> parts;
  std::vector<Edit<catalogue::SwapNote>> notes;
  std::vector<Edit<RebuildRecord>> rebuilds;
  std::vector<Edit<Wish>> wishes;
  std::vector<Edit<Terms>> terms;  ///< none or one
  std::vector<Edit<FamilyText>> families;

  bool operator==(const Edits&) const = default;
  [[nodiscard]] bool empty() const;
};

/// What has to change to get from `before` to `after`. Order alone is no difference.
Edits difference(const Records& before, const Records& after);

/// `records` with `edits` made. New things come last.
void apply(const Edits& edits, Records& records);

}  // namespace benchgraft::shop
