// Slow twin of the ways out: every set of offers in every place, each judged whole.
#pragma once

#include <string>
#include <vector>

#include "fit/ways_out.hpp"

namespace benchgraft::fit_ways_twin {

/// "put D-2 into display driver; measure": what a way consists of, without its price.
std::string told(const fit::Way& way);

/// The cheapest ways out of `rebuild`, whose places are named after their roles. Every offer goes
/// to the place of its type's first role. Cost: the product of (offers + 1) over the places.
std::vector<fit::Way> try_all(const catalogue::Catalogue& known,
                              const catalogue::RebuildText& rebuild,
                              const std::vector<fit::Offer>& offers, std::size_t most);

}  // namespace benchgraft::fit_ways_twin
