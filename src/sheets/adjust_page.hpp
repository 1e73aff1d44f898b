// The answer to "adjust": the value to set, how sure it is, and where to look next.
#pragma once

#include <string>
#include <vector>

#include "align/estimate.hpp"
#include "align/wheel_setting.hpp"
#include "sheets/page.hpp"

namespace benchgraft::sheets {

/// What an adjustment was asked with, for the page.
struct Adjusted {
  std::string setting;
  std::string unit;                   ///< of the value; "" = steps
  std::string looked_at;              ///< what to put on the screen, and where to look
  std::vector<std::string> readings;  ///< "40: purplish", as given
  align::Estimate estimate;
  const align::WheelEstimate* wheel = nullptr;  ///< where the wheel itself was reckoned with
  std::string before;  ///< what was found with the same two parts; "" = not asked
};

Page adjust_page(const Adjusted& adjusted);
std::string adjust_json(const Adjusted& adjusted);

}  // namespace benchgraft::sheets
