// Does one connector end go into the other, and which contact then faces which?
#pragma once

#include <string>
#include <vector>

#include "base/tri.hpp"
#include "catalogue/port.hpp"
#include "fit/contact_rules.hpp"

namespace benchgraft::fit {

/// Answer about two ends, with what stands in the way or what is not recorded.
struct Mating {
  Tri mates = Tri::unknown;
  bool turned_round = false;         ///< contact 1 is at the other end: n faces ways + 1 - n
  Tri reversible = Tri::unknown;     ///< nothing stops it from going in the wrong way round
  std::string because;               ///< what stops it, "" when it mates
  std::vector<std::string> missing;  ///< what would settle it, in words
};

/// Compares family, pitch, ways, halves, filled holes against pins, contact-1 end and ribbon side.
/// A fact that only one side tells leaves the answer open. Filled holes nobody recorded are taken
/// as none: that can only make a danger show, never hide one.
Mating mate(const catalogue::Connector& a, const catalogue::Connector& b);

/// Same connector and the same contacts, whatever their order in the file and their notes.
bool same_end(const catalogue::Port& a, const catalogue::Port& b);

/// Number of ways: recorded, or the highest contact number; 0 = unknown.
int ways_of(const catalogue::Port& port);

/// One contact of each side facing each other; a null side is not listed.
struct Facing {
  const catalogue::Contact* a = nullptr;
  const catalogue::Contact* b = nullptr;
  const catalogue::Wire* wire = nullptr;  ///< of the lead between them, when one is recorded
};

/// All facing contacts of two ports, in the order of a's numbers. `turned_round` as in Mating.
/// Cost: linear in the contacts. Ports without recorded contacts give an empty list.
std::vector<Facing> facing_contacts(const catalogue::Port& a, const catalogue::Port& b,
                                    bool turned_round);

}  // namespace benchgraft::fit
