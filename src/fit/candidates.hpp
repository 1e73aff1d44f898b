// What a part may be, by the signs seen on it: printed revision, ports, abilities.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "catalogue/catalogue.hpp"
#include "catalogue/rebuild_text.hpp"
#include "fit/verdict.hpp"

namespace benchgraft::fit {

/// Why something seen and a record do not agree.
struct Unlike {
  std::string because;  ///< "the port CTL was seen on it, and FL-7 is recorded without one"
  Fact seen, record;
};

/// The position of the model that `place` (a position or a role) names; null when there is none.
const catalogue::Position* position_named(const catalogue::Model& model, const std::string& place);

/// True when `part` says anything about what sits there beside the place.
bool shows_signs(const catalogue::ProposedPart& part);

/// What on `part` speaks against its being `type`; nothing when it may be. Ports and abilities that
/// nobody recorded, and ports of a part that was changed, speak against nothing.
std::optional<Unlike> unlike(const catalogue::PartType& type, const catalogue::ProposedPart& part);

/// "L-1 was seen as the lamp", "revision B was seen on the lamp", with file and line.
Fact seen_fact(const catalogue::ProposedPart& seen);

/// "swap.toml, line 12", or the record's name alone.
std::string place_words(const Where& where);

/// `part` with its printed revision joined to its number, where that makes a recorded type.
catalogue::ProposedPart with_revision(const catalogue::Catalogue& known,
                                      catalogue::ProposedPart part);

/// The candidates of a part that can do a job of its place, look like it, and were built into the
/// model it comes from; the others go to `struck_out`.
std::vector<std::string> narrow_candidates(const catalogue::Catalogue& known,
                                           const catalogue::Model* model,
                                           const catalogue::ProposedPart& part,
                                           std::vector<StruckOut>& struck_out);

/// Fails when a printed number and another sign on the same part cannot both be right.
Result<void> check_signs(const catalogue::Catalogue& known, const catalogue::RebuildText& rebuild);

}  // namespace benchgraft::fit
