#include "fit/mains_figures.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace benchgraft::fit {
namespace {

struct CreepageRow {
  double volts;
  std::array<double, 3> mm;  // material group I, II, III
};
constexpr std::array<CreepageRow, 10> kCreepage{{{50, {0.6, 0.85, 1.2}},
                                                 {100, {0.71, 1.0, 1.4}},
                                                 {125, {0.75, 1.05, 1.5}},
                                                 {160, {0.8, 1.1, 1.6}},
                                                 {200, {1.0, 1.4, 2.0}},
                                                 {250, {1.25, 1.8, 2.5}},
                                                 {320, {1.6, 2.2, 3.2}},
                                                 {400, {2.0, 2.8, 4.0}},
                                                 {500, {2.5, 3.6, 5.0}},
                                                 {630, {3.2, 4.5, 6.3}}}};

struct ClearanceRow {
  double peak_volts, basic_mm, reinforced_mm;
};
constexpr std::array<ClearanceRow, 5> kClearance{
    {{1500, 0.5, 1.0}, {2000, 1.0, 2.0}, {2500, 1.5, 3.0}, {3000, 2.0, 3.8}, {4000, 3.0, 5.5}}};

}  // namespace

std::optional<double> basic_creepage_mm(double volts_rms, MaterialGroup group) {
  const auto column = static_cast<std::size_t>(group);
  if (volts_rms < kCreepage.front().volts) return std::nullopt;
  if (volts_rms == kCreepage.front().volts) return kCreepage.front().mm[column];
  for (std::size_t i = 1; i < kCreepage.size(); ++i) {
    if (volts_rms > kCreepage[i].volts) continue;
    const auto &low = kCreepage[i - 1], &high = kCreepage[i];
    const double share = (volts_rms - low.volts) / (high.volts - low.volts);
    return low.mm[column] + share * (high.mm[column] - low.mm[column]);
  }
  return std::nullopt;
}

std::optional<double> clearance_mm(double peak_volts, bool reinforced) {
  for (const auto& row : kClearance)
    if (peak_volts <= row.peak_volts) return reinforced ? row.reinforced_mm : row.basic_mm;
  return std::nullopt;
}

std::optional<double> mains_transient_volts(double mains_volts) {
  if (mains_volts <= 150) return 1500;
  if (mains_volts <= 300) return 2500;
  return std::nullopt;
}

double creepage_row_volts(double mains_volts) {
  for (const double row : {100.0, 125.0, 200.0, 250.0})
    if (mains_volts <= row) return row;
  return mains_volts;
}

std::optional<Distances> distances_needed(double mains_volts, bool reinforced) {
  const auto peak = mains_transient_volts(mains_volts);
  const auto creepage = basic_creepage_mm(creepage_row_volts(mains_volts));
  const auto clearance = peak ? clearance_mm(*peak, reinforced) : std::nullopt;
  if (!creepage || !clearance) return std::nullopt;
  // A way over the surface is never shorter than the one through air.
  return Distances{std::max(*creepage * (reinforced ? 2 : 1), *clearance), *clearance};
}

double least_fuse_amps(catalogue::FuseStandard standard, double steady_amps,
                       double temperature_factor) {
  const double share = standard == catalogue::FuseStandard::ul_248_14 ? 0.75 : 1.0;
  return steady_amps / share / temperature_factor;
}

}  // namespace benchgraft::fit
