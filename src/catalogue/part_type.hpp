// A make of part by printed number and revision: a board, an engine, a lamp, a lead, a bracket.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/units.hpp"
#include "catalogue/make.hpp"
#include "catalogue/port.hpp"
#include "catalogue/trait.hpp"

namespace benchgraft::catalogue {

/// Something small screwed or clipped to a part that the set needs: it is easily left on the old
/// one.
struct Piece {
  std::string name;  ///< "light shield", "earth braid"
  std::string kind;  ///< bracket, shield, ferrite, earth lead, insulating sheet, pad, ...
  std::vector<std::string> after;  ///< pieces or roles that must be in before it
  Where where;
  bool operator==(const Piece&) const = default;
};

/// The part in `role` must be one of `types` for this one to work ("lamp follows engine").
struct Fellow {
  std::string role;
  std::vector<std::string> types;  ///< references: printed number, or printed number/revision
  std::string why;
  bool safety = false;  ///< lamp power, interlock, thermal: a swap note never outranks it
  Where where;
  bool operator==(const Fellow&) const = default;
};

/// A total that all contacts naming this rail share.
struct Rail {
  std::string name;
  std::optional<Range> volts;
  std::optional<double> amps;
  std::optional<double> least_amps;  ///< below this load it does not regulate
  Where where;
  bool operator==(const Rail&) const = default;
};

struct Counter {
  std::string name;       ///< "lamp hours"
  std::string speaks_of;  ///< the role whose part it means to count
  bool operator==(const Counter&) const = default;
};

/// Light path of an engine (part type); the cabinet's half is ModelOptics.
struct EngineOptics {
  std::optional<bool> lens;  ///< has its projection lens
  Mount mount = Mount::unknown;
  std::optional<double> throw_ratio;  ///< distance / picture width
  std::optional<double> lumens;
  bool operator==(const EngineOptics&) const = default;
};

/// A flip as two bits: left-right (h) and upside-down (v).
struct Flip {
  bool h = false;
  bool v = false;
  bool operator==(const Flip&) const = default;
  friend Flip operator^(Flip a, Flip b) { return {a.h != b.h, a.v != b.v}; }
};

struct PartType {
  std::string name;      ///< printed number
  std::string revision;  ///< "" when none is printed
  std::string maker;
  std::string kind;  ///< kind of part: "main board", "light engine", "lead", "lamp"
  std::vector<std::string> roles;
  std::optional<std::string> mount;  ///< hole pattern or seat, compared by name
  std::optional<std::vector<Piece>> carries;
  std::optional<std::vector<Piece>> needs;  ///< pieces it must have near it, from wherever
  std::optional<std::vector<Port>> ports;
  std::vector<Rail> rails;
  std::vector<Wire> wires;                           ///< leads only: the ends are the ports
  std::optional<double> length_mm;                   ///< leads only
  std::optional<std::vector<std::string>> provides;  ///< capabilities
  std::optional<std::vector<std::string>> stores;    ///< settings kept in its memory
  std::optional<std::vector<Counter>> counters;
  std::vector<Fellow> fellows;
  std::vector<TraitValue> has;         ///< what it is, where another part must suit it
  std::vector<TraitValue> takes;       ///< what it works with
  std::vector<std::string> memory_of;  ///< roles whose part its memory was made for
  std::optional<bool> wipes_memory;    ///< writes over such a memory at its first start
  std::vector<std::string> sticker;    ///< rails to be trimmed to the sticker on this part
  std::string service_menu;            ///< how it is opened, one sentence
  std::optional<EngineOptics> optics;
  std::optional<Flip> flip_default;  ///< on the part that stores the flip
  std::optional<double> lamp_watts;
  std::optional<Range> lamp_volts;
  std::optional<MainsSide> mains;
  std::optional<Shape> shape;
  Protection protection = Protection::unknown;
  std::optional<int> inlet_wires;  ///< on the mains inlet: 2 or 3
  std::optional<Range> mains_volts;
  std::optional<double> y_nf;  ///< sum of the Y capacitors from line to chassis
  std::optional<double> fan_radius_mm;
  std::optional<double> mass_kg;
  std::vector<std::string> hazards;     ///< names of hazards (kinds file)
  std::vector<std::string> substances;  ///< what it holds that is kept apart: "mercury lamp", ...
  std::optional<Money> price;           ///< to buy one
  std::optional<int> delivery_days;
  std::optional<Money> salvage;  ///< what a good one is worth loose
  std::string note;
  Where where;
  bool operator==(const PartType&) const = default;

  /// "LD-20" or "LD-20/B": how text refers to it.
  [[nodiscard]] std::string reference() const {
    return revision.empty() ? name : name + "/" + revision;
  }
  [[nodiscard]] bool fills(const std::string& role) const {
    for (const auto& own : roles)
      if (own == role) return true;
    return false;
  }
  [[nodiscard]] const Port* port(const std::string& port_name) const {
    if (ports)
      for (const auto& own : *ports)
        if (own.name == port_name) return &own;
    return nullptr;
  }
  [[nodiscard]] bool is_lead() const { return kind == "lead"; }
};

/// One recorded change of one physical part.
struct Change {
  ChangeSort sort = ChangeSort::plug_cut;
  std::string port;
  std::string from, to;  ///< contacts (moved), or lengths in mm as text (lead replaced)
  std::string piece;
  std::string piece_kind;
  std::string setting;
  std::optional<Contact> contact;  ///< contact added
  std::optional<TraitValue> now;   ///< now has
  std::optional<double> lead_mm;
  std::string note;
  Where where;
  bool operator==(const Change&) const = default;
};

}  // namespace benchgraft::catalogue
