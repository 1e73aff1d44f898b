#include "plan/facts.hpp"

#include <algorithm>

#include "catalogue/text.hpp"
#include "fit/variants.hpp"

namespace benchgraft::plan {
namespace {

constexpr double kUsualMinutes = 10;  // assumed

// Somebody else fitted it: the variant that the set is said to be was built without it.
bool is_foreign(const catalogue::Catalogue& known, const catalogue::Model& model,
                const catalogue::RebuildText& host, const catalogue::ProposedPart& seen) {
  if (std::none_of(model.variants.begin(), model.variants.end(),
                   [&](const auto& variant) { return variant.name == host.variant; }))
    return false;
  catalogue::RebuildText alone;
  alone.model = host.model;
  alone.variant = host.variant;
  alone.seen = {seen};
  return fit::narrow_variants(known, model, alone).left.empty();
}

bool begun(const shop::RebuildRecord& record) { return record.state == "begun"; }

}  // namespace

bool contains(const std::vector<std::string>& words, const std::string& word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool share_a_word(const std::vector<std::string>& a, const std::vector<std::string>& b) {
  return std::any_of(a.begin(), a.end(), [&](const auto& word) { return contains(b, word); });
}

Handling handling(const catalogue::SetKind* kind, const std::vector<std::string>& roles) {
  // The same rule as the judgement of a rebuild: the first role of the kind that the part fills.
  if (kind)
    for (const auto& usual : kind->roles)
      if (contains(roles, usual.role))
        return {usual.out_minutes.value_or(kUsualMinutes),
                usual.in_minutes.value_or(kUsualMinutes)};
  return {kUsualMinutes, kUsualMinutes};
}

double minutes_to_open(const catalogue::SetKind* kind) {
  return kind ? kind->open_minutes.value_or(kUsualMinutes) : kUsualMinutes;
}

std::string effective_key(const std::string& reference,
                          const std::vector<catalogue::Change>& changes) {
  if (changes.empty()) return reference;
  std::vector<catalogue::Change> plain = changes;
  for (auto& change : plain) change.note.clear();
  return reference + " | " + catalogue::write_changes(plain);
}

const catalogue::Position* position_named(const catalogue::Model& model, const std::string& name) {
  for (const auto& position : model.positions)
    if (position.name == name) return &position;
  for (const auto& position : model.positions)
    if (contains(position.roles, name)) return &position;
  return nullptr;
}

bool looks_enough(shop::Looks looks, const std::string& wanted) {
  if (wanted.empty()) return true;
  if (looks == shop::Looks::unknown) return false;
  const auto least = wanted == "good"   ? shop::Looks::good
                     : wanted == "fair" ? shop::Looks::fair
                                        : shop::Looks::poor;
  return looks >= least;
}

Money price_of(const catalogue::Model& model, shop::Looks looks,
               const std::vector<std::string>& abilities) {
  Money best{0};
  for (const auto& price : model.prices)
    if (looks_enough(looks, price.looks) &&
        std::all_of(price.needs.begin(), price.needs.end(),
                    [&](const auto& need) { return contains(abilities, need); }))
      best = std::max(best, price.price);
  return best;
}

bool is_needed(const catalogue::SetKind* kind, const catalogue::Position& position,
               const catalogue::PartType* factory, const std::string& role) {
  // A lead is needed where the factory fitted one, however optional its kind is.
  if (kind && !(factory && factory->is_lead()))
    for (const auto& usual : kind->roles)
      if (usual.role == role) return !usual.optional;
  return !position.optional;
}

bool counts(const catalogue::Model& model, shop::Looks looks, const catalogue::SetKind* kind,
            const catalogue::Position& position, const catalogue::PartType* factory,
            const catalogue::PartType* type, const std::vector<std::string>& roles) {
  for (const auto& role : roles)
    if (is_needed(kind, position, factory, role)) return true;
  if (!type || !type->provides) return false;
  return std::any_of(model.prices.begin(), model.prices.end(), [&](const auto& price) {
    return looks_enough(looks, price.looks) && share_a_word(price.needs, *type->provides);
  });
}

catalogue::ProposedPart as_proposed(const shop::Part& part, const std::string& place) {
  catalogue::ProposedPart text;
  text.place = place;
  text.type = part.type;
  if (part.type.empty()) text.candidates = part.candidates;
  text.changes = part.changes;
  text.run_hours = part.run_hours;
  if (part.state == shop::State::good) text.known_good = true;
  if (part.state == shop::State::bad) text.known_good = false;
  return text;
}

catalogue::RebuildText host_as_text(const catalogue::Catalogue& known, const shop::Shop& room,
                                    const shop::Set& set) {
  catalogue::RebuildText text;
  text.name = set.code;
  text.model = set.model;
  if (set.model.empty()) text.kind = set.kind;
  text.variant = set.variant;
  text.where.file = "set " + set.code;
  const auto* model = set.model.empty() ? nullptr : known.model(set.model);
  for (const auto* part : room.parts_in(set.id)) {
    if (part->position.empty()) continue;
    auto seen = as_proposed(*part, part->position);
    const bool foreign = model && is_foreign(known, *model, text, seen);
    (foreign ? text.parts : text.seen).push_back(std::move(seen));
  }
  return text;
}

void keep_foreign(catalogue::RebuildText& text, std::vector<catalogue::ProposedPart> foreign) {
  for (auto& part : foreign)
    if (std::none_of(text.parts.begin(), text.parts.end(),
                     [&](const auto& put) { return put.place == part.place; }))
      text.parts.push_back(std::move(part));
}

const shop::RebuildRecord* claimed_by(const shop::Shop& room, const shop::Set& set) {
  for (const auto& record : room.rebuilds)
    if (begun(record) && record.host == set.id) return &record;
  return nullptr;
}

const shop::RebuildRecord* claimed_by(const shop::Shop& room, const shop::Part& part) {
  for (const auto& record : room.rebuilds)
    if (begun(record) && std::any_of(record.parts.begin(), record.parts.end(),
                                     [&](const auto& used) { return used.part == part.id; }))
      return &record;
  return nullptr;
}

std::vector<const catalogue::Variant*> variants_of(const catalogue::Catalogue& known,
                                                   const catalogue::Model& model,
                                                   const shop::Shop& room, const shop::Set& set) {
  return fit::narrow_variants(known, model, host_as_text(known, room, set)).left;
}

FactoryPart factory_part(const catalogue::Catalogue& known, const catalogue::Position& position,
                         const std::vector<const catalogue::Variant*>& variants) {
  if (variants.empty()) return {};
  std::optional<std::string> agreed;
  for (const auto* variant : variants) {
    const auto found = variant->parts.find(position.name);
    const std::string reference = found == variant->parts.end() ? "" : found->second;
    if (agreed && *agreed != reference) return {};
    agreed = reference;
  }
  if (agreed->empty()) return {position.optional, nullptr};
  const auto* type = known.part_type(*agreed);
  return {type != nullptr, type};
}

}  // namespace benchgraft::plan
