#include "align/light.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace benchgraft::align {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kNineInTen = 1.645;  // standard errors
// Where the gains of two screens are not known: how far their ratio may be off (assumed).
constexpr double kUnknownGain = 0.35;
// Lamps of one kind differ; the exponent of the decay is known to about this share (assumed).
constexpr double kDecayError = 0.2;

Error bad(std::string message) { return {ErrorKind::bad_input, std::move(message)}; }

bool above_0(double number) { return std::isfinite(number) && number > 0; }

Hours age_at(const Dimming& dimming, double share) {
  if (share >= 1) return {0};
  return {dimming.tau * std::pow(std::log(1 / share), 1 / dimming.b)};
}

}  // namespace

double Screen::width_m() const { return diagonal_inches * 0.0254 * wide / std::hypot(wide, high); }
double Screen::height_m() const { return diagonal_inches * 0.0254 * high / std::hypot(wide, high); }

double flux_lumens(double mean_lux, const Screen& screen) { return mean_lux * screen.area_m2(); }

double luminance_of_lux(double lux) { return lux / kPi; }

double luminance_of_flux(double lumens, double passed, double gain, const Screen& screen) {
  return lumens * passed * gain / (kPi * screen.area_m2());
}

Result<double> luminance_from_distance(double lux, double metres, double patch_m2) {
  if (!above_0(lux) || !above_0(metres) || !above_0(patch_m2))
    return bad("Lux, distance and size of the patch must all be above 0.");
  if (std::sqrt(patch_m2) > metres / 5)
    return bad(
        fmt::format("A patch {:.2f} m wide is too large at {:.2f} m; go back to five times its "
                    "width or show a smaller one.",
                    std::sqrt(patch_m2), metres));
  return lux * metres * metres / patch_m2;
}

double effective_gain(double luminance, double contact_lux) {
  return kPi * luminance / contact_lux;
}

Result<Uniformity> uniformity(std::span<const double> lux) {
  if (lux.size() < 5 || lux.size() > 100)
    return bad(
        fmt::format("{} readings do not show how even the screen is; take nine, three rows of "
                    "three (5 to 100 will do).",
                    lux.size()));
  Uniformity out;
  for (std::size_t i = 0; i < lux.size(); ++i) {
    if (!above_0(lux[i]))
      return bad(fmt::format("Reading {} is {:g} lux; it must be above 0.", i + 1, lux[i]));
    out.mean_lux += lux[i] / static_cast<double>(lux.size());
    if (lux[i] < lux[out.darkest]) out.darkest = i;
  }
  out.least_by_mean = lux[out.darkest] / out.mean_lux;
  return out;
}

Result<LightForecast> forecast_light(double luminance, double reading_share, const Screen& from,
                                     const Screen& to, double gain_ratio) {
  if (!above_0(luminance) || !above_0(from.area_m2()) || !above_0(to.area_m2()))
    return bad("Luminance and both diagonals must be above 0.");
  if (!(reading_share >= 0 && reading_share < 1) || !(gain_ratio >= 0))
    return bad("The error of the reading is a share from 0 to 1, and a ratio of gains is above 0.");
  LightForecast out;
  out.factor = from.area_m2() / to.area_m2() * (gain_ratio > 0 ? gain_ratio : 1);
  out.luminance = luminance * out.factor;
  const bool same = from.diagonal_inches == to.diagonal_inches;
  const double gain_error = gain_ratio > 0 || same ? 0 : kUnknownGain;
  const double off = std::exp(kNineInTen * std::hypot(reading_share, gain_error));
  out.interval = {out.luminance / off, out.luminance * off};
  out.sentence = fmt::format(
      "From {:g} to {:g} inches the same engine gives {:.0f} % of the luminance: about {:.0f} "
      "cd/m2, "
      "between {:.0f} and {:.0f}. The size of the picture and the focus hang on the cabinet's "
      "throw.",
      from.diagonal_inches, to.diagonal_inches, 100 * out.factor, out.luminance, out.interval.low,
      out.interval.high);
  return out;
}

double Dimming::share(Hours age) const {
  return age.value <= 0 ? 1 : std::exp(-std::pow(age.value / tau, b));
}

Result<Dimming> dimming_through(Hours early, double share_then, Hours rated) {
  if (!above_0(early.value) || !(rated.value > early.value) || !(share_then > 0.5) ||
      !(share_then < 1))
    return bad(
        fmt::format("A lamp with {:g} of its light at {:g} h and half of it at {:g} h does not "
                    "grow dimmer as lamps do; the first time comes before the rated life, with "
                    "more than half and less than all light.",
                    share_then, early.value, rated.value));
  Dimming out;
  out.b =
      std::log(std::numbers::ln2 / std::log(1 / share_then)) / std::log(rated.value / early.value);
  out.tau = rated.value / std::pow(std::numbers::ln2, 1 / out.b);
  return out;
}

Result<LampAge> lamp_age(const Dimming& dimming, double light_share, double error_share) {
  if (!(light_share > 0 && light_share <= 1.2))
    return bad(
        fmt::format("Light now is {:g} of the light when new; it must be above 0 and cannot be "
                    "much above 1.",
                    light_share));
  if (!(error_share > 0 && error_share < 1))
    return bad(fmt::format("An error of {:g} cannot be; give it as a share, as 0.1 for a tenth.",
                           error_share));
  LampAge out;
  out.hours = age_at(dimming, light_share);
  // Along the curve the error of the light counts; across lamps the error of the exponent.
  const double darkest = light_share * std::exp(-kNineInTen * error_share);
  const double brightest = light_share * std::exp(kNineInTen * error_share);
  const double lamps = std::exp(kNineInTen * kDecayError);
  out.interval = {age_at(dimming, brightest).value / lamps, age_at(dimming, darkest).value * lamps};
  out.past_rated = light_share <= 0.5;
  out.sentence = fmt::format(
      "By its light the lamp has run about {:.0f} h, between {:.0f} and {:.0f}: "
      "a rough guess, the counter and the record of the lamp come first.",
      out.hours.value, out.interval.low, out.interval.high);
  if (out.past_rated) out.sentence += " It gives half of its light or less: fit another lamp.";
  return out;
}

}  // namespace benchgraft::align
