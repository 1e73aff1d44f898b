// Commands about rebuild records: a rebuild claims its host and parts until it is finished or given
// up.
#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "shop/carrying_out.hpp"
#include "shop/thing_text.hpp"
#include "shop/words.hpp"

namespace benchgraft::shop {

namespace {

std::string called_rebuild(const RebuildRecord& rebuild) {
  return fmt::format("rebuild \"{}\"", rebuild.name);
}

Result<void> check_host(const Set& host) {
  if (host.fate == Fate::here || host.fate == Fate::rebuilt) return {};
  return Error{ErrorKind::conflict,
               fmt::format("set {} is {} and cannot be a host; choose another set or "
                           "correct its fate.",
                           host.code, word_of(kFateWords, host.fate))};
}

Result<void> check_chosen(const Shop& shop, const Part& part, const Set& host) {
  if (part.state == State::bad)
    return Error{
        ErrorKind::conflict,
        fmt::format("part {} is recorded as bad; choose another, or correct its state first.",
                    part.code)};
  const Set* donor = part.in_set ? shop.set(*part.in_set) : shop.set_by_code(part.from);
  if (donor != nullptr && donor->id != host.id && donor->consent != Consent::may_strip)
    return Error{
        ErrorKind::conflict,
        fmt::format("part {} belongs to set {}, which {}; choose another part, or record the "
                    "owner's consent \"may strip\" first.",
                    part.code, donor->code,
                    donor->consent == Consent::unknown
                        ? "has no recorded consent and counts as \"must go back\""
                        : "must go back")};
  return {};
}

void add_line(std::string& note, const std::string& line) {
  if (line.empty()) return;
  note += note.empty() ? line : "\n" + line;
}

Part& part_of(Shop& shop, const PartId& id) {
  return *std::find_if(shop.parts.begin(), shop.parts.end(),
                       [&](const Part& one) { return one.id == id; });
}

Set& set_of(Shop& shop, const SetId& id) {
  return *std::find_if(shop.sets.begin(), shop.sets.end(),
                       [&](const Set& one) { return one.id == id; });
}

bool belongs_to(const RebuildRecord& rebuild, const Part& part) {
  return std::any_of(rebuild.parts.begin(), rebuild.parts.end(),
                     [&](const RecordedPart& one) { return one.part == part.id; });
}

// Frees the positions of the rebuild: what is listed there and does not belong to it goes to
// `shelf`.
Result<void> clear_positions(Shop& shop, const RebuildRecord& rebuild, const Set& host,
                             const std::string& shelf) {
  for (auto& old : shop.parts) {
    if (old.in_set != host.id || belongs_to(rebuild, old)) continue;
    const auto at =
        std::find_if(rebuild.parts.begin(), rebuild.parts.end(),
                     [&](const RecordedPart& one) { return one.position == old.position; });
    if (at == rebuild.parts.end()) continue;
    if (shelf.empty())
      return Error{
          ErrorKind::conflict,
          fmt::format("\"{}\" of set {} still holds part {}, so part {} cannot be in it; say where "
                      "the old part went, or move it first.",
                      old.position, host.code, old.code, part_of(shop, at->part).code)};
    lift_out(shop, old, shelf);
    if (auto sound = tidy_and_check(old, called(old)); !sound) return sound;
  }
  return {};
}

}  // namespace

Result<std::string> carry_out(const BeginRebuild& command, Work& work) {
  auto found = find_set(work.shop, command.host);
  if (!found) return found.error();
  const Set& host = *found.value();
  if (auto sound = check_host(host); !sound) return sound.error();
  RebuildRecord rebuild;
  rebuild.id = new_id<RecordTag>(work.occasion.random);
  rebuild.host = host.id;
  rebuild.state = kBegun;
  rebuild.started = work.date();
  rebuild.note = command.note;
  std::vector<std::string> codes;
  for (const auto& [position, code] : command.parts) {
    auto part = find_part(work.shop, code);
    if (!part) return part.error();
    if (auto sound = check_chosen(work.shop, *part.value(), host); !sound) return sound.error();
    rebuild.parts.push_back({position, part.value()->id});
    codes.push_back(part.value()->code);
  }
  std::vector<std::string> names;
  for (const auto& one : work.shop.rebuilds) names.push_back(one.name);
  rebuild.name = trimmed(command.name).empty()
                     ? free_name(fmt::format("{}, {}", host.code, rebuild.started), names)
                     : command.name;
  if (auto sound = tidy_and_check(rebuild, called_rebuild(rebuild)); !sound) return sound.error();
  std::string what = fmt::format("began {} in set {}{}", called_rebuild(rebuild), host.code,
                                 codes.empty() ? "" : " with " + listed(codes));
  work.shop.rebuilds.push_back(std::move(rebuild));
  return what;
}

Result<std::string> carry_out(const FinishRebuild& command, Work& work) {
  auto found = find_begun(work.shop, command.rebuild);
  if (!found) return found.error();
  RebuildRecord& rebuild = *found.value();
  Set& host = set_of(work.shop, rebuild.host);
  const std::string shelf(trimmed(command.old_to));
  if (auto sound = clear_positions(work.shop, rebuild, host, shelf); !sound) return sound.error();
  // All out before any goes in: two parts of one rebuild may change places.
  for (const auto& one : rebuild.parts) {
    Part& part = part_of(work.shop, one.part);
    lift_out(work.shop, part, "", part.in_set == host.id);
  }
  for (const auto& one : rebuild.parts) put_in(part_of(work.shop, one.part), host, one.position);
  rebuild.state = kFinished;
  rebuild.finished = command.finished.empty() ? work.date() : command.finished;
  if (command.work_minutes) rebuild.work_minutes = command.work_minutes;
  add_line(rebuild.note, command.note);
  host.fate = Fate::rebuilt;
  if (auto sound = tidy_and_check(rebuild, called_rebuild(rebuild)); !sound) return sound.error();
  return fmt::format("finished {} in set {}", called_rebuild(rebuild), host.code);
}

Result<std::string> carry_out(const GiveUpRebuild& command, Work& work) {
  auto found = find_begun(work.shop, command.rebuild);
  if (!found) return found.error();
  RebuildRecord& rebuild = *found.value();
  rebuild.state = kGivenUp;
  rebuild.finished = work.date();
  add_line(rebuild.note, command.note);
  if (auto sound = tidy_and_check(rebuild, called_rebuild(rebuild)); !sound) return sound.error();
  return fmt::format("gave up {} in set {}", called_rebuild(rebuild),
                     set_of(work.shop, rebuild.host).code);
}

}  // namespace benchgraft::shop
