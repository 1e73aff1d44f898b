// A number that is best at one value. reading = foot + height * g(u), u = (value - centre) / half,
// where g is 1 in the middle and 1/2 at u = 1. Which of four curves g is, is a shape like the half
// width; where the observer is uneven, so is how much more is lost on one side. Foot and height are
// integrated out: with normal beliefs about them the chance of all readings has a closed form (a
// linear model), times the chance that the height is not negative.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "align/response.hpp"

namespace benchgraft::align {
namespace {

constexpr std::size_t kWidths = 8;
constexpr double kGoodTo = 0.35;       // |u| up to which less than a tenth of the change is lost
constexpr double kCurveError = 0.035;  // no real peak is exactly one of the four curves

double curve(std::size_t which, double u) {
  const double a = std::abs(u);
  switch (which) {
    case 0:  // bell
      return std::exp(-std::numbers::ln2 * a * a);
    case 1:  // long feet
      return 1 / (1 + a * a);
    case 2:  // rounded tip, straight flanks
      return 1 - 0.5 * (std::sqrt(1 + a * a) - 1) / (std::numbers::sqrt2 - 1);
    default:  // flat top, straight flanks, flat feet
      return std::max(0.0, 1 - 0.5 * std::max(0.0, a - 0.3) / 0.7);
  }
}

double below_normal(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

/// Foot and height after the readings, and the log chance of the readings.
struct Fitted {
  double foot, height;                    // means
  double foot_foot, both, height_height;  // covariance
  double log_chance;
};

class MeasuredPeak : public ResponseModel {
 public:
  MeasuredPeak(const catalogue::Observer& observer, const Scale& scale,
               const std::vector<Reading>& own)
      : observer_(observer),
        widths_(usual_widths(observer, scale, kWidths)),
        leans_(observer.uneven ? std::vector<double>{0.3, 1, 3.3} : std::vector<double>{1}),
        curves_(observer.uneven ? std::vector<std::size_t>{0, 1, 3}
                                : std::vector<std::size_t>{0, 1, 2, 3}),
        side_(observer.best == catalogue::Best::lowest ? -1 : 1) {
    for (const auto& reading : own) {
      read_.push_back({reading.value, *reading.number, 0});
      size_ = std::max(size_, std::abs(*reading.number));
    }
    if (!(size_ > 0)) size_ = 1;
    for (std::size_t i = 0; i < own.size(); ++i)
      read_[i].variance = with_curve_error(reading_error(observer, own[i]));
  }

  [[nodiscard]] bool by_word() const override { return false; }
  [[nodiscard]] std::size_t shapes() const override {
    return kWidths * curves_.size() * leans_.size();
  }
  [[nodiscard]] double log_prior(std::size_t shape) const override {
    return widths_[shape % kWidths].log_prior;
  }
  [[nodiscard]] double log_chance(double centre, std::size_t shape) const override {
    return fitted(centre, shape).log_chance;
  }
  void forecast(std::span<const double> values, double centre, std::size_t shape,
                std::span<Forecast> out) const override {
    const Fitted fit = fitted(centre, shape);
    for (std::size_t i = 0; i < values.size(); ++i) {
      const double g = side_ * at(values[i], centre, shape);
      out[i].mean = fit.foot + g * fit.height;
      out[i].variance = fit.foot_foot + 2 * g * fit.both + g * g * fit.height_height +
                        with_curve_error(reading_error(observer_, out[i].mean));
    }
  }
  [[nodiscard]] bool good(double value, double centre, std::size_t shape) const override {
    return std::abs(value - centre) <= kGoodTo * widths_[shape % kWidths].half;
  }
  [[nodiscard]] double agreement(std::size_t i, double centre, std::size_t shape) const override {
    const Fitted fit = fitted(centre, shape);
    const auto& [value, number, variance] = read_[i];
    const double off = number - fit.foot - side_ * at(value, centre, shape) * fit.height;
    return std::exp(-off * off / variance / 2);
  }

 private:
  struct Read {
    double value, number, variance;
  };
  [[nodiscard]] double at(double value, double centre, std::size_t shape) const {
    const double u = (value - centre) / widths_[shape % kWidths].half;
    const double lean = leans_[shape / kWidths / curves_.size()];
    const double lost = 1 - curve(curves_[shape / kWidths % curves_.size()], u);
    return 1 - (u < 0 ? lost * std::max(1.0, lean) : lost * std::max(1.0, 1 / lean));
  }
  /// Variance of a reading that is off by `error` and of the curve under it.
  [[nodiscard]] double with_curve_error(double error) const {
    return error * error + kCurveError * size_ * kCurveError * size_;
  }
  /// Weighted least squares with normal beliefs: foot 0.6 +- 0.8, height 0.4 +- 0.4 of the largest
  /// reading.
  [[nodiscard]] Fitted fitted(double centre, std::size_t shape) const {
    const double wide = 1 / (0.8 * size_ * 0.8 * size_), tall = 1 / (0.4 * size_ * 0.4 * size_);
    double p00 = wide, p01 = 0, p11 = tall;
    double b0 = wide * 0.6 * size_, b1 = tall * 0.4 * size_;
    double squares = wide * 0.36 * size_ * size_ + tall * 0.16 * size_ * size_;
    for (const auto& [value, number, variance] : read_) {
      const double g = side_ * at(value, centre, shape), w = 1 / variance;
      p00 += w, p01 += w * g, p11 += w * g * g;
      b0 += w * number, b1 += w * g * number, squares += w * number * number;
    }
    const double determinant = p00 * p11 - p01 * p01;
    Fitted fit{};
    fit.foot_foot = p11 / determinant, fit.both = -p01 / determinant;
    fit.height_height = p00 / determinant;
    fit.foot = fit.foot_foot * b0 + fit.both * b1;
    fit.height = fit.both * b0 + fit.height_height * b1;
    fit.log_chance = -0.5 * (std::log(determinant) + squares - b0 * fit.foot - b1 * fit.height) +
                     std::log(below_normal(fit.height / std::sqrt(fit.height_height)) + 1e-300);
    return fit;
  }

  const catalogue::Observer& observer_;
  std::vector<Width> widths_;
  std::vector<double> leans_;  // how much more is lost below the centre than above
  std::vector<std::size_t> curves_;
  double side_;
  double size_ = 0;
  std::vector<Read> read_;
};

}  // namespace

std::unique_ptr<ResponseModel> measured_peak(const catalogue::Observer& observer,
                                             const Scale& scale, const std::vector<Reading>& own) {
  return std::make_unique<MeasuredPeak>(observer, scale, own);
}

}  // namespace benchgraft::align
