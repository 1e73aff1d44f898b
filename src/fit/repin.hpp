// Fewest contact moves that make a plug right, or the wires of a crossover lead.
// Never for mains, bus, ignition, earth, interlock or thermal loops: those move as whole leads.
#pragma once

#include <optional>
#include <vector>

#include "fit/contact_rules.hpp"
#include "fit/mate.hpp"
#include "fit/verdict.hpp"

namespace benchgraft::fit {

/// Where each contact of the plug has to go.
struct Rearrangement {
  std::vector<Move> moves;  ///< only the contacts that do not stay
  double most_amps = 0;     ///< largest recorded current among them
};

/// `faces`: plug contact (a) facing socket contact (b) as it is now. Every used plug contact must
/// find a socket contact it agrees with; as many as possible stay where they are. Nothing when that
/// cannot be, when a fact is missing, or when an excluded circuit would move. Method: maximum
/// bipartite matching started from the contacts that already agree.
std::optional<Rearrangement> fewest_moves(const std::vector<Facing>& faces,
                                          const Surroundings& around);

/// The wires of a lead between two ports that do not mate: contacts paired by what they agree with.
/// Nothing when an excluded circuit is on either port or a used contact finds no partner.
std::optional<Rearrangement> crossover_wires(const catalogue::Port& a, const catalogue::Port& b,
                                             const Surroundings& around);

}  // namespace benchgraft::fit
