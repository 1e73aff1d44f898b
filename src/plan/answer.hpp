// What is decided about a room of plain numbers, and what it is worth.
#pragma once

#include <cstddef>
#include <vector>

#include "plan/problem.hpp"

namespace benchgraft::plan {

/// One host with a choice and a source for every place.
struct Built {
  int host = 0;
  std::vector<int> choices;
  std::vector<int> sources;
  bool operator==(const Built&) const = default;
};

/// What a rebuild is worth and what that is made of.
struct Worth {
  bool allowed = false;
  double price = 0, chance = 0, minutes = 0, money = 0;
  double value = 0;  ///< price x chance - money - labour
};

/// Everything decided about the room.
struct Allotment {
  std::vector<Built> built;    ///< at most one per host
  std::vector<char> stripped;  ///< per set
};

struct Answer {
  Allotment best;
  double value = 0;  ///< of `best`
  double bound = 0;  ///< no allotment is worth more
  bool proven = false;
  std::vector<int> unmet;    ///< hosts wished for that cannot be built
  bool shared_work = false;  ///< a whole judgement was kinder than the tables: the bound may be low
  std::size_t looked_at = 0;  ///< rebuilds judged or cut off, for the method line
};

/// How long to look. What ends by itself before these does not depend on the machine.
struct Limits {
  double seconds = 15;
  std::size_t steps = 20'000'000;  ///< places tried
  double close_enough = 0.5;       ///< minor units of money
};

/// Worth of a rebuild by the tables alone: never less than the whole judgement says.
Worth worth_by_tables(const Problem& problem, const Built& built);
/// Worth of a rebuild as judged as a whole.
Worth worth_of(const Problem& problem, const Built& built);
/// Takes what `built` uses out of `left` (per pool), and adds what it frees.
void draw(const Problem& problem, const Built& built, std::vector<int>& left);

/// Worth of everything decided. Fails with the first thing that does not add up: a pool overdrawn,
/// a set used twice, minutes exceeded, a rebuild that is not allowed.
Result<double> value_of(const Problem& problem, const Allotment& allotment);

}  // namespace benchgraft::plan
