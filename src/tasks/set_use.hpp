// Takes in a set, and corrects what is on record about one.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "tasks/shop_at.hpp"

namespace benchgraft::tasks {

/// What a person says about a set; a field left out is not known, or stays as it is.
struct SetWords {
  std::optional<std::string> owner, kind, model, variant, complaint, place, taken_in, note;
  std::optional<std::string> consent;  ///< "may strip", "must go back"
  std::optional<std::string> looks;    ///< "good", "fair", "poor"
  std::optional<std::string> fate;     ///< "here", "rebuilt", "stripped", "gone"
  std::vector<std::string> candidates, missing;
};

/// in: `code` may be empty, then one is made.
Result<Recorded> take_in_set(const ShopAt& at, const std::string& code, const SetWords& words);
/// Only what is given changes; empty lists are left alone.
Result<Recorded> change_set(const ShopAt& at, const std::string& code, const SetWords& words);

}  // namespace benchgraft::tasks
