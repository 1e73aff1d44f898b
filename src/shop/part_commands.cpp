// Commands about parts: where they are, what state they are in, what was changed on them.
#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "shop/carrying_out.hpp"
#include "shop/codes.hpp"
#include "shop/thing_text.hpp"
#include "shop/words.hpp"

namespace benchgraft::shop {

namespace {

std::string named_part(const Part& part) {
  return part.type.empty() ? called(part) : fmt::format("{} ({})", called(part), part.type);
}

// Named with both codes and the mend, before the search for contradictions would find it.
Result<void> check_position_free(const Shop& shop, const Part& part, const Set& set,
                                 const std::string& position) {
  for (const Part* other : shop.parts_in(set.id))
    if (!position.empty() && other->position == position && other->id != part.id)
      return Error{
          ErrorKind::conflict,
          fmt::format("\"{}\" of set {} already holds part {}, so part {} cannot go there; move "
                      "{} out first.",
                      position, set.code, other->code, part.code, other->code)};
  return {};
}

Result<void> check_target(const Set& set, const std::string& code) {
  if (set.fate == Fate::here || set.fate == Fate::rebuilt) return {};
  return Error{ErrorKind::conflict,
               fmt::format("set {} is {}, so part {} cannot go into it; correct the "
                           "set or its fate.",
                           set.code, word_of(kFateWords, set.fate), code)};
}

// What belongs to a customer stays with the customer's set.
Result<void> check_donor(const Shop& shop, const Part& part, const Set& target) {
  const Set* donor = part.in_set ? shop.set(*part.in_set) : shop.set_by_code(part.from);
  if (donor == nullptr || donor->id == target.id || donor->consent == Consent::may_strip) return {};
  return Error{
      ErrorKind::conflict,
      fmt::format("part {} belongs to set {}, which {}, so it cannot go into set {}; record the "
                  "owner's consent \"may strip\" first.",
                  part.code, donor->code,
                  donor->consent == Consent::unknown
                      ? "has no recorded consent and counts as \"must go back\""
                      : "must go back",
                  target.code)};
}

Result<void> check_unclaimed(const Shop& shop, const Part& part, const Set& target) {
  for (const auto& rebuild : shop.rebuilds)
    if (rebuild.state == kBegun && rebuild.host != target.id &&
        std::any_of(rebuild.parts.begin(), rebuild.parts.end(),
                    [&](const auto& one) { return one.part == part.id; }))
      return Error{
          ErrorKind::conflict,
          fmt::format("part {} is claimed by rebuild \"{}\", so it cannot go into set {}; finish "
                      "that rebuild or give it up first.",
                      part.code, rebuild.name, target.code)};
  return {};
}

Result<void> check_move_into(const Shop& shop, const Part& part, const Set& set,
                             const std::string& position) {
  if (auto sound = check_target(set, part.code); !sound) return sound;
  if (auto sound = check_donor(shop, part, set); !sound) return sound;
  if (auto sound = check_unclaimed(shop, part, set); !sound) return sound;
  return check_position_free(shop, part, set, position);
}

Result<void> check_one_place(const std::string& code, const std::string& set,
                             const std::string& position, const std::string& place) {
  if (!set.empty() && !place.empty())
    return Error{
        ErrorKind::bad_input,
        fmt::format("part {} cannot be in set {} and on shelf \"{}\"; a part is in one place: give "
                    "one of the two.",
                    code, set, place)};
  if (set.empty() && !position.empty())
    return Error{ErrorKind::bad_input,
                 fmt::format("position \"{}\" for part {} needs a set; give the set's code too.",
                             position, code)};
  return {};
}

}  // namespace

Result<std::string> carry_out(const AddPart& command, Work& work) {
  Part part = command.part;
  part.code = part.code.empty() ? free_code(work.shop, work.occasion.random) : tape_code(part.code);
  if (part.id.empty()) part.id = new_id<PartTag>(work.occasion.random);
  part.in_set.reset();
  if (auto sound = tidy_and_check(part, called(part)); !sound) return sound.error();
  if (auto sound = check_one_place(part.code, command.in_set, part.position, part.place); !sound)
    return sound.error();
  if (!command.in_set.empty()) {
    auto found = find_set(work.shop, command.in_set);
    if (!found) return found.error();
    Set& set = *found.value();
    if (auto sound = check_move_into(work.shop, part, set, part.position); !sound)
      return sound.error();
    put_in(part, set, part.position);
  }
  work.shop.parts.push_back(part);
  return fmt::format("added {} in {}", named_part(part), whereabouts(work.shop, part));
}

Result<std::string> carry_out(const MovePart& command, Work& work) {
  auto found = find_part(work.shop, command.part);
  if (!found) return found.error();
  Part& part = *found.value();
  const std::string position(trimmed(command.position));
  if (auto sound = check_one_place(part.code, command.into_set, position, command.place); !sound)
    return sound.error();
  if (command.into_set.empty() && trimmed(command.place).empty())
    return Error{
        ErrorKind::bad_input,
        fmt::format("part {} has no place to go to; name a shelf, or a set and a position.",
                    part.code)};
  const std::string before = whereabouts(work.shop, part);
  if (command.into_set.empty()) {
    lift_out(work.shop, part, std::string(trimmed(command.place)));
  } else {
    auto target = find_set(work.shop, command.into_set);
    if (!target) return target.error();
    Set& set = *target.value();
    if (auto sound = check_move_into(work.shop, part, set, position); !sound) return sound.error();
    lift_out(work.shop, part, "", part.in_set == set.id);
    put_in(part, set, position);
  }
  if (auto sound = tidy_and_check(part, called(part)); !sound) return sound.error();
  return fmt::format("moved part {} from {} to {}", part.code, before,
                     whereabouts(work.shop, part));
}

Result<std::string> carry_out(const SetState& command, Work& work) {
  auto found = find_part(work.shop, command.part);
  if (!found) return found.error();
  Part& part = *found.value();
  const bool tested = command.state != State::untested;
  if (!tested && !(command.how.empty() && command.in.empty() && command.on.empty()))
    return Error{
        ErrorKind::bad_input,
        fmt::format("part {} cannot be untested and tested; leave out how, where and when, or give "
                    "the result of the test.",
                    part.code)};
  part.state = command.state;
  part.tested_how = command.how;
  part.tested_in = command.in;
  part.tested_on = tested && command.on.empty() ? work.date() : command.on;
  if (auto sound = tidy_and_check(part, called(part)); !sound) return sound.error();
  return fmt::format("part {} is {}{}", part.code, word_of(kStateWords, part.state),
                     part.tested_how.empty() ? "" : ": " + part.tested_how);
}

Result<std::string> carry_out(const RecordChange& command, Work& work) {
  auto found = find_part(work.shop, command.part);
  if (!found) return found.error();
  Part& part = *found.value();
  part.changes.push_back(command.change);
  if (auto sound = tidy_and_check(part, called(part)); !sound) return sound.error();
  const catalogue::Change& change = part.changes.back();
  const std::string& at = change.port.empty() ? change.piece : change.port;
  return fmt::format("recorded on part {}: {}{}", part.code,
                     word_of(catalogue::kChangeSortWords, change.sort),
                     at.empty() ? "" : ", " + at);
}

}  // namespace benchgraft::shop
