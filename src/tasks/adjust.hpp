// Adjusting a setting from a few readings said in words or read as numbers.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "tasks/answer.hpp"
#include "tasks/knowledge.hpp"
#include "tasks/shop_at.hpp"

namespace benchgraft::tasks {

/// What was typed.
struct AdjustWords {
  std::string setting;
  std::string observer;               ///< "" = the first of the setting, or none of it with a wheel
  std::vector<std::string> readings;  ///< "40=purplish", "40=3.2", "40=red:orange,blue:violet"
  std::optional<double> low, high, step, start;
  std::string wheel;  ///< "RGBRGB": reckon with the wheel itself
  std::optional<double> turns_per_second, degrees_per_step;
  std::vector<std::string> parts;  ///< the two parts it hangs on: begin where it ended before
};

/// With a shop its families and notes are known too.
/// fails: a setting, observer or word nobody recorded; a reading that is not VALUE=READING; what
/// align::estimate and align::estimate_wheel refuse.
Result<Answer> adjust(const ShopAt& at, const Knowledge& knowledge, const AdjustWords& words);

}  // namespace benchgraft::tasks
