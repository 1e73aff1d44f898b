// Changes what the shop calculates with.
#pragma once

#include <optional>
#include <string>

#include "tasks/shop_at.hpp"

namespace benchgraft::tasks {

/// What a person says; a field left out stays as it is.
struct TermsWords {
  std::optional<std::string> currency, touch_profile;
  std::optional<double> per_hour;  ///< in whole units of the currency
  std::optional<double> hours;     ///< to plan for; 0 = as many as it takes
  std::optional<double> mains_volts, mains_hz;
};

Result<Recorded> set_terms(const ShopAt& at, const TermsWords& words);

}  // namespace benchgraft::tasks
