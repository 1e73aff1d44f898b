// Which ports are joined: derived from the part types chosen, never written down for a set.
#pragma once

#include <string>
#include <vector>

#include "fit/assembly.hpp"
#include "fit/mate.hpp"

namespace benchgraft::fit {

/// Two ports joined, directly or through a lead (`lead` and its two ends).
struct Joint {
  const Place* a = nullptr;
  const Place* b = nullptr;
  const catalogue::Port* port_a = nullptr;
  const catalogue::Port* port_b = nullptr;
  const Place* lead = nullptr;
  const catalogue::Port* end_a = nullptr;
  const catalogue::Port* end_b = nullptr;
  [[nodiscard]] bool through_lead() const { return lead != nullptr; }
};

/// A port whose part in the other role is there, but offers nothing to join it to.
struct Loose {
  const Place* place = nullptr;
  const catalogue::Port* port = nullptr;
  const Place* peer = nullptr;  ///< null: nothing fills that role now
};

struct Ambiguous {
  const Place* place = nullptr;
  const catalogue::Port* port = nullptr;
  const Place* peer = nullptr;
  std::vector<std::string> could_be;
};

/// A port meant for a part whose type, or whose ports, nobody has recorded.
struct Unseen {
  const Place* place = nullptr;
  const catalogue::Port* port = nullptr;
  const Place* peer = nullptr;
};

struct Joints {
  std::vector<Joint> joined;
  std::vector<Unseen> unseen;
  std::vector<Loose> loose;
  std::vector<Ambiguous> ambiguous;
};

/// Joins every port meant for a role to a port of the part that fills it: same `carries` first,
/// then the one that mates; a stated link of the model decides where several are left.
Joints derive_joints(const Assembly& set);

/// Stands for a place where nothing can be joined: no wire, no pin.
const catalogue::Contact* no_contact();

/// Contacts that face each other across the joint. `complete` is false when a port or the lead has
/// no recorded contacts or wires.
struct Crossing {
  std::vector<Facing> faces;
  bool complete = true;
  bool turned_round = false;
};
Crossing contacts_across(const Joint& joint);

}  // namespace benchgraft::fit
