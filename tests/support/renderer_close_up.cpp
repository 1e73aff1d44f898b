#include <algorithm>
#include <cmath>

#include <opencv2/core.hpp>
#include <opencv2/imgproc.hpp>

#include "support/renderer.hpp"

namespace benchgraft::renderer {
namespace {

bool on(const Sheet& sheet, long x, long y) {
  if (x < 0 || y < 0 || x >= sheet.width || y >= sheet.height) return false;
  return sheet.rgb[3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(sheet.width) +
                        static_cast<std::size_t>(x))] > 127;
}

/// Light at (u, v), in image pixels, pixel middles at whole numbers, of one sub-frame: mirrors are
/// squares on their corner, at (i, j) with i + j even, moved by `moved` across, and show the image
/// pixel `data` columns further on.
double mirror_light(const Sheet& sheet, double u, double v, double moved, long data, double gap) {
  const double a = (u - moved + v) / 2, b = (u - moved - v) / 2;
  const double ra = std::round(a), rb = std::round(b);
  // Within a mirror both run from -1/2 to 1/2; its rim is dark.
  if (std::max(std::abs(a - ra), std::abs(b - rb)) > 0.5 * (1 - gap)) return 0;
  return on(sheet, std::lround(ra + rb) + data, std::lround(ra - rb)) ? 1 : 0;
}

/// Share of an exposure that falls into the first sub-frame.
double share_of_first(double start, double lasting, double frame) {
  const auto first_until = [&](double t) {
    const double whole = std::floor(t / frame);
    return whole * frame / 2 + std::min(t - whole * frame, frame / 2);
  };
  return (first_until(start + lasting) - first_until(start)) / lasting;
}

}  // namespace

std::string close_up(const Sheet& sheet, const Actuator& actuator, const CloseUp& view,
                     const Phone& phone, std::uint64_t seed) {
  Dice dice(seed);
  const double start = dice.between(0, actuator.frame_s);
  const double a = view.tilt_deg * M_PI / 180;
  constexpr int kParts = 2;
  cv::Mat light(phone.height, phone.width, CV_32FC1);
  for (int y = 0; y < phone.height; ++y) {
    const double first = share_of_first(start + phone.readout_s * y / phone.height,
                                        phone.exposure_s, actuator.frame_s);
    for (int x = 0; x < phone.width; ++x) {
      double sum = 0;
      for (int k = 0; k < kParts * kParts; ++k) {
        const double px = x + (k % kParts + 0.5) / kParts - 0.5;
        const double py = y + (k / kParts + 0.5) / kParts - 0.5;
        const double scale = view.scale * (1 + view.keystone * (py / phone.height - 0.5) * 2);
        const double cx = px - phone.width / 2.0, cy = py - phone.height / 2.0;
        const double u = view.left + (std::cos(a) * cx + std::sin(a) * cy) / scale +
                         phone.width / (2 * view.scale);
        const double v = view.top + (-std::sin(a) * cx + std::cos(a) * cy) / scale +
                         phone.height / (2 * view.scale);
        // Sub-frame A holds the image pixels with x + y even, B the odd ones one column further.
        const long data_a = actuator.swapped ? 1 : 0, data_b = actuator.swapped ? 0 : 1;
        sum += 2 * first * mirror_light(sheet, u, v, 0, data_a, actuator.gap) +
               2 * (1 - first) * mirror_light(sheet, u, v, actuator.gain, data_b, actuator.gap);
      }
      light.at<float>(y, x) = static_cast<float>(sum / (2.0 * kParts * kParts));
    }
  }
  cv::GaussianBlur(light, light, cv::Size(0, 0), actuator.spot * view.scale);
  const double half2 = (phone.width * phone.width + phone.height * phone.height) / 4.0;
  std::vector<float> raw;
  raw.reserve(std::size_t{3} * light.total());
  for (int y = 0; y < phone.height; ++y)
    for (int x = 0; x < phone.width; ++x) {
      const double dx = x - phone.width / 2.0, dy = y - phone.height / 2.0;
      const double fall = 1 - phone.vignetting * (dx * dx + dy * dy) / half2;
      for (int c = 0; c < 3; ++c)
        raw.push_back(static_cast<float>(fall * (light.at<float>(y, x) + 0.003)));
    }
  return develop(std::move(raw), {1, 1, 1}, phone, dice);
}

}  // namespace benchgraft::renderer
