// Random small sets of two generations, for properties that must hold on every catalogue.
#pragma once

#include "catalogue/catalogue.hpp"
#include "catalogue/rebuild_text.hpp"
#include "support/fit_random.hpp"

namespace benchgraft::fit_sets {

/// Two models "Tern 40" and "Wren 40" of three to five parts each, one family a model, and a
/// rebuild that puts one or two parts of the second into the first.
struct Sets {
  catalogue::Family kinds, first, second;
  catalogue::RebuildText rebuild;
};

/// `holes`: one fact in this many is not recorded (0 = everything is).
Sets random_sets(fit_random::Dice& dice, std::size_t holes);

catalogue::Catalogue catalogue_of(const Sets& sets);

}  // namespace benchgraft::fit_sets
