// Why a set is not built, in one sentence.
#pragma once

#include <string>

#include "plan/room.hpp"

namespace benchgraft::plan {

struct WhyNot {
  std::string text;          ///< "Nothing here fits as its screen.", ...
  bool could_alone = false;  ///< it can be built when nothing else is
};
/// `proven`: the plan it is left out of is known to be the best.
WhyNot why_not_built(const Ground& ground, const RoomOfNumbers& room, int host, bool proven);

/// 1234 minor units as "12.34 EUR".
std::string money_words(double minor, const std::string& currency);

}  // namespace benchgraft::plan
