#include "fit/rule_names.hpp"

#include <fmt/format.h>

#include "base/text.hpp"

namespace benchgraft::fit {

const std::vector<std::string>& rule_names() {
  static const std::vector<std::string> kNames = {
      // across a link
      "domain clash", "class clash", "over voltage", "rail low", "rail overload", "level clash",
      "drive clash", "direction clash", "protocol clash", "rate clash", "missing reply",
      "crossed signals", "nothing feeds it", "no return", "safety loop open", "string current",
      "string volts", "sensor curve", "empty contact", "not recorded", "does not mate", "plug cut",
      "wrong socket", "reversed plug", "left unplugged", "lamp power", "trait clash", "fellow part",
      "swap note", "records disagree",
      // one part in its place
      "mount", "no room", "stand-off", "socket panel", "other edge", "known bad", "mains range",
      "two grounds",
      // the whole rebuild
      "missing part", "several jobs", "carried piece", "missing piece", "least load", "orientation",
      "light and throw", "setting elsewhere", "out of reach", "bound memory", "sticker volts",
      "counter lies", "capability", "earth path", "touch current", "lead reaches fan",
      "lead too short", "conductor not proven", "conductors exchanged", "colour conflict",
      "green-yellow misused", "fuse and switch", "plug polarity", "cord anchorage",
      "insulation distance", "fuse rating", "fuse type", "wire size", "contact rating", "volt drop",
      "not judged"};
  return kNames;
}

bool is_safety_rule(const std::string& rule) {
  static const std::vector<std::string> kSafety = {
      "domain clash",         "earth path",      "touch current",
      "lamp power",           "mains range",     "two grounds",
      "safety loop open",     "sensor curve",    "conductor not proven",
      "conductors exchanged", "colour conflict", "green-yellow misused",
      "fuse and switch",      "plug polarity",   "cord anchorage",
      "insulation distance",  "fuse rating",     "fuse type"};
  return contains(kSafety, rule);
}

namespace {

Result<void> check_reach(const catalogue::Adaptation& adaptation, const catalogue::Cure& cure) {
  const std::string owner = fmt::format("{}, line {}: adaptation \"{}\"", adaptation.where.file,
                                        adaptation.where.line, adaptation.name);
  if (is_safety_rule(cure.rule))
    return Error{ErrorKind::bad_input,
                 fmt::format("{} cures \"{}\"; that is made good by the right part and by "
                             "measuring, never by an adaptation: take it out.",
                             owner, cure.rule)};
  if (cure.type.empty() && cure.port.empty() && cure.signal.empty() && cure.role.empty())
    return Error{ErrorKind::bad_input,
                 fmt::format("{} cures \"{}\" wherever it shows; say for which type, port, signal "
                             "or role.",
                             owner, cure.rule)};
  return {};
}

Result<void> check_one(const std::string& rule, const std::string& owner, const Where& where) {
  if (rule.empty() || contains(rule_names(), rule)) return {};
  const std::string near = nearest_word(rule, rule_names());
  return Error{ErrorKind::bad_input,
               fmt::format("{}, line {}: {} cures \"{}\", and no rule is called so{}", where.file,
                           where.line, owner, rule,
                           near.empty() ? "; the names stand in docs/methods/fit.md."
                                        : fmt::format("; did you mean \"{}\"?", near))};
}

}  // namespace

Result<void> check_cures(const catalogue::Catalogue& known) {
  for (const auto* adaptation : known.adaptations())
    for (const auto& cure : adaptation->cures)
      if (auto good = check_reach(*adaptation, cure); !good) return good;
  for (const auto* adaptation : known.adaptations())
    for (const auto& cure : adaptation->cures)
      if (auto good = check_one(cure.rule, fmt::format("adaptation \"{}\"", adaptation->name),
                                adaptation->where);
          !good)
        return good;
  for (const auto* note : known.notes())
    for (const auto& done : note->did)
      if (auto good =
              check_one(done.cures, fmt::format("swap note \"{}\"", note->name), note->where);
          !good)
        return good;
  return {};
}

}  // namespace benchgraft::fit
