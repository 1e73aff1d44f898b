#include "plan/fitting.hpp"

#include <algorithm>

#include "plan/facts.hpp"

namespace benchgraft::plan {
namespace {

constexpr char kEnd = '\n';  // no name holds one

void worsen(fit::Verdict& sum, const Result<fit::PartAnswer>& one) {
  const auto verdict = one ? one.value().verdict : fit::Verdict::does_not_fit;
  sum = std::max(sum, verdict);
}

std::string text_of(const std::string& model, const std::vector<std::string>& variants,
                    const Placed& part) {
  std::string text = model + kEnd;
  for (const auto& variant : variants) text += variant + kEnd;
  return text + part.part.place + kEnd + part.key + kEnd;
}

void add(std::string& text, const catalogue::ProposedPart& part) {
  text += part.place + kEnd + effective_key(part.type, part.changes) + kEnd + part.from + kEnd;
  for (const auto& candidate : part.candidates) text += candidate + kEnd;
}

std::string text_of(const catalogue::RebuildText& rebuild) {
  std::string text = rebuild.model + kEnd + rebuild.variant + kEnd + "seen" + kEnd;
  for (const auto& part : rebuild.seen) add(text, part);
  text += std::string("parts") + kEnd;
  for (const auto& part : rebuild.parts) add(text, part);
  text += std::string("missing") + kEnd;
  for (const auto& missing : rebuild.missing) text += missing + kEnd;
  return text;
}

}  // namespace

Fitting fitting_by_fit(const catalogue::Catalogue& known, const fit::Conditions& conditions) {
  return {[&known, conditions](const std::string& model, const std::string& variant,
                               const catalogue::ProposedPart& part) {
            return fit::answer_single(known, model, variant, part, conditions);
          },
          [&known, conditions](const std::string& model, const std::string& variant,
                               const catalogue::ProposedPart& a, const catalogue::ProposedPart& b) {
            return fit::answer_pair(known, model, variant, a, b, conditions);
          },
          [&known, conditions](const catalogue::RebuildText& rebuild) {
            return fit::judge(known, rebuild, conditions);
          }};
}

fit::Verdict Answers::single(const std::string& model, const std::vector<std::string>& variants,
                             const Placed& part) {
  const std::string text = text_of(model, variants, part);
  const auto found = singles_.find(text);
  if (found != singles_.end()) return found->second;
  auto sum = fit::Verdict::fits;
  for (const auto& variant : variants) worsen(sum, fitting_.single(model, variant, part.part));
  return singles_.emplace(text, sum).first->second;
}

fit::Verdict Answers::pair(const std::string& model, const std::vector<std::string>& variants,
                           const Placed& a, const Placed& b) {
  const std::string text = text_of(model, variants, a) + b.part.place + kEnd + b.key;
  const auto found = pairs_.find(text);
  if (found != pairs_.end()) return found->second;
  auto sum = fit::Verdict::fits;
  for (const auto& variant : variants) worsen(sum, fitting_.pair(model, variant, a.part, b.part));
  return pairs_.emplace(text, sum).first->second;
}

const Result<fit::Judgement>& Answers::whole(const catalogue::RebuildText& rebuild) {
  const std::string text = text_of(rebuild);
  const auto found = wholes_.find(text);
  if (found != wholes_.end()) return found->second;
  return wholes_.emplace(text, fitting_.whole(rebuild)).first->second;
}

}  // namespace benchgraft::plan
