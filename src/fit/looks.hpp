// The one look that would settle most of what is not known about host and parts.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "catalogue/rebuild_text.hpp"
#include "fit/verdict.hpp"

namespace benchgraft::fit {

/// A place to look at, or a sign to look for.
struct PossibleLook {
  std::string place;  ///< position, or place of a part that is put in
  std::string role;
  std::string sign;                ///< "" = read what sits there
  bool in_host = false;            ///< the host's own part; else the part that is put in
  double minutes = 0;              ///< to reach it
  std::vector<std::string> shows;  ///< what would be seen, by case
};

/// How many of `cases` equally likely cases are left on average after seeing one of `shows`: the
/// sum of the squares of the groups over all.
double expected_left(const std::vector<std::string>& shows);

/// Every look at the variants left and the candidates of parts put in. Cases are all combinations,
/// first by variant, then by part in their order. A place whose own part is lost shows nothing.
std::vector<PossibleLook> possible_looks(const catalogue::Catalogue& known,
                                         const catalogue::Model* model,
                                         const catalogue::SetKind* kind,
                                         const std::vector<const catalogue::Variant*>& variants,
                                         const catalogue::RebuildText& rebuild);

/// The look with the fewest cases left, then the quicker one, then the first. Nothing when no look
/// tells anything apart.
std::optional<PossibleLook> best_look(const std::vector<PossibleLook>& looks);

/// "Look at the lamp: it tells early from late."
std::string look_words(const PossibleLook& look,
                       const std::vector<const catalogue::Variant*>& variants);

}  // namespace benchgraft::fit
