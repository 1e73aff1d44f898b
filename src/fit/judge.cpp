// The whole judgement: narrow what the host and the parts may be, judge every case that is left,
// and say what holds in all of them and what only in some. Method: docs/methods/fit.md.
#include "fit/judge.hpp"

#include <algorithm>
#include <iterator>
#include <map>
#include <set>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/candidates.hpp"
#include "fit/findings.hpp"
#include "fit/looks.hpp"
#include "fit/notes.hpp"
#include "fit/one.hpp"
#include "fit/rule_names.hpp"
#include "fit/variants.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Catalogue;
using catalogue::RebuildText;

constexpr std::size_t kMostCases = 32;

/// One way the open questions of identity could come out.
struct Case {
  RebuildText rebuild;
  Host host;
  std::string called;  ///< "variant B", "the supply being PS-4/A"
};

// Every combination of the candidates that are left, at most kMostCases.
std::vector<Case> cases_of(const RebuildText& rebuild, const Host& host,
                           const std::vector<const catalogue::Variant*>& variants) {
  std::vector<Case> cases;
  for (const auto* variant : variants)
    cases.push_back({rebuild,
                     {host.model, host.kind, variant},
                     variants.size() > 1 ? "it is " + variant->name : ""});
  if (variants.empty()) cases.push_back({rebuild, host, ""});
  for (std::size_t i = 0; i < rebuild.parts.size(); ++i) {
    const auto& part = rebuild.parts[i];
    if (!part.type.empty() || part.candidates.empty() ||
        cases.size() * part.candidates.size() > kMostCases)
      continue;
    std::vector<Case> more;
    for (const auto& before : cases)
      for (const auto& candidate : part.candidates) {
        Case next = before;
        next.rebuild.parts[i].type = candidate;
        next.called += (next.called.empty() ? "" : " and ") +
                       fmt::format("the {} is {}", part.place, candidate);
        more.push_back(std::move(next));
      }
    cases = std::move(more);
  }
  return cases;
}

// As far as a reason counts that holds only in some cases: `open` is does_not_fit when no case can
// be built, else unknown.
Verdict conditional(Verdict found, Verdict open) {
  return found > Verdict::unknown ? open : Verdict::unknown;
}

// A reason that holds only in some cases: its danger is told, but nobody knows yet.
void add_conditional(Judgement& whole, const Judgement& one, const std::string& called,
                     const std::set<std::string>& everywhere, Verdict open) {
  for (Reason reason : one.reasons) {
    const bool told = std::any_of(whole.reasons.begin(), whole.reasons.end(),
                                  [&](const Reason& r) { return r.code == reason.code; });
    if (everywhere.count(reason.code) || told || reason.before < Verdict::fits_with_work) continue;
    reason.says = fmt::format("If {}: {}", called, reason.says);
    reason.verdict = conditional(reason.verdict, open);
    whole.reasons.push_back(std::move(reason));
  }
}

// Questions, companions and settings of the other cases are not lost with them.
void add_the_rest(Judgement& whole, const Judgement& one, const std::string& called) {
  const auto told = [](const auto& list, const std::string& code) {
    return std::any_of(list.begin(), list.end(), [&](const auto& x) { return x.code == code; });
  };
  for (const auto& question : one.questions)
    if (!told(whole.questions, question.code)) whole.questions.push_back(question);
  for (auto companion : one.companions) {
    if (told(whole.companions, companion.code)) continue;
    companion.why = fmt::format("if {}: {}", called, companion.why);
    whole.companions.push_back(std::move(companion));
  }
  for (auto setting : one.settings) {
    if (told(whole.settings, setting.code)) continue;
    setting.why = fmt::format("if {}: {}", called, setting.why);
    whole.settings.push_back(std::move(setting));
  }
}

void ask(Findings& findings, const PossibleLook& look,
         const std::vector<const catalogue::Variant*>& variants, const std::string& about) {
  findings.ask(look_words(look, variants), look.in_host ? about : look.place,
               look.in_host ? "variant" : "type", look.role);
  for (auto& question : findings.out.questions)
    if (question.text == look_words(look, variants)) question.work_minutes = look.minutes;
}

// The one look that settles most comes first; then how to tell what it leaves open.
void ask_which(Judgement& whole, const Catalogue& known, const Narrowed& narrowed,
               const RebuildText& rebuild, const Host& host) {
  Assembly nothing;
  const Conditions conditions;
  const auto before = std::move(whole.questions);
  whole.questions.clear();
  Findings findings(known, conditions, nothing, whole);
  const auto& left = narrowed.left;
  auto looks = possible_looks(known, host.model, host.kind, left, rebuild);
  const std::string about = host.model ? host.model->name : "";
  const auto best = best_look(looks);
  if (best) {
    ask(findings, *best, left, about);
    whole.look_first = LookFirst{look_words(*best, left), best->place, best->shows.size(),
                                 expected_left(best->shows), best->minutes};
  }
  if (left.size() > 1 && !(best && best->in_host)) {
    std::vector<PossibleLook> at_host;
    std::copy_if(looks.begin(), looks.end(), std::back_inserter(at_host),
                 [](const PossibleLook& look) { return look.in_host; });
    if (const auto look = best_look(at_host)) {
      ask(findings, *look, left, about);
    } else {
      std::vector<std::string> names;
      for (const auto* variant : left) names.push_back(variant->name);
      findings.ask(fmt::format("Which of {} is it?", listed(names)), about, "variant", "cabinet");
    }
  }
  for (const auto& look : looks)
    if (!look.in_host) ask(findings, look, left, about);
  whole.questions.insert(whole.questions.end(), before.begin(), before.end());
}

// What holds in every case stays as it is; what differs makes the whole unknown, unless all
// verdicts agree.
Judgement combine(const Catalogue& known, std::vector<Judgement> all,
                  const std::vector<Case>& cases) {
  std::map<std::string, std::size_t> count;
  for (const auto& one : all)
    for (const auto& reason : one.reasons) ++count[reason.code];
  std::set<std::string> everywhere;
  for (const auto& [code, n] : count)
    if (n == all.size()) everywhere.insert(code);
  const auto worst = std::max_element(
      all.begin(), all.end(), [](const auto& a, const auto& b) { return a.verdict < b.verdict; });
  const bool agree = std::all_of(all.begin(), all.end(),
                                 [&](const auto& one) { return one.verdict == worst->verdict; });
  const bool hopeless = std::all_of(all.begin(), all.end(),
                                    [](const auto& one) { return one.verdict > Verdict::unknown; });
  const Verdict open = hopeless ? Verdict::does_not_fit : Verdict::unknown;
  Judgement whole = *worst;
  if (agree && everywhere.size() == count.size()) return whole;
  const std::size_t at = static_cast<std::size_t>(worst - all.begin());
  for (auto& reason : whole.reasons) {
    if (everywhere.count(reason.code) || reason.before < Verdict::fits_with_work) continue;
    reason.says = fmt::format("If {}: {}", cases[at].called, reason.says);
    if (!agree) reason.verdict = conditional(reason.verdict, open);
  }
  for (std::size_t i = 0; i < all.size(); ++i)
    if (i != at) add_conditional(whole, all[i], cases[i].called, everywhere, open);
  if (!agree) {
    whole.verdict = open;
    whole.evidence = evidence_of(known, open, {});
    whole.chance = hopeless ? 0 : chance_from(whole.evidence);
  }
  for (std::size_t i = 0; i < all.size(); ++i) add_the_rest(whole, all[i], cases[i].called);
  return whole;
}

Error no_candidate(const catalogue::ProposedPart& part) {
  return {ErrorKind::conflict,
          fmt::format("{}, line {}: none of the candidates for \"{}\" does that job; correct the "
                      "candidates or the place.",
                      part.where.file, part.where.line, part.place)};
}

}  // namespace

Result<Judgement> judge(const Catalogue& known, const RebuildText& rebuild,
                        const Conditions& conditions) {
  if (auto good = check_cures(known); !good) return good.error();
  auto host = host_of(known, rebuild.model, rebuild.kind, rebuild.where);
  if (!host) return host.error();
  if (auto good = check_signs(known, rebuild); !good) return good.error();
  RebuildText narrow = rebuild;
  Narrowed narrowed;
  if (const auto* model = host.value().model) {
    if (auto good = check_variant(*model, rebuild); !good) return good.error();
    narrowed = narrow_variants(known, *model, rebuild);
    if (narrowed.left.empty() && !narrowed.struck_out.empty())
      return contradiction_of(known, *model, rebuild, narrowed);
    narrow.seen = narrowed.seen;
  }
  for (auto& part : narrow.parts) {
    part = with_revision(known, part);
    if (part.candidates.empty()) continue;
    part.candidates = narrow_candidates(known, host.value().model, part, narrowed.struck_out);
    if (part.candidates.empty()) return no_candidate(part);
  }
  const auto cases = cases_of(narrow, host.value(), narrowed.left);
  std::vector<Judgement> all;
  for (const auto& one : cases) {
    auto judged = judge_one(known, one.rebuild, one.host, conditions);
    if (!judged) return judged.error();
    all.push_back(std::move(judged).value());
  }
  Judgement whole = combine(known, std::move(all), cases);
  whole.struck_out = narrowed.struck_out;
  for (const auto* variant : narrowed.left) whole.variants_left.push_back(variant->name);
  if (narrowed.left.size() > 1) whole.variant.clear();
  if (cases.size() > 1) ask_which(whole, known, narrowed, narrow, host.value());
  return whole;
}

}  // namespace benchgraft::fit
