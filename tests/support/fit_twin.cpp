#include "support/fit_twin.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <tuple>

namespace benchgraft::fit_twin {
namespace {

using catalogue::Contact;
using catalogue::Direction;
using catalogue::Domain;
using catalogue::Drive;
using catalogue::Level;
using catalogue::NetClass;
using fit::Verdict;

void say(Opinion& all, const std::string& rule, Verdict verdict, bool safety = false) {
  all.rules.insert(rule);
  all.verdict = std::max(all.verdict, verdict);
  all.safety = all.safety || safety;
}

void ask(Opinion& all, bool safety = false) { say(all, "not recorded", Verdict::unknown, safety); }

// Circuits that only ever move as a whole lead, by class.
bool loop_or_hot(NetClass c) {
  static const std::set<NetClass> kWhole{NetClass::mains, NetClass::bus,       NetClass::ignition,
                                         NetClass::earth, NetClass::interlock, NetClass::thermal};
  return kWhole.count(c) > 0;
}
bool power(NetClass c) {
  return c == NetClass::supply || c == NetClass::bus || c == NetClass::mains;
}

Domain island(const Contact& c) {
  static const std::map<NetClass, Domain> kImplied{{NetClass::mains, Domain::primary},
                                                   {NetClass::bus, Domain::primary},
                                                   {NetClass::ignition, Domain::lamp},
                                                   {NetClass::earth, Domain::earth}};
  if (c.domain != Domain::unknown) return c.domain;
  const auto implied = kImplied.find(c.net_class);
  return implied == kImplied.end() ? Domain::unknown : implied->second;
}
bool dangerous(Domain d) {
  return d == Domain::primary || d == Domain::lamp || d == Domain::panel_high;
}
bool excluded(const Contact& c) { return loop_or_hot(c.net_class) || dangerous(island(c)); }

// A range allowed for the user; one number means 10 % either way.
catalogue::Range allowed(const catalogue::Range& r) {
  if (r.low != r.high) return r;
  const double d = std::abs(r.low) * 0.1;
  return {r.low - d, r.low + d};
}

// Row "empty": `live` faces a contact recorded as unused.
void empty_row(Opinion& all, const Contact& live, bool certain) {
  const bool hot = excluded(live);
  if (live.net_class == NetClass::unused) return;
  if (live.net_class == NetClass::earth) return say(all, "earth path", Verdict::does_not_fit, true);
  if (live.net_class == NetClass::interlock || live.net_class == NetClass::thermal)
    return say(all, "safety loop open", Verdict::does_not_fit, true);
  if (live.direction == Direction::in && live.waits_s.has_value())
    return say(all, "missing reply", Verdict::does_not_fit, hot);
  if (live.direction == Direction::in && power(live.net_class))
    return say(all, "nothing feeds it", Verdict::does_not_fit, hot);
  const bool back = live.net_class == NetClass::bus || live.net_class == NetClass::mains ||
                    live.net_class == NetClass::light || live.net_class == NetClass::ignition;
  if (back && live.direction == Direction::passive)
    return say(all, "no return", Verdict::does_not_fit, hot);
  const bool line = live.net_class == NetClass::signal || live.net_class == NetClass::pair;
  const bool harmless = certain && !line && live.net_class != NetClass::unknown &&
                        (live.direction == Direction::out || live.direction == Direction::both ||
                         live.direction == Direction::passive);
  if (!harmless) say(all, "empty contact", Verdict::unknown, hot);
}

void clash_row(Opinion& all, const Contact& a, const Contact& b) {
  const std::set<NetClass> both{a.net_class, b.net_class};
  const auto has = [&](NetClass c) { return both.count(c) > 0; };
  const bool a_out = a.direction == Direction::out, b_out = b.direction == Direction::out;
  if (has(NetClass::earth) && has(NetClass::ground))
    return say(all, "class clash", Verdict::unknown, true);
  if (loop_or_hot(a.net_class) || loop_or_hot(b.net_class))
    return say(all, "class clash", Verdict::destroys, true);
  const bool burns = has(NetClass::supply) || has(NetClass::light) || has(NetClass::motor) ||
                     (has(NetClass::ground) && (a_out || b_out)) || (a_out && b_out);
  say(all, "class clash", burns ? Verdict::destroys : Verdict::does_not_fit);
}

// `gives` feeds `takes`.
void feed_row(Opinion& all, const Contact& gives, const Contact& takes, bool takes_lights) {
  if (gives.volts && takes.volts) {
    const auto may = allowed(*takes.volts);
    const bool other_sign = (gives.volts->high < 0) != (may.high < 0);
    const double highest = std::max(std::abs(gives.volts->low), std::abs(gives.volts->high));
    const double lowest = std::min(std::abs(gives.volts->low), std::abs(gives.volts->high));
    const double most = std::max(std::abs(may.low), std::abs(may.high));
    const double least = std::min(std::abs(may.low), std::abs(may.high));
    // A window that overlaps the other without lying in it: it depends on the very supply.
    const bool overlaps =
        gives.volts->low != gives.volts->high && !other_sign && lowest <= most && highest >= least;
    if (other_sign || highest > most + 1e-9)
      say(all, "over voltage", overlaps ? Verdict::unknown : Verdict::destroys, true);
    else if (lowest < least - 1e-9)
      say(all, "rail low",
          overlaps       ? Verdict::unknown
          : takes_lights ? Verdict::destroys
                         : Verdict::does_not_fit,
          takes_lights);
  }
  if (gives.amps && takes.amps && *takes.amps > *gives.amps + 1e-9)
    say(all, "rail overload", Verdict::does_not_fit);
}

// What a passive or two-way power contact is, beside what the other says it is.
Direction part_played(Direction own, Direction other) {
  if (own == Direction::passive && other == Direction::out) return Direction::in;
  if (own == Direction::both && other == Direction::out) return Direction::in;
  if (own == Direction::both && other == Direction::in) return Direction::out;
  return own;
}

bool only_a_return(const Contact& c) {
  const bool named =
      !c.signal.empty() && (c.signal.back() == '-' || c.signal.find("return") != std::string::npos);
  if (c.net_class != NetClass::bus) return false;
  return c.direction == Direction::passive || (!c.volts && !c.amps && named);
}

void power_row(Opinion& all, const Contact& a, const Contact& b, Side side_a, Side side_b) {
  const bool safety = loop_or_hot(a.net_class);
  const Direction x = part_played(a.direction, b.direction);
  const Direction y = part_played(b.direction, a.direction);
  if (x == Direction::out && y == Direction::out)
    return say(all, "direction clash", Verdict::destroys, safety);
  const bool both_told = x != Direction::unknown && y != Direction::unknown;
  const bool somebody_wants = x == Direction::in || y == Direction::in;
  if (both_told && somebody_wants && x != Direction::out && y != Direction::out)
    return say(all, "nothing feeds it", Verdict::does_not_fit, safety);
  const bool mains = a.net_class == NetClass::mains;
  if (only_a_return(a) && only_a_return(b)) return;
  for (const auto& [one, played] : {std::pair{&a, x}, std::pair{&b, y}}) {
    const bool told = played == Direction::in || played == Direction::out;
    const bool summed_on_a_rail = played == Direction::out && !one->rail.empty();
    const bool rated = one->volts.has_value() && (one->amps.has_value() || summed_on_a_rail);
    if (!told || (!mains && !rated)) ask(all, safety);
  }
  if (mains) return;
  if (x == Direction::out && y == Direction::in) feed_row(all, a, b, side_b.lights);
  if (y == Direction::out && x == Direction::in) feed_row(all, b, a, side_a.lights);
}

void light_row(Opinion& all, const Contact& a, const Contact& b) {
  if (a.direction == Direction::out && b.direction == Direction::out)
    return say(all, "direction clash", Verdict::destroys);
  if (a.direction == Direction::unknown || b.direction == Direction::unknown) return ask(all);
  const auto way_back = [](const Contact& c) {
    return !c.signal.empty() && c.signal.back() == '-' && !c.volts && !c.amps;
  };
  if (way_back(a) && way_back(b)) return;
  for (const auto& [driver, strings] : {std::pair{&a, &b}, std::pair{&b, &a}}) {
    if (driver->direction != Direction::out) continue;
    if (!driver->amps || !driver->volts || !strings->amps || !strings->volts) ask(all);
    if (driver->amps && strings->amps && *driver->amps > *strings->amps * 1.1)
      say(all, "string current", Verdict::destroys);
    if (driver->amps && strings->amps && *driver->amps < *strings->amps * 0.9)
      say(all, "string current", Verdict::does_not_fit);
    if (!driver->volts || !strings->volts) continue;
    const auto reach = allowed(*driver->volts);
    if (strings->volts->low < reach.low - 1e-9 || strings->volts->high > reach.high + 1e-9)
      say(all, "string volts", Verdict::does_not_fit);
  }
}

void ignition_row(Opinion& all, const Contact& a, const Contact& b) {
  const Direction x = part_played(a.direction, b.direction);
  const Direction y = part_played(b.direction, a.direction);
  if (x == Direction::out && y == Direction::out)
    return say(all, "direction clash", Verdict::destroys, true);
  const bool told = a.direction != Direction::unknown && b.direction != Direction::unknown;
  if (a.volts.has_value() != b.volts.has_value() || !told) ask(all, true);
  if (told && x != Direction::out && y != Direction::out)
    return say(all, "nothing feeds it", Verdict::does_not_fit, true);
  for (const auto& [gives, takes, one, other] :
       {std::tuple{&a, &b, x, y}, std::tuple{&b, &a, y, x}})
    if (told && one == Direction::out && other != Direction::out && gives->volts && takes->volts &&
        gives->volts->high > takes->volts->high * 1.1)
      say(all, "over voltage", Verdict::destroys, true);
}

void loop_row(Opinion& all, const Contact& a, const Contact& b) {
  if (!a.signal.empty() && !b.signal.empty() && a.signal != b.signal)
    return say(all, "crossed signals", Verdict::does_not_fit, true);
  const bool other_curve = !a.protocol.empty() && !b.protocol.empty() && a.protocol != b.protocol;
  const bool other_sense = a.idle != Level::unknown && b.idle != Level::unknown && a.idle != b.idle;
  if (other_curve || other_sense) return say(all, "sensor curve", Verdict::does_not_fit, true);
  const bool thermal = a.net_class == NetClass::thermal;
  if (a.signal.empty() || b.signal.empty() ||
      (thermal ? a.protocol.empty() || b.protocol.empty()
               : a.protocol.empty() != b.protocol.empty()) ||
      (a.idle == Level::unknown) != (b.idle == Level::unknown))
    ask(all, true);
}

// `out` drives `in`.
void drive_row(Opinion& all, const Contact& out, const Contact& in, bool in_lights) {
  const bool pulls = out.drive == Drive::open_collector;
  if (out.logic_volts && in.logic_volts && !pulls) {
    if (*out.logic_volts > *in.logic_volts * 1.1)
      say(all, "level clash", Verdict::destroys);
    else if (*out.logic_volts < *in.logic_volts * 0.9)
      say(all, "level clash", Verdict::does_not_fit);
  }
  const auto differ = [](Level x, Level y) {
    return x != Level::unknown && y != Level::unknown && x != y;
  };
  if (differ(out.active, in.active) || differ(out.idle, in.idle))
    say(all, "level clash", in_lights ? Verdict::destroys : Verdict::does_not_fit);
  const bool nobody_pulls_up = pulls && in.pull_up == false && out.pull_up != true;
  const bool other_drive =
      out.drive != Drive::unknown && in.drive != Drive::unknown && out.drive != in.drive;
  if (nobody_pulls_up || other_drive) say(all, "drive clash", Verdict::does_not_fit);
}

// Lines without one driver: the side of the higher logic volts must not push them into the other.
void shared_row(Opinion& all, const Contact& a, const Contact& b) {
  const bool one_drives = a.direction == Direction::out || b.direction == Direction::out;
  const bool goes_both_ways = a.direction == Direction::both || b.direction == Direction::both;
  if (one_drives || !goes_both_ways) return;
  if (a.drive != Drive::unknown && b.drive != Drive::unknown && a.drive != b.drive)
    say(all, "drive clash", Verdict::does_not_fit);
  const auto differ = [](Level x, Level y) {
    return x != Level::unknown && y != Level::unknown && x != y;
  };
  if (differ(a.active, b.active) || differ(a.idle, b.idle))
    say(all, "level clash", Verdict::does_not_fit);
  if (!a.logic_volts || !b.logic_volts) return;
  const Contact& high = *a.logic_volts > *b.logic_volts ? a : b;
  const Contact& low = *a.logic_volts > *b.logic_volts ? b : a;
  if (*high.logic_volts <= *low.logic_volts * 1.1) return;
  const bool pushes = high.direction != Direction::in && high.drive != Drive::open_collector;
  if (pushes || high.pull_up == true) return say(all, "level clash", Verdict::destroys);
  if (!high.pull_up) ask(all);
}

// What has to be recorded of `c` before a signal that faces `other` may be called good.
bool signal_lacks(const Contact& c, const Contact& other) {
  if (c.direction == Direction::unknown || c.signal.empty()) return true;
  if (c.protocol.empty() && (!other.protocol.empty() || c.net_class == NetClass::pair)) return true;
  if (!c.hertz && other.hertz) return true;
  if (c.net_class != NetClass::signal) return false;
  const bool plain =
      c.protocol.empty() || c.protocol.rfind("level", 0) == 0 || c.protocol.rfind("pulse", 0) == 0;
  const bool shared = c.direction == Direction::both && other.direction == Direction::both;
  if (c.active == Level::unknown && (other.active != Level::unknown || (plain && !shared)))
    return true;
  if (c.idle == Level::unknown && other.idle != Level::unknown) return true;
  const bool has_no_level_of_its_own =
      c.direction == Direction::passive ||
      (c.direction == Direction::out &&
       (c.drive == Drive::open_collector || c.drive == Drive::dry_contact));
  if (!c.logic_volts && !has_no_level_of_its_own) return true;
  if (c.drive == Drive::unknown && c.direction != Direction::passive &&
      (!shared || other.drive != Drive::unknown))
    return true;
  const bool is_pulled = other.drive == Drive::open_collector || other.drive == Drive::dry_contact;
  const bool receives = c.direction == Direction::in || c.direction == Direction::both;
  return receives && is_pulled && !c.pull_up.has_value() && other.pull_up != true;
}

// One number counts as +-10 %; what lies apart is never followed, what overlaps may be.
void rate_row(Opinion& all, const catalogue::Range& given, const catalogue::Range& taken) {
  double low = taken.low, high = taken.high;
  if (low == high) {
    low = taken.low * 0.9;
    high = taken.high * 1.1;
  }
  const bool inside = given.low > low - 1e-9 && given.high < high + 1e-9;
  if (inside) return;
  const bool meets = given.low <= high && given.high >= low;
  say(all, "rate clash", meets ? Verdict::unknown : Verdict::does_not_fit);
}

void signal_row(Opinion& all, const Contact& a, const Contact& b, Side side_a, Side side_b) {
  const bool a_out = a.direction == Direction::out, b_out = b.direction == Direction::out;
  const bool both_only_pull = a.drive == Drive::open_collector && b.drive == Drive::open_collector;
  if (a_out && b_out)
    say(all, "direction clash", both_only_pull ? Verdict::does_not_fit : Verdict::destroys);
  if (!a.signal.empty() && !b.signal.empty() && a.signal != b.signal)
    return say(all, "crossed signals", Verdict::does_not_fit);
  if (signal_lacks(a, b) || signal_lacks(b, a)) ask(all);
  if (!a.protocol.empty() && !b.protocol.empty() && a.protocol != b.protocol)
    say(all, "protocol clash", Verdict::does_not_fit);
  if (a_out != b_out && a.hertz && b.hertz)
    rate_row(all, a_out ? *a.hertz : *b.hertz, a_out ? *b.hertz : *a.hertz);
  if (a.direction == Direction::in && b.direction == Direction::in)
    return say(all, a.waits_s || b.waits_s ? "missing reply" : "nothing feeds it",
               Verdict::does_not_fit);
  if (a_out && !b_out) drive_row(all, a, b, side_b.lights);
  if (b_out && !a_out) drive_row(all, b, a, side_a.lights);
  shared_row(all, a, b);
}

void same_class_row(Opinion& all, const Contact& a, const Contact& b, Side side_a, Side side_b) {
  const NetClass c = a.net_class;
  if (power(c)) power_row(all, a, b, side_a, side_b);
  if (c == NetClass::light) light_row(all, a, b);
  if (c == NetClass::ignition) ignition_row(all, a, b);
  if (c == NetClass::thermal || c == NetClass::interlock) loop_row(all, a, b);
  if (c == NetClass::signal || c == NetClass::pair || c == NetClass::sound || c == NetClass::motor)
    signal_row(all, a, b, side_a, side_b);
}

int number(const Contact& c) { return std::stoi(c.number); }

const Contact* at(const catalogue::Port& port, int n) {
  for (const auto& c : *port.contacts)
    if (number(c) == n) return &c;
  return nullptr;
}

bool named(const catalogue::Port& port, const std::string& signal) {
  return std::any_of(port.contacts->begin(), port.contacts->end(),
                     [&](const Contact& c) { return c.signal == signal; });
}

void merge(Opinion& all, const Opinion& one) {
  all.rules.insert(one.rules.begin(), one.rules.end());
  all.verdict = std::max(all.verdict, one.verdict);
  all.safety = all.safety || one.safety;
}

// One contact of a port against the one it faces; names count over both ports.
void face_row(Opinion& all, const catalogue::Port& port_a, const catalogue::Port& port_b,
              const Contact* a, const Contact* b, Side side_a, Side side_b) {
  const Opinion plain = opinion(a, b, side_a, side_b);
  if (!a || !b) return merge(all, plain);
  const bool two_words = !a->signal.empty() && !b->signal.empty() && a->signal != b->signal;
  const bool elsewhere = named(port_b, a->signal) || named(port_a, b->signal);
  if (plain.rules.count("crossed signals") > 0 && !elsewhere) {
    Contact renamed = *b;
    renamed.signal = a->signal;
    const bool loop = a->net_class == NetClass::interlock || a->net_class == NetClass::thermal;
    ask(all, loop);
    return merge(all, opinion(a, &renamed, side_a, side_b));
  }
  merge(all, plain);
  if (two_words && elsewhere && power(a->net_class) && a->net_class == b->net_class)
    say(all, "crossed signals", Verdict::does_not_fit, a->net_class != NetClass::supply);
}

}  // namespace

Opinion opinion(const Contact* a, const Contact* b, Side side_a, Side side_b) {
  Opinion all;
  if (!a && !b) return all;
  if (!a || !b) {
    ask(all, excluded(a ? *a : *b));
    return all;
  }
  if (a->net_class == NetClass::unused) {
    empty_row(all, *b, side_a.measured);
    return all;
  }
  if (b->net_class == NetClass::unused) {
    empty_row(all, *a, side_b.measured);
    return all;
  }
  const Domain x = island(*a), y = island(*b);
  if (x == Domain::unknown || y == Domain::unknown) {
    ask(all, dangerous(x) || dangerous(y));
  } else if (x != y && (dangerous(x) || dangerous(y))) {
    say(all, "domain clash", Verdict::destroys, true);
    return all;
  }
  if (a->net_class == NetClass::unknown || b->net_class == NetClass::unknown)
    ask(all, loop_or_hot(a->net_class) || loop_or_hot(b->net_class));
  else if (a->net_class != b->net_class)
    clash_row(all, *a, *b);
  else
    same_class_row(all, *a, *b, side_a, side_b);
  return all;
}

Opinion opinion(const catalogue::Port& a, const catalogue::Port& b, bool turned_round, Side side_a,
                Side side_b) {
  Opinion all;
  int ways = std::max(a.connector.ways.value_or(0), b.connector.ways.value_or(0));
  bool fed = false, returned = false, open = false;
  for (int n = 1; n <= ways; ++n) {
    const Contact* ca = at(a, n);
    const Contact* cb = at(b, turned_round ? ways + 1 - n : n);
    if (!ca && !cb) {
      ask(all);
      continue;
    }
    face_row(all, a, b, ca, cb, side_a, side_b);
    if (!ca || !cb) continue;
    const bool ground_a = ca->net_class == NetClass::ground,
               ground_b = cb->net_class == NetClass::ground;
    fed = fed || (power(ca->net_class) && power(cb->net_class));
    returned = returned || (ground_a && ground_b);
    open = open || (ground_a && cb->net_class == NetClass::unused) ||
           (ground_b && ca->net_class == NetClass::unused);
  }
  if (fed && !returned && open) say(all, "no return", Verdict::does_not_fit);
  return all;
}

int fewest_moves_by_trying_all(const std::vector<Contact>& plug, const std::vector<Contact>& socket,
                               Side side_plug, Side side_socket) {
  std::vector<std::size_t> place(plug.size());  // contact i of the plug goes to place[i]
  std::iota(place.begin(), place.end(), 0);
  const auto in_need = [](const Contact& c) {
    return c.net_class != NetClass::unused && (c.direction == Direction::in || excluded(c));
  };
  int best = -1;
  do {
    int moves = 0;
    bool good = true;
    for (std::size_t i = 0; i < plug.size() && good; ++i) {
      const Contact& there = socket[place[i]];
      if (plug[i].net_class == NetClass::unused) {
        good = !in_need(there);  // left open
        continue;
      }
      const Opinion one = opinion(&plug[i], &there, side_plug, side_socket);
      good = there.net_class != NetClass::unused && one == Opinion{};
      if (place[i] == i) continue;
      good = good && !excluded(plug[i]) && !excluded(there);
      ++moves;
    }
    if (good && (best < 0 || moves < best)) best = moves;
  } while (std::next_permutation(place.begin(), place.end()));
  return best;
}

}  // namespace benchgraft::fit_twin
