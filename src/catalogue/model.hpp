// A make of set and the variants it was built in.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/units.hpp"
#include "catalogue/part_type.hpp"

namespace benchgraft::catalogue {

using Point = std::array<double, 3>;  ///< mm from the lower left rear corner: right, up, forward

/// A place in a model that a part is mounted in.
struct Position {
  std::string name;
  std::vector<std::string> roles;
  bool optional = false;                          ///< the factory left it empty in some variants
  std::optional<std::vector<std::string>> seats;  ///< mounts it takes
  std::optional<Room> room;
  std::vector<std::string> after;  ///< positions or pieces that must be in before this one
  std::optional<Point> at_mm;
  std::string note;
  Where where;
  bool operator==(const Position&) const = default;
};

/// One factory build: which part type sits in which position, and what gives it away.
struct Variant {
  std::string name;
  std::map<std::string, std::string> parts;  ///< position -> reference
  std::vector<std::string> provides;         ///< beyond what its parts provide
  std::vector<std::string> signs;            ///< what gives it away from outside
  std::string note;
  Where where;
  bool operator==(const Variant&) const = default;
};

struct ModelOptics {
  std::optional<int> fold_mirrors;
  std::optional<std::vector<Point>> mirror_normals;  ///< in beam order, when measured
  std::optional<Point> beam;             ///< direction the engine fires in, when measured
  std::optional<Point> beam_up;          ///< up of the picture at the engine
  std::optional<bool> seen_from_behind;  ///< rear projection
  Mount mount = Mount::unknown;          ///< how the cabinet holds the engine
  std::optional<double> diagonal_in;
  std::optional<double> throw_mm;
  std::optional<double> width_mm;  ///< picture width; else from the diagonal at 16:9
  bool operator==(const ModelOptics&) const = default;
};

/// What a finished set fetches when it can do `needs` and looks at least `looks`.
struct Price {
  std::vector<std::string> needs;
  std::string looks;  ///< "good", "fair", "poor"; "" = any
  Money price;
  bool operator==(const Price&) const = default;
};

/// A stated link, where deriving it from the ports is ambiguous. Ends are "role:port".
struct StatedLink {
  std::string from, to;
  Where where;
  bool operator==(const StatedLink&) const = default;
};

struct Model {
  std::string name;
  std::string maker;
  std::string kind;
  std::vector<Position> positions;
  std::vector<Variant> variants;
  std::vector<StatedLink> links;
  std::optional<std::vector<std::string>> provides;  ///< by the cabinet itself
  std::vector<TraitValue> has;                       ///< of the cabinet itself
  std::optional<ModelOptics> optics;
  Protection protection = Protection::unknown;
  std::optional<Range> mains_volts;
  std::vector<Price> prices;
  std::optional<double> mass_kg;
  std::vector<std::string> hazards;
  std::string note;
  Where where;
  bool operator==(const Model&) const = default;
};

}  // namespace benchgraft::catalogue
