// Collects what the rules find: reasons with stable codes, questions, companions.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "fit/assembly.hpp"
#include "fit/judge.hpp"
#include "fit/links.hpp"
#include "fit/verdict.hpp"

namespace benchgraft::fit {

/// A built-in piece of work offered beside the catalogue's adaptations.
struct OfferedWork {
  ChosenAdaptation work;  ///< `codes` = the reasons it makes good
};

/// What one judgement works on and adds to.
class Findings {
 public:
  Findings(const catalogue::Catalogue& known, const Conditions& conditions, const Assembly& set,
           Judgement& out)
      : known(known), conditions(conditions), set(set), out(out) {}

  const catalogue::Catalogue& known;
  const Conditions& conditions;
  const Assembly& set;
  Judgement& out;
  Joints joints;
  std::vector<OfferedWork> offered;

  /// Adds a reason; `subject` together with the rule makes its code. Valid until the next add.
  Reason& add(const std::string& rule, RuleSort sort, Verdict verdict, const std::string& says,
              const std::string& subject);
  /// Adds a question once per subject and returns its code.
  std::string ask(const std::string& text, const std::string& about, const std::string& key,
                  const std::string& role, bool safety = false);
  /// A reason "not recorded" with its question: the verdict is unknown until it is settled.
  Reason& unknown(RuleSort sort, const std::string& says, const std::string& question,
                  const std::string& about, const std::string& key, const std::string& role,
                  bool safety = false);

 private:
  std::string code_for(const std::string& rule, const std::string& subject);
  std::set<std::string> codes_;
};

/// A recorded fact about a part type as a whole.
Fact fact_of(const catalogue::PartType& type, const std::string& text);
/// A contact as recorded: number, signal, class, domain, volts, amps, direction, levels, protocol.
Fact fact_of(const Place& place, const catalogue::Port& port, const catalogue::Contact& contact);
/// A swap note as a fact.
Fact fact_of(const catalogue::SwapNote& note);
/// A fact of the model.
Fact fact_of(const catalogue::Model& model, const std::string& text);

/// "contact 2 \"enable\"".
std::string contact_called(const catalogue::Contact& contact);
/// What runs on it in a few words: "5 V supply out", "enable, a signal".
std::string contact_carries(const catalogue::Contact& contact);
/// "the control plug of TE-3/B", "the fan socket of MB-2".
std::string port_called(const Place& place, const catalogue::Port& port);
/// Numbers as people write them: 5, 4.75, 0.3.
std::string number(double value);
std::string volts_text(const catalogue::Range& range);
/// "4 to 5 Hz", "5 Hz"; without a unit just the numbers.
std::string range_text(const catalogue::Range& range, const std::string& unit);
/// Worst of two.
inline Verdict worse(Verdict a, Verdict b) { return a < b ? b : a; }

}  // namespace benchgraft::fit
