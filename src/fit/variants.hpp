// Narrows what the host may be by what was seen, with the reason for every candidate struck out.
#pragma once

#include <vector>

#include "base/result.hpp"
#include "catalogue/catalogue.hpp"
#include "catalogue/rebuild_text.hpp"
#include "fit/verdict.hpp"

namespace benchgraft::fit {

struct Narrowed {
  std::vector<const catalogue::Variant*> left;  ///< still possible, in the model's order
  std::vector<StruckOut> struck_out;
  std::vector<catalogue::ProposedPart> seen;  ///< with the candidates that are left
};

/// Strikes out variants that differ from what was seen (part, place never filled, printed revision,
/// ports, abilities, signs); a stated variant strikes out the others. What is left of the variants
/// strikes out candidates of the host's own parts, and these strike out variants again, until
/// nothing more goes. When every variant is struck out, what was seen contradicts the records:
/// `left` is empty.
Narrowed narrow_variants(const catalogue::Catalogue& known, const catalogue::Model& model,
                         const catalogue::RebuildText& rebuild);

/// Why nothing is left: the one thing seen that fits no variant, or two that fit none together,
/// each with file and line, or the record.
Error contradiction_of(const catalogue::Catalogue& known, const catalogue::Model& model,
                       const catalogue::RebuildText& rebuild, const Narrowed& narrowed);

/// Fails when the stated variant is none of the model's, with the nearest name.
Result<void> check_variant(const catalogue::Model& model, const catalogue::RebuildText& rebuild);

}  // namespace benchgraft::fit
