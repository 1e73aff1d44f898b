// Commands about sets, wishes, terms and swap notes.
#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "shop/carrying_out.hpp"
#include "shop/codes.hpp"
#include "shop/thing_text.hpp"
#include "shop/words.hpp"

namespace benchgraft::shop {

namespace {

template <class T>
std::vector<std::string> names_of(const std::vector<T>& things) {
  std::vector<std::string> names;
  for (const auto& thing : things) names.push_back(thing.name);
  return names;
}

std::string named_set(const Set& set) {
  const std::string& what = set.model.empty() ? set.kind : set.model;
  return what.empty() ? "set " + set.code : fmt::format("set {} ({})", set.code, what);
}

// A set is taken apart or sent off only when nobody is building it and its owner agrees.
Result<void> check_fate(const Shop& shop, const Set& was, const Set& set) {
  if (set.fate == was.fate) return {};
  const bool leaves = set.fate == Fate::stripped || set.fate == Fate::gone;
  for (const auto& rebuild : shop.rebuilds)
    if (leaves && rebuild.state == kBegun && rebuild.host == set.id)
      return Error{
          ErrorKind::conflict,
          fmt::format("set {} is the host of rebuild \"{}\"; finish it or give it up before the "
                      "set is {}.",
                      set.code, rebuild.name, word_of(kFateWords, set.fate))};
  if (set.fate == Fate::stripped && set.consent != Consent::may_strip)
    return Error{
        ErrorKind::conflict,
        fmt::format("set {} {}; record the owner's consent \"may strip\" before it is stripped.",
                    set.code,
                    set.consent == Consent::unknown ? "has no recorded consent and counts as "
                                                      "\"must go back\""
                                                    : "must go back")};
  return {};
}

template <class T>
void take(const std::optional<T>& given, T& field) {
  if (given) field = *given;
}

std::string changed_fields(const Fields& before, const Fields& after) {
  std::vector<std::string> names;
  const auto differs = [](const Field& field, const Fields& other) {
    return std::find(other.begin(), other.end(), field) == other.end();
  };
  for (const auto& field : after)
    if (differs(field, before)) names.push_back(field.name);
  for (const auto& field : before)
    if (std::none_of(after.begin(), after.end(),
                     [&](const auto& one) { return one.name == field.name; }))
      names.push_back(field.name);
  return listed(names);
}

std::string wish_text(const Wish& wish) {
  std::string text = fmt::format("\"{}\"", word_of(kWishWords, wish.sort));
  if (!wish.part.empty()) text += ", part " + wish.part;
  if (!wish.set.empty()) text += ", set " + wish.set;
  return text;
}

}  // namespace

Result<std::string> carry_out(const TakeIn& command, Work& work) {
  Set set = command.set;
  set.code = set.code.empty() ? free_code(work.shop, work.occasion.random) : tape_code(set.code);
  if (set.id.empty()) set.id = new_id<SetTag>(work.occasion.random);
  if (set.taken_in.empty()) set.taken_in = work.date();
  if (auto sound = tidy_and_check(set, called(set)); !sound) return sound.error();
  work.shop.sets.push_back(set);
  return "took in " + named_set(set);
}

Result<std::string> carry_out(const ChangeSet& command, Work& work) {
  auto found = find_set(work.shop, command.set);
  if (!found) return found.error();
  Set& set = *found.value();
  const Set was = set;
  take(command.owner, set.owner);
  take(command.kind, set.kind);
  take(command.model, set.model);
  take(command.variant, set.variant);
  take(command.complaint, set.complaint);
  take(command.place, set.place);
  take(command.taken_in, set.taken_in);
  take(command.note, set.note);
  take(command.consent, set.consent);
  take(command.looks, set.looks);
  take(command.fate, set.fate);
  take(command.candidates, set.candidates);
  take(command.missing, set.missing);
  if (auto sound = tidy_and_check(set, called(set)); !sound) return sound.error();
  if (auto sound = check_fate(work.shop, was, set); !sound) return sound.error();
  return fmt::format("changed {}: {}", called(set), changed_fields(fields_of(was), fields_of(set)));
}

Result<std::string> carry_out(const ChangePart& command, Work& work) {
  auto found = find_part(work.shop, command.part);
  if (!found) return found.error();
  Part& part = *found.value();
  const Part was = part;
  take(command.type, part.type);
  take(command.from, part.from);
  take(command.note, part.note);
  take(command.candidates, part.candidates);
  take(command.roles, part.roles);
  take(command.run_hours, part.run_hours);
  take(command.chance, part.chance);
  if (auto sound = tidy_and_check(part, called(part)); !sound) return sound.error();
  return fmt::format("changed {}: {}", called(part),
                     changed_fields(fields_of(was), fields_of(part)));
}

Result<std::string> carry_out(const AddWish& command, Work& work) {
  Wish wish = command.wish;
  if (wish.id.empty()) wish.id = new_id<RecordTag>(work.occasion.random);
  wish.set = tape_code(wish.set);
  wish.part = tape_code(wish.part);
  if (auto sound = tidy_and_check(wish, "wish"); !sound) return sound.error();
  work.shop.wishes.push_back(wish);
  return "wished " + wish_text(wish);
}

Result<std::string> carry_out(const WithdrawWish& command, Work& work) {
  const auto at = std::find_if(work.shop.wishes.begin(), work.shop.wishes.end(),
                               [&](const Wish& one) { return one.id == command.wish; });
  if (at == work.shop.wishes.end())
    return Error{ErrorKind::not_found,
                 fmt::format("there is no wish with id {}; it may have been withdrawn already.",
                             to_text(command.wish))};
  std::string what = "withdrew the wish " + wish_text(*at);
  work.shop.wishes.erase(at);
  return what;
}

Result<std::string> carry_out(const SetTerms& command, Work& work) {
  Terms terms = command.terms;
  if (auto sound = tidy_and_check(terms, "terms"); !sound) return sound.error();
  std::string what =
      "changed the terms: " + changed_fields(fields_of(work.shop.terms), fields_of(terms));
  work.shop.terms = std::move(terms);
  return what;
}

Result<std::string> carry_out(const AddNote& command, Work& work) {
  catalogue::SwapNote note = command.note;
  if (note.by.empty()) note.by = work.occasion.who;
  if (note.date.empty()) note.date = work.date();
  if (note.name.empty())
    note.name =
        free_name(fmt::format("{}, {}", trimmed(note.into), note.date), names_of(work.shop.notes));
  if (auto sound = tidy_and_check(note, fmt::format("swap note \"{}\"", note.name)); !sound)
    return sound.error();
  work.shop.notes.push_back(note);
  return fmt::format("wrote swap note \"{}\"", note.name);
}

}  // namespace benchgraft::shop
