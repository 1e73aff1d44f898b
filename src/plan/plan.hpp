// The best use of the room: every rebuild, stripping, purchase and test chosen together.
// Model, assumptions and symbols: docs/methods/plan.md.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "base/units.hpp"
#include "catalogue/catalogue.hpp"
#include "fit/verdict.hpp"
#include "shop/shop.hpp"

namespace benchgraft::plan {

/// Plain numbers per part, filled by the caller: `plan` does not ask where they come from.
struct Prospects {
  struct Part {
    double chance = 1;  ///< that it works, 0..1
  };
  std::vector<Part> parts;  ///< in the order of Shop::parts
};

/// Where a part of a rebuild comes from.
enum class Origin { own, shelf, donor, bought };

struct PlannedPart {
  std::string position;
  std::vector<std::string> roles;
  std::string type;  ///< reference
  std::string part;  ///< code; "" when bought
  Origin origin = Origin::own;
  std::string donor;  ///< code of the set it comes out of
  double chance = 1;
};

struct PlannedRebuild {
  std::string host;  ///< code of the set
  std::string model, variant;
  std::vector<PlannedPart> parts;  ///< changed places first, then what stays
  Money price;                     ///< what the finished set fetches
  double chance = 1;
  double work_minutes = 0;
  Money material;  ///< adaptations and purchases
  Money value;     ///< price x chance - labour - material - salvage of what is used
  fit::Verdict verdict = fit::Verdict::fits;
  std::vector<std::string> questions;  ///< for rebuilds that stand apart
  std::string why;
};

enum class Use { host, stripped, kept, left, not_judged };
std::string to_text(Use use);
std::string to_text(Origin origin);

struct PlannedSet {
  std::string code, model;
  Use use = Use::kept;
  std::string why;  ///< one sentence
};

struct Purchase {
  std::string type;
  int count = 0;
  Money price;
  std::string role;
  std::string for_host;
};

/// A bench test that would change the plan most, by planning again under each outcome.
struct TestFirst {
  std::string part, type;
  Money worth;  ///< expected gain of knowing before starting
  std::string why;
};

struct Plan {
  Money value;     ///< of the rebuilds below, recomputed by recheck
  Money bound;     ///< no plan of this room (as modelled) is worth more
  double gap = 0;  ///< (bound - value) / max(bound, 1 minor unit)
  bool proven = false;
  std::string method;  ///< "enumeration" or "integer program", with its limits
  std::vector<PlannedRebuild> rebuilds;
  std::vector<PlannedRebuild> after_questions;  ///< unknown: never in the value
  std::vector<PlannedSet> sets;
  std::vector<Purchase> purchases;
  std::vector<TestFirst> tests;
  std::vector<std::string> remarks;  ///< wishes that could not be met, sets nobody can judge, ...
};

struct Options {
  double seconds = 15;                               ///< time limit of the integer program
  std::size_t enumerate_up_to = 8;                   ///< sets; above, the integer program
  bool value_tests = true;                           ///< also work out which test is worth most
  std::function<void(const std::string&)> progress;  ///< may be empty
};

/// Plans the whole room. Customers' sets are never stripped; wishes are obeyed or named as
/// impossible. Fails on contradictory wishes and on numbers out of range; an empty room gives an
/// empty plan.
Result<Plan> make_plan(const catalogue::Catalogue& known, const shop::Shop& room,
                       const Prospects& prospects, const Options& options);

/// Recomputes value and feasibility of `plan` from the facts alone, sharing nothing with the
/// solver. Fails with the first thing that is wrong. make_plan always calls it before it returns.
Result<Money> recheck(const Plan& plan, const catalogue::Catalogue& known, const shop::Shop& room,
                      const Prospects& prospects);

}  // namespace benchgraft::plan
