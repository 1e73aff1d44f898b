// A shop of a few invented boxes, and answers that can be bent, for the planner's tests.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "plan/planning.hpp"

namespace benchgraft::plan {

/// Two models of one kind, Alpha and Beta, with four places each: supply, picture, light and an
/// optional remote. Opening and closing takes 10 min, a part 5 min out and 5 min in.
/// `more` is added to the family file.
catalogue::Catalogue small_catalogue(const std::string& more = "");

class SmallShop {
 public:
  SmallShop();

  /// A set of the technician's own, in good looks, all parts the factory's and not written down.
  shop::Set& set(const std::string& code, const std::string& model);
  /// A part in a set's place, with the chance that it works (0 = bad).
  shop::Part& part(const std::string& code, const std::string& type, double chance,
                   const std::string& in_set, const std::string& position);
  /// A part on the shelf.
  shop::Part& loose(const std::string& code, const std::string& type, double chance);
  /// Every place of the set filled with written-down parts that work with `chance`.
  void fill(const std::string& code, double chance);
  void wish(shop::WishSort sort, const std::string& set, const std::string& part = "");

  /// Plans with `fitting`; fails the test when planning fails.
  [[nodiscard]] Plan plan() const;
  [[nodiscard]] Result<Plan> try_plan() const;
  [[nodiscard]] Prospects prospects() const;

  catalogue::Catalogue known;
  shop::Shop room;
  Fitting fitting;
  Options options;
};

/// Everything fits with chance 0.9, minutes as the kind says; only PS-3, which can be bought, has
/// no seat in an Alpha. `more` may add to the judgement.
using Bend = std::function<void(const catalogue::RebuildText&, fit::Judgement&)>;
Fitting everything_fits(Bend more = {});

/// Adds a reason that makes the judgement at least as bad as `verdict`.
void object(fit::Judgement& judged, fit::Verdict verdict, const std::string& code);
/// The type put into `place`; "" when it stays as it is.
std::string put_into(const catalogue::RebuildText& rebuild, const std::string& place);

const PlannedRebuild* rebuild_of(const Plan& plan, const std::string& host);
const PlannedPart* part_in(const PlannedRebuild& rebuild, const std::string& position);
Use use_of(const Plan& plan, const std::string& code);
std::string why_of(const Plan& plan, const std::string& code);
bool remarks_on(const Plan& plan, const std::string& words);

}  // namespace benchgraft::plan
