#include "tasks/set_use.hpp"

#include "shop/words.hpp"
#include "tasks/read_word.hpp"

namespace benchgraft::tasks {
namespace {

template <class E, class List>
Result<std::optional<E>> optional_word(const List& list, const std::optional<std::string>& word,
                                       const std::string& what) {
  if (!word) return std::optional<E>{};
  auto value = read_word(list, *word, what);
  if (!value) return value.error();
  return std::optional<E>{value.value()};
}

struct Choices {
  std::optional<shop::Consent> consent;
  std::optional<shop::Looks> looks;
  std::optional<shop::Fate> fate;
};

Result<Choices> choices_of(const SetWords& words) {
  auto consent = optional_word<shop::Consent>(shop::kConsentWords, words.consent,
                                              "what may be done with a set");
  if (!consent) return consent.error();
  auto looks = optional_word<shop::Looks>(shop::kLooksWords, words.looks, "how a set looks");
  if (!looks) return looks.error();
  auto fate = optional_word<shop::Fate>(shop::kFateWords, words.fate, "what became of a set");
  if (!fate) return fate.error();
  return Choices{consent.value(), looks.value(), fate.value()};
}

}  // namespace

Result<Recorded> take_in_set(const ShopAt& at, const std::string& code, const SetWords& words) {
  auto choices = choices_of(words);
  if (!choices) return choices.error();
  shop::Set set;
  set.code = code;
  set.owner = words.owner.value_or("");
  set.kind = words.kind.value_or("");
  set.model = words.model.value_or("");
  set.variant = words.variant.value_or("");
  set.complaint = words.complaint.value_or("");
  set.place = words.place.value_or("");
  set.taken_in = words.taken_in.value_or("");
  set.note = words.note.value_or("");
  set.consent = choices.value().consent.value_or(shop::Consent::unknown);
  set.looks = choices.value().looks.value_or(shop::Looks::unknown);
  set.fate = choices.value().fate.value_or(shop::Fate::here);
  set.candidates = words.candidates;
  set.missing = words.missing;
  return carry_out(at, shop::TakeIn{set});
}

Result<Recorded> change_set(const ShopAt& at, const std::string& code, const SetWords& words) {
  auto choices = choices_of(words);
  if (!choices) return choices.error();
  shop::ChangeSet change;
  change.set = code;
  change.owner = words.owner;
  change.kind = words.kind;
  change.model = words.model;
  change.variant = words.variant;
  change.complaint = words.complaint;
  change.place = words.place;
  change.taken_in = words.taken_in;
  change.note = words.note;
  change.consent = choices.value().consent;
  change.looks = choices.value().looks;
  change.fate = choices.value().fate;
  if (!words.candidates.empty()) change.candidates = words.candidates;
  if (!words.missing.empty()) change.missing = words.missing;
  return carry_out(at, change);
}

}  // namespace benchgraft::tasks
