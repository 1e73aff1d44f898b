// What the rules about the mains side share.
#pragma once

#include <string>
#include <vector>

#include "fit/conductors.hpp"
#include "fit/findings.hpp"

namespace benchgraft::fit {

/// Put in from elsewhere, or changed since it was made.
bool new_here(const Place& place);
/// Something at the joint is new: one of the parts, or the lead between.
bool new_at(const Joint& joint);
/// Some factory built both parts, and the lead between, together: proven.
bool built_so(const catalogue::Catalogue& known, const Joint& joint);
/// Class mains or earth.
bool on_mains_side(const catalogue::Contact& contact);
/// Two contacts that face each other carry mains or earth.
bool carries_mains(const Joint& joint);
/// The recorded mains side; one without facts when nobody recorded it.
const catalogue::MainsSide& mains_of(const catalogue::PartType* type);
/// By its terminal mark; `other` when it has none, or one that settles nothing.
Conductor by_mark(const catalogue::Contact& contact);
/// "line", "neutral", "protective earth".
const char* word_for(Conductor conductor);
/// Adds a reason of safety about one place.
Reason& say_mains(Findings& findings, const std::string& rule, Verdict verdict, const Place& place,
                  const std::string& says, const std::string& subject);
/// Asks for a fact of the mains side of one place.
Reason& ask_mains(Findings& findings, const std::string& rule, const Place& place,
                  const std::string& says, const std::string& question, const std::string& key);

}  // namespace benchgraft::fit
