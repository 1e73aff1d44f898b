#include "fit/wire_figures.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "fit/conductors.hpp"

namespace benchgraft::fit {
namespace {

struct WireRow {
  int awg;
  double amps;
};
constexpr std::array<WireRow, 6> kHookUp{
    {{26, 5.8}, {24, 7.6}, {22, 10.0}, {20, 13.1}, {18, 17.2}, {16, 22.8}}};

struct PitchRow {
  double pitch_mm, amps;
};
constexpr std::array<PitchRow, 4> kContacts{{{2.0, 2}, {2.5, 3}, {2.54, 3}, {3.96, 7}}};

constexpr std::array<int, 6> kPinWires{14, 16, 18, 20, 22, 24};
struct PinRow {
  int circuits;
  std::array<double, 6> amps;  // in the order of kPinWires
};
constexpr std::array<PinRow, 7> kPins{{{2, {13, 12, 11, 8, 6, 6}},
                                       {3, {13, 11, 10, 8, 6, 5}},
                                       {4, {11, 10, 9, 7, 5, 4}},
                                       {6, {10, 9, 8, 6, 4, 4}},
                                       {9, {9, 7, 6, 5, 4, 3}},
                                       {12, {8, 7, 6, 4, 3, 3}},
                                       {15, {7, 6, 5, 4, 3, 3}}}};

}  // namespace

std::optional<double> hook_up_amps(double area_mm2) {
  if (area_mm2 <= awg_area_mm2(kHookUp.front().awg)) return kHookUp.front().amps;
  for (std::size_t i = 1; i < kHookUp.size(); ++i) {
    const double below = awg_area_mm2(kHookUp[i - 1].awg), above = awg_area_mm2(kHookUp[i].awg);
    if (area_mm2 > above) continue;
    const double share = std::log(area_mm2 / below) / std::log(above / below);
    return kHookUp[i - 1].amps * std::pow(kHookUp[i].amps / kHookUp[i - 1].amps, share);
  }
  return std::nullopt;
}

double bundle_factor(int loaded_wires) { return loaded_wires >= 5 ? 0.8 : 1.0; }

std::optional<double> cord_area_mm2(double amps) {
  if (amps <= 6) return 0.75;
  if (amps <= 10) return 1.0;
  if (amps <= 16) return 1.5;
  return std::nullopt;
}

std::optional<double> contact_amps(double pitch_mm) {
  for (const auto& row : kContacts)
    if (std::abs(row.pitch_mm - pitch_mm) < 0.005) return row.amps;
  return std::nullopt;
}

double parallel_factor(int contacts) { return std::pow(0.8, std::log2(std::max(contacts, 1))); }

std::optional<double> pin_and_socket_amps(int circuits, int awg) {
  const auto wire = std::find(kPinWires.begin(), kPinWires.end(), awg);
  if (wire == kPinWires.end()) return std::nullopt;
  // Between two rows the next one with more circuits counts.
  for (const auto& row : kPins)
    if (circuits <= row.circuits)
      return row.amps[static_cast<std::size_t>(wire - kPinWires.begin())];
  return std::nullopt;
}

double amps_at(double rated, double celsius, double most_celsius, double rise_kelvin) {
  const double share = std::max(0.0, most_celsius - celsius) / rise_kelvin;
  return rated * std::min(1.0, std::sqrt(share));
}

double volt_drop(double amps, double length_m, double area_mm2, double celsius,
                 double contacts_ohm) {
  return amps * (2 * length_m * copper_ohm_per_km(area_mm2, celsius) / 1000 + contacts_ohm);
}

double drop_limit(double volts) { return volts >= 12 ? 0.02 : 0.03; }

}  // namespace benchgraft::fit
