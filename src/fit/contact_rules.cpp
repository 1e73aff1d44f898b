#include "fit/contact_rules.hpp"

#include <algorithm>
#include <cmath>

namespace benchgraft::fit {
namespace {

using catalogue::Contact;
using catalogue::Direction;
using catalogue::Domain;
using catalogue::Drive;
using catalogue::Level;
using catalogue::NetClass;

// Everything one judgement of a pair of contacts needs, with `a` and `b` in a fixed order.
struct Pair {
  const Contact* a;
  const Contact* b;
  const Surroundings& around;
  std::vector<ContactFinding>& found;

  void find(ContactRule rule, Verdict verdict, bool safety = false) const {
    found.push_back({rule, verdict, safety, a, b, 0, 0});
  }
  void lacks(std::uint32_t of_a, std::uint32_t of_b, bool safety = false) const {
    if (of_a | of_b)
      found.push_back({ContactRule::not_recorded, Verdict::unknown, safety, a, b, of_a, of_b});
  }
  [[nodiscard]] Pair swapped(Surroundings& turned) const {
    turned = {around.b_measured,       around.a_measured, around.b_constant_power,
              around.a_constant_power, around.b_lights,   around.a_lights};
    return {b, a, turned, found};
  }
};

bool is_safety_class(NetClass c) {
  return c == NetClass::mains || c == NetClass::bus || c == NetClass::ignition ||
         c == NetClass::earth || c == NetClass::interlock || c == NetClass::thermal;
}

bool is_power(NetClass c) {
  return c == NetClass::supply || c == NetClass::bus || c == NetClass::mains;
}

std::uint32_t lack(bool known, Missing what) {
  return known ? 0U : static_cast<std::uint32_t>(what);
}

// Joining these two islands is harmless: a cold ground may be bonded to the chassis, and a floating
// circuit takes the potential of what it is joined to as long as that is safe to touch.
bool domains_may_join(Domain x, Domain y) {
  if (x == y) return true;
  const auto one_is = [&](Domain d) { return x == d || y == d; };
  if (one_is(Domain::primary) || one_is(Domain::lamp) || one_is(Domain::panel_high)) return false;
  return true;  // secondary, earth and floating among themselves
}

// Returns false when the pair is settled by its domains.
bool judge_domains(const Pair& p) {
  const Domain x = domain_of(*p.a), y = domain_of(*p.b);
  if (x == Domain::unknown || y == Domain::unknown) {
    const bool hot = x == Domain::primary || y == Domain::primary || x == Domain::lamp ||
                     y == Domain::lamp || x == Domain::panel_high || y == Domain::panel_high;
    p.lacks(lack(x != Domain::unknown, kMissingDomain), lack(y != Domain::unknown, kMissingDomain),
            hot);
    return true;
  }
  if (domains_may_join(x, y)) return true;
  p.find(ContactRule::domain_clash, Verdict::destroys, true);
  return false;
}

// Different classes on one contact.
void judge_class_clash(const Pair& p) {
  const NetClass x = p.a->net_class, y = p.b->net_class;
  const auto one_is = [&](NetClass c) { return x == c || y == c; };
  const auto pair_of = [&](NetClass c, NetClass d) {
    return (x == c && y == d) || (x == d && y == c);
  };
  if (pair_of(NetClass::earth, NetClass::ground))
    return p.find(ContactRule::class_clash, Verdict::unknown, true);
  if (is_safety_class(x) || is_safety_class(y))
    return p.find(ContactRule::class_clash, Verdict::destroys, true);
  if (one_is(NetClass::supply) || one_is(NetClass::light))
    return p.find(ContactRule::class_clash, Verdict::destroys);
  // An output shorted to ground, or two outputs of different sorts against each other.
  const bool a_drives = p.a->direction == Direction::out,
             b_drives = p.b->direction == Direction::out;
  const bool shorted = one_is(NetClass::ground) && (a_drives || b_drives);
  if (shorted || (a_drives && b_drives) || one_is(NetClass::motor))
    return p.find(ContactRule::class_clash, Verdict::destroys);
  p.find(ContactRule::class_clash, Verdict::does_not_fit);
}

// `empty` is recorded as left unused; `live` faces it.
void judge_empty(const Pair& p) {
  const Contact& live = *p.b;
  const bool safety = is_excluded_circuit(live);
  if (live.net_class == NetClass::unused) return;
  if (live.net_class == NetClass::earth)
    return p.find(ContactRule::earth_lost, Verdict::does_not_fit, true);
  if (live.net_class == NetClass::interlock || live.net_class == NetClass::thermal)
    return p.find(ContactRule::safety_loop_open, Verdict::does_not_fit, true);
  if (live.direction == Direction::in && live.waits_s)
    return p.find(ContactRule::missing_reply, Verdict::does_not_fit, safety);
  if (live.direction == Direction::in && is_power(live.net_class))
    return p.find(ContactRule::nothing_feeds_it, Verdict::does_not_fit, safety);
  const bool way_back = live.net_class == NetClass::bus || live.net_class == NetClass::mains ||
                        live.net_class == NetClass::light || live.net_class == NetClass::ignition;
  if (way_back && live.direction == Direction::passive)
    return p.find(ContactRule::no_return, Verdict::does_not_fit, safety);
  // A line somebody gave is now taken by nobody: sync, dimming or a flag may be missed.
  const bool line = live.net_class == NetClass::signal || live.net_class == NetClass::pair;
  const bool surely_open = p.around.a_measured || p.a->number == kNoWireNumber;
  if (live.net_class == NetClass::unknown || live.direction == Direction::unknown || !surely_open ||
      live.direction == Direction::in || line)
    p.find(ContactRule::empty_contact, Verdict::unknown, safety);
}

// One number stands for a range around it; of a negative rail too.
catalogue::Range with_tolerance(const catalogue::Range& volts) {
  if (volts.low != volts.high) return volts;
  const double off = std::abs(volts.low) * kRailTolerance;
  return {volts.low - off, volts.low + off};
}

// Supplier gives `given`, the other allows `allowed`.
void judge_volts(const Pair& p, const Contact& supplier, const Contact& user, bool constant_power) {
  if (!supplier.volts || !user.volts) return;
  const auto allowed = with_tolerance(*user.volts);
  const auto size = [](double v) { return std::abs(v); };
  const bool same_sign = (supplier.volts->high >= 0) == (allowed.high >= 0);
  const double most = std::max(size(supplier.volts->low), size(supplier.volts->high));
  const double least = std::min(size(supplier.volts->low), size(supplier.volts->high));
  const double allowed_most = std::max(size(allowed.low), size(allowed.high));
  const double allowed_least = std::min(size(allowed.low), size(allowed.high));
  constexpr double kRounding = 1e-9;
  // Windows that overlap without one holding the other: only a measurement tells.
  const bool window = supplier.volts->low != supplier.volts->high;
  const bool perhaps = window && same_sign && least <= allowed_most && most >= allowed_least;
  if (!same_sign || most > allowed_most + kRounding)
    p.find(ContactRule::over_voltage, perhaps ? Verdict::unknown : Verdict::destroys, true);
  else if (least < allowed_least - kRounding)
    p.find(ContactRule::rail_low,
           perhaps          ? Verdict::unknown
           : constant_power ? Verdict::destroys
                            : Verdict::does_not_fit,
           constant_power);
}

// A passive or two-way power contact takes the part its partner leaves it.
Direction role_in_power(Direction own, Direction other) {
  const bool open = own == Direction::passive || own == Direction::both;
  if (!open) return own;
  if (other == Direction::out) return Direction::in;
  return other == Direction::in && own == Direction::both ? Direction::out : own;
}

void judge_power(const Pair& p) {
  const Direction x = role_in_power(p.a->direction, p.b->direction);
  const Direction y = role_in_power(p.b->direction, p.a->direction);
  const bool safety = is_safety_class(p.a->net_class);
  if (x == Direction::out && y == Direction::out)
    return p.find(ContactRule::direction_clash, Verdict::destroys, safety);
  const bool nobody_gives = x != Direction::out && y != Direction::out;
  if (nobody_gives && (x == Direction::in || y == Direction::in) && x != Direction::unknown &&
      y != Direction::unknown)
    return p.find(ContactRule::nothing_feeds_it, Verdict::does_not_fit, safety);
  const bool plain =
      (x == Direction::in && y == Direction::out) || (x == Direction::out && y == Direction::in);
  const bool mains = p.a->net_class == NetClass::mains;
  // The way back of a bus carries no facts of its own.
  const auto is_return = [](const Contact& c) {
    const bool named = c.signal.ends_with("-") || c.signal.find("return") != std::string::npos;
    return c.net_class == NetClass::bus &&
           (c.direction == Direction::passive || (named && !c.volts && !c.amps));
  };
  if (is_return(*p.a) && is_return(*p.b)) return;
  const auto lacks = [&](const Contact& c, bool directed, bool gives) {
    // Mains volts stand on the part (mains_volts) and are judged there.
    return lack(directed, kMissingDirection) | lack(mains || c.volts.has_value(), kMissingVolts) |
           lack(mains || c.amps.has_value() || (gives && !c.rail.empty()), kMissingAmps);
  };
  const bool a_told = x == Direction::in || x == Direction::out,
             b_told = y == Direction::in || y == Direction::out;
  p.lacks(lacks(*p.a, a_told, x == Direction::out), lacks(*p.b, b_told, y == Direction::out),
          safety);
  if (!plain || mains) return;
  const bool a_gives = x == Direction::out;
  const Contact& gives = a_gives ? *p.a : *p.b;
  const Contact& draws = a_gives ? *p.b : *p.a;
  judge_volts(p, gives, draws, a_gives ? p.around.b_constant_power : p.around.a_constant_power);
  if (gives.amps && draws.amps && *draws.amps > *gives.amps + 1e-9)
    p.find(ContactRule::rail_overload, Verdict::does_not_fit);
}

// `out` drives `in`: levels, drive, reply.
void judge_driving(const Pair& p, const Contact& out, const Contact& in, bool in_lights) {
  if (out.logic_volts && in.logic_volts) {
    if (*out.logic_volts > *in.logic_volts * (1 + kRailTolerance) &&
        out.drive != Drive::open_collector)
      p.find(ContactRule::level_clash, Verdict::destroys);
    else if (*out.logic_volts < *in.logic_volts * (1 - kRailTolerance) &&
             out.drive != Drive::open_collector)
      p.find(ContactRule::level_clash, Verdict::does_not_fit);
  }
  const bool inverted =
      out.active != Level::unknown && in.active != Level::unknown && out.active != in.active;
  const bool idle_differs =
      out.idle != Level::unknown && in.idle != Level::unknown && out.idle != in.idle;
  if (inverted || idle_differs)
    p.find(ContactRule::level_clash, in_lights ? Verdict::destroys : Verdict::does_not_fit);
  if (out.drive == Drive::open_collector && in.pull_up == false && out.pull_up != true)
    p.find(ContactRule::drive_clash, Verdict::does_not_fit);
  const bool wants_other =
      out.drive != Drive::unknown && in.drive != Drive::unknown && out.drive != in.drive;
  if (wants_other) p.find(ContactRule::drive_clash, Verdict::does_not_fit);
}

// A line that goes both ways: the side with the higher level must not push it into the other.
void judge_shared(const Pair& p) {
  const Contact &a = *p.a, &b = *p.b;
  if (a.direction == Direction::out || b.direction == Direction::out) return;  // judge_driving did
  const bool told = a.drive != Drive::unknown && b.drive != Drive::unknown;
  if (told && a.drive != b.drive) p.find(ContactRule::drive_clash, Verdict::does_not_fit);
  const bool inverted =
      a.active != Level::unknown && b.active != Level::unknown && a.active != b.active;
  const bool idle_differs =
      a.idle != Level::unknown && b.idle != Level::unknown && a.idle != b.idle;
  if (inverted || idle_differs) p.find(ContactRule::level_clash, Verdict::does_not_fit);
  if (!a.logic_volts || !b.logic_volts) return;
  const bool a_higher = *a.logic_volts > *b.logic_volts;
  const Contact& high = a_higher ? a : b;
  const Contact& low = a_higher ? b : a;
  if (*high.logic_volts <= *low.logic_volts * (1 + kRailTolerance)) return;
  const bool pushes = high.direction != Direction::in && high.drive != Drive::open_collector;
  if (pushes || high.pull_up == true) return p.find(ContactRule::level_clash, Verdict::destroys);
  if (!high.pull_up) p.lacks(a_higher ? kMissingPullUp : 0U, a_higher ? 0U : kMissingPullUp);
}

// Data lines carry no active level; plain levels and pulses do.
bool has_active_level(const Contact& c) {
  return c.protocol.empty() || c.protocol.starts_with("level") || c.protocol.starts_with("pulse");
}

// A comparison that would be made with both facts is asked for when one side lacks its fact.
std::uint32_t level_lacks(const Contact& c, const Contact& other) {
  const bool drives = c.direction == Direction::out;
  const bool receives = c.direction == Direction::in || c.direction == Direction::both;
  const bool shared = c.direction == Direction::both && other.direction == Direction::both;
  const bool pulled = other.drive == Drive::open_collector || other.drive == Drive::dry_contact;
  const bool active_matters = other.active != Level::unknown || (!shared && has_active_level(c));
  return lack(c.active != Level::unknown || !active_matters, kMissingActive) |
         lack(c.idle != Level::unknown || other.idle == Level::unknown, kMissingIdle) |
         lack(c.logic_volts.has_value() ||
                  (drives && c.drive != Drive::driven && c.drive != Drive::unknown) ||
                  c.direction == Direction::passive,
              kMissingLogic) |
         lack(c.drive != Drive::unknown || c.direction == Direction::passive ||
                  (shared && other.drive == Drive::unknown),
              kMissingDrive) |
         lack(!(receives && pulled) || c.pull_up.has_value() || other.pull_up == true,
              kMissingPullUp);
}

std::uint32_t signal_lacks(const Contact& c, const Contact& other, bool levels_matter) {
  const std::uint32_t missing =
      lack(c.direction != Direction::unknown, kMissingDirection) |
      lack(!c.signal.empty(), kMissingSignal) |
      lack(!c.protocol.empty() || (other.protocol.empty() && c.net_class != NetClass::pair),
           kMissingProtocol) |
      lack(c.hertz.has_value() || !other.hertz, kMissingHertz);
  return levels_matter ? missing | level_lacks(c, other) : missing;
}

// Pulses of another rate: dimming flickers, a sync is not followed.
void judge_rate(const Pair& p, const Contact& gives, const Contact& takes) {
  const auto given = with_tolerance(*takes.hertz);
  if (gives.hertz->low >= given.low - 1e-9 && gives.hertz->high <= given.high + 1e-9) return;
  const bool apart = gives.hertz->high < given.low || gives.hertz->low > given.high;
  p.find(ContactRule::rate_clash, apart ? Verdict::does_not_fit : Verdict::unknown);
}

void judge_signal(const Pair& p) {
  const Contact &a = *p.a, &b = *p.b;
  const bool named = !a.signal.empty() && !b.signal.empty();
  const bool a_out = a.direction == Direction::out, b_out = b.direction == Direction::out;
  if (a_out && b_out) {
    const bool harmless = a.drive == Drive::open_collector && b.drive == Drive::open_collector;
    p.find(ContactRule::direction_clash, harmless ? Verdict::does_not_fit : Verdict::destroys);
  }
  if (named && a.signal != b.signal)
    return p.find(ContactRule::crossed_signals, Verdict::does_not_fit);
  const bool levels_matter = a.net_class == NetClass::signal;
  p.lacks(signal_lacks(a, b, levels_matter), signal_lacks(b, a, levels_matter));
  if (!a.protocol.empty() && !b.protocol.empty() && a.protocol != b.protocol)
    p.find(ContactRule::protocol_clash, Verdict::does_not_fit);
  if (a.hertz && b.hertz && a_out != b_out) judge_rate(p, b_out ? b : a, b_out ? a : b);
  if (a.direction == Direction::in && b.direction == Direction::in) {
    const bool waits = a.waits_s || b.waits_s;
    return p.find(waits ? ContactRule::missing_reply : ContactRule::nothing_feeds_it,
                  Verdict::does_not_fit);
  }
  if (a_out && !b_out) judge_driving(p, a, b, p.around.b_lights);
  if (b_out && !a_out) judge_driving(p, b, a, p.around.a_lights);
  if (a.direction == Direction::both || b.direction == Direction::both) judge_shared(p);
}

// A sensor or switch loop: `protocol` names the curve ("ntc 10k"), `idle` whether it is closed
// cold.
void judge_loop(const Pair& p) {
  const Contact &a = *p.a, &b = *p.b;
  const bool named = !a.signal.empty() && !b.signal.empty();
  if (named && a.signal != b.signal)
    return p.find(ContactRule::crossed_signals, Verdict::does_not_fit, true);
  if ((!a.protocol.empty() && !b.protocol.empty() && a.protocol != b.protocol) ||
      (a.idle != Level::unknown && b.idle != Level::unknown && a.idle != b.idle))
    return p.find(ContactRule::sensor_curve, Verdict::does_not_fit, true);
  const bool sensor = a.net_class == NetClass::thermal;
  const auto loop_lacks = [&](const Contact& c, const Contact& other) {
    return lack(!c.signal.empty(), kMissingSignal) |
           lack(!c.protocol.empty() || (!sensor && other.protocol.empty()), kMissingProtocol) |
           lack(c.idle != Level::unknown || other.idle == Level::unknown, kMissingIdle);
  };
  p.lacks(loop_lacks(a, b), loop_lacks(b, a), true);
}

// A string of light sources on a constant-current driver: current first; the driver's range of
// volts has to contain what the strings need. The return of a string carries no facts of its own.
void judge_light(const Pair& p) {
  const Direction x = p.a->direction, y = p.b->direction;
  if (x == Direction::out && y == Direction::out)
    return p.find(ContactRule::direction_clash, Verdict::destroys);
  if (x == Direction::unknown || y == Direction::unknown)
    return p.lacks(lack(x != Direction::unknown, kMissingDirection),
                   lack(y != Direction::unknown, kMissingDirection));
  if (x != Direction::out && y != Direction::out) return;  // a return
  const auto is_return = [](const Contact& c) {
    return c.signal.ends_with("-") && !c.volts && !c.amps;
  };
  if (is_return(*p.a) && is_return(*p.b)) return;
  const auto lacks = [](const Contact& c) {
    return lack(c.amps.has_value(), kMissingAmps) | lack(c.volts.has_value(), kMissingVolts);
  };
  p.lacks(lacks(*p.a), lacks(*p.b));
  const Contact& driver = x == Direction::out ? *p.a : *p.b;
  const Contact& strings = x == Direction::out ? *p.b : *p.a;
  if (driver.amps && strings.amps) {
    if (*driver.amps > *strings.amps * (1 + kRailTolerance))
      p.find(ContactRule::string_current, Verdict::destroys);
    else if (*driver.amps < *strings.amps * (1 - kRailTolerance))
      p.find(ContactRule::string_current, Verdict::does_not_fit);
  }
  if (!driver.volts || !strings.volts) return;
  const auto reach = with_tolerance(*driver.volts);
  if (strings.volts->low < reach.low - 1e-9 || strings.volts->high > reach.high + 1e-9)
    p.find(ContactRule::string_volts, Verdict::does_not_fit);
}

// The lamp lead and holder must stand the pulse of the igniter.
void judge_ignition(const Pair& p) {
  const Direction x = role_in_power(p.a->direction, p.b->direction);
  const Direction y = role_in_power(p.b->direction, p.a->direction);
  if (x == Direction::out && y == Direction::out)
    return p.find(ContactRule::direction_clash, Verdict::destroys, true);
  const auto lacks = [](const Contact& c, const Contact& other) {
    return lack(c.volts.has_value() || !other.volts, kMissingVolts) |
           lack(c.direction != Direction::unknown, kMissingDirection);
  };
  p.lacks(lacks(*p.a, *p.b), lacks(*p.b, *p.a), true);
  if (x == Direction::unknown || y == Direction::unknown) return;
  if (x != Direction::out && y != Direction::out)
    return p.find(ContactRule::nothing_feeds_it, Verdict::does_not_fit, true);
  if (!p.a->volts || !p.b->volts) return;
  const Contact& gives = x == Direction::out ? *p.a : *p.b;
  const Contact& takes = x == Direction::out ? *p.b : *p.a;
  if (gives.volts->high > takes.volts->high * (1 + kRailTolerance))
    p.find(ContactRule::over_voltage, Verdict::destroys, true);
}

void judge_same_class(const Pair& p) {
  switch (p.a->net_class) {
    case NetClass::supply:
    case NetClass::bus:
    case NetClass::mains:
      return judge_power(p);
    case NetClass::light:
      return judge_light(p);
    case NetClass::ignition:
      return judge_ignition(p);
    case NetClass::thermal:
    case NetClass::interlock:
      return judge_loop(p);
    case NetClass::signal:
    case NetClass::pair:
    case NetClass::sound:
    case NetClass::motor:
      return judge_signal(p);
    case NetClass::ground:
    case NetClass::earth:
    case NetClass::unused:
    case NetClass::unknown:
      return;
  }
}

}  // namespace

Domain domain_of(const Contact& contact) {
  if (contact.domain != Domain::unknown) return contact.domain;
  switch (contact.net_class) {
    case NetClass::mains:
    case NetClass::bus:
      return Domain::primary;
    case NetClass::ignition:
      return Domain::lamp;
    case NetClass::earth:
      return Domain::earth;
    default:
      return Domain::unknown;
  }
}

bool is_excluded_circuit(const Contact& contact) {
  const Domain d = domain_of(contact);
  return is_safety_class(contact.net_class) || d == Domain::primary || d == Domain::lamp ||
         d == Domain::panel_high;
}

void judge_contacts(const Contact* a, const Contact* b, const Surroundings& around,
                    std::vector<ContactFinding>& found) {
  const Pair p{a, b, around, found};
  if (!a && !b) return;
  if (!a || !b)
    return p.lacks(lack(a != nullptr, kMissingContact), lack(b != nullptr, kMissingContact),
                   is_excluded_circuit(a ? *a : *b));
  Surroundings turned;
  if (a->net_class == NetClass::unused) return judge_empty(p);
  if (b->net_class == NetClass::unused) {
    const std::size_t before = found.size();
    judge_empty(p.swapped(turned));
    for (std::size_t i = before; i < found.size(); ++i) std::swap(found[i].a, found[i].b);
    return;
  }
  if (!judge_domains(p)) return;
  if (a->net_class == NetClass::unknown || b->net_class == NetClass::unknown)
    return p.lacks(lack(a->net_class != NetClass::unknown, kMissingClass),
                   lack(b->net_class != NetClass::unknown, kMissingClass),
                   is_safety_class(a->net_class) || is_safety_class(b->net_class));
  if (a->net_class != b->net_class) return judge_class_clash(p);
  judge_same_class(p);
}

}  // namespace benchgraft::fit
