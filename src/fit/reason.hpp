// The verdict and why: what every rule answers with.
#pragma once

#include <string>
#include <vector>

#include "base/source.hpp"

namespace benchgraft::fit {

/// Worst last; a whole takes the worst of its parts.
enum class Verdict { fits, fits_with_work, unknown, does_not_fit, destroys };

/// What a rule looks at: one part in its role, two parts across a link, or the whole rebuild.
enum class RuleSort { single, pair, whole };

std::string to_text(Verdict verdict);
std::string to_text(RuleSort sort);
std::string to_text(Source source);

/// A recorded fact a reason rests on, and where it is recorded.
struct Fact {
  std::string text;
  Where where;
};

/// Why something was judged so.
struct Reason {
  std::string code;  ///< short, the same as long as rule, subject and facts' meaning stay the same
  std::string rule;  ///< "domain clash", "missing reply", ... listed in docs/methods/fit.md
  RuleSort sort = RuleSort::single;
  Verdict verdict = Verdict::unknown;  ///< as it counts: after the adaptation, if one was chosen
  Verdict before = Verdict::unknown;   ///< as found, before any adaptation
  std::string says;                    ///< one plain sentence for the bench
  std::vector<Fact> facts;
  Source source = Source::derived;
  bool will = true;     ///< false = "may": usual for the kind
  bool safety = false;  ///< never outranked by a swap that worked
  std::vector<std::string> roles;
  std::string not_before;  ///< "not before the control lead is re-pinned": stays on step and sheet
  std::string would_change;  ///< what recorded fact would change this
  double work_minutes = 0;
  // What adaptations match against (catalogue::Cure).
  std::vector<std::string> types, ports, signals;
};

}  // namespace benchgraft::fit
