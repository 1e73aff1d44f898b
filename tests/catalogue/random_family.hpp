// Random families and rebuilds that hold every rule of the checks, for tests that write and read.
#pragma once

#include <cstdint>

#include "catalogue/catalogue.hpp"
#include "catalogue/rebuild_text.hpp"

namespace benchgraft::catalogue {

/// No list has more than `most` entries; the same seed gives the same family.
Family random_family(std::uint32_t seed, int most);
RebuildText random_rebuild(std::uint32_t seed, int most);

}  // namespace benchgraft::catalogue
