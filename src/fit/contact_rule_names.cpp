// The names of the contact rules as reasons and cures use them.
#include "base/ensure.hpp"
#include "fit/contact_rules.hpp"

namespace benchgraft::fit {

// size: a straight-line table
const char* rule_name(ContactRule rule) {
  switch (rule) {
    case ContactRule::domain_clash:
      return "domain clash";
    case ContactRule::class_clash:
      return "class clash";
    case ContactRule::over_voltage:
      return "over voltage";
    case ContactRule::rail_low:
      return "rail low";
    case ContactRule::rail_overload:
      return "rail overload";
    case ContactRule::level_clash:
      return "level clash";
    case ContactRule::drive_clash:
      return "drive clash";
    case ContactRule::direction_clash:
      return "direction clash";
    case ContactRule::protocol_clash:
      return "protocol clash";
    case ContactRule::rate_clash:
      return "rate clash";
    case ContactRule::missing_reply:
      return "missing reply";
    case ContactRule::crossed_signals:
      return "crossed signals";
    case ContactRule::nothing_feeds_it:
      return "nothing feeds it";
    case ContactRule::earth_lost:
      return "earth path";
    case ContactRule::safety_loop_open:
      return "safety loop open";
    case ContactRule::string_current:
      return "string current";
    case ContactRule::string_volts:
      return "string volts";
    case ContactRule::sensor_curve:
      return "sensor curve";
    case ContactRule::empty_contact:
      return "empty contact";
    case ContactRule::no_return:
      return "no return";
    case ContactRule::not_recorded:
      return "not recorded";
  }
  return "";
}

}  // namespace benchgraft::fit
