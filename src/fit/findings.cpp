#include "fit/findings.hpp"

#include <fmt/format.h>

#include "base/id.hpp"
#include "base/text.hpp"

namespace benchgraft::fit {

using catalogue::Contact;
using catalogue::word_of;

std::string Findings::code_for(const std::string& rule, const std::string& subject) {
  const std::uint64_t hash = stable_hash(rule + "|" + subject);
  for (std::uint64_t salt = 0;; ++salt) {
    const std::string code = short_code(hash + salt * 7919, 4);
    if (codes_.insert(code).second) return code;
  }
}

Reason& Findings::add(const std::string& rule, RuleSort sort, Verdict verdict,
                      const std::string& says, const std::string& subject) {
  Reason reason;
  reason.rule = rule;
  reason.sort = sort;
  reason.verdict = reason.before = verdict;
  reason.says = says;
  reason.code = code_for(rule, subject);
  out.reasons.push_back(std::move(reason));
  return out.reasons.back();
}

std::string Findings::ask(const std::string& text, const std::string& about, const std::string& key,
                          const std::string& role, bool safety) {
  for (auto& question : out.questions)
    if (question.about == about && question.key == key && question.text == text) {
      question.safety = question.safety || safety;
      return question.code;
    }
  Question question;
  question.text = text;
  question.about = about;
  question.key = key;
  question.role = role;
  question.safety = safety;
  question.code = code_for("question", about + "|" + key + "|" + text);
  out.questions.push_back(question);
  return question.code;
}

Reason& Findings::unknown(RuleSort sort, const std::string& says, const std::string& question,
                          const std::string& about, const std::string& key, const std::string& role,
                          bool safety) {
  ask(question, about, key, role, safety);
  Reason& reason = add("not recorded", sort, Verdict::unknown, says, about + "|" + key);
  reason.safety = safety;
  reason.source = Source::assumed;
  reason.roles = {role};
  reason.would_change = fmt::format("Recording {} of {} would settle it.", key, about);
  return reason;
}

Fact fact_of(const catalogue::PartType& type, const std::string& text) {
  return {fmt::format("{}: {}", type.reference(), text), type.where};
}

Fact fact_of(const catalogue::SwapNote& note) {
  return {fmt::format("swap note \"{}\"", note.name), note.where};
}

Fact fact_of(const catalogue::Model& model, const std::string& text) {
  return {fmt::format("{}: {}", model.name, text), model.where};
}

Fact fact_of(const Place& place, const catalogue::Port& port, const Contact& c) {
  std::string text = fmt::format("{} {}, {}", place.type ? place.type->reference() : place.position,
                                 port.name, contact_called(c));
  const auto say = [&](std::string_view what) {
    if (!what.empty()) text += fmt::format(", {}", what);
  };
  say(word_of(catalogue::kNetClassWords, c.net_class));
  say(word_of(catalogue::kDomainWords, c.domain));
  say(word_of(catalogue::kDirectionWords, c.direction));
  if (c.volts) say(volts_text(*c.volts));
  if (c.amps) say(number(*c.amps) + " A");
  if (c.logic_volts) say(number(*c.logic_volts) + " V logic");
  say(word_of(catalogue::kDriveWords, c.drive));
  if (c.active != catalogue::Level::unknown)
    say(fmt::format("active {}", word_of(catalogue::kLevelWords, c.active)));
  if (c.hertz) say(fmt::format("{} Hz", number(c.hertz->high)));
  say(c.protocol);
  if (c.waits_s) say(fmt::format("must be answered within {} s", number(*c.waits_s)));
  return {text, c.where};
}

std::string contact_called(const Contact& contact) {
  if (contact.signal.empty()) return fmt::format("contact {}", contact.number);
  return fmt::format("contact {} \"{}\"", contact.number, contact.signal);
}

std::string contact_carries(const Contact& c) {
  using catalogue::NetClass;
  const std::string sort(word_of(catalogue::kNetClassWords, c.net_class));
  if (c.net_class == NetClass::unused) return "left empty";
  const auto domain = domain_of(c);
  if (c.net_class == NetClass::ground && domain == catalogue::Domain::primary) return "hot ground";
  if (c.net_class == NetClass::ground && domain == catalogue::Domain::secondary)
    return "cold ground";
  const bool power = c.net_class == NetClass::supply || c.net_class == NetClass::bus ||
                     c.net_class == NetClass::mains;
  std::string text = c.signal;
  if (power && c.volts && text.find('V') == std::string::npos)
    text = volts_text(*c.volts) + (text.empty() ? "" : " " + text);
  if (sort.empty()) return text.empty() ? "not known" : text + ", class not known";
  if (text.find(sort) == std::string::npos) text += (text.empty() ? "" : " ") + sort;
  return text;
}

std::string port_called(const Place& place, const catalogue::Port& port) {
  const auto half = word_of(catalogue::kHalfWords, port.connector.half);
  return fmt::format("the {} {} of {}", port.name, half.empty() ? "connector" : half,
                     place.type ? place.type->reference() : place.position);
}

std::string number(double value) {
  std::string text = fmt::format("{:.3f}", value);
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text;
}

std::string volts_text(const catalogue::Range& range) { return range_text(range, "V"); }

std::string range_text(const catalogue::Range& range, const std::string& unit) {
  std::string text = number(range.low);
  if (range.low != range.high) text += " to " + number(range.high);
  return unit.empty() ? text : text + " " + unit;
}

}  // namespace benchgraft::fit
