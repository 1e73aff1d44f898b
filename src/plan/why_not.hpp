// Why a set is not built, in one sentence.
#pragma once

#include <string>

#include "plan/room.hpp"

namespace benchgraft::plan {

/// "Nothing here fits as its screen.", "The best way to build it would lose 12.30 EUR.", ...
std::string why_not_built(const Ground& ground, const RoomOfNumbers& room, int host);

/// 1234 minor units as "12.34 EUR".
std::string money_words(double minor, const std::string& currency);

}  // namespace benchgraft::plan
