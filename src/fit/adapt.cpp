#include "fit/adapt.hpp"

#include <algorithm>
#include <functional>
#include <limits>
#include <set>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/rule_names.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Adaptation;
using catalogue::Cure;

// What protects people is made good by parts and by measuring, never by work somebody wrote down.
// Too high a voltage is the exception: a regulator is such work.
bool beyond_cure(const Reason& reason) {
  return (reason.safety && reason.rule != "over voltage") || is_safety_rule(reason.rule);
}

bool cures(const catalogue::Catalogue& known, const Cure& cure, const Reason& reason) {
  // A rule alone would reach everything: the cure has to say for which part, plug, signal or role.
  const bool narrow =
      !cure.type.empty() || !cure.port.empty() || !cure.signal.empty() || !cure.role.empty();
  if (!narrow) return false;
  if (!cure.rule.empty() && cure.rule != reason.rule) return false;
  if (!cure.port.empty() && !contains(reason.ports, cure.port)) return false;
  if (!cure.signal.empty() && !contains(reason.signals, cure.signal)) return false;
  if (!cure.role.empty() && !contains(reason.roles, cure.role)) return false;
  if (cure.type.empty()) return !cure.rule.empty() || !cure.signal.empty();
  const auto* type = known.part_type(cure.type);
  return contains(reason.types, type ? type->reference() : cure.type) ||
         std::any_of(reason.types.begin(), reason.types.end(),
                     [&](const std::string& t) { return t.substr(0, t.find('/')) == cure.type; });
}

bool wants_cure(const Reason& reason) {
  const bool moved_away = reason.rule == "empty contact" && !reason.safety;
  return (reason.verdict > Verdict::unknown || moved_away) && !beyond_cure(reason);
}

struct Option {
  ChosenAdaptation work;
  std::vector<std::string> needs, excludes, lost;
  std::set<std::string> codes;
  double cost = 0;
};

Option option_of(const Adaptation& adaptation) {
  Option option;
  option.work = {adaptation.name,
                 adaptation.steps,
                 {},
                 adaptation.brings,
                 adaptation.work_minutes.value_or(10),
                 adaptation.waiting_minutes.value_or(0),
                 adaptation.material.value_or(Money{}),
                 adaptation.risk,
                 adaptation.needs,
                 adaptation.where};
  option.needs = adaptation.needs;
  option.excludes = adaptation.excludes;
  option.lost = adaptation.lost;
  return option;
}

std::vector<Option> options(const Findings& findings) {
  std::vector<Option> all;
  for (const auto* adaptation : findings.known.adaptations()) {
    Option option = option_of(*adaptation);
    for (const auto& reason : findings.out.reasons)
      for (const auto& cure : adaptation->cures)
        if (wants_cure(reason) && cures(findings.known, cure, reason))
          option.codes.insert(reason.code);
    all.push_back(std::move(option));  // kept even without codes: another may need it
  }
  for (const auto& offered : findings.offered) {
    Option option;
    option.work = offered.work;
    option.codes.insert(offered.work.codes.begin(), offered.work.codes.end());
    all.push_back(std::move(option));
  }
  for (auto& option : all)
    option.cost = option.work.work_minutes * kMinorPerMinute +
                  static_cast<double>(option.work.material.minor);
  return all;
}

// Cheapest cover of the curable findings; a cure is never left out to save money.
class Chooser {
 public:
  Chooser(const std::vector<Option>& options, std::vector<std::string> wanted)
      : options_(options), wanted_(std::move(wanted)) {}

  std::vector<std::size_t> run() {
    std::vector<std::size_t> chosen;
    search(0, chosen, 0, 0);
    return best_;
  }

 private:
  void search(std::size_t next, std::vector<std::size_t>& chosen, double cost,
              std::size_t left_open) {
    if (left_open > best_open_ || (left_open == best_open_ && cost >= best_cost_)) return;
    while (next < wanted_.size() && cured(chosen, wanted_[next])) ++next;
    if (next == wanted_.size()) {
      best_open_ = left_open;
      best_cost_ = cost;
      best_ = chosen;
      return;
    }
    for (std::size_t i = 0; i < options_.size(); ++i) {
      if (!options_[i].codes.count(wanted_[next])) continue;
      const std::size_t before = chosen.size();
      double more = 0;
      if (add(i, chosen, more)) search(next + 1, chosen, cost + more, left_open);
      chosen.resize(before);
    }
    search(next + 1, chosen, cost, left_open + 1);
  }

  [[nodiscard]] bool cured(const std::vector<std::size_t>& chosen, const std::string& code) const {
    return std::any_of(chosen.begin(), chosen.end(),
                       [&](std::size_t i) { return options_[i].codes.count(code) > 0; });
  }

  [[nodiscard]] bool clash(std::size_t a, std::size_t b) const {
    return contains(options_[a].excludes, options_[b].work.name) ||
           contains(options_[b].excludes, options_[a].work.name);
  }

  // Adds option i and everything it needs; false when one of them is excluded or unknown.
  bool add(std::size_t i, std::vector<std::size_t>& chosen, double& cost) const {
    if (std::find(chosen.begin(), chosen.end(), i) != chosen.end()) return true;
    for (const auto other : chosen)
      if (clash(i, other)) return false;
    chosen.push_back(i);
    cost += options_[i].cost;
    for (const auto& name : options_[i].needs) {
      const auto found = std::find_if(options_.begin(), options_.end(),
                                      [&](const Option& o) { return o.work.name == name; });
      if (found == options_.end() ||
          !add(static_cast<std::size_t>(found - options_.begin()), chosen, cost))
        return false;
    }
    return true;
  }

  const std::vector<Option>& options_;
  std::vector<std::string> wanted_;
  std::vector<std::size_t> best_;
  std::size_t best_open_ = std::numeric_limits<std::size_t>::max();
  double best_cost_ = std::numeric_limits<double>::infinity();
};

// What the work asks to have on the bench comes along like any other companion.
void bring_along(Findings& findings, const ChosenAdaptation& work, const std::string& code) {
  for (const auto& what : work.brings) {
    auto& companions = findings.out.companions;
    const bool told =
        std::any_of(companions.begin(), companions.end(), [&](const Companion& companion) {
          return companion.what == what && companion.sort == "for work";
        });
    if (told) continue;
    Companion companion;
    companion.what = what;
    companion.sort = "for work";
    companion.why = fmt::format("for this work: {}", work.name);
    companion.code = code;
    companions.push_back(std::move(companion));
  }
}

void apply(Findings& findings, const Option& option, const std::string& code) {
  ChosenAdaptation work = option.work;
  work.codes.assign(option.codes.begin(), option.codes.end());
  for (auto& reason : findings.out.reasons) {
    if (!option.codes.count(reason.code) || !wants_cure(reason)) continue;
    reason.verdict = Verdict::fits_with_work;
    if (reason.not_before.empty())
      reason.not_before = fmt::format("not before this is done: {}", work.name);
  }
  for (const auto& lost : option.lost)
    if (!contains(findings.out.lost, lost)) findings.out.lost.push_back(lost);
  bring_along(findings, work, code);
  findings.out.adaptations.push_back(std::move(work));
}

// The code of the reason a piece of work is done for: its own, or that of the work that needs it.
std::string done_for(const std::vector<Option>& options, const std::vector<std::size_t>& chosen,
                     std::size_t i) {
  if (!options[i].codes.empty()) return *options[i].codes.begin();
  for (const auto other : chosen)
    if (contains(options[other].needs, options[i].work.name))
      return done_for(options, chosen, other);
  return "";
}

// Everything needed by another comes before it; else the order in which it was chosen stays.
// Needs in a circle are refused when the catalogue is loaded.
std::vector<std::size_t> in_order(const std::vector<Option>& options,
                                  const std::vector<std::size_t>& chosen) {
  std::vector<std::size_t> order;
  const std::function<void(std::size_t)> place = [&](std::size_t i) {
    if (std::find(order.begin(), order.end(), i) != order.end()) return;
    for (const auto other : chosen)
      if (other != i && contains(options[i].needs, options[other].work.name)) place(other);
    order.push_back(i);
  };
  for (const auto i : chosen) place(i);
  return order;
}

}  // namespace

void choose_adaptations(Findings& findings) {
  const auto all = options(findings);
  std::vector<std::string> wanted;
  for (const auto& reason : findings.out.reasons)
    if (wants_cure(reason)) wanted.push_back(reason.code);
  const auto chosen = in_order(all, Chooser(all, wanted).run());
  for (const auto i : chosen) apply(findings, all[i], done_for(all, chosen, i));
  auto& repins = findings.out.repins;
  const auto not_chosen = [&](const Repin& repin) {
    return std::none_of(findings.out.adaptations.begin(), findings.out.adaptations.end(),
                        [&](const ChosenAdaptation& a) { return contains(a.codes, repin.code); });
  };
  repins.erase(std::remove_if(repins.begin(), repins.end(), not_chosen), repins.end());
}

}  // namespace benchgraft::fit
