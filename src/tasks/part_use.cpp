#include "tasks/part_use.hpp"

#include "catalogue/effective.hpp"
#include "shop/words.hpp"
#include "tasks/read_word.hpp"
#include "tasks/room.hpp"

namespace benchgraft::tasks {
namespace {

Result<std::optional<double>> share_of(const std::optional<double>& percent) {
  if (!percent) return std::optional<double>{};
  if (*percent < 0 || *percent > 100)
    return Error{ErrorKind::bad_input,
                 fmt::format("A chance of {:g} % cannot be; write 0 to 100.", *percent)};
  return std::optional<double>{*percent / 100};
}

// A change of a known type must be one that can be made to it.
Result<void> could_be(const ShopAt& at, const Knowledge& knowledge,
                      const shop::RecordChange& record) {
  auto room = load_room(at, knowledge);
  if (!room) return room.error();
  const auto* part = room.value().shop.part_by_code(record.part);
  const auto* type = part != nullptr ? room.value().known.part_type(part->type) : nullptr;
  if (type == nullptr) return {};
  auto changes = part->changes;
  changes.push_back(record.change);
  const auto changed = catalogue::effective_type(*type, changes);
  if (!changed) return changed.error();
  return {};
}

}  // namespace

Result<Recorded> add_part(const ShopAt& at, const std::string& code, const PartWords& words,
                          const Spot& spot, const std::string& state) {
  auto chance = share_of(words.chance_percent);
  if (!chance) return chance.error();
  shop::AddPart add;
  if (!state.empty()) {
    auto known = read_word(shop::kStateWords, state, "the state of a part");
    if (!known) return known.error();
    add.part.state = known.value();
  }
  add.part.code = code;
  add.part.type = words.type.value_or("");
  add.part.from = words.from.value_or("");
  add.part.note = words.note.value_or("");
  add.part.candidates = words.candidates;
  add.part.roles = words.roles;
  add.part.run_hours = words.run_hours;
  add.part.chance = chance.value();
  add.part.position = spot.position;
  add.part.place = spot.place;
  add.in_set = spot.in_set;
  return carry_out(at, add);
}

Result<Recorded> change_part(const ShopAt& at, const std::string& code, const PartWords& words) {
  auto chance = share_of(words.chance_percent);
  if (!chance) return chance.error();
  shop::ChangePart change;
  change.part = code;
  change.type = words.type;
  change.from = words.from;
  change.note = words.note;
  if (!words.candidates.empty()) change.candidates = words.candidates;
  if (!words.roles.empty()) change.roles = words.roles;
  if (words.run_hours) change.run_hours = words.run_hours;
  if (chance.value()) change.chance = chance.value();
  return carry_out(at, change);
}

Result<Recorded> move_part(const ShopAt& at, const std::string& code, const Spot& spot) {
  return carry_out(at, shop::MovePart{code, spot.in_set, spot.position, spot.place});
}

Result<Recorded> mark_part(const ShopAt& at, const std::string& code, const Test& test) {
  auto state = read_word(shop::kStateWords, test.state, "the state of a part");
  if (!state) return state.error();
  return carry_out(at, shop::SetState{code, state.value(), test.how, test.in, test.on});
}

Result<Recorded> record_change(const ShopAt& at, const Knowledge& knowledge,
                               const std::string& code, const ChangeWords& words) {
  auto sort = read_word(catalogue::kChangeSortWords, words.sort, "a change of a part");
  if (!sort) return sort.error();
  if (sort.value() == catalogue::ChangeSort::contact_added)
    return Error{ErrorKind::bad_input,
                 "An added contact needs all that runs on it: write it in a changes file "
                 "(docs/formats/rebuild.md) and import that."};
  shop::RecordChange record;
  record.part = code;
  record.change.sort = sort.value();
  record.change.port = words.port;
  record.change.from = words.from;
  record.change.to = words.to;
  record.change.piece = words.piece;
  record.change.piece_kind = words.piece_kind;
  record.change.setting = words.setting;
  if (!words.trait.empty()) {
    record.change.now = catalogue::TraitValue{words.trait, {}, std::nullopt, {}};
    if (!words.trait_word.empty()) record.change.now->words = {words.trait_word};
    if (words.trait_number)
      record.change.now->number = catalogue::Range{*words.trait_number, *words.trait_number};
  }
  record.change.lead_mm = words.lead_mm;
  record.change.note = words.note;
  record.change.where.file = "part " + code;
  if (const auto sound = could_be(at, knowledge, record); !sound) return sound.error();
  return carry_out(at, record);
}

}  // namespace benchgraft::tasks
