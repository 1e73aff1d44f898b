// From lux readings to luminance, flux, uniformity, the light on another screen, and the lamp's
// age. A lambertian screen is assumed unless a gain is given. source: photometry by definition;
// docs/methods/align.md, section "Light".
#pragma once

#include <span>
#include <string>

#include "base/result.hpp"
#include "base/units.hpp"
#include "catalogue/port.hpp"

namespace benchgraft::align {

/// A screen by its diagonal; 16:9 unless told otherwise.
struct Screen {
  double diagonal_inches = 0;
  double wide = 16, high = 9;
  [[nodiscard]] double width_m() const;
  [[nodiscard]] double height_m() const;
  [[nodiscard]] double area_m2() const { return width_m() * height_m(); }
};

inline constexpr double kCandelasPerFootLambert = 3.426259;

/// Light that leaves the screen: `mean_lux` read with the sensor flat on it, black surround.
double flux_lumens(double mean_lux, const Screen& screen);
/// Luminance (cd/m2) of a screen that sends out `lux` evenly in all directions.
double luminance_of_lux(double lux);
/// On-axis luminance of `lumens` through losses `passed` (0..1) on a screen of `gain`.
double luminance_of_flux(double lumens, double passed, double gain, const Screen& screen);
/// On-axis luminance from lux at `metres` in front of a lit patch of `patch_m2`, small against
/// that. fails: numbers not above 0, a patch wider than a fifth of the distance.
Result<double> luminance_from_distance(double lux, double metres, double patch_m2);
/// Gain as it acts: what is sent forward against what an even screen would.
double effective_gain(double luminance, double contact_lux);

/// Several readings over the screen, all with the same meter.
struct Uniformity {
  double mean_lux = 0;
  double least_by_mean = 0;  ///< 1: even
  std::size_t darkest = 0;   ///< place of the darkest reading
};
/// fails: fewer than 5 readings or more than 100, one that is not above 0.
Result<Uniformity> uniformity(std::span<const double> lux);

/// The light of one engine in another cabinet.
struct LightForecast {
  double factor = 1;          ///< new luminance by old
  double luminance = 0;       ///< cd/m2
  catalogue::Range interval;  ///< nine times in ten
  std::string sentence;
};
/// in: `reading_share`: standard error of the reading as a share of it; gains of the two screens
/// where they are known, else 1 for both and a wider interval. fails: numbers not above 0.
Result<LightForecast> forecast_light(double luminance, double reading_share, const Screen& from,
                                     const Screen& to, double gain_ratio = 0);

/// How a lamp grows dimmer: m(t) = exp(-(t / tau)^b), through one early point and half light at the
/// rated life. source: stretched decay through two anchors; the anchors are sellers' figures.
struct Dimming {
  double b = 0, tau = 0;
  [[nodiscard]] double share(Hours age) const;
};
/// fails: anchors that do not fall in time and light.
Result<Dimming> dimming_through(Hours early, double share_then, Hours rated);

struct LampAge {
  Hours hours;
  catalogue::Range interval;  ///< hours, nine times in ten
  bool past_rated =
      false;  ///< at or below half light: not to be used on, whatever the counter says
  std::string sentence;
};
/// in: light now by light when new; standard error of that share, as a share of it. fails: a share
/// not between 0 and 1.2, an error not between 0 and 1.
Result<LampAge> lamp_age(const Dimming& dimming, double light_share, double error_share);

}  // namespace benchgraft::align
