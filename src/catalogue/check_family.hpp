// What must hold inside one file beyond the shape of its values. Across files: references.hpp.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "catalogue/catalogue.hpp"
#include "catalogue/faults.hpp"
#include "catalogue/rebuild_text.hpp"

namespace benchgraft::catalogue {

Result<void> check(const Family& family);
Result<void> check(const RebuildText& rebuild);
Result<void> check(const SwapNote& note);
Result<void> check(const std::vector<Change>& changes);

// One kind of thing each; the functions above call them.
void check_part_type(Faults& faults, const PartType& type);
void check_model(Faults& faults, const Model& model);
void check_set_kind(Faults& faults, const SetKind& kind);
void check_setting(Faults& faults, const Setting& setting);
void check_adaptation(Faults& faults, const Adaptation& adaptation);
void check_swap_note(Faults& faults, const SwapNote& note);
void check_changes(Faults& faults, const std::vector<Change>& changes);

/// Faults a contact number that cannot be one: not counted from 1, or with a dot in it.
void check_contact_number(Faults& faults, const Where& where, const std::string& number);

/// The number of a contact that is counted ("3"), or 0 for a printed mark ("A3").
int counted(const std::string& contact_number);

}  // namespace benchgraft::catalogue
