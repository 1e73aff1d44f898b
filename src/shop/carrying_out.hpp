// One command being carried out on a copy of the shop: what the command files share.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "base/result.hpp"
#include "shop/commands.hpp"

namespace benchgraft::shop {

/// The copy, and the occasion it is changed on.
struct Work {
  Shop shop;
  const Occasion& occasion;

  [[nodiscard]] std::string date() const { return occasion.when.substr(0, 10); }
};

/// Fails with the nearest code when there is no such thing.
Result<Set*> find_set(Shop& shop, const std::string& code);
Result<Part*> find_part(Shop& shop, const std::string& code);
Result<RebuildRecord*> find_begun(Shop& shop, const std::string& name);

/// "set K7R, tuner", "shelf "A3"" or "no named place".
std::string whereabouts(const Shop& shop, const Part& part);

/// Takes `part` out of its position, which then is missing there, and onto shelf `place`. Where it
/// came from is recorded unless it only leaves for another position of the same set (`stays`).
void lift_out(Shop& shop, Part& part, const std::string& place, bool stays = false);
/// Puts `part` into `position` of `set`, which then is not missing any more.
void put_in(Part& part, Set& set, const std::string& position);

/// `wanted`, or that with " (2)", " (3)", ... when `taken` already holds it.
std::string free_name(const std::string& wanted, const std::vector<std::string>& taken);

// One function for each command; each returns the sentence for the journal.
Result<std::string> carry_out(const TakeIn& command, Work& work);
Result<std::string> carry_out(const AddPart& command, Work& work);
Result<std::string> carry_out(const MovePart& command, Work& work);
Result<std::string> carry_out(const SetState& command, Work& work);
Result<std::string> carry_out(const RecordChange& command, Work& work);
Result<std::string> carry_out(const ChangeSet& command, Work& work);
Result<std::string> carry_out(const ChangePart& command, Work& work);
Result<std::string> carry_out(const AddWish& command, Work& work);
Result<std::string> carry_out(const WithdrawWish& command, Work& work);
Result<std::string> carry_out(const SetTerms& command, Work& work);
Result<std::string> carry_out(const AddNote& command, Work& work);
Result<std::string> carry_out(const BeginRebuild& command, Work& work);
Result<std::string> carry_out(const FinishRebuild& command, Work& work);
Result<std::string> carry_out(const GiveUpRebuild& command, Work& work);

}  // namespace benchgraft::shop
