// What wires and contacts carry, and what a lead drops: figures with where they were read.
#pragma once

#include <optional>

namespace benchgraft::fit {

/// Most amps of one hook-up wire (105 C insulation, 40 C free air), between its rows AWG 26 to 16
/// on a log-log line. Thinner than AWG 26: the row of AWG 26, which it cannot exceed. Nothing above
/// AWG 16. Source: a power-supply maker's page, read as an excerpt.
std::optional<double> hook_up_amps(double area_mm2);
/// Five loaded wires or more lie in one bundle: 0.8 of it. Same source.
double bundle_factor(int loaded_wires);
/// Cross-section a mains cord needs: 0.75 mm2 up to 6 A, 1.0 up to 10 A, 1.5 up to 16 A; nothing
/// above. Source: IEC 60950-1 table 3B, from memory.
std::optional<double> cord_area_mm2(double amps);

/// Usual amps of one contact by the pitch of its family: 2.0, 2.5, 2.54, 3.96 mm. Nothing for
/// another pitch. Source: connector guides, read as excerpts; 3.96 mm header from memory.
std::optional<double> contact_amps(double pitch_mm);
/// Several contacts side by side share badly: 0.8 of it for every doubling. Source: a derating
/// note, read as an excerpt (3 A, two pairs 4.8 A, four pairs 7.68 A).
double parallel_factor(int contacts);
/// 2.36 mm pin-and-socket contacts, 30 K rise, all `circuits` loaded, by wire size. Nothing outside
/// the rows (2 to 15 circuits, AWG 14 to 24, even). Source: a datasheet, read as an excerpt.
std::optional<double> pin_and_socket_amps(int circuits, int awg);
/// Amps left of `rated` when the surroundings have `celsius`: rated * sqrt((most - celsius) /
/// rise), never more than rated. Source: heating goes with the square of the current; derived.
double amps_at(double rated, double celsius, double most_celsius = 85, double rise_kelvin = 30);

/// Volts lost on the way there and back: 2 L I R'(T) and the contacts on top.
/// Source: copper by IEC 60028.
double volt_drop(double amps, double length_m, double area_mm2, double celsius,
                 double contacts_ohm = 0);
/// Share of a rail that a harness may lose: 2 % from 12 V up, 3 % below. Common practice, no
/// source.
double drop_limit(double volts);

/// The thinnest wire usual in a harness: AWG 26. Assumed.
inline constexpr double kThinnestUsualMm2 = 0.1288;
/// Inside a warm cabinet. Assumed.
inline constexpr double kWireCelsius = 60;

}  // namespace benchgraft::fit
