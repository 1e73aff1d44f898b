#include "fit/variants.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/candidates.hpp"
#include "fit/findings.hpp"
#include "fit/notes.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Catalogue;
using catalogue::Model;
using catalogue::PartType;
using catalogue::ProposedPart;
using catalogue::RebuildText;
using catalogue::Variant;

Fact fact_of(const Model& model, const Variant& variant) {
  return {fmt::format("{}: variant {}", model.name, variant.name), variant.where};
}

/// What one variant has in one place.
struct Built {
  const PartType* type = nullptr;  ///< null: not known, or nothing
  bool left_empty = false;         ///< by the factory
};

Built built_in(const Catalogue& known, const catalogue::Position& position,
               const Variant& variant) {
  const auto built = variant.parts.find(position.name);
  if (built == variant.parts.end()) return {nullptr, position.optional && !variant.parts.empty()};
  return {known.part_type(built->second), false};
}

bool names_a_part(const ProposedPart& seen) {
  return !seen.type.empty() || !seen.candidates.empty() || !seen.revision.empty() ||
         !seen.ports.empty();
}

// Why the part in its place speaks against `variant`; "" when it does not.
std::string part_against(const Catalogue& known, const catalogue::Position& position,
                         const Variant& variant, const ProposedPart& seen) {
  const Built built = built_in(known, position, variant);
  if (seen.empty)
    return built.type ? fmt::format("the {} was seen never filled, {} was built with {}",
                                    position.name, variant.name, built.type->reference())
                      : "";
  const std::string what = !seen.type.empty()         ? seen.type
                           : !seen.candidates.empty() ? listed(seen.candidates, " or ")
                                                      : "a part";
  if (built.left_empty && names_a_part(seen))
    return fmt::format("{} was seen as the {}, {} was built without one", what, position.name,
                       variant.name);
  if (!built.type) return "";
  const auto is_it = [&](const std::string& reference) { return means(reference, *built.type); };
  const bool named = seen.type.empty()
                         ? seen.candidates.empty() ||
                               std::any_of(seen.candidates.begin(), seen.candidates.end(), is_it)
                         : is_it(seen.type);
  if (!named)
    return fmt::format("{} was seen as the {}, {} was built with {}", what, position.name,
                       variant.name, built.type->reference());
  const auto odd = unlike(*built.type, seen);
  return odd ? fmt::format("{} was built with {} as the {}: {}", variant.name,
                           built.type->reference(), position.name, odd->because)
             : "";
}

// What the whole set of this variant can do; `all` says whether every part of it tells.
std::vector<std::string> abilities(const Catalogue& known, const Model& model,
                                   const Variant& variant, bool& all) {
  std::vector<std::string> able = variant.provides;
  all = model.provides.has_value() && !variant.parts.empty();
  if (model.provides) able.insert(able.end(), model.provides->begin(), model.provides->end());
  for (const auto& position : model.positions) {
    const Built built = built_in(known, position, variant);
    if (built.left_empty) continue;
    all = all && built.type && built.type->provides;
    if (built.type && built.type->provides)
      able.insert(able.end(), built.type->provides->begin(), built.type->provides->end());
  }
  return able;
}

std::string set_against(const Catalogue& known, const Model& model, const Variant& variant,
                        const ProposedPart& seen) {
  if (seen.can.empty() && seen.cannot.empty()) return "";
  bool all = false;
  const auto able = abilities(known, model, variant, all);
  for (const auto& unable : seen.cannot)
    if (contains(able, unable))
      return fmt::format("the set was seen to have no \"{}\", {} was built with it", unable,
                         variant.name);
  for (const auto& one : seen.can)
    if (all && !contains(able, one))
      return fmt::format("the set was seen to have \"{}\", {} was built without it", one,
                         variant.name);
  return "";
}

std::string sign_against(const Variant& variant, const ProposedPart& seen) {
  if (variant.signs.empty()) return "";
  for (const auto& sign : seen.signs)
    if (!contains(variant.signs, sign))
      return fmt::format("\"{}\" was seen, {} is recorded with {}", sign, variant.name,
                         listed(variant.signs));
  return "";
}

std::string against(const Catalogue& known, const Model& model, const Variant& variant,
                    const ProposedPart& seen) {
  if (auto because = sign_against(variant, seen); !because.empty()) return because;
  const auto* position = position_named(model, seen.place);
  return position ? part_against(known, *position, variant, seen)
                  : set_against(known, model, variant, seen);
}

class Narrowing {
 public:
  Narrowing(const Catalogue& known, const Model& model, const RebuildText& rebuild)
      : known_(known), model_(model), rebuild_(rebuild) {
    for (const auto& variant : model.variants) out_.left.push_back(&variant);
    for (const auto& seen : rebuild.seen) out_.seen.push_back(with_revision(known, seen));
  }

  Narrowed run() {
    if (!rebuild_.variant.empty()) strike_all_but_the_stated();
    for (auto& seen : out_.seen)
      if (!seen.candidates.empty())
        seen.candidates = narrow_candidates(known_, &model_, seen, out_.struck_out);
    for (bool again = true; again;) {
      again = strike_variants();
      again = strike_candidates() || again;
    }
    for (auto& seen : out_.seen)
      if (seen.type.empty() && seen.candidates.size() == 1) {
        seen.type = seen.candidates.front();
        seen.candidates.clear();
      }
    return std::move(out_);
  }

 private:
  void strike_all_but_the_stated() {
    std::erase_if(out_.left, [&](const Variant* variant) {
      if (variant->name == rebuild_.variant) return false;
      out_.struck_out.push_back({variant->name,
                                 fmt::format("it is said to be {}", rebuild_.variant),
                                 "",
                                 {{"variant = " + rebuild_.variant, rebuild_.variant_where}}});
      return true;
    });
  }

  bool strike_variants() {
    const auto before = out_.left.size();
    std::erase_if(out_.left, [&](const Variant* variant) {
      for (const auto& seen : out_.seen) {
        auto because = against(known_, model_, *variant, seen);
        if (because.empty()) continue;
        out_.struck_out.push_back(
            {variant->name, std::move(because), "", {seen_fact(seen), fact_of(model_, *variant)}});
        return true;
      }
      return false;
    });
    return out_.left.size() != before;
  }

  // A candidate that none of the variants left was built with, when all of them say with what.
  bool strike_candidates() {
    bool struck = false;
    for (auto& seen : out_.seen) {
      const auto* position = position_named(model_, seen.place);
      if (!position || seen.candidates.size() < 2) continue;
      std::vector<const PartType*> built;
      for (const auto* variant : out_.left)
        built.push_back(built_in(known_, *position, *variant).type);
      if (built.empty() || std::count(built.begin(), built.end(), nullptr) > 0) continue;
      struck =
          std::erase_if(seen.candidates,
                        [&](const std::string& candidate) {
                          const auto is_it = [&](const PartType* type) {
                            return means(candidate, *type);
                          };
                          if (std::any_of(built.begin(), built.end(), is_it)) return false;
                          out_.struck_out.push_back(struck_by_variants(candidate, seen, built));
                          return true;
                        }) > 0 ||
          struck;
    }
    return struck;
  }

  [[nodiscard]] StruckOut struck_by_variants(const std::string& candidate, const ProposedPart& seen,
                                             const std::vector<const PartType*>& built) const {
    std::vector<std::string> names, types;
    std::vector<Fact> facts{seen_fact(seen)};
    for (std::size_t i = 0; i < built.size(); ++i) {
      names.push_back(out_.left[i]->name);
      if (!contains(types, built[i]->reference())) types.push_back(built[i]->reference());
      facts.push_back(fact_of(model_, *out_.left[i]));
    }
    return {candidate,
            fmt::format("{} {} left, built with {}", listed(names),
                        names.size() == 1 ? "is" : "are", listed(types, " or ")),
            seen.place, std::move(facts)};
  }

  const Catalogue& known_;
  const Model& model_;
  const RebuildText& rebuild_;
  Narrowed out_;
};

// Everything that narrows the variants, one fact each: what was seen, and the variant stated.
std::vector<RebuildText> one_fact_each(const RebuildText& rebuild) {
  std::vector<RebuildText> facts;
  for (const auto& seen : rebuild.seen) {
    facts.emplace_back();
    facts.back().seen = {seen};
  }
  if (rebuild.variant.empty()) return facts;
  facts.emplace_back();
  facts.back().variant = rebuild.variant;
  facts.back().variant_where = rebuild.variant_where;
  return facts;
}

std::string fact_words(const RebuildText& fact) {
  if (fact.seen.empty())
    return fmt::format("{} (said to be {})", place_words(fact.variant_where), fact.variant);
  const Fact seen = seen_fact(fact.seen.front());
  return fmt::format("{} ({})", place_words(seen.where), seen.text);
}

std::string leaves(const Narrowed& narrowed) {
  std::vector<std::string> names;
  for (const auto* variant : narrowed.left) names.push_back(variant->name);
  return names.empty() ? "no variant" : listed(names);
}

}  // namespace

Narrowed narrow_variants(const Catalogue& known, const Model& model, const RebuildText& rebuild) {
  return Narrowing(known, model, rebuild).run();
}

Error contradiction_of(const Catalogue& known, const Model& model, const RebuildText& rebuild,
                       const Narrowed& narrowed) {
  const std::string begins = fmt::format(
      "{}: what was seen fits no recorded variant of {}: ", rebuild.where.file, model.name);
  const auto facts = one_fact_each(rebuild);
  const auto alone = [&](const RebuildText& fact) { return narrow_variants(known, model, fact); };
  for (const auto& fact : facts)
    if (const auto left = alone(fact); left.left.empty()) {
      std::vector<std::string> words;
      for (const auto& struck : left.struck_out)
        words.push_back(fmt::format("{} ({})", struck.candidate, struck.because));
      return {ErrorKind::conflict,
              fmt::format("{}{} stands against {}. Correct what was seen, or record the variant.",
                          begins, fact_words(fact), listed(words))};
    }
  for (std::size_t i = 0; i < facts.size(); ++i)
    for (std::size_t k = i + 1; k < facts.size(); ++k) {
      RebuildText both = facts[i];
      both.seen.insert(both.seen.end(), facts[k].seen.begin(), facts[k].seen.end());
      both.variant += facts[k].variant;
      if (!narrow_variants(known, model, both).left.empty()) continue;
      return {ErrorKind::conflict,
              fmt::format("{}{} leaves {}, but {} leaves {}. Look at both again, or record the "
                          "variant.",
                          begins, fact_words(facts[i]), leaves(alone(facts[i])),
                          fact_words(facts[k]), leaves(alone(facts[k])))};
    }
  std::vector<std::string> words;
  for (const auto& struck : narrowed.struck_out)
    if (struck.place.empty())
      words.push_back(fmt::format("{} ({})", struck.candidate, struck.because));
  return {ErrorKind::conflict, fmt::format("{}{}. Correct what was seen, or record the variant.",
                                           begins, listed(words))};
}

Result<void> check_variant(const Model& model, const RebuildText& rebuild) {
  if (rebuild.variant.empty() || model.variants.empty()) return {};
  std::vector<std::string> names;
  for (const auto& variant : model.variants) names.push_back(variant.name);
  if (contains(names, rebuild.variant)) return {};
  const std::string near = nearest_word(rebuild.variant, names);
  return Error{ErrorKind::not_found,
               fmt::format("{}: {} has no variant \"{}\"; {}", place_words(rebuild.variant_where),
                           model.name, rebuild.variant,
                           near.empty() ? fmt::format("it was built as {}.", listed(names, " or "))
                                        : fmt::format("did you mean \"{}\"?", near))};
}

}  // namespace benchgraft::fit
