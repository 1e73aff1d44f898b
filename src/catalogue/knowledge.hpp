// What technicians know beyond pins: adaptations, settings, swap notes, touch limits.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/units.hpp"
#include "catalogue/observer.hpp"
#include "catalogue/part_type.hpp"

namespace benchgraft::catalogue {

/// Which finding an adaptation makes good. Empty fields match anything.
struct Cure {
  std::string rule;    ///< "rail high", "missing reply", ...
  std::string type;    ///< reference of one of the two part types
  std::string port;    ///< a port of that type
  std::string signal;  ///< signal of the contact, or name of the piece
  std::string role;
  bool operator==(const Cure&) const = default;
};

struct Adaptation {
  std::string name;
  std::vector<Cure> cures;
  std::vector<std::string> steps;
  std::optional<double> work_minutes;
  std::optional<double> waiting_minutes;
  std::optional<Money> material;
  std::string risk;
  std::vector<std::string> needs;     ///< other adaptations that must be done too
  std::vector<std::string> excludes;  ///< adaptations that cannot be done as well
  std::vector<std::string> brings;    ///< parts or pieces to have on the bench
  std::vector<std::string> lost;      ///< capabilities it costs
  std::string note;
  Where where;
  bool operator==(const Adaptation&) const = default;
};

/// A service adjustment: whose values hang on which parts, and who keeps it.
struct Setting {
  std::string name;                     ///< "wheel index"
  std::vector<std::string> depends_on;  ///< roles
  std::string stored_in;                ///< role, where no part type says that it stores it
  std::string found_by;                 ///< one plain sentence
  std::optional<Range> range;
  std::optional<double> step;
  std::string unit;                        ///< of the value; "" = steps
  std::optional<double> degrees_per_step;  ///< of wheel turn, where the value delays the wheel
  std::optional<double> work_minutes;
  std::optional<double> waiting_minutes;
  std::vector<std::string> after;         ///< settings that come first
  std::vector<std::string> reached_with;  ///< roles, any of which opens it: remote control, keys
  bool flip = false;                      ///< this is the picture flip
  std::string note;
  std::vector<Observer> observers;
  Where where;
  bool operator==(const Setting&) const = default;
};

struct PlugNote {
  std::string moved, port;  ///< part type reference and its port
  std::string to, socket;   ///< the other part type and its port
  PlugResult result = PlugResult::straight_in;
  bool operator==(const PlugNote&) const = default;
};

struct DidNote {
  std::string what;
  std::string cures;  ///< rule, when known
  std::optional<double> work_minutes;
  bool operator==(const DidNote&) const = default;
};

struct FoundNote {
  std::string setting;
  std::string value;
  bool operator==(const FoundNote&) const = default;
};

/// Half a minute of writing after a swap; the first source of knowledge.
struct SwapNote {
  std::string name;                 ///< unique in the catalogue
  std::string into;                 ///< model, or model/variant
  std::string from;                 ///< model, or model/variant; "" = loose part
  std::vector<std::string> moved;   ///< references
  std::vector<std::string> stayed;  ///< references
  std::vector<PlugNote> plugged;
  std::vector<DidNote> did;
  std::vector<std::string> brought;
  Seen saw = Seen::not_written;
  std::string saw_also;
  std::vector<std::string> lost;
  std::vector<FoundNote> found;
  std::optional<double> work_minutes;
  SwapResult result = SwapResult::works;
  std::optional<bool> parts_known_good;
  std::optional<bool> came_back;
  std::string by, date;  ///< date as 2026-05-31
  std::string note;
  Where where;
  bool operator==(const SwapNote&) const = default;
};

/// Where the chance of a rebuild starts from before any swap note speaks: so many that worked and
/// failed, by verdict.
struct Prior {
  std::string verdict;
  double worked = 0;
  double failed = 0;
  std::string source;
  Where where;
  bool operator==(const Prior&) const = default;
};

/// A touch-current limit, never used without its profile and edition.
struct TouchLimit {
  std::string profile, edition, test;
  Protection protection = Protection::unknown;
  double milliamps = 0;
  std::string source;
  Where where;
  bool operator==(const TouchLimit&) const = default;
};

}  // namespace benchgraft::catalogue
