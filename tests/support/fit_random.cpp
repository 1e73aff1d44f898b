#include "support/fit_random.hpp"

#include <algorithm>
#include <string>

namespace benchgraft::fit_random {
namespace {

using catalogue::Contact;
using catalogue::Direction;
using catalogue::Domain;
using catalogue::Drive;
using catalogue::Level;
using catalogue::NetClass;

const std::vector<NetClass> kClasses{
    NetClass::unknown, NetClass::unused,    NetClass::mains,   NetClass::bus,    NetClass::ignition,
    NetClass::earth,   NetClass::interlock, NetClass::thermal, NetClass::ground, NetClass::supply,
    NetClass::supply,  NetClass::signal,    NetClass::signal,  NetClass::signal, NetClass::pair,
    NetClass::motor,   NetClass::light,     NetClass::sound};
const std::vector<Domain> kDomains{
    Domain::unknown,   Domain::primary, Domain::secondary,  Domain::secondary, Domain::secondary,
    Domain::secondary, Domain::lamp,    Domain::panel_high, Domain::floating,  Domain::earth};
const std::vector<Direction> kDirections{Direction::unknown, Direction::in,  Direction::in,
                                         Direction::out,     Direction::out, Direction::both,
                                         Direction::passive};
const std::vector<Drive> kDrives{Drive::unknown, Drive::driven, Drive::open_collector,
                                 Drive::dry_contact};
const std::vector<Level> kLevels{Level::unknown, Level::low, Level::high};
const std::vector<std::string> kSignals{"", "one", "one", "two", "three"};
const std::vector<std::string> kProtocols{"", "level", "level", "pulse per turn", "two-wire"};
const std::vector<catalogue::Range> kRates{{200, 200}, {180, 250}, {240, 400}, {20000, 20000}};
const std::vector<catalogue::Range> kVolts{{5, 5},     {4.5, 5.5}, {5.6, 5.6}, {12, 12},
                                           {11, 13},   {-12, -12}, {-13, -11}, {380, 380},
                                           {350, 400}, {100, 240}, {0, 12}};

template <class T>
std::optional<T> perhaps(Dice& dice, const std::vector<T>& all) {
  if (dice.one_in(8)) return std::nullopt;
  return dice.of(all);
}

// Gives one field another value, or takes it away.
void change_one(Dice& dice, Contact& c) {
  switch (dice.below(14)) {
    case 0:
      c.signal = dice.of(kSignals);
      break;
    case 1:
      c.net_class = dice.of(kClasses);
      break;
    case 2:
      c.domain = dice.of(kDomains);
      break;
    case 3:
      c.volts = perhaps(dice, kVolts);
      break;
    case 4:
      c.amps = perhaps<double>(dice, {0.1, 1, 1.05, 2});
      break;
    case 5:
      c.direction = dice.of(kDirections);
      break;
    case 6:
      c.drive = dice.of(kDrives);
      break;
    case 7:
      c.pull_up = perhaps<bool>(dice, {true, false});
      break;
    case 8:
      c.active = dice.of(kLevels);
      break;
    case 9:
      c.idle = dice.of(kLevels);
      break;
    case 10:
      c.logic_volts = perhaps<double>(dice, {3.3, 3.6, 5});
      break;
    case 11:
      c.protocol = dice.of(kProtocols);
      break;
    case 12:
      c.hertz = perhaps(dice, kRates);
      break;
    default:
      c.waits_s = dice.one_in(2) ? std::optional<double>(10) : std::nullopt;
  }
}

}  // namespace

Contact contact(Dice& dice) {
  Contact c;
  c.signal = dice.of(kSignals);
  c.net_class = dice.of(kClasses);
  c.domain = dice.of(kDomains);
  c.volts = perhaps(dice, kVolts);
  c.amps = perhaps<double>(dice, {0.1, 1, 1.05, 2});
  c.direction = dice.of(kDirections);
  c.drive = dice.of(kDrives);
  c.pull_up = perhaps<bool>(dice, {true, false});
  c.active = dice.of(kLevels);
  c.idle = dice.of(kLevels);
  c.logic_volts = perhaps<double>(dice, {3.3, 3.6, 5});
  c.protocol = dice.of(kProtocols);
  if (dice.one_in(3)) c.hertz = perhaps(dice, kRates);
  if (dice.one_in(4)) c.waits_s = 10;
  if (dice.one_in(4)) c.rail = "rail";
  return c;
}

Contact partner(Dice& dice, const Contact& other) {
  Contact c = other;
  if (other.direction == Direction::in) c.direction = Direction::out;
  if (other.direction == Direction::out) c.direction = Direction::in;
  if (c.direction == Direction::out) c.waits_s.reset();
  if (c.direction == Direction::in && c.drive == Drive::open_collector) c.pull_up = true;
  for (std::size_t changes = dice.below(4); changes > 0; --changes) change_one(dice, c);
  return c;
}

Facing facing(Dice& dice, std::size_t n) {
  Facing all;
  for (std::size_t i = 0; i < n; ++i) {
    all.plug.push_back(contact(dice));
    if (dice.one_in(3))
      all.plug.back().net_class = dice.one_in(2) ? NetClass::ground : NetClass::supply;
    if (!dice.one_in(4)) all.plug.back().domain = Domain::secondary;
    all.socket.push_back(partner(dice, all.plug.back()));
  }
  for (std::size_t swaps = dice.below(n + 1); swaps > 0; --swaps)
    std::swap(all.socket[dice.below(n)], all.socket[dice.below(n)]);
  for (std::size_t i = 0; i < n; ++i)
    all.plug[i].number = all.socket[i].number = std::to_string(i + 1);
  return all;
}

}  // namespace benchgraft::fit_random
