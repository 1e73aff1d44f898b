// Distances across the barrier and fuse ratings: figures with where they were read.
#pragma once

#include <optional>

#include "catalogue/make.hpp"

namespace benchgraft::fit {

/// What the distances are asked by, in words for a sentence.
inline constexpr const char* kDistanceProfile =
    "IEC 62368-1 with IEC 60664-1 (edition not checked; overvoltage category II, pollution degree "
    "2, material group III, up to 2000 m)";

enum class MaterialGroup { group_1, group_2, group_3 };

/// Creepage in mm of basic insulation, pollution degree 2; reinforced = twice that. Between the
/// rows on a straight line. Nothing outside 50 to 630 V. Source: rows of IEC 60664-1 table F.5 in
/// an open magnetics-design library, read as excerpts; 250 V row seen in two published test
/// reports.
std::optional<double> basic_creepage_mm(double volts_rms,
                                        MaterialGroup group = MaterialGroup::group_3);
/// Clearance in mm at a peak transient of 1500 to 4000 V, pollution degree 2. The next row up.
/// Source: IEC 62368-1 table 14, as above. Not beyond 4000 V: the rows read there contradict.
std::optional<double> clearance_mm(double peak_volts, bool reinforced);
/// Transient to expect on mains of overvoltage category II: 1500 V up to 150 V, 2500 V up to 300 V.
std::optional<double> mains_transient_volts(double mains_volts);
/// The creepage row for a mains: 120 V goes by 125 V, 230 and 240 V by 250 V; above, the volts
/// themselves. Source: rationalised voltages of IEC 60664-1, from memory.
double creepage_row_volts(double mains_volts);

struct Distances {
  double creepage_mm = 0, clearance_mm = 0;
};
/// What the barrier between hot and cold side needs here. Nothing above 300 V.
std::optional<Distances> distances_needed(double mains_volts, bool reinforced);

/// Least printed amps of a fuse for a steady current: IEC 60127 the current itself, UL 248-14 the
/// current / 0.75; both divided by the maker's `temperature_factor`. Source: a page on fuse
/// standards, read as an excerpt.
double least_fuse_amps(catalogue::FuseStandard standard, double steady_amps,
                       double temperature_factor = 1);

}  // namespace benchgraft::fit
