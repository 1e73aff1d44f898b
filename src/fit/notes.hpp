// Swap notes that speak about this rebuild, and what they are worth as evidence.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "fit/assembly.hpp"
#include "fit/verdict.hpp"

namespace benchgraft::fit {

/// A note about the very pair of printed numbers, or only about the same family (half the weight).
struct NoteMatch {
  const catalogue::SwapNote* note = nullptr;
  const Place* moved = nullptr;  ///< the place whose part the note speaks of
  bool by_family = false;
};

/// What a note says about one plug and one socket.
struct PlugWord {
  const catalogue::SwapNote* note = nullptr;
  catalogue::PlugResult result = catalogue::PlugResult::straight_in;
  std::vector<const catalogue::SwapNote*> against;  ///< notes that say otherwise
};

/// True when a reference as written in a note ("LD-20" or "LD-20/B") means this type. A number
/// without revision means every revision.
bool means(const std::string& reference, const catalogue::PartType& type);

/// All notes that speak of a changed part in this host: exact pairs first, then by family.
std::vector<NoteMatch> notes_about(const catalogue::Catalogue& known, const Assembly& set);

/// The strongest word of exact-pair notes on joining these two ports; "must not" beats the rest.
std::optional<PlugWord> plug_word(const std::vector<NoteMatch>& notes, const Place& a,
                                  const catalogue::Port& port_a, const Place& b,
                                  const catalogue::Port& port_b);

/// Successes and failures of the pair, as (possibly half) counts. A failure with parts not known
/// good counts against the part and is left out here; coming back counts as a failure.
struct Tally {
  double worked = 0, failed = 0;
  std::vector<const catalogue::SwapNote*> blamed_on_part;
};
Tally tally(const std::vector<NoteMatch>& notes);

/// Prior of the chance that a rebuild works, by verdict: the catalogue's, which a bench may edit
/// (data/kinds/priors.toml); where it has none, the same assumed numbers.
struct BetaPrior {
  double works, fails;
};
BetaPrior prior_for(const catalogue::Catalogue& known, Verdict verdict);
/// What a chance rests on: the prior, the notes counted, and those that speak of a part instead.
Evidence evidence_of(const catalogue::Catalogue& known, Verdict verdict,
                     const std::vector<NoteMatch>& notes);
/// Mean of the Beta posterior: (works + worked) / (works + fails + worked + failed).
double posterior_mean(BetaPrior prior, const Tally& tally);
/// The same from what was already counted.
double chance_from(const Evidence& evidence);

}  // namespace benchgraft::fit
