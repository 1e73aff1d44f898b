// The answers of fit that planning needs, asked once each and kept over re-plannings.
#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "catalogue/rebuild_text.hpp"
#include "fit/judge.hpp"

namespace benchgraft::plan {

/// Where the answers come from; tests put their own here.
struct Fitting {
  std::function<Result<fit::PartAnswer>(const std::string& model, const std::string& variant,
                                        const catalogue::ProposedPart& part)>
      single;
  std::function<Result<fit::PartAnswer>(const std::string& model, const std::string& variant,
                                        const catalogue::ProposedPart& a,
                                        const catalogue::ProposedPart& b)>
      pair;
  std::function<Result<fit::Judgement>(const catalogue::RebuildText& rebuild)> whole;
};

/// Answers of fit itself. `known` has to outlive them.
Fitting fitting_by_fit(const catalogue::Catalogue& known, const fit::Conditions& conditions);

/// One type in one place, as the tables name it.
struct Placed {
  std::string key;  ///< of the effective type
  catalogue::ProposedPart part;
};

class Answers {
 public:
  explicit Answers(Fitting fitting) : fitting_(std::move(fitting)) {}

  /// The worst over `variants`: what one of them refuses is not safe to plan. A failure of fit
  /// counts as does_not_fit. What the work costs is left to the whole judgement, which counts a
  /// piece of work once however many mismatches it makes good.
  fit::Verdict single(const std::string& model, const std::vector<std::string>& variants,
                      const Placed& part);
  fit::Verdict pair(const std::string& model, const std::vector<std::string>& variants,
                    const Placed& a, const Placed& b);
  /// Hours and the like leave the verdict alone and are not looked at again for an equal rebuild.
  const Result<fit::Judgement>& whole(const catalogue::RebuildText& rebuild);

  [[nodiscard]] std::size_t judged() const { return wholes_.size(); }

 private:
  Fitting fitting_;
  std::map<std::string, fit::Verdict> singles_, pairs_;
  std::map<std::string, Result<fit::Judgement>> wholes_;
};

}  // namespace benchgraft::plan
