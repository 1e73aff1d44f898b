// A slow second opinion on fit: plain loops over the table of docs/methods/fit.md, sharing nothing
// with the code but the facts.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "catalogue/port.hpp"
#include "fit/contact_rules.hpp"

namespace benchgraft::fit_twin {

/// What the table says of one contact facing another: the rules that speak and the worst verdict.
struct Opinion {
  std::set<std::string> rules;
  fit::Verdict verdict = fit::Verdict::fits;
  bool safety = false;  ///< one of the rules is a rule of safety
  bool operator==(const Opinion&) const = default;
};

/// Facts about a side that the table uses beside its contact.
struct Side {
  bool measured = false;
  bool lights = false;  ///< a lamp driver or a light driver
};

Opinion opinion(const catalogue::Contact* a, const catalogue::Contact* b, Side side_a, Side side_b);

/// Both ports recorded and mating as told by `turned_round`: every contact against the one it
/// faces, names compared over the whole port, the way back of the current.
Opinion opinion(const catalogue::Port& a, const catalogue::Port& b, bool turned_round, Side side_a,
                Side side_b);

/// Fewest contacts of a plug that have to move so that every used one agrees with the contact it
/// then faces, tried over all permutations; -1 when there is none. Numbers 1..n on both.
int fewest_moves_by_trying_all(const std::vector<catalogue::Contact>& plug,
                               const std::vector<catalogue::Contact>& socket, Side side_plug,
                               Side side_socket);

}  // namespace benchgraft::fit_twin
