#include "fit/variants.hpp"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/notes.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Model;
using catalogue::ProposedPart;
using catalogue::Variant;

// The position of the model that `place` (a position or a role) names.
const catalogue::Position* position_named(const Model& model, const std::string& place) {
  for (const auto& position : model.positions)
    if (position.name == place) return &position;
  for (const auto& position : model.positions)
    if (std::find(position.roles.begin(), position.roles.end(), place) != position.roles.end())
      return &position;
  return nullptr;
}

std::string contradiction(const catalogue::Catalogue& known, const Model& model,
                          const Variant& variant, const ProposedPart& seen) {
  const auto* position = position_named(model, seen.place);
  if (!position || seen.type.empty()) return {};
  const auto built = variant.parts.find(position->name);
  const bool left_empty =
      built == variant.parts.end() && position->optional && !variant.parts.empty();
  if (left_empty)
    return fmt::format("{} was seen as the {}, {} was built without one", seen.type, position->name,
                       variant.name);
  const auto* type = built == variant.parts.end() ? nullptr : known.part_type(built->second);
  if (!type) return {};
  if (means(seen.type, *type)) return {};
  return fmt::format("{} was seen as the {}, {} was built with {}", seen.type, position->name,
                     variant.name, type->reference());
}

const catalogue::Position* most_telling(const Model& model,
                                        const std::vector<const Variant*>& left) {
  const catalogue::Position* best = nullptr;
  std::size_t most = 1;
  for (const auto& position : model.positions) {
    std::set<std::string> different;
    for (const auto* variant : left) {
      const auto part = variant->parts.find(position.name);
      different.insert(part == variant->parts.end() ? "" : part->second);
    }
    if (different.size() > most) {
      most = different.size();
      best = &position;
    }
  }
  return best;
}

}  // namespace

std::vector<std::string> narrow_candidates(const catalogue::Catalogue& known, const Model* model,
                                           const ProposedPart& part,
                                           std::vector<StruckOut>& struck_out) {
  const auto* position = model ? position_named(*model, part.place) : nullptr;
  const std::vector<std::string> roles =
      position && !position->roles.empty() ? position->roles : std::vector<std::string>{part.place};
  std::vector<std::string> left;
  for (const auto& candidate : part.candidates) {
    const auto* type = known.part_type(candidate);
    const bool does_it = !type || std::any_of(roles.begin(), roles.end(),
                                              [&](const auto& role) { return type->fills(role); });
    if (does_it)
      left.push_back(candidate);
    else
      struck_out.push_back(
          {candidate, fmt::format("it does not do the job of {}", listed(roles, " or "))});
  }
  return left;
}

Narrowed narrow_variants(const catalogue::Catalogue& known, const Model& model,
                         const catalogue::RebuildText& rebuild) {
  Narrowed narrowed;
  for (const auto& variant : model.variants) {
    std::string because;
    if (!rebuild.variant.empty() && variant.name != rebuild.variant)
      because = fmt::format("it is said to be {}", rebuild.variant);
    for (const auto& seen : rebuild.seen)
      if (because.empty()) because = contradiction(known, model, variant, seen);
    if (because.empty())
      narrowed.left.push_back(&variant);
    else
      narrowed.struck_out.push_back({variant.name, because});
  }
  if (narrowed.left.size() > 1) narrowed.look_at = most_telling(model, narrowed.left);
  return narrowed;
}

}  // namespace benchgraft::fit
