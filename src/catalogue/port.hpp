// A connector end of a part type and what runs on each of its contacts.
// Every field but the names may be missing; missing means unknown, never fine.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/source.hpp"
#include "catalogue/words.hpp"

namespace benchgraft::catalogue {

/// From `low` to `high`, both allowed. Volts unless said otherwise.
struct Range {
  double low = 0;
  double high = 0;
  bool operator==(const Range&) const = default;
};

struct Contact {
  std::string number;  ///< as counted from contact 1: "1", "2", ... (or a printed mark "A3")
  std::string signal;  ///< what it is for: "enable", "lit", "5 V", "tach"; "" = unknown
  NetClass net_class = NetClass::unknown;
  Domain domain = Domain::unknown;
  std::optional<Range>
      volts;  ///< supplied (out), or allowed (in). One number is kept as low == high
  std::optional<double> amps;  ///< at most supplied (out), or at most drawn (in)
  Direction direction = Direction::unknown;
  Drive drive = Drive::unknown;
  std::optional<bool> pull_up;  ///< an input that pulls itself up
  Level active = Level::unknown;
  Level idle = Level::unknown;
  std::optional<double> logic_volts;
  std::optional<Range> hertz;  ///< pulse rate given (out), or allowed (in)
  std::string protocol;        ///< "serial 9600 8E1", "pulse", "lvds vesa"; "" = unknown
  std::optional<double>
      waits_s;         ///< an input that must be answered within this time, else it stops
  std::string rail;    ///< the rail of this part that feeds it
  std::string mark;    ///< printed terminal mark: "L", "N", "PE"
  std::string colour;  ///< of the conductor at it; never proves what it is
  std::string note;
  Where where;
  bool operator==(const Contact&) const = default;
};

/// The mechanical side: does one end go into the other, and which way round.
struct Connector {
  std::string family;  ///< "2.0 mm crimp", "flat ribbon 0.5 mm"; general-purpose families only
  std::optional<double> pitch_mm;
  std::optional<int> ways;
  std::optional<std::vector<int>> gaps;  ///< socket: pins taken out; plug: holes filled
  Half half = Half::unknown;
  std::string key;  ///< "latch", "rib", "none" (goes in both ways); "" = unknown
  OneAt one_at = OneAt::unknown;
  RibbonSide ribbon_side = RibbonSide::unknown;
  bool operator==(const Connector&) const = default;
};

struct Port {
  std::string name;     ///< as printed beside it, unique on its part type
  std::string to;       ///< the role it is meant for
  std::string carries;  ///< what the link is for: "lamp control", "rails"; tells two links apart
  Connector connector;
  std::optional<std::vector<Contact>> contacts;  ///< nothing = the pins are not recorded
  Edge edge = Edge::unknown;
  std::optional<double> lead_mm;   ///< length, when the port is a plug on a lead fixed to the part
  Source known = Source::derived;  ///< measured, or assumed; derived = recorded without saying how
  std::string note;
  Where where;
  bool operator==(const Port&) const = default;
};

/// A wire of a lead from one end's contact to another's.
struct Wire {
  std::string from_end, from_contact, to_end, to_contact;
  std::string colour;
  std::optional<double> area_mm2;
  Where where;
  bool operator==(const Wire&) const = default;
};

}  // namespace benchgraft::catalogue
