// The room as plain numbers: what may be built, out of which pools of parts, at what price.
// Model, assumptions and symbols: docs/methods/plan.md. Money in minor units, time in minutes.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"

namespace benchgraft::plan {

inline constexpr int kNone = -1;
using Bits = std::uint64_t;  ///< a small set of roles or capabilities of one host

/// Equal parts: same effective type, same chance, same work to get at. One chance per pool.
struct Pool {
  std::string name;  ///< for messages
  int on_shelf = 0;  ///< free without opening anything
};

/// One way to fill a place with a given type.
struct Source {
  int pool = kNone;    ///< kNone: the own part, nothing, or bought
  double chance = 1;   ///< that the part works
  double money = 0;    ///< salvage value given up, price paid
  double minutes = 0;  ///< taking it out of a donor
};

/// How sure a rebuild is to work once every part does: nothing speaks against it, work has to be
/// done, or questions are open. The worst found counts.
enum class Level : unsigned char { plain, work, unsure };

/// Counts of what worked and what failed, prior ones included; mean of the Beta posterior.
struct Evidence {
  double works = 1, fails = 0;
  [[nodiscard]] double mean(double more_worked) const {
    return (works + more_worked) / (works + fails + more_worked);
  }
};

/// Work that a choice or a pair asks for. Only the dearest one of a rebuild is surely added: one
/// piece of work may make several mismatches good.
struct Work {
  Level level = Level::plain;
  double minutes = 0;
  double money = 0;
  [[nodiscard]] bool needed() const { return level != Level::plain; }
};

/// What may sit in a place. Rebuilds with the same choices are judged alike.
struct Choice {
  std::string name;              ///< for messages
  bool changes = true;           ///< false: nothing is touched here
  std::vector<Source> sources;   ///< one of them is taken
  Bits fills = 0, provides = 0;  ///< roles, capabilities
  double minutes = 0, money = 0;
  Work work;
  double notes = 0;  ///< reports of success that may count once this is chosen
};

struct Place {
  std::vector<Choice> choices;  ///< one of them is taken
  int frees = kNone;            ///< pool the own part joins when its place is changed
};

struct PairRule {
  int place_a = 0, choice_a = 0;
  int place_b = 0, choice_b = 0;
  bool refused = false;
  Work work;
};

/// What the finished set fetches when it can do all of `needs`; the highest reached counts.
struct Tier {
  double price = 0;
  Bits needs = 0;
};

struct Host {
  std::string name;
  std::vector<Place> places;
  std::vector<PairRule> pairs;
  std::vector<Tier> tiers;
  Bits provides = 0;                 ///< by the cabinet itself
  Bits required = 0;                 ///< roles that some choice has to fill
  double open_minutes = 0;           ///< opening and closing, once anything is changed
  std::array<Evidence, 3> evidence;  ///< per Level, before any report of success
  bool must = false;                 ///< wished for: built whatever it costs
};

struct Supply {
  int pool = 0;
  int count = 0;
};

/// One physical set: built, stripped, or neither.
struct Carcass {
  std::string name;
  int host = kNone;        ///< index in Problem::hosts
  bool may_strip = false;  ///< never for a customer's set
  double strip_minutes = 0;
  std::vector<Supply> holds;  ///< what stripping it adds to the pools
};

/// One thing the whole judgement found, beside taking parts out and putting them in.
struct Finding {
  std::uint64_t code = 0;  ///< the same as long as it is the same finding
  bool refuses = false;
  Level level = Level::plain;
  double minutes = 0, money = 0;
};

/// The judgement of one rebuild as a whole; never kinder than the tables above.
struct Whole {
  bool allowed = true;
  double minutes = 0;  ///< all but taking parts out of donors
  double money = 0;    ///< all but what the sources cost
  double chance = 1;   ///< evidence
  double price = 0;
  std::vector<Finding> findings;  ///< what is in it; may be left out
};
using JudgeWhole = std::function<Whole(int host, const std::vector<int>& choices)>;

struct Problem {
  std::vector<Pool> pools;
  std::vector<Carcass> sets;
  std::vector<Host> hosts;
  double money_per_minute = 0;
  std::optional<double> minutes;  ///< bench time there is
  JudgeWhole whole;               ///< may be empty: then the tables are everything
};

/// The evidence for a rebuild at `level` when `notes` reports of success count, at most.
inline double evidence_of(const Host& host, Level level, double notes) {
  return host.evidence[static_cast<std::size_t>(level)].mean(notes);
}

/// Fails on the first number out of range (a chance outside 0..1, a negative price, ...) or index
/// that points nowhere.
Result<void> check(const Problem& problem);

}  // namespace benchgraft::plan
