#include <nlohmann/json.hpp>

#include "sheets/adjust_page.hpp"

namespace benchgraft::sheets {
namespace {

using Json = nlohmann::ordered_json;

Json range_json(const catalogue::Range& range) { return Json::array({range.low, range.high}); }

std::string fault_token(align::WheelFault fault) {
  switch (fault) {
    case align::WheelFault::none:
      return "none";
    case align::WheelFault::late:
      return "late";
    case align::WheelFault::early:
      return "early";
    case align::WheelFault::segments_off:
      return "segments_off";
    case align::WheelFault::exchanged:
      return "exchanged";
    case align::WheelFault::unclear:
      break;
  }
  return "unclear";
}

Json wheel_json(const align::WheelEstimate& wheel) {
  Json json;
  json["fault"] = fault_token(wheel.last.fault);
  json["late_degrees"] = wheel.last.late;
  json["late_interval"] = range_json(wheel.last.interval);
  json["segments"] = wheel.last.segments;
  json["curable"] = wheel.last.curable;
  json["exchanged_chance"] = wheel.last.exchanged;
  json["says"] = wheel.last.sentence;
  json["degrees_per_step"] = wheel.degrees_per_unit.per_unit;
  json["degrees_per_step_error"] = wheel.degrees_per_unit.error;
  json["microseconds_per_step"] = wheel.microseconds_per_unit;
  return json;
}

}  // namespace

std::string adjust_json(const Adjusted& adjusted) {
  const auto& found = adjusted.estimate;
  Json json;
  json["setting"] = adjusted.setting;
  json["unit"] = adjusted.unit;
  json["value"] = found.value;
  json["chance"] = found.chance;
  json["interval"] = range_json(found.interval);
  json["band"] = found.band ? range_json(*found.band) : Json();
  json["settled"] = found.settled;
  json["next"] = found.next;
  json["remarks"] = found.remarks;
  json["readings"] = adjusted.readings;
  json["found_before"] = adjusted.before;
  json["curve"] = Json::array();
  for (const auto& point : found.curve)
    json["curve"].push_back({{"value", point.value}, {"chance", point.chance}});
  json["wheel"] = adjusted.wheel == nullptr ? Json() : wheel_json(*adjusted.wheel);
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace benchgraft::sheets
