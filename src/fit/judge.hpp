// Judges one rebuild: every surprise before the back comes off. Method: docs/methods/fit.md.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "catalogue/catalogue.hpp"
#include "catalogue/rebuild_text.hpp"
#include "fit/verdict.hpp"

namespace benchgraft::fit {

/// What the judgement needs besides the catalogue and the rebuild.
struct Conditions {
  double mains_volts = 230;
  double mains_hz = 50;
  std::string touch_profile;  ///< "" = the strictest recorded limit
};

/// Judges `rebuild` against `known`. An unknown contact, pin or piece gives a question, never
/// "fits". Fails when the rebuild names a model, place, part type or change that is not recorded.
Result<Judgement> judge(const catalogue::Catalogue& known, const catalogue::RebuildText& rebuild,
                        const Conditions& conditions = {});

/// What one swap costs by itself, for the plan's tables.
struct PartAnswer {
  Verdict verdict = Verdict::fits;
  double work_minutes = 0;  ///< beyond taking out and putting in
  Money material;
  double chance = 1;  ///< from the evidence for this pairing, not of the part itself
};

/// Single rules for `part` in `model`/`variant`, every other place with its factory part left
/// aside.
Result<PartAnswer> answer_single(const catalogue::Catalogue& known, const std::string& model,
                                 const std::string& variant, const catalogue::ProposedPart& part,
                                 const Conditions& conditions = {});

/// Only what arises between `a` and `b` (pair rules across their links, fellows), both in that
/// host.
Result<PartAnswer> answer_pair(const catalogue::Catalogue& known, const std::string& model,
                               const std::string& variant, const catalogue::ProposedPart& a,
                               const catalogue::ProposedPart& b, const Conditions& conditions = {});

}  // namespace benchgraft::fit
