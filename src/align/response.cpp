#include "align/response.hpp"

#include <cmath>
#include <utility>

namespace benchgraft::align {
namespace {

// Where nothing is recorded about a width: from a hundredth to a sixth of the range.
constexpr double kLeastShare = 0.01, kMostShare = 1.0 / 6;
// What is recorded as usual is not all there is: half as wide and twice as wide happen too.
constexpr double kBeyondUsual = 2;
// Error of a number nobody has stated an error of.
constexpr double kErrorShare = 0.05;

}  // namespace

std::unique_ptr<ResponseModel> response_of(const catalogue::Observer& observer,
                                           const catalogue::Setting& setting, const Scale& scale,
                                           const std::vector<Reading>& readings) {
  std::vector<Reading> own;
  for (const auto& reading : readings)
    if (reading.observer == observer.name) own.push_back(reading);
  if (!observer.words.empty()) return judged_words(observer, scale, own);
  if (observer.response == catalogue::Response::peak) return measured_peak(observer, scale, own);
  std::optional<double> slope;
  if (observer.unit == "degrees" && setting.degrees_per_step)
    slope = *setting.degrees_per_step / scale.step;
  return measured_line(observer, scale, slope, own);
}

std::vector<Width> usual_widths(const catalogue::Observer& observer, const Scale& scale,
                                std::size_t count) {
  const auto usual = observer.usual_width.value_or(
      catalogue::Range{kLeastShare * scale.span(), kMostShare * scale.span()});
  const double low = std::max(std::log(usual.low / kBeyondUsual), std::log(scale.step / 2));
  const double high = std::max(low + 0.1, std::log(usual.high * kBeyondUsual));
  std::vector<Width> widths;
  for (std::size_t i = 0; i < count; ++i) {
    const double at = low + (high - low) * static_cast<double>(i) / static_cast<double>(count - 1);
    const bool inside = at >= std::log(usual.low) - 1e-9 && at <= std::log(usual.high) + 1e-9;
    widths.push_back({std::exp(at), inside ? 0 : std::log(0.4)});
  }
  return widths;
}

double reading_error(const catalogue::Observer& observer, double number) {
  if (!observer.error && !observer.error_share) return std::abs(kErrorShare * number);
  return std::hypot(observer.error.value_or(0), observer.error_share.value_or(0) * number);
}

double reading_error(const catalogue::Observer& observer, const Reading& reading) {
  return reading.error ? *reading.error : reading_error(observer, *reading.number);
}

}  // namespace benchgraft::align
