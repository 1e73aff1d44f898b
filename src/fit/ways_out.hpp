// What would it take: the cheapest changes that turn a host that cannot be finished into a rebuild.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "catalogue/rebuild_text.hpp"
#include "fit/adapt.hpp"
#include "fit/judge.hpp"

namespace benchgraft::fit {

/// A part that can be had; the caller knows from where, fit never sees the shop.
struct Offer {
  catalogue::ProposedPart part;  ///< type or candidates, changes, from; place "" = where it does
                                 ///< the job
  std::string called;            ///< its code, or what is ordered
  bool bought = false;
  Money money;
  double work_minutes = 0;  ///< to get at it: its donor opened and stripped
  double chance = 1;        ///< that it works
  std::optional<int> delivery_days;
  std::string refused;  ///< why it must not be taken; "" = it may
};

enum class WayStep { put_in, buy, measure };

struct WayChange {
  WayStep step = WayStep::put_in;
  std::string place, type, called, from;
  Money money;
  double work_minutes = 0;
  std::optional<int> delivery_days;
  std::vector<std::string> questions;  ///< what has to be settled (measure)
};

/// Changes that together lead to `verdict`; unknown = it hangs on what is measured.
struct Way {
  std::vector<WayChange> changes;
  Verdict verdict = Verdict::unknown;
  Money money;              ///< to spend: purchases, material, what must come along
  double work_minutes = 0;  ///< of the whole rebuild, fetching and measuring among it
  double waiting_minutes = 0;
  int delivery_days = 0;  ///< the longest
  double chance = 0;      ///< that it works at first power, the chances of the parts among it
  double cost = 0;        ///< money and minutes weighed, in minor units
  std::string refused;    ///< why it must not be gone; "" = it may
};

struct WaysAsked {
  double minor_per_minute = kMinorPerMinute;
  std::size_t most_judgements = 1500;
  std::size_t most_changes = 4;  ///< parts put in; measuring comes on top
  std::size_t most_ways = 3;
};

struct WaysOut {
  Verdict now = Verdict::unknown;
  std::vector<Reason> in_the_way;  ///< of the rebuild as it stands
  std::vector<Way> ways;           ///< cheapest first; empty when nothing stands in the way
  std::optional<Way> refused;  ///< one that would be cheaper, with a part that must not be taken
  std::size_t judgements = 0;
  bool complete = false;   ///< no cheaper way of at most `most_changes` parts was left unjudged
  std::size_t proven = 0;  ///< of the ways: so many are the cheapest even when not complete
};

/// Best-first search over sets of offers put into the places named by the reasons that stand in
/// the way, by least cost; each set is judged whole by fit::judge. A set that already fits is not
/// added to, so every way is as short as it can be. Fails where judge() fails for `rebuild`.
/// Cost: at most `most_judgements` judgements.
Result<WaysOut> ways_out(const catalogue::Catalogue& known, const catalogue::RebuildText& rebuild,
                         const Conditions& conditions, const std::vector<Offer>& offers,
                         const WaysAsked& asked = {});

std::string to_text(WayStep step);

}  // namespace benchgraft::fit
