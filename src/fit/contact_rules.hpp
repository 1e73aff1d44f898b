// Two contacts that face each other: what happens when power comes on. Domain first, then class,
// volts, amps, direction, drive, levels, protocol, reply. No text is made here: this is the inner
// loop. Table and sources: docs/methods/fit.md ("Contact by contact").
#pragma once

#include <cstdint>
#include <vector>

#include "catalogue/port.hpp"
#include "fit/verdict.hpp"

namespace benchgraft::fit {

enum class ContactRule : std::uint8_t {
  domain_clash,
  class_clash,
  over_voltage,
  rail_low,
  rail_overload,
  level_clash,
  drive_clash,
  direction_clash,
  protocol_clash,
  rate_clash,
  missing_reply,
  crossed_signals,
  nothing_feeds_it,
  earth_lost,
  safety_loop_open,
  string_current,
  string_volts,
  sensor_curve,
  empty_contact,
  no_return,
  not_recorded,
};

/// Facts that are missing for a judgement, as bits.
enum Missing : std::uint32_t {
  kMissingContact = 1U << 0,
  kMissingDomain = 1U << 1,
  kMissingClass = 1U << 2,
  kMissingVolts = 1U << 3,
  kMissingAmps = 1U << 4,
  kMissingDirection = 1U << 5,
  kMissingSignal = 1U << 6,
  kMissingActive = 1U << 7,
  kMissingDrive = 1U << 8,
  kMissingLogic = 1U << 9,
  kMissingProtocol = 1U << 10,
  kMissingPullUp = 1U << 11,
  kMissingIdle = 1U << 12,
  kMissingHertz = 1U << 13,
};

/// One finding about contact `a` facing contact `b`. A null side is not listed on its port.
struct ContactFinding {
  ContactRule rule = ContactRule::not_recorded;
  Verdict verdict = Verdict::unknown;
  bool safety = false;
  const catalogue::Contact* a = nullptr;
  const catalogue::Contact* b = nullptr;
  std::uint32_t missing_a = 0;  ///< Missing bits that contact a lacks
  std::uint32_t missing_b = 0;
};

/// What the two sides are, where that changes how bad a finding is.
struct Surroundings {
  bool a_measured = false;  ///< contacts of a's port were measured: an empty one is really empty
  bool b_measured = false;
  bool a_constant_power = false;  ///< a lamp or light driver: too low a voltage draws more current
  bool b_constant_power = false;
  bool a_lights = false;  ///< an inverted enable would light something
  bool b_lights = false;
};

/// The domain a contact is in: recorded, or following from its class (mains and bus are primary).
catalogue::Domain domain_of(const catalogue::Contact& contact);

/// True for circuits that only move as whole original leads: mains, bus, ignition, earth,
/// interlock, thermal, and everything in the primary, lamp or panel-high domain.
bool is_excluded_circuit(const catalogue::Contact& contact);

/// Judges `a` against `b` (either may be null) and appends what it finds; nothing = they agree.
void judge_contacts(const catalogue::Contact* a, const catalogue::Contact* b,
                    const Surroundings& around, std::vector<ContactFinding>& found);

/// Number of the stand-in contact for "the lead has no wire here": certainly not connected.
inline constexpr const char* kNoWireNumber = "-";

/// Rule name as used in reasons and in `cures`.
const char* rule_name(ContactRule rule);

/// Allowed deviation of a supply given as one number: +-10 % (assumed, editable in the catalogue by
/// writing a range).
inline constexpr double kRailTolerance = 0.10;

}  // namespace benchgraft::fit
