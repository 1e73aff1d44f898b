// Which part to test first: planning again as if it were known good, and as if it were known bad.
#pragma once

#include "plan/decision.hpp"

namespace benchgraft::plan {

struct TestQuestion {
  const catalogue::Catalogue& known;
  const shop::Shop& shop;
  const Prospects& prospects;
  Answers& answers;
  const Decision& now;
  double seconds = 4;  ///< for all of them together
};

/// The few untested parts of the plan whose test is worth most; worth = what knowing would add,
/// before the test itself is paid.
std::vector<TestFirst> tests_first(const TestQuestion& question);

}  // namespace benchgraft::plan
