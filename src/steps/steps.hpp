// The order of strip-down and rebuild: every step once, none that has to be undone.
// Method: docs/architecture.md, "Order of work".
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "catalogue/catalogue.hpp"
#include "fit/verdict.hpp"

namespace benchgraft::steps {

/// In the order of the work.
enum class Stage {
  read_first,  ///< what is gone once a board is out
  fetch,       ///< parts from donors, the shelf, the post
  make_safe,
  open,
  take_out,
  bench,  ///< questions, re-pins, adaptations, pieces moved across
  put_in,
  close,
  first_power,
  adjust,
  prove,
  hand_over,
};

std::string to_text(Stage stage);

/// A sentence and the code to ask "why" by; "" when it is common practice.
struct Statement {
  std::string text;
  std::string code;
  bool operator==(const Statement&) const = default;
};

/// What can hurt here and what to do about it.
struct StepCaution {
  std::string hazard;  ///< a word or two; "" when it is the risk of one piece of work
  std::string text;
  bool operator==(const StepCaution&) const = default;
};

struct Step {
  Stage stage = Stage::put_in;
  std::string title;
  std::string code;
  std::vector<Statement> details;
  std::vector<StepCaution> cautions;  ///< of the hazards this step meets, each once
  std::vector<Statement> not_before;  ///< what must be done before this step may be
  std::vector<std::string> watch;     ///< with power on: what should be seen
  std::string cut;                    ///< with power on: pull the plug at once when ...
  std::vector<std::string> roles;
  std::string position;                ///< place that is emptied or filled, "" none
  std::string piece;                   ///< piece that is fitted, "" none
  std::optional<double> work_minutes;  ///< nothing = not recorded
  double waiting_minutes = 0;
};

struct WorkOrder {
  std::vector<Step> steps;
  double work_minutes = 0;     ///< of the steps whose minutes are recorded
  double waiting_minutes = 0;  ///< never part of work_minutes
  int without_minutes = 0;     ///< steps whose minutes are not recorded
};

/// What a link is once the chosen work is done: a clash that work makes good is "fits with work".
fit::Verdict after_work(const fit::Judgement& judged, const fit::Link& link);

/// The whole order of work for a judged rebuild.
/// source: positions' and pieces' "after" always hold; a kind's "after" holds where they are
/// silent. fails: positions, pieces, settings or the roles of a kind wait for each other in a
/// circle (named).
Result<WorkOrder> order(const catalogue::Catalogue& known, const fit::Judgement& judged);

}  // namespace benchgraft::steps
