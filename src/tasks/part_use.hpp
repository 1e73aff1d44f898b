// Adds parts, marks them good or bad, moves them, records what was done to one.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "tasks/knowledge.hpp"
#include "tasks/shop_at.hpp"

namespace benchgraft::tasks {

/// What a person says about a part; a field left out is not known, or stays as it is.
struct PartWords {
  std::optional<std::string> type, from, note;
  std::vector<std::string> candidates, roles;
  std::optional<double> run_hours;
  std::optional<double> chance_percent;
};

/// In a set's position, or on a shelf.
struct Spot {
  std::string in_set, position;
  std::string place;
};

struct Test {
  std::string state;  ///< "good", "bad", "suspect", "untested"
  std::string how, in, on;
};

/// One change made to a part, in words of docs/formats/rebuild.md.
struct ChangeWords {
  std::string sort;  ///< "plug cut", "contact moved", ...
  std::string port, from, to, piece, piece_kind, setting, trait, trait_word, note;
  std::optional<double> lead_mm, trait_number;
};

Result<Recorded> add_part(const ShopAt& at, const std::string& code, const PartWords& words,
                          const Spot& spot, const std::string& state);
Result<Recorded> change_part(const ShopAt& at, const std::string& code, const PartWords& words);
Result<Recorded> move_part(const ShopAt& at, const std::string& code, const Spot& spot);
Result<Recorded> mark_part(const ShopAt& at, const std::string& code, const Test& test);
/// fails: a port, contact or piece that the part's type does not have, where the type is on record;
/// and "contact added", whose contact is written in a file and imported.
Result<Recorded> record_change(const ShopAt& at, const Knowledge& knowledge,
                               const std::string& code, const ChangeWords& words);

}  // namespace benchgraft::tasks
