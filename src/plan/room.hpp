// The room as numbers, and what each number stands for.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "plan/answer.hpp"
#include "plan/fitting.hpp"
#include "plan/inventory.hpp"
#include "plan/wishes.hpp"

namespace benchgraft::plan {

/// What is known and asked for; everything named here outlives the RoomOfNumbers made from it.
struct Ground {
  const catalogue::Catalogue& known;
  const shop::Shop& shop;
  const Inventory& inventory;
  const Wanted& wanted;
  Answers& answers;
  /// Rebuilds may be `unknown`: only for what stands apart until questions are settled.
  bool allow_unknown = false;
};

enum class Sits { stays, nothing, put };

/// What a Choice of the problem stands for.
struct Meaning {
  Sits sits = Sits::nothing;
  std::string key;
  const catalogue::PartType* type = nullptr;  ///< null: unknown or nothing
  catalogue::ProposedPart part;               ///< of `put`
};

struct HostMeaning {
  int set = 0;                               ///< index in Inventory::sets
  std::vector<std::vector<Meaning>> places;  ///< per position of the model, per choice
};

/// How a part gets into its pool.
enum class Way { shelf, stripped, freed };

struct Stock {
  int item = 0;
  Way way = Way::shelf;
};

struct RoomOfNumbers {
  Problem problem;  ///< `sets` are those of the inventory, in its order
  std::vector<HostMeaning> hosts;
  std::vector<std::vector<Stock>> stock;  ///< per pool
};

/// Puts the room into numbers. The problem's whole judgement asks `ground.answers`.
RoomOfNumbers room_of_numbers(const Ground& ground);

/// The rebuild as text, as it is handed to the judgement: put parts without saying whence.
catalogue::RebuildText as_text(const Ground& ground, const HostMeaning& host,
                               const std::vector<int>& choices);

/// What the finished set can do: the parts that are in it and its cabinet, without what is lost.
std::vector<std::string> abilities_of(const SetHere& set,
                                      const std::vector<const catalogue::PartType*>& parts,
                                      const std::vector<std::string>& lost);

}  // namespace benchgraft::plan
