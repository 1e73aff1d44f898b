#include <charconv>

#include "catalogue/check_family.hpp"
#include "catalogue/circle.hpp"

namespace benchgraft::catalogue {

namespace {

// Text joins these names with ':' and '.', so the names themselves must not hold them.
void refuse_letter(Faults& faults, const Where& where, const std::string& what,
                   const std::string& name, char letter) {
  if (name.find(letter) != std::string::npos)
    faults.add(where, fmt::format("{} \"{}\" must not hold a \"{}\"; write it without.", what, name,
                                  letter));
}

void check_contact(Faults& faults, const PartType& type, const Port& port, const Contact& contact) {
  const auto& ways = port.connector.ways;
  check_contact_number(faults, contact.where, contact.number);
  if (ways && counted(contact.number) > *ways)
    faults.add(contact.where,
               fmt::format("contact {} lies beyond the {} ways of port \"{}\"; correct n or ways.",
                           contact.number, *ways, port.name));
  const auto rails = names_of(type.rails, [](const Rail& rail) { return rail.name; });
  if (!contact.rail.empty() && !rails.empty() && !contains(rails, contact.rail))
    faults.add(
        contact.where,
        fmt::format("rail = \"{}\" is not a rail of part type \"{}\"{}", contact.rail,
                    type.reference(), mend(contact.rail, rails, "its rails are " + listed(rails))));
}

void check_port(Faults& faults, const PartType& type, const Port& port) {
  const Connector& connector = port.connector;
  refuse_letter(faults, port.where, "port", port.name, ':');
  for (const int gap : connector.gaps.value_or(std::vector<int>{}))
    if (connector.ways && gap > *connector.ways)
      faults.add(port.where,
                 fmt::format("gap {} lies beyond the {} ways of port \"{}\"; correct gaps or ways.",
                             gap, *connector.ways, port.name));
  if (!port.contacts) return;
  if (connector.ways && static_cast<std::size_t>(*connector.ways) < port.contacts->size())
    faults.add(port.where,
               fmt::format("port \"{}\" has {} ways but {} contacts; correct ways or the contacts.",
                           port.name, *connector.ways, port.contacts->size()));
  refuse_doubles(faults, fmt::format("contact of port \"{}\" with the number", port.name),
                 *port.contacts, port.where, [](const Contact& contact) { return contact.number; });
  for (const auto& contact : *port.contacts) check_contact(faults, type, port, contact);
}

void check_wire_end(Faults& faults, const PartType& type, const Wire& wire, const std::string& end,
                    const std::string& contact) {
  const auto ports = names_of(type.ports.value_or(std::vector<Port>{}),
                              [](const Port& port) { return port.name; });
  const Port* port = type.port(end);
  if (port == nullptr)
    return faults.add(
        wire.where,
        fmt::format("the wire names the end \"{}\", which is not a port of part type \"{}\"{}", end,
                    type.reference(), mend(end, ports, "add the port")));
  const auto& ways = port->connector.ways;
  if (ways && counted(contact) > *ways)
    return faults.add(
        wire.where,
        fmt::format("the wire ends at contact {}, beyond the {} ways of \"{}\"; correct one.",
                    contact, *ways, end));
  if (!port->contacts) return;
  const auto numbers = names_of(*port->contacts, [](const Contact& own) { return own.number; });
  if (!contains(numbers, contact))
    faults.add(
        wire.where,
        fmt::format(
            "the wire ends at contact \"{}\", which \"{}\" does not have; its contacts are {}.",
            contact, end, numbers.empty() ? "none" : listed(numbers)));
}

void check_pieces(Faults& faults, const PartType& type,
                  const std::optional<std::vector<Piece>>& pieces) {
  if (pieces)
    refuse_doubles(faults, "piece", *pieces, type.where,
                   [](const Piece& piece) { return piece.name; });
}

void check_piece_order(Faults& faults, const PartType& type) {
  WaitsFor waits;
  for (const auto* pieces : {&type.carries, &type.needs})
    if (*pieces)
      for (const auto& piece : **pieces) {
        auto& after = waits[piece.name];
        after.insert(after.end(), piece.after.begin(), piece.after.end());
      }
  if (const auto circle = find_circle(waits); !circle.empty())
    faults.add(
        type.where,
        fmt::format("pieces of part type \"{}\" wait for each other in a circle: {}; take one "
                    "\"after\" away.",
                    type.reference(), circle_text(circle)));
}

}  // namespace

int counted(const std::string& contact_number) {
  int count = 0;
  const char* end = contact_number.data() + contact_number.size();
  const auto read = std::from_chars(contact_number.data(), end, count);
  return read.ec == std::errc{} && read.ptr == end ? count : 0;
}

void check_contact_number(Faults& faults, const Where& where, const std::string& number) {
  refuse_letter(faults, where, "contact", number, '.');
  const int count = counted(number);
  const std::size_t digits = number.starts_with('-') ? 1 : 0;
  const bool numeral = number.find_first_not_of("0123456789", digits) == std::string::npos;
  if (numeral && (count < 1 || fmt::format("{}", count) != number))
    faults.add(
        where,
        fmt::format("contact {} is not counted from 1; write its place from contact 1, or its "
                    "printed mark.",
                    number));
}

void check_part_type(Faults& faults, const PartType& type) {
  refuse_letter(faults, type.where, "part type", type.name, ':');
  refuse_letter(faults, type.where, "revision", type.revision, ':');
  refuse_doubles(faults, "rail", type.rails, type.where,
                 [](const Rail& rail) { return rail.name; });
  if (type.counters)
    refuse_doubles(faults, "counter", *type.counters, type.where,
                   [](const Counter& own) { return own.name; });
  check_pieces(faults, type, type.carries);
  check_pieces(faults, type, type.needs);
  check_piece_order(faults, type);
  if (type.ports) {
    refuse_doubles(faults, "port", *type.ports, type.where,
                   [](const Port& port) { return port.name; });
    for (const auto& port : *type.ports) check_port(faults, type, port);
  }
  for (const auto& wire : type.wires) {
    check_wire_end(faults, type, wire, wire.from_end, wire.from_contact);
    check_wire_end(faults, type, wire, wire.to_end, wire.to_contact);
  }
}

}  // namespace benchgraft::catalogue
