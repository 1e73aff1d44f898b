// Decides about the whole room: solve, judge what comes out, correct, solve again until it stands.
#pragma once

#include <memory>

#include "plan/planned.hpp"
#include "plan/solve.hpp"

namespace benchgraft::plan {

struct Decision {
  RoomOfNumbers room;
  Solved solved;
  std::unique_ptr<Wanted> wanted;  ///< without the wishes that turned out impossible; `room`
                                   ///< refers to it
  std::vector<std::string> remarks;
  Allotment allotment;
  Parts parts;
  std::vector<Drafted> drafts;  ///< per rebuild of the allotment
  double value = 0;             ///< of the drafts, strippings taken off; not rounded
  double bound = 0;
};

/// `enumerate_up_to` as in Options. Fails on numbers out of range or when the solver does.
Result<Decision> decide(const catalogue::Catalogue& known, const shop::Shop& shop,
                        const Inventory& inventory, const Wanted& wanted, Answers& answers,
                        const Limits& limits, std::size_t enumerate_up_to, bool allow_unknown);

}  // namespace benchgraft::plan
