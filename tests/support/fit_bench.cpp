#include "support/fit_bench.hpp"

#include <algorithm>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "base/text.hpp"
#include "catalogue/text.hpp"
#include "fit/rule_names.hpp"

namespace benchgraft::fit_bench {
namespace {

// Splits at commas that stand in no bracket and no quotes.
std::vector<std::string> entries(const std::string& text) {
  std::vector<std::string> all(1);
  int depth = 0;
  bool quoted = false;
  for (const char c : text) {
    if (c == '"') quoted = !quoted;
    if (!quoted && (c == '[' || c == '{')) ++depth;
    if (!quoted && (c == ']' || c == '}')) --depth;
    if (c == ',' && depth == 0 && !quoted)
      all.emplace_back();
    else
      all.back() += c;
  }
  std::vector<std::string> kept;
  for (const auto& entry : all)
    if (!trimmed(entry).empty()) kept.emplace_back(trimmed(entry));
  return kept;
}

std::string key_of(const std::string& entry) {
  return std::string(trimmed(entry.substr(entry[0] == '-' ? 1 : 0, entry.find('='))));
}

std::string joined(const std::vector<std::string>& words, const std::string& between) {
  std::string text;
  for (const auto& word : words) text += (text.empty() ? "" : between) + word;
  return text;
}

std::string lines(const std::string& list) { return joined(entries(list), "\n") + "\n"; }

}  // namespace

std::string facts(const std::string& defaults, const std::string& changes) {
  std::vector<std::string> kept = entries(defaults);
  for (const auto& change : entries(changes)) {
    const auto same = [&](const std::string& entry) { return key_of(entry) == key_of(change); };
    const auto found = std::find_if(kept.begin(), kept.end(), same);
    if (change[0] == '-')
      kept.erase(found, found == kept.end() ? found : found + 1);
    else if (found != kept.end())
      *found = change;
    else
      kept.push_back(change);
  }
  return joined(kept, ", ");
}

std::string contact(int n, const std::string& defaults, const std::string& changes) {
  return fmt::format("{{ n = {}, {} }}", n, facts(defaults, changes));
}

std::string port(const std::string& name, const std::string& to, const std::string& connector,
                 const std::vector<std::string>& contacts, const std::string& more) {
  std::string text =
      fmt::format("[[part_type.port]]\nport = \"{}\"\nconnector = {{ {} }}\n", name, connector);
  if (!to.empty()) text += fmt::format("to = \"{}\"\n", to);
  if (contacts != kNotRecorded)
    text += fmt::format("contacts = [\n{}\n]\n", joined(contacts, ",\n"));
  return text + lines(more);
}

std::string part(const std::string& name, const std::string& role, const std::string& changes,
                 const std::string& ports) {
  const std::string known = fmt::format(
      R"(part_type = "{}", kind = "board", roles = ["{}"], mount = "plate", carries = [], needs = [],)"
      R"(provides = [], stores = [], counter = [])",
      name, role);
  return "[[part_type]]\n" + lines(facts(known, changes)) +
         (ports.empty() && changes.find("-port") == std::string::npos ? "port = []\n" : "") + ports;
}

std::string model(const std::string& name,
                  const std::vector<std::pair<std::string, std::string>>& parts,
                  const std::string& changes, const std::string& more_tables) {
  std::string text =
      "[[model]]\n" +
      lines(facts(fmt::format(R"(model = "{}", kind = "bench set", protection = "II")", name),
                  changes));
  std::string built = "[[model.variant]]\nvariant = \"standard\"\n[model.variant.parts]\n";
  for (const auto& [position, type] : parts) {
    text += fmt::format("[[model.position]]\nposition = \"{}\"\n", position);
    if (!type.empty()) built += fmt::format("\"{}\" = \"{}\"\n", position, type);
  }
  return text + more_tables + built;
}

std::string swap(const std::string& place, const std::string& type, const std::string& from,
                 const std::string& changes) {
  return fmt::format("[[part]]\nplace = \"{}\"\ntype = \"{}\"\nfrom = \"{}\"\n", place, type,
                     from) +
         (changes.empty() ? "" : fmt::format("change = [\n{}\n]\n", changes));
}

catalogue::Catalogue catalogue_of(const std::string& body) {
  auto family = catalogue::read_family("format = 1\nfamily = \"tern\"\n" + body, "tern.toml");
  EXPECT_TRUE(family.ok()) << family.error().message << "\n" << body;
  std::vector<catalogue::Family> families;
  if (family) families.push_back(std::move(family).value());
  auto known = catalogue::Catalogue::from_families(std::move(families));
  EXPECT_TRUE(known.ok()) << known.error().message;
  return known ? std::move(known).value() : catalogue::Catalogue{};
}

catalogue::RebuildText rebuild_of(const std::string& text) {
  auto rebuild = catalogue::read_rebuild(text, "rebuild.toml");
  EXPECT_TRUE(rebuild.ok()) << rebuild.error().message;
  return rebuild ? std::move(rebuild).value() : catalogue::RebuildText{};
}

fit::Judgement judged(const std::string& body, const std::string& rebuild,
                      const fit::Conditions& conditions) {
  auto answer = fit::judge(catalogue_of(kBenchSet + body), rebuild_of(kHost + rebuild), conditions);
  EXPECT_TRUE(answer.ok()) << answer.error().message;
  return answer ? std::move(answer).value() : fit::Judgement{};
}

std::string refused(const std::string& body, const std::string& rebuild) {
  const auto answer = fit::judge(catalogue_of(kBenchSet + body), rebuild_of(kHost + rebuild));
  return answer ? "" : answer.error().message;
}

std::string body_of(const Meeting& m) {
  return part("OLD-1", m.plug_role) +
         part("NEW-1", m.plug_role, m.plug_facts,
              port("P", m.socket_role, m.plug_connector, m.plug, m.plug_more)) +
         part("HOST-1", m.socket_role, m.socket_facts,
              port("S", m.plug_role, m.socket_connector, m.socket, m.socket_more)) +
         model("Tern 40", {{m.plug_role, "OLD-1"}, {m.socket_role, "HOST-1"}}) + m.more;
}

fit::Judgement judged(const Meeting& m) {
  return judged(body_of(m), swap(m.plug_role, "NEW-1", "elsewhere", m.changes));
}

const fit::Reason& reason(const fit::Judgement& judgement, const std::string& rule) {
  static const fit::Reason kNone = [] {
    fit::Reason none;
    none.verdict = none.before = fit::Verdict::fits;
    return none;
  }();
  for (const auto& one : judgement.reasons)
    if (one.rule == rule) return one;
  return kNone;
}

const fit::Reason& reason_about(const fit::Judgement& judgement, const std::string& rule,
                                const std::string& signal) {
  for (const auto& one : judgement.reasons)
    if (one.rule == rule &&
        std::find(one.signals.begin(), one.signals.end(), signal) != one.signals.end())
      return one;
  return reason(judgement, "there is no such rule");
}

bool has_signal(const fit::Judgement& judgement, const std::string& rule,
                const std::string& signal) {
  return !reason_about(judgement, rule, signal).rule.empty();
}

bool has(const fit::Judgement& judgement, const std::string& rule) {
  return !reason(judgement, rule).rule.empty();
}

std::string told(const fit::Judgement& judgement) {
  std::string text = fit::to_text(judgement.verdict) + ":";
  for (const auto& one : judgement.reasons)
    text += fmt::format("\n  {}: {} (found {}): {}", one.rule, fit::to_text(one.verdict),
                        fit::to_text(one.before), one.says);
  for (const auto& question : judgement.questions) text += "\n  ? " + question.text;
  return text;
}

bool asks(const fit::Judgement& judgement, const std::string& words) {
  return std::any_of(
      judgement.questions.begin(), judgement.questions.end(),
      [&](const fit::Question& q) { return q.text.find(words) != std::string::npos; });
}

}  // namespace benchgraft::fit_bench
