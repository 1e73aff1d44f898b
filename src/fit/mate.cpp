#include "fit/mate.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

#include <fmt/format.h>

#include "catalogue/effective.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Connector;
using catalogue::Half;
using catalogue::OneAt;
using catalogue::Port;
using catalogue::RibbonSide;

int number_of(const std::string& text) {
  int value = 0;
  const auto read = std::from_chars(text.data(), text.data() + text.size(), value);
  return read.ec == std::errc{} && read.ptr == text.data() + text.size() ? value : 0;
}

// A filled hole of the plug meets a pin of the socket that is still there; unknown when nobody
// looked at the pins. `at` is the pin.
Tri blocked(const Connector& a, const Connector& b, bool turned_round, int& at) {
  const Connector& plug = a.half == Half::plug ? a : b;
  const Connector& socket = a.half == Half::plug ? b : a;
  if (!plug.gaps || plug.gaps->empty()) return Tri::no;
  if (!socket.gaps) return Tri::unknown;
  for (const int hole : *plug.gaps) {
    at = turned_round && plug.ways ? *plug.ways + 1 - hole : hole;
    if (std::find(socket.gaps->begin(), socket.gaps->end(), at) == socket.gaps->end())
      return Tri::yes;
  }
  return Tri::no;
}

// What certainly keeps them apart; "" = nothing known.
std::string kept_apart(const Connector& a, const Connector& b) {
  if (a.family == catalogue::kCutPlug || b.family == catalogue::kCutPlug)
    return "the plug was cut off";
  if (!a.family.empty() && !b.family.empty() && a.family != b.family)
    return fmt::format("{} against {}", a.family, b.family);
  if (a.pitch_mm && b.pitch_mm && std::abs(*a.pitch_mm - *b.pitch_mm) > 0.005)
    return fmt::format("pitch {} mm against {} mm", *a.pitch_mm, *b.pitch_mm);
  if (a.ways && b.ways && *a.ways != *b.ways)
    return fmt::format("{} ways against {}", *a.ways, *b.ways);
  if (a.half != Half::unknown && a.half == b.half)
    return a.half == Half::plug ? "both are plugs" : "both are sockets";
  const bool both_keyed = !a.key.empty() && !b.key.empty() && a.key != "none" && b.key != "none";
  if (both_keyed && a.key != b.key) return fmt::format("key {} against {}", a.key, b.key);
  if (a.ribbon_side != RibbonSide::unknown && b.ribbon_side != RibbonSide::unknown &&
      a.ribbon_side != b.ribbon_side)
    return "the ribbon's bare contacts are on the other side";
  return {};
}

Tri reversible(const Connector& a, const Connector& b) {
  const auto stops = [](const Connector& c) {
    return c.key.empty() ? Tri::unknown : tri(c.key != "none");
  };
  return negated(both(stops(a), stops(b)));
}

}  // namespace

Mating mate(const Connector& a, const Connector& b) {
  Mating answer;
  answer.turned_round =
      a.one_at != OneAt::unknown && b.one_at != OneAt::unknown && a.one_at != b.one_at;
  answer.reversible = reversible(a, b);
  answer.because = kept_apart(a, b);
  Tri stopped = Tri::no;
  if (answer.because.empty() && a.half != Half::unknown && b.half != Half::unknown) {
    int pin = 0;
    stopped = blocked(a, b, answer.turned_round, pin);
    if (stopped == Tri::yes) answer.because = fmt::format("a filled hole meets pin {}", pin);
  }
  if (!answer.because.empty()) {
    answer.mates = Tri::no;
    return answer;
  }
  const auto need = [&](bool known, const char* key) {
    if (!known) answer.missing.emplace_back(key);
  };
  // What only one side tells cannot be compared, and the comparison may have gone against it.
  const bool one_end = (a.one_at == OneAt::unknown) == (b.one_at == OneAt::unknown);
  need(!a.family.empty() && !b.family.empty(), "the connector family");
  need(a.ways && b.ways, "the number of ways");
  need(a.half != Half::unknown && b.half != Half::unknown, "which is plug and which is socket");
  need(a.pitch_mm.has_value() == b.pitch_mm.has_value(), "the pitch");
  need(a.key.empty() == b.key.empty(), "the key");
  need(one_end, "at which end contact 1 is");
  need((a.ribbon_side == RibbonSide::unknown) == (b.ribbon_side == RibbonSide::unknown),
       "ribbon_side");
  need(stopped == Tri::no, "which pins are taken out");
  if (!one_end) answer.reversible = either(answer.reversible, Tri::unknown);
  answer.mates = answer.missing.empty() ? Tri::yes : Tri::unknown;
  return answer;
}

bool same_end(const Port& a, const Port& b) {
  const auto in_order = [](const Port& port) {
    auto contacts = port.contacts;
    if (!contacts) return contacts;
    for (auto& contact : *contacts) contact.note.clear();
    std::sort(contacts->begin(), contacts->end(),
              [](const auto& x, const auto& y) { return x.number < y.number; });
    return contacts;
  };
  return a.connector == b.connector && in_order(a) == in_order(b);
}

int ways_of(const Port& port) {
  if (port.connector.ways) return *port.connector.ways;
  int most = 0;
  if (port.contacts)
    for (const auto& contact : *port.contacts) most = std::max(most, number_of(contact.number));
  return most;
}

std::vector<Facing> facing_contacts(const Port& a, const Port& b, bool turned_round) {
  std::vector<Facing> faces;
  if (!a.contacts || !b.contacts) return faces;
  const int ways = std::max(ways_of(a), ways_of(b));
  faces.reserve(std::max(a.contacts->size(), b.contacts->size()));
  std::vector<bool> met(b.contacts->size(), false);
  for (const auto& contact : *a.contacts) {
    const int n = number_of(contact.number);
    const int wanted = turned_round && n > 0 ? ways + 1 - n : n;
    Facing face{&contact, nullptr, nullptr};
    for (std::size_t k = 0; k < b.contacts->size(); ++k) {
      const auto& other = (*b.contacts)[k];
      const bool same =
          wanted > 0 ? number_of(other.number) == wanted : other.number == contact.number;
      if (!same) continue;
      face.b = &other;
      met[k] = true;
      break;
    }
    faces.push_back(face);
  }
  for (std::size_t k = 0; k < met.size(); ++k)
    if (!met[k]) faces.push_back({nullptr, &(*b.contacts)[k], nullptr});
  return faces;
}

}  // namespace benchgraft::fit
