#include "fit/looks.hpp"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "base/text.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::RebuildText;
using catalogue::SetKind;
using catalogue::Variant;

// A part in the hand is read at once; a place is reached as fast as its part comes out (assumed).
constexpr double kMinutesInHand = 1, kMinutesForSign = 1, kUsualMinutes = 10;
constexpr std::size_t kMostCases = 4096;

double minutes_to_reach(const SetKind* kind, const std::vector<std::string>& roles) {
  if (kind)
    for (const auto& usual : kind->roles)
      if (contains(roles, usual.role)) return usual.out_minutes.value_or(kUsualMinutes);
  return kUsualMinutes;
}

bool is_open(const catalogue::ProposedPart& part) {
  return part.type.empty() && part.candidates.size() > 1;
}

/// All combinations as numbers: case = variant + variants * (first part + ...).
struct Cases {
  std::size_t variants = 1, all = 1;
  std::vector<std::size_t> stride;  ///< by open part
};

Cases cases_of(std::size_t variants, const std::vector<const catalogue::ProposedPart*>& open) {
  Cases cases;
  cases.variants = cases.all = std::max<std::size_t>(1, variants);
  for (const auto* part : open) {
    cases.stride.push_back(cases.all);
    if (cases.all * part->candidates.size() <= kMostCases) cases.all *= part->candidates.size();
  }
  return cases;
}

void add_places(const catalogue::Catalogue& known, const catalogue::Model& model,
                const SetKind* kind, const std::vector<const Variant*>& variants,
                const RebuildText& rebuild, const Cases& cases, std::vector<PossibleLook>& looks) {
  for (const auto& position : model.positions) {
    const auto is_it = [&](const std::string& name) {
      return name == position.name || contains(position.roles, name);
    };
    if (std::any_of(rebuild.missing.begin(), rebuild.missing.end(), is_it)) continue;
    PossibleLook look;
    look.place = position.name;
    look.role = position.roles.empty() ? position.name : position.roles.front();
    look.in_host = true;
    look.minutes = minutes_to_reach(kind, position.roles);
    for (std::size_t i = 0; i < cases.all; ++i) {
      const auto& parts = variants[i % cases.variants]->parts;
      const auto found = parts.find(position.name);
      const auto* type = found == parts.end() ? nullptr : known.part_type(found->second);
      look.shows.push_back(type ? type->reference() : found == parts.end() ? "" : found->second);
    }
    looks.push_back(std::move(look));
  }
}

void add_signs(const std::vector<const Variant*>& variants, const Cases& cases,
               std::vector<PossibleLook>& looks) {
  const bool all_tell = std::none_of(variants.begin(), variants.end(),
                                     [](const Variant* v) { return v->signs.empty(); });
  if (!all_tell) return;
  std::vector<std::string> signs;
  for (const auto* variant : variants)
    for (const auto& sign : variant->signs)
      if (!contains(signs, sign)) signs.push_back(sign);
  for (const auto& sign : signs) {
    PossibleLook look;
    look.place = look.role = "cabinet";
    look.sign = sign;
    look.in_host = true;
    look.minutes = kMinutesForSign;
    for (std::size_t i = 0; i < cases.all; ++i)
      look.shows.emplace_back(contains(variants[i % cases.variants]->signs, sign) ? "there"
                                                                                  : "not there");
    looks.push_back(std::move(look));
  }
}

void add_parts(const std::vector<const catalogue::ProposedPart*>& open, const Cases& cases,
               std::vector<PossibleLook>& looks) {
  for (std::size_t k = 0; k < open.size(); ++k) {
    PossibleLook look;
    look.place = look.role = open[k]->place;
    look.minutes = kMinutesInHand;
    const auto& candidates = open[k]->candidates;
    for (std::size_t i = 0; i < cases.all; ++i)
      look.shows.push_back(candidates[i / cases.stride[k] % candidates.size()]);
    looks.push_back(std::move(look));
  }
}

// What each thing that may be seen would leave, in the order it is first met.
std::vector<std::vector<std::string>> groups(const PossibleLook& look,
                                             const std::vector<const Variant*>& variants) {
  std::vector<std::string> seen;
  std::vector<std::vector<std::string>> names;
  for (std::size_t i = 0; i < look.shows.size(); ++i) {
    const auto at =
        static_cast<std::size_t>(std::find(seen.begin(), seen.end(), look.shows[i]) - seen.begin());
    if (at == seen.size()) seen.push_back(look.shows[i]), names.emplace_back();
    const std::string name = look.in_host ? variants[i % variants.size()]->name : look.shows[i];
    if (!contains(names[at], name)) names[at].push_back(name);
  }
  return names;
}

}  // namespace

double expected_left(const std::vector<std::string>& shows) {
  std::map<std::string, double> count;
  for (const auto& seen : shows) ++count[seen];
  double squares = 0;
  for (const auto& [seen, n] : count) squares += n * n;
  return shows.empty() ? 0 : squares / static_cast<double>(shows.size());
}

std::vector<PossibleLook> possible_looks(const catalogue::Catalogue& known,
                                         const catalogue::Model* model, const SetKind* kind,
                                         const std::vector<const Variant*>& variants,
                                         const RebuildText& rebuild) {
  std::vector<const catalogue::ProposedPart*> open;
  for (const auto& part : rebuild.parts)
    if (is_open(part)) open.push_back(&part);
  const Cases cases = cases_of(variants.size(), open);
  std::vector<PossibleLook> looks;
  if (model && variants.size() > 1) {
    add_signs(variants, cases, looks);
    add_places(known, *model, kind, variants, rebuild, cases, looks);
  }
  add_parts(open, cases, looks);
  return looks;
}

std::optional<PossibleLook> best_look(const std::vector<PossibleLook>& looks) {
  const PossibleLook* best = nullptr;
  double fewest = 0;
  for (const auto& look : looks) {
    const double left = expected_left(look.shows);
    if (left >= static_cast<double>(look.shows.size())) continue;
    if (best && (left > fewest || (left == fewest && look.minutes >= best->minutes))) continue;
    best = &look;
    fewest = left;
  }
  return best ? std::optional(*best) : std::nullopt;
}

std::string look_words(const PossibleLook& look, const std::vector<const Variant*>& variants) {
  const auto apart = groups(look, variants);
  std::vector<std::string> words;
  for (const auto& group : apart) words.push_back(listed(group, " or "));
  const std::string tells = words.size() == 2
                                ? fmt::format("it tells {} from {}", words[0], words[1])
                                : fmt::format("it tells {} apart", listed(words, " and "));
  if (!look.sign.empty())
    return fmt::format("Look for this on the set, \"{}\": {}.", look.sign, tells);
  if (!look.in_host)
    return fmt::format("Read the printed number on the {}: is it {}?", look.place,
                       listed(words, " or "));
  return fmt::format("Look at the {}: {}.", look.place, tells);
}

}  // namespace benchgraft::fit
