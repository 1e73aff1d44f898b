// Puts findings about contacts into plain sentences.
#pragma once

#include <string>
#include <vector>

#include "fit/contact_rules.hpp"
#include "fit/links.hpp"

namespace benchgraft::fit {

/// One sentence for all findings of one rule on one joint.
std::string says(ContactRule rule, const Joint& joint, const std::vector<ContactFinding>& found);

/// What would happen, in a few words: "two supplies meet", "hot and cold side meet".
std::string danger_words(ContactRule rule);

/// How long a lead between the two ports has to be: as the old one, or by the places, else a
/// string.
std::string lead_length_words(const Joint& joint);

/// "contact 3 \"lit\": active level, drive": what is not recorded of one contact.
std::string missing_words(std::uint32_t missing);

}  // namespace benchgraft::fit
