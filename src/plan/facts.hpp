// Small facts about kinds, sets and parts that planning and rechecking both read.
#pragma once

#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "catalogue/rebuild_text.hpp"
#include "shop/shop.hpp"

namespace benchgraft::plan {

bool contains(const std::vector<std::string>& words, const std::string& word);
bool share_a_word(const std::vector<std::string>& a, const std::vector<std::string>& b);

/// Taking a part that fills `roles` out, and putting it in; 10 min each where the kind is silent
/// (assumed).
struct Handling {
  double out = 0, in = 0;
};
Handling handling(const catalogue::SetKind* kind, const std::vector<std::string>& roles);

/// Opening a set that is only taken apart.
double minutes_to_open(const catalogue::SetKind* kind);

/// The same for two parts that fit treats alike: printed number and changes, without remarks.
std::string effective_key(const std::string& reference,
                          const std::vector<catalogue::Change>& changes);

/// Position of `model` that `name`, a position or a role, means; null when there is none.
const catalogue::Position* position_named(const catalogue::Model& model, const std::string& name);

/// Price of the set when it can do `abilities`: the highest whose needs are met at these looks.
Money price_of(const catalogue::Model& model, shop::Looks looks,
               const std::vector<std::string>& abilities);
/// True when a price that asks for `wanted` may be had with `looks`. Unknown looks reach nothing.
bool looks_enough(shop::Looks looks, const std::string& wanted);

/// True when no set of this kind is whole without `role`, which `position` holds.
bool is_needed(const catalogue::SetKind* kind, const catalogue::Position& position,
               const catalogue::PartType* factory, const std::string& role);

/// True when the chance of this part counts: it does a needed job, or some price within reach asks
/// for what it provides. A dead part that nobody pays for spoils no sale.
bool counts(const catalogue::Model& model, shop::Looks looks, const catalogue::SetKind* kind,
            const catalogue::Position& position, const catalogue::PartType* factory,
            const catalogue::PartType* type, const std::vector<std::string>& roles);

/// A recorded part as rebuild text.
catalogue::ProposedPart as_proposed(const shop::Part& part, const std::string& place);

/// What is on record about the host, nothing put in yet. Where its variant is stated, a part that
/// this variant was not built with was put in by somebody: it stands among `parts`, not `seen`.
catalogue::RebuildText host_as_text(const catalogue::Catalogue& known, const shop::Shop& room,
                                    const shop::Set& set);
/// Puts `foreign`, the host's own parts that others fitted, back where nothing else is put in.
void keep_foreign(catalogue::RebuildText& text, std::vector<catalogue::ProposedPart> foreign);

/// The rebuild that has claimed this set or part and is not finished; null when it is free.
const shop::RebuildRecord* claimed_by(const shop::Shop& room, const shop::Set& set);
const shop::RebuildRecord* claimed_by(const shop::Shop& room, const shop::Part& part);

/// Variants the set may still be, by what is on record; empty when nothing agrees.
std::vector<const catalogue::Variant*> variants_of(const catalogue::Catalogue& known,
                                                   const catalogue::Model& model,
                                                   const shop::Shop& room, const shop::Set& set);

/// What the factory put into `position`, when all `variants` agree.
struct FactoryPart {
  bool sure = false;
  const catalogue::PartType* type = nullptr;  ///< null and sure: left empty by the factory
};
FactoryPart factory_part(const catalogue::Catalogue& known, const catalogue::Position& position,
                         const std::vector<const catalogue::Variant*>& variants);

}  // namespace benchgraft::plan
