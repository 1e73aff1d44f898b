#include "fit/candidates.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/findings.hpp"
#include "fit/notes.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Catalogue;
using catalogue::Model;
using catalogue::PartType;
using catalogue::ProposedPart;

bool does_the_job(const PartType& type, const std::vector<std::string>& roles) {
  return std::any_of(roles.begin(), roles.end(),
                     [&](const std::string& role) { return type.fills(role); });
}

std::string port_against(const PartType& type, const ProposedPart& part) {
  if (!type.ports || !part.changes.empty()) return "";
  for (const auto& port : part.ports)
    if (!type.port(port))
      return fmt::format("the port {} was seen on it, and {} is recorded without one", port,
                         type.reference());
  for (const auto& port : part.without_ports)
    if (type.port(port))
      return fmt::format("no port {} was seen on it, and {} is recorded with one", port,
                         type.reference());
  return "";
}

std::string ability_against(const PartType& type, const ProposedPart& part) {
  if (!type.provides) return "";
  for (const auto& able : part.can)
    if (!contains(*type.provides, able))
      return fmt::format("it was seen to have \"{}\", and {} is recorded without it", able,
                         type.reference());
  for (const auto& unable : part.cannot)
    if (contains(*type.provides, unable))
      return fmt::format("it was seen to have no \"{}\", and {} is recorded with it", unable,
                         type.reference());
  return "";
}

// The printed number itself, where one was read.
std::string number_against(const PartType& type, const ProposedPart& part) {
  if (!part.revision.empty() && type.revision != part.revision)
    return fmt::format("revision {} is printed on it, and {} is {}", part.revision,
                       type.reference(),
                       type.revision.empty() ? "recorded without a revision" : "another revision");
  return "";
}

// What models it is said to come from were built with in such a place; nothing when one of their
// variants does not say.
std::optional<std::vector<std::string>> built_there(const Catalogue& known, const std::string& from,
                                                    const std::vector<std::string>& roles) {
  const auto slash = from.find('/');
  const auto* model = known.model(from.substr(0, slash));
  if (!model || model->variants.empty()) return std::nullopt;
  const std::string wanted = slash == std::string::npos ? "" : from.substr(slash + 1);
  std::vector<std::string> built;
  for (const auto& variant : model->variants) {
    if (!wanted.empty() && variant.name != wanted) continue;
    bool told = false;
    for (const auto& [position, reference] : variant.parts) {
      const auto* type = known.part_type(reference);
      if (!type || !does_the_job(*type, roles)) continue;
      told = true;
      built.push_back(type->reference());
    }
    if (!told) return std::nullopt;
  }
  return built;
}

StruckOut struck(const std::string& candidate, const ProposedPart& part, std::string because,
                 std::vector<Fact> facts) {
  return {candidate, std::move(because), part.place, std::move(facts)};
}

}  // namespace

const catalogue::Position* position_named(const Model& model, const std::string& place) {
  for (const auto& position : model.positions)
    if (position.name == place) return &position;
  for (const auto& position : model.positions)
    if (contains(position.roles, place)) return &position;
  return nullptr;
}

bool shows_signs(const ProposedPart& part) {
  return !part.revision.empty() || !part.ports.empty() || !part.without_ports.empty() ||
         !part.can.empty() || !part.cannot.empty();
}

std::optional<Unlike> unlike(const PartType& type, const ProposedPart& part) {
  for (const auto& because :
       {number_against(type, part), port_against(type, part), ability_against(type, part)})
    if (!because.empty()) return Unlike{because, seen_fact(part), fact_of(type, "as recorded")};
  return std::nullopt;
}

Fact seen_fact(const ProposedPart& seen) {
  std::vector<std::string> words;
  if (seen.empty) words.emplace_back("no part");
  if (!seen.type.empty()) words.push_back(seen.type);
  if (!seen.candidates.empty()) words.push_back(listed(seen.candidates, " or "));
  if (!seen.revision.empty()) words.push_back("revision " + seen.revision);
  for (const auto& port : seen.ports) words.push_back("port " + port);
  for (const auto& port : seen.without_ports) words.push_back("no port " + port);
  for (const auto& able : seen.can) words.push_back("\"" + able + "\"");
  for (const auto& unable : seen.cannot) words.push_back("no \"" + unable + "\"");
  for (const auto& sign : seen.signs) words.push_back("\"" + sign + "\"");
  return {fmt::format("seen at the {}: {}", seen.place,
                      words.empty() ? "nothing written" : listed(words)),
          seen.where};
}

std::string place_words(const Where& where) {
  if (where.line <= 0) return where.file;
  return fmt::format("{}, line {}", where.file, where.line);
}

ProposedPart with_revision(const Catalogue& known, ProposedPart part) {
  const std::string both = part.type + "/" + part.revision;
  if (!part.type.empty() && !part.revision.empty() && known.part_type(both)) part.type = both;
  return part;
}

std::vector<std::string> narrow_candidates(const Catalogue& known, const Model* model,
                                           const ProposedPart& part,
                                           std::vector<StruckOut>& struck_out) {
  const auto* position = model ? position_named(*model, part.place) : nullptr;
  const std::vector<std::string> roles =
      position && !position->roles.empty() ? position->roles : std::vector<std::string>{part.place};
  const auto built = built_there(known, part.from, roles);
  std::vector<std::string> left;
  for (const auto& candidate : part.candidates) {
    const auto* type = known.part_type(candidate);
    if (!type) {
      left.push_back(candidate);
    } else if (!does_the_job(*type, roles)) {
      struck_out.push_back(struck(
          candidate, part, fmt::format("it does not do the job of {}", listed(roles, " or ")),
          {fact_of(*type, "its roles are " + listed(type->roles))}));
    } else if (const auto odd = unlike(*type, part)) {
      struck_out.push_back(struck(candidate, part, odd->because, {odd->seen, odd->record}));
    } else if (built && !contains(*built, type->reference())) {
      struck_out.push_back(struck(
          candidate, part,
          fmt::format("it comes from {}, which was built with {}", part.from, listed(*built)),
          {seen_fact(part),
           fact_of(*known.model(part.from.substr(0, part.from.find('/'))), "its variants")}));
    } else {
      left.push_back(candidate);
    }
  }
  return left;
}

Result<void> check_signs(const Catalogue& known, const catalogue::RebuildText& rebuild) {
  for (const auto* list : {&rebuild.seen, &rebuild.parts})
    for (const auto& part : *list) {
      const auto* type = known.part_type(with_revision(known, part).type);
      const auto odd = type ? unlike(*type, part) : std::nullopt;
      if (!odd) continue;
      return Error{ErrorKind::conflict,
                   fmt::format("{}: the {} is written down as {}, but {} ({}). One of the two is "
                               "wrong: look again, or correct the record.",
                               place_words(part.where), part.place, part.type, odd->because,
                               place_words(odd->record.where))};
    }
  return {};
}

}  // namespace benchgraft::fit
