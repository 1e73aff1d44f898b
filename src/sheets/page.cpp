#include "sheets/page.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace benchgraft::sheets {

std::string minutes_text(double minutes) {
  const auto whole = static_cast<long>(std::llround(std::max(0.0, minutes)));
  if (whole < 60) return fmt::format("{} min", whole);
  if (whole % 60 == 0) return fmt::format("{} h", whole / 60);
  return fmt::format("{} h {} min", whole / 60, whole % 60);
}

std::string percent_text(double share) {
  const double percent = 100 * std::clamp(share, 0.0, 1.0);
  if (percent > 0 && percent < 1) return "under 1 %";
  if (percent < 100 && percent > 99) return "over 99 %";
  return fmt::format("{} %", static_cast<long>(std::llround(percent)));
}

}  // namespace benchgraft::sheets
