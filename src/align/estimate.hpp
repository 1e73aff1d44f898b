// From a few readings to the right value of a setting, how sure it is, and where to look next.
//
// One method for every setting (docs/methods/align.md): what each observer would see is a response
// model; the readings weigh every centre and shape on a grid; all answers are read off that belief.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "align/posterior.hpp"

namespace benchgraft::align {

/// How likely one value of the setting would do.
struct Chance {
  double value = 0;
  double chance = 0;
};

struct Estimate {
  double value = 0;                      ///< the one to set, on a step
  catalogue::Range interval;             ///< holds the best value nine times in ten
  std::optional<catalogue::Range> band;  ///< every value in it does, nine times in ten
  double chance = 0;                     ///< that `value` would do
  bool settled = false;                  ///< sure enough to stop
  double next = 0;                       ///< the value whose reading would tell most
  std::optional<Slope> slope;            ///< of a line: change of the reading for one unit
  std::vector<std::string> remarks;      ///< readings that contradict the others, a range too short
  std::vector<Chance> curve;             ///< over the range, for drawing
};

/// fails: scale_of, observer_of, check_readings say how. cost: under 5 ms.
Result<Estimate> estimate(const Question& question);

/// One reading of the asked observer, as far as the answers need it.
struct Look {
  double value = 0;  ///< of the setting
  bool good = false;
  std::string said;
};

/// The answers that `belief` holds about the asked observer. in: `looks` in the order in which
/// `asked` took them; `seen`: enough was seen to settle.
Estimate read_off(const ResponseModel& asked, const Belief& belief, const Scale& scale,
                  const std::vector<Look>& looks, bool seen);

/// The value whose reading is expected to tell most: largest mean shift of belief (in nats) over
/// what may be seen there.
double next_value(const ResponseModel& asked, const Belief& belief, const Scale& scale,
                  const std::vector<Look>& looks);

}  // namespace benchgraft::align
