#include "catalogue/effective.hpp"

#include <algorithm>
#include <charconv>

#include "catalogue/check_family.hpp"
#include "catalogue/contact_moves.hpp"
#include "catalogue/faults.hpp"

namespace benchgraft::catalogue {

namespace {

void add_note(std::string& note, const std::string& sentence) {
  note += (note.empty() ? "" : " ") + sentence;
}

/// One part type while changes are applied to it, in their order.
class Changing {
 public:
  explicit Changing(const PartType& type) : type_(type) {}

  Result<void> apply(std::span<const Change> changes) {
    for (std::size_t i = 0; i < changes.size(); ++i) {
      change_ = &changes[i];
      if (change_->sort != ChangeSort::contact_moved) {
        apply_one();
        continue;
      }
      // Moves that follow one another are one re-pin, done at once: so they are read off the plug.
      std::map<std::string, std::vector<const Change*>> moves;
      for (; i < changes.size() && changes[i].sort == ChangeSort::contact_moved; ++i)
        moves[changes[i].port].push_back(&changes[i]);
      --i;
      for (const auto& [port, own] : moves) move_contacts(own);
    }
    return faults_.result();
  }

  PartType type() && { return std::move(type_); }

 private:
  void apply_one() {
    switch (change_->sort) {
      case ChangeSort::plug_cut:
        return cut();
      case ChangeSort::contact_moved:
        return;  // taken together by apply()
      case ChangeSort::contact_removed:
        return remove_contact();
      case ChangeSort::contact_added:
        return add_contact();
      case ChangeSort::piece_gone:
        return take_piece();
      case ChangeSort::piece_added:
        return add_piece();
      case ChangeSort::lead_replaced:
        return replace_lead();
      case ChangeSort::memory_changed:
        return change_memory();
      case ChangeSort::trait_changed:
        return change_trait();
    }
  }

  void fault(const std::string& sentence) { faults_.add(change_->where, sentence); }

  // What is not recorded stays unknown after a change; the note keeps the change in sight.
  void keep_in_note(const std::string& what) {
    add_note(type_.note, fmt::format("On this part: {}.", what));
  }

  /// The port the change names; null when the ports are unknown (kept as a note) or it is not there
  /// (a fault).
  Port* port(const std::string& what) {
    if (!type_.ports) {
      keep_in_note(fmt::format("{} at port {}", what, change_->port));
      return nullptr;
    }
    for (auto& own : *type_.ports)
      if (own.name == change_->port) return &own;
    const auto names = names_of(*type_.ports, [](const Port& own) { return own.name; });
    fault(fmt::format("{} names the port \"{}\", which \"{}\" does not have{}", what, change_->port,
                      type_.reference(),
                      mend(change_->port, names,
                           names.empty() ? "it has none" : "its ports are " + listed(names))));
    return nullptr;
  }

  static Contact* contact(Port& port, const std::string& number) {
    for (auto& own : *port.contacts)
      if (own.number == number) return &own;
    return nullptr;
  }

  static bool within_ways(const Port& port, const std::string& number) {
    return !port.connector.ways || counted(number) <= *port.connector.ways;
  }

  bool has_wire(const std::string& end, const std::string& number) const {
    return std::any_of(type_.wires.begin(), type_.wires.end(), [&](const Wire& wire) {
      return (wire.from_end == end && wire.from_contact == number) ||
             (wire.to_end == end && wire.to_contact == number);
    });
  }

  void no_contact(const Port& port, const std::string& number) {
    const auto numbers =
        port.contacts ? names_of(*port.contacts, [](const Contact& own) { return own.number; })
                      : std::vector<std::string>{};
    fault(fmt::format("contact \"{}\" is not on port \"{}\" of \"{}\"; {}.", number, port.name,
                      type_.reference(),
                      numbers.empty() ? "it has none" : "its contacts are " + listed(numbers)));
  }

  void change_trait() {
    std::erase_if(type_.has,
                  [&](const TraitValue& own) { return own.trait == change_->now->trait; });
    type_.has.push_back(*change_->now);
  }

  void cut() {
    Port* port = this->port("plug cut");
    if (port == nullptr) return;
    const Connector& old = port->connector;
    if (old.family == kCutPlug)
      return fault(
          fmt::format("the plug of port \"{}\" of \"{}\" is already cut; take one change away.",
                      port->name, type_.reference()));
    Connector left;
    left.family = kCutPlug;
    left.half = old.half;
    left.ways = old.ways;
    port->connector = left;
    if (change_->lead_mm) port->lead_mm = change_->lead_mm;
    add_note(port->note, "The plug is cut off.");
  }

  void move_contacts(const std::vector<const Change*>& moves) {
    const auto places = new_places(moves);
    if (!places) return faults_.add(places.error());
    for (const Change* move : moves) {
      change_ = move;
      Port* port = this->port(fmt::format("contact moved from {} to {}", move->from, move->to));
      if (port == nullptr) continue;
      if (!within_ways(*port, move->to))
        return fault(
            fmt::format("contact moved to {} lies beyond the {} ways of port \"{}\" of \"{}\".",
                        move->to, *port->connector.ways, port->name, type_.reference()));
      const bool wired = type_.wires.empty() || has_wire(port->name, move->from);
      if (port->contacts ? contact(*port, move->from) == nullptr : !wired)
        return no_contact(*port, move->from);
      if (!port->contacts)
        add_note(port->note, fmt::format("Contact {} was moved to {}.", move->from, move->to));
    }
    if (!type_.ports) return;
    if (Port* port = this->port("contact moved"); port != nullptr && port->contacts)
      settle(*port->contacts, places.value());
    move_wires(change_->port, places.value());
  }

  /// Gives every contact its new place; a place left without a contact is known to be empty.
  void settle(std::vector<Contact>& contacts, const NewPlaces& places) {
    std::map<std::string, Contact> settled;
    for (auto& own : contacts) {
      const auto place = places.find(own.number);
      if (place == places.end()) continue;
      Contact moved = own;
      note_move(moved, own.number);
      moved.number = place->second;
      settled[place->second] = moved;
    }
    for (auto& own : contacts) {  // the list stays in the order of the plug
      if (!places.contains(own.number)) continue;
      const auto now = settled.find(own.number);
      own = now != settled.end()
                ? now->second
                : empty_place(own.number, fmt::format("Its wire was moved to contact {}.",
                                                      places.at(own.number)));
      settled.erase(own.number);
    }
    for (auto& [number, moved] : settled) contacts.push_back(moved);
  }

  static void note_move(Contact& moved, const std::string& from) {
    if (moved.net_class != NetClass::unused)
      add_note(moved.note, fmt::format("Moved from contact {}.", from));
  }

  Contact empty_place(const std::string& number, const std::string& why) const {
    Contact empty;
    empty.number = number;
    empty.net_class = NetClass::unused;
    empty.note = why;
    empty.where = change_->where;
    return empty;
  }

  void move_wires(const std::string& end, const NewPlaces& places) {
    const auto move = [&](const std::string& wire_end, std::string& number) {
      if (const auto place = places.find(number); wire_end == end && place != places.end())
        number = place->second;
    };
    for (auto& wire : type_.wires) {
      move(wire.from_end, wire.from_contact);
      move(wire.to_end, wire.to_contact);
    }
  }

  void remove_contact() {
    Port* port = this->port(fmt::format("contact {} removed", change_->from));
    if (port == nullptr) return;
    if (port->contacts) {
      Contact* from = contact(*port, change_->from);
      if (from == nullptr) return no_contact(*port, change_->from);
      *from = empty_place(change_->from, "The contact was taken out.");
    } else if (!type_.wires.empty() && !has_wire(port->name, change_->from)) {
      return no_contact(*port, change_->from);
    } else {
      add_note(port->note, fmt::format("Contact {} was taken out.", change_->from));
    }
    std::erase_if(type_.wires, [&](const Wire& wire) {
      return (wire.from_end == port->name && wire.from_contact == change_->from) ||
             (wire.to_end == port->name && wire.to_contact == change_->from);
    });
  }

  void add_contact() {
    const Contact& added = *change_->contact;
    Port* port = this->port(fmt::format("contact {} added", added.number));
    if (port == nullptr) return;
    if (!within_ways(*port, added.number))
      return fault(fmt::format("contact {} added lies beyond the {} ways of port \"{}\" of \"{}\".",
                               added.number, *port->connector.ways, port->name, type_.reference()));
    if (!port->contacts)
      return add_note(port->note, fmt::format("Contact {} was added.", added.number));
    Contact* there = contact(*port, added.number);
    if (there == nullptr)
      port->contacts->push_back(added);
    else if (there->net_class == NetClass::unused)
      *there = added;
    else
      fault(fmt::format(
          "contact {} added is already on port \"{}\" of \"{}\"; remove that one first.",
          added.number, port->name, type_.reference()));
  }

  void take_piece() {
    if (!type_.carries) return keep_in_note(fmt::format("the piece {} is gone", change_->piece));
    const auto names = names_of(*type_.carries, [](const Piece& piece) { return piece.name; });
    if (!contains(names, change_->piece))
      return fault(
          fmt::format("piece gone names \"{}\", which \"{}\" does not carry{}", change_->piece,
                      type_.reference(),
                      mend(change_->piece, names,
                           names.empty() ? "it carries none" : "it carries " + listed(names))));
    std::erase_if(*type_.carries, [&](const Piece& piece) { return piece.name == change_->piece; });
  }

  void add_piece() {
    if (!type_.carries) return keep_in_note(fmt::format("the piece {} was added", change_->piece));
    for (const auto& piece : *type_.carries)
      if (piece.name == change_->piece)
        return fault(fmt::format(
            "piece added names \"{}\", which \"{}\" carries already; take the change away.",
            change_->piece, type_.reference()));
    type_.carries->push_back({change_->piece, change_->piece_kind, {}, change_->where});
  }

  /// The new length, in numbers or as text; nothing when nobody wrote it.
  std::optional<double> new_length() const {
    if (change_->lead_mm) return change_->lead_mm;
    double length = 0;
    const char* end = change_->to.data() + change_->to.size();
    const auto read = std::from_chars(change_->to.data(), end, length);
    if (read.ec == std::errc{} && read.ptr == end && length >= 0 && length < 1e6) return length;
    return std::nullopt;
  }

  void replace_lead() {
    if (change_->port.empty()) {
      type_.length_mm = new_length();
      return;
    }
    if (Port* port = this->port("lead replaced")) port->lead_mm = new_length();
  }

  void change_memory() {
    const auto& setting = change_->setting;
    if (!setting.empty() && type_.stores && !contains(*type_.stores, setting))
      return fault(fmt::format(
          "memory changed names the setting \"{}\", which \"{}\" does not store{}", setting,
          type_.reference(),
          mend(setting, *type_.stores,
               type_.stores->empty() ? "it stores none" : "it stores " + listed(*type_.stores))));
    keep_in_note(setting.empty()
                     ? std::string("the memory was changed")
                     : fmt::format("the memory of the setting {} was changed", setting));
  }

  PartType type_;
  const Change* change_ = nullptr;
  Faults faults_;
};

}  // namespace

Result<PartType> effective_type(const PartType& type, std::span<const Change> changes) {
  Changing changing(type);
  if (auto applied = changing.apply(changes); !applied) return applied.error();
  return std::move(changing).type();
}

}  // namespace benchgraft::catalogue
