// A rebuild written as text: a host and the part types proposed for its roles.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "catalogue/catalogue.hpp"

namespace benchgraft::catalogue {

/// One part proposed for a position or a role of the host.
struct ProposedPart {
  std::string place;                    ///< position or role
  std::string type;                     ///< reference; "" = nobody knows what it is
  std::vector<std::string> candidates;  ///< when it is one of several
  std::string from;  ///< where it comes from: a model, a set's code, "bought", "shelf"
  std::vector<Change> changes;
  std::optional<double> run_hours;
  std::optional<bool> known_good;
  Where where;
  // Signs seen on it: they narrow what it may be, and what the host may be.
  bool empty = false;                        ///< the place was never filled by the factory
  std::string revision{};                    ///< printed on it
  std::vector<std::string> ports{};          ///< seen on it, by printed name
  std::vector<std::string> without_ports{};  ///< seen not to be on it
  std::vector<std::string> can{}, cannot{};  ///< abilities seen; of the set where `place` is none
  std::vector<std::string> signs{};          ///< of the set, as variants record them
  bool operator==(const ProposedPart&) const = default;
};

struct RebuildText {
  std::string name;
  std::string model;                 ///< host; or
  std::string kind;                  ///< only the kind, when the model is not recorded
  std::string variant;               ///< "" = not known which
  std::vector<ProposedPart> seen;    ///< what was seen in the host before: narrows the variants
  std::vector<ProposedPart> parts;   ///< what is put in; every other position keeps its own part
  std::vector<std::string> missing;  ///< places whose own part the host has lost
  std::string note;
  Where variant_where;
  Where where;
  bool operator==(const RebuildText&) const = default;
};

}  // namespace benchgraft::catalogue
