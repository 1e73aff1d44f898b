// How a part is built: its mains side, and its shape against the place it goes into.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "catalogue/words.hpp"

namespace benchgraft::catalogue {

/// Conductors a fuse or a switch opens.
enum class Pole { unknown, line, neutral, both };
/// Fuses of the two standards are not alike at the same printed amperes.
enum class FuseStandard { unknown, iec_60127, ul_248_14 };
enum class FuseSpeed { unknown, fast, slow };

inline constexpr WordList<Pole, 3> kPoleWords{
    {{Pole::line, "line"}, {Pole::neutral, "neutral"}, {Pole::both, "both"}}};
inline constexpr WordList<FuseStandard, 2> kFuseStandardWords{
    {{FuseStandard::iec_60127, "IEC 60127"}, {FuseStandard::ul_248_14, "UL 248-14"}}};
inline constexpr WordList<FuseSpeed, 2> kFuseSpeedWords{
    {{FuseSpeed::fast, "fast"}, {FuseSpeed::slow, "slow"}}};

/// The mains side of an inlet, a cord or a supply.
struct MainsSide {
  std::optional<double> amps;         ///< drawn at most, steady
  std::optional<bool> polarised;      ///< the plug goes in one way round only
  std::optional<bool> cord_anchored;  ///< held against pull, push and twist
  Pole switch_in = Pole::unknown;
  Pole fuse_in = Pole::unknown;
  std::optional<double> fuse_amps;
  FuseStandard fuse_standard = FuseStandard::unknown;
  FuseSpeed fuse_speed = FuseSpeed::unknown;
  std::optional<double> creepage_mm;   ///< shortest way over the surface across the barrier
  std::optional<double> clearance_mm;  ///< shortest way through air across the barrier
  bool operator==(const MainsSide&) const = default;
};

/// Shape of a part: does it go into its place and touch nothing there.
struct Shape {
  std::optional<std::array<double, 3>> size_mm;   ///< right, up, forward, as it sits
  std::optional<double> under_mm;                 ///< how far leads and parts reach below the board
  std::optional<std::vector<std::string>> holes;  ///< fixing holes, named as the stand-offs are
  std::string socket_panel;                       ///< pattern of its outside sockets
  bool operator==(const Shape&) const = default;
};

/// The same of a place in a cabinet.
struct Room {
  std::optional<std::array<double, 3>> size_mm;
  std::optional<double> standoff_mm;
  std::optional<std::vector<std::string>> standoffs;      ///< named as the holes are
  std::optional<std::vector<std::string>> socket_panels;  ///< patterns its cut-outs take
  bool operator==(const Room&) const = default;
};

}  // namespace benchgraft::catalogue
