// A number that grows evenly: reading = wanted + slope * (value - centre). The slope is integrated
// out. Unknown, its size may be anything (even in its logarithm) and its sign either; so one
// reading says nothing about the centre, and two give the secant. Where degrees per step are
// recorded it is known to a tenth.
#include <algorithm>
#include <array>
#include <cmath>

#include "align/response.hpp"

namespace benchgraft::align {
namespace {

// How far real readings leave the straight line, as a share of the distance from `wanted`.
constexpr double kBend = 0.07;
// A threshold is met by something that may bend much more.
constexpr double kBendOfThreshold = 0.25;
constexpr double kSlopeError = 0.1;
constexpr double kLeastEffect = 4;  // of the whole range, in tolerances

/// Integral of exp(-(t - z)^2 / 2) dt / t over t from `least` up: what is left of the readings once
/// a slope t, known to +-1 about z and otherwise even in its logarithm, is integrated out.
double even_in_log(double z, double least) {
  constexpr double kSmall = 0.05;
  if (z > 7 && least < z - 5) return 2.5066282746310002 / z * (1 + 1 / (z * z));
  double sum = std::exp(-z * z / 2) * std::log(std::max(1.0, kSmall / least));
  constexpr int kSlices = 48;
  const double from = std::log(std::max(kSmall, least));
  const double to = std::log(std::max(z, std::max(kSmall, least)) + 6);
  const double slice = (to - from) / kSlices;
  for (int i = 0; i < kSlices; ++i) {
    const double off = std::exp(from + (i + 0.5) * slice) - z;
    sum += slice * std::exp(-off * off / 2);
  }
  return sum;
}

/// Weighted sums over the readings: of distances squared, distance times reading, reading squared.
struct Sums {
  double dd = 0, dy = 0, yy = 0;
  [[nodiscard]] double slope() const { return dd > 0 ? dy / dd : 0; }
};

class MeasuredLine : public ResponseModel {
 public:
  MeasuredLine(const catalogue::Observer& observer, const Scale& scale, std::optional<double> slope,
               const std::vector<Reading>& own)
      : observer_(observer), scale_(scale), known_slope_(slope) {
    const bool threshold = observer.response == catalogue::Response::threshold;
    bend_ = threshold ? kBendOfThreshold : kBend;
    double largest = 0;
    for (const auto& reading : own) {
      const double off = *reading.number - observer.wanted.value_or(0);
      const double error = std::hypot(reading_error(observer, reading), bend_ * off);
      read_.push_back({reading.value, off, 1 / (error * error + 1e-300)});
      largest = std::max(largest, std::abs(off));
    }
    // Over its whole range a setting does more than what would be tolerated anyhow.
    const double least = kLeastEffect * observer.tolerance.value_or(0);
    least_slope_ = std::max({1e-6 * largest, 1e-12, least}) / scale.span();
    usual_slope_ = std::max(largest, 4 * reading_error(observer, largest)) / scale.span() * 4;
    if (!(usual_slope_ > 0)) usual_slope_ = 1 / scale.span();
  }

  [[nodiscard]] bool by_word() const override { return false; }
  [[nodiscard]] std::size_t shapes() const override { return 1; }
  [[nodiscard]] double log_prior(std::size_t) const override { return 0; }

  [[nodiscard]] double log_chance(double centre, std::size_t) const override {
    const Sums sums = at(centre);
    if (known_slope_) {
      const auto [tight, mean] = known(sums);
      const double prior = 1 / (kSlopeError * kSlopeError);
      return -0.5 * (std::log(tight) + sums.yy + prior -
                     mean * mean * tight / (*known_slope_ * *known_slope_));
    }
    const double z = std::sqrt(sums.dd) * sums.slope(), least = std::sqrt(sums.dd) * least_slope_;
    const double rest = std::max(0.0, sums.yy - z * z);
    if (sums.dd <= 0) return -0.5 * sums.yy;
    const double held = even_in_log(std::abs(z), least) + even_in_log(-std::abs(z), least);
    return -0.5 * rest + std::log(held + 1e-300);
  }
  void forecast(std::span<const double> values, double centre, std::size_t,
                std::span<Forecast> out) const override {
    const auto [slope, variance] = slope_at(centre);
    for (std::size_t i = 0; i < values.size(); ++i) {
      const double d = values[i] - centre;
      out[i].mean = observer_.wanted.value_or(0) + slope * d;
      const double error = reading_error(observer_, out[i].mean);
      out[i].variance = error * error + (variance + bend_ * bend_ * slope * slope) * d * d + 1e-300;
    }
  }
  [[nodiscard]] bool good(double value, double centre, std::size_t) const override {
    const double off = std::abs(value - centre);
    if (!observer_.tolerance) return off <= scale_.step;
    const auto [slope, variance] = slope_at(centre);
    const double steep = std::sqrt(slope * slope + variance);
    return off * steep <= *observer_.tolerance || off <= scale_.step / 2;
  }
  [[nodiscard]] double agreement(std::size_t i, double centre, std::size_t) const override {
    const double off = read_[i].off - slope_at(centre).first * (read_[i].value - centre);
    return std::exp(-off * off * read_[i].weight / 2);
  }
  [[nodiscard]] std::optional<Slope> slope() const override {
    double w = 0, x = 0, y = 0, xx = 0, xy = 0;
    for (const auto& [value, off, weight] : read_) {
      w += weight, x += weight * value, y += weight * off;
      xx += weight * value * value, xy += weight * value * off;
    }
    const double spread = xx - x * x / w;
    if (read_.size() < 2 || !(spread > 1e-9 * xx)) return std::nullopt;
    return Slope{(xy - x * y / w) / spread, 1 / std::sqrt(spread)};
  }

 private:
  struct Read {
    double value, off, weight;
  };
  [[nodiscard]] Sums at(double centre) const {
    Sums sums;
    for (const auto& [value, off, weight] : read_) {
      const double d = value - centre;
      sums.dd += weight * d * d, sums.dy += weight * d * off, sums.yy += weight * off * off;
    }
    return sums;
  }
  /// With a recorded slope, in units of it: precision and mean.
  [[nodiscard]] std::pair<double, double> known(const Sums& sums) const {
    const double unit = *known_slope_, prior = 1 / (kSlopeError * kSlopeError);
    const double tight = prior + sums.dd * unit * unit;
    return {tight, (prior + sums.dy * unit) / tight * unit};
  }
  /// Slope and its variance when the centre is known.
  [[nodiscard]] std::pair<double, double> slope_at(double centre) const {
    const Sums sums = at(centre);
    if (known_slope_) {
      const auto [tight, mean] = known(sums);
      return {mean, *known_slope_ * *known_slope_ / tight};
    }
    const double prior = 1 / (usual_slope_ * usual_slope_);
    return {sums.dy / (sums.dd + prior), 1 / (sums.dd + prior)};
  }

  const catalogue::Observer& observer_;
  Scale scale_;
  std::optional<double> known_slope_;
  double bend_ = kBend;
  double least_slope_ = 0, usual_slope_ = 1;
  std::vector<Read> read_;
};

}  // namespace

std::unique_ptr<ResponseModel> measured_line(const catalogue::Observer& observer,
                                             const Scale& scale, std::optional<double> slope,
                                             const std::vector<Reading>& own) {
  return std::make_unique<MeasuredLine>(observer, scale, slope, own);
}

}  // namespace benchgraft::align
