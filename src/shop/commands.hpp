// The commands that change a shop. Sets and parts are named by their code.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/id.hpp"
#include "base/result.hpp"
#include "shop/shop.hpp"

namespace benchgraft::shop {

/// Who acts and when, and where new ids and codes come from; always handed in.
struct Occasion {
  std::string who;
  std::string when;  ///< starts with the date: 2026-05-31T14:03:00Z
  RandomBits random;
};

/// Fails when nobody is named or `when` does not start with a day.
Result<void> check_occasion(const Occasion& occasion);

/// A new set. An empty id or code is made; an empty `taken_in` becomes the date of the occasion.
struct TakeIn {
  Set set;
};
/// A new part. An empty id or code is made. `in_set` is the code of a set (Part::in_set is not
/// read).
struct AddPart {
  Part part;
  std::string in_set;
};
/// Into a set's position, or onto a shelf: give `into_set` or `place`, not both.
struct MovePart {
  std::string part;
  std::string into_set, position;
  std::string place;
};
struct SetState {
  std::string part;
  State state = State::untested;
  std::string how, in, on;  ///< an empty `on` becomes the date of the occasion, when tested
};
struct RecordChange {
  std::string part;
  catalogue::Change change;
};
/// Only the fields given are changed.
struct ChangeSet {
  std::string set;
  std::optional<std::string> owner = {}, kind = {}, model = {}, variant = {}, complaint = {},
                             place = {}, taken_in = {}, note = {};
  std::optional<Consent> consent = {};
  std::optional<Looks> looks = {};
  std::optional<Fate> fate = {};
  std::optional<std::vector<std::string>> candidates = {}, missing = {};
};
/// Only the fields given are changed; an inner nothing makes a number unknown again.
struct ChangePart {
  std::string part;
  std::optional<std::string> type = {}, from = {}, note = {};
  std::optional<std::vector<std::string>> candidates = {}, roles = {};
  std::optional<std::optional<double>> run_hours = {}, chance = {};
};
/// An empty id is made.
struct AddWish {
  Wish wish;
};
struct WithdrawWish {
  RecordId wish;
};
struct SetTerms {
  Terms terms;
};
/// An empty name is made from what it went into and the date; `by` and `date` from the occasion.
struct AddNote {
  catalogue::SwapNote note;
};
struct PartIn {
  std::string position;
  std::string part;
};
/// Claims the parts and the host until it is finished or given up. An empty name is made.
struct BeginRebuild {
  std::string name;
  std::string host;
  std::vector<PartIn> parts;
  std::string note;
};
/// The claimed parts go into their positions, what was listed there onto the shelf `old_to`; the
/// host counts as rebuilt. An empty date becomes that of the occasion.
struct FinishRebuild {
  std::string rebuild;  ///< name
  std::string finished;
  std::optional<double> work_minutes;
  std::string note;
  std::string old_to;
};
/// Nothing moves; host and parts are free again.
struct GiveUpRebuild {
  std::string rebuild;  ///< name
  std::string note;
};

using Command =
    std::variant<TakeIn, AddPart, MovePart, SetState, RecordChange, ChangeSet, ChangePart, AddWish,
                 WithdrawWish, SetTerms, AddNote, BeginRebuild, FinishRebuild, GiveUpRebuild>;

/// What a command does, before it is recorded.
struct Effect {
  std::string command;  ///< "take in", "move part", ...
  std::string what;     ///< one sentence for the journal: "took in set K7R"
  Shop after;
};

/// `command` carried out on `now`. Fails with one sentence: what, the value, the mend.
Result<Effect> effect_of(const Command& command, const Shop& now, const Occasion& occasion);

/// A code that no set and no part of `shop` has.
std::string free_code(const Shop& shop, const RandomBits& random);

}  // namespace benchgraft::shop
