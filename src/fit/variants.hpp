// Narrows what the host may be by what was seen, with the reason for every candidate struck out.
#pragma once

#include <vector>

#include "catalogue/catalogue.hpp"
#include "catalogue/rebuild_text.hpp"
#include "fit/verdict.hpp"

namespace benchgraft::fit {

struct Narrowed {
  std::vector<const catalogue::Variant*> left;  ///< still possible, in the model's order
  std::vector<StruckOut> struck_out;
  const catalogue::Position* look_at = nullptr;  ///< the one place whose part would settle most
};

/// Strikes out variants whose part in a place differs from the type seen there; a stated variant
/// strikes out the others. When everything is struck out, what was seen contradicts the records:
/// `left` is empty.
Narrowed narrow_variants(const catalogue::Catalogue& known, const catalogue::Model& model,
                         const catalogue::RebuildText& rebuild);

/// The candidates of a part that can do a job of its place; the others go to `struck_out`.
std::vector<std::string> narrow_candidates(const catalogue::Catalogue& known,
                                           const catalogue::Model* model,
                                           const catalogue::ProposedPart& part,
                                           std::vector<StruckOut>& struck_out);

}  // namespace benchgraft::fit
