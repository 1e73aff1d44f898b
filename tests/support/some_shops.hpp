// Occasions that repeat, and random shops without a contradiction.
#pragma once

#include <cstdint>
#include <string>

#include <rapidcheck.h>

#include "shop/commands.hpp"

namespace benchgraft::support {

/// Random bits that come out the same for the same seed.
RandomBits repeatable(std::uint64_t seed);

/// 31 May 2026, by "kim".
shop::Occasion at_the_bench(std::uint64_t seed = 1);

/// A shop that holds everything: sets, parts in and out of them, changes, notes, rebuilds, wishes,
/// terms; its texts are full of quotes, commas, bars, line breaks and letters from everywhere.
rc::Gen<shop::Shop> any_shop();

/// One line without blanks at its ends; may be empty.
std::string any_name();

}  // namespace benchgraft::support
