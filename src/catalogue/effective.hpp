// Effective types: a part type with the recorded changes of one part applied.
#pragma once

#include <span>
#include <string_view>

#include "base/result.hpp"
#include "catalogue/part_type.hpp"

namespace benchgraft::catalogue {

/// Connector family of a plug that was cut off: it mates with nothing, not even with another cut
/// one.
inline constexpr std::string_view kCutPlug = "cut";

/// `type` as it is after `changes`, in their order. A cut plug leaves a port whose connector is
/// known to fit nothing; moved contacts keep what runs on them; pieces come and go. Moves that
/// follow one another are one re-pin: every `from` is a place before the first of them, and a
/// contact whose place is taken goes to the place left empty. What is not recorded (ports,
/// contacts, pieces) stays unknown; the change is then only told in a note. Fails when a change
/// names a port, contact or piece that is not there.
Result<PartType> effective_type(const PartType& type, std::span<const Change> changes);

}  // namespace benchgraft::catalogue
