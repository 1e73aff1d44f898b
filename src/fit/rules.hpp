// The rules, one function a subject. Each adds what it finds; docs/methods/fit.md lists every rule
// with the facts it needs and what it says when a fact is missing.
#pragma once

#include <vector>

#include "fit/findings.hpp"
#include "fit/notes.hpp"

namespace benchgraft::fit {

// Pair rules: across a link.
void judge_joints(Findings& findings, const std::vector<NoteMatch>& notes);  // link_rules.cpp
void judge_loose_ports(Findings& findings);                                  // loose_rules.cpp
void judge_unrecorded(Findings& findings);                                   // unrecorded_rules.cpp
void judge_wrong_sockets(Findings& findings);                                // socket_rules.cpp
void judge_lamp_power(Findings& findings);                                   // lamp_rules.cpp
void judge_traits(Findings& findings);                                       // trait_rules.cpp

// Single rules: a part in its role.
void judge_unknown_types(Findings& findings);  // place_rules.cpp
void judge_known_bad(Findings& findings);      // place_rules.cpp
void judge_mounts(Findings& findings);         // place_rules.cpp
void judge_shapes(Findings& findings);         // shape_rules.cpp
void judge_mains_range(Findings& findings);    // earth_rules.cpp
void judge_two_grounds(Findings& findings);    // earth_rules.cpp

// Whole rules.
void judge_missing_parts(Findings& findings);  // place_rules.cpp
void judge_fellows(Findings& findings);        // place_rules.cpp
void judge_pieces(Findings& findings);         // piece_rules.cpp
void judge_rails(Findings& findings);          // rail_rules.cpp
void judge_orientation(Findings& findings,
                       const std::vector<NoteMatch>& notes);                   // optics_rules.cpp
void judge_light_and_throw(Findings& findings);                                // optics_rules.cpp
void judge_settings(Findings& findings, const std::vector<NoteMatch>& notes);  // setting_rules.cpp
void judge_reachable_settings(Findings& findings);                             // memory_rules.cpp
void judge_memories(Findings& findings);                                       // memory_rules.cpp
void judge_counters(Findings& findings);                                       // setting_rules.cpp
void judge_capabilities(Findings& findings);   // capability_rules.cpp
void judge_earth_path(Findings& findings);     // earth_rules.cpp
void judge_touch_current(Findings& findings);  // touch_rules.cpp
void judge_conductors(Findings& findings);     // conductor_rules.cpp
void judge_mains_side(Findings& findings);     // mains_rules.cpp
void judge_distances(Findings& findings);      // distance_rules.cpp
void judge_fuses(Findings& findings);          // fuse_rules.cpp
void judge_wires(Findings& findings);          // wire_rules.cpp
void judge_reach(Findings& findings);          // reach_rules.cpp
void judge_swap_notes(Findings& findings, const std::vector<NoteMatch>& notes);  // note_rules.cpp
void add_look_here(Findings& findings);                                          // kind_rules.cpp
void add_cautions(Findings& findings);                                           // kind_rules.cpp

/// True when the place was changed for something else than the very type the factory put there.
inline bool differs(const Place& place) { return place.changed && !place.same_make; }

}  // namespace benchgraft::fit
