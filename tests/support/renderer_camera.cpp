#include <algorithm>
#include <cmath>

#include <opencv2/core.hpp>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "support/renderer.hpp"

namespace benchgraft::renderer {
namespace {

std::size_t channel_of(int x, int y) {  // red, green / green, blue
  return y % 2 == 0 ? (x % 2 == 0 ? 0 : 1) : (x % 2 == 0 ? 1 : 2);
}

/// Mean of the same-coloured neighbours in a 3 x 3 square, for every colour.
cv::Mat demosaiced(const cv::Mat& mosaic) {
  cv::Mat rgb(mosaic.size(), CV_32FC3);
  for (int y = 0; y < mosaic.rows; ++y)
    for (int x = 0; x < mosaic.cols; ++x) {
      std::array<float, 3> sum{}, weight{};
      for (int j = -1; j <= 1; ++j)
        for (int i = -1; i <= 1; ++i) {
          const int xx = std::clamp(x + i, 0, mosaic.cols - 1);
          const int yy = std::clamp(y + j, 0, mosaic.rows - 1);
          const float w = (i == 0 ? 2.0F : 1.0F) * (j == 0 ? 2.0F : 1.0F);
          const std::size_t c = channel_of(xx, yy);
          sum[c] += w * mosaic.at<float>(yy, xx);
          weight[c] += w;
        }
      auto& out = rgb.at<cv::Vec3f>(y, x);
      for (std::size_t c = 0; c < 3; ++c) out[static_cast<int>(c)] = sum[c] / weight[c];
      out[static_cast<int>(channel_of(x, y))] = mosaic.at<float>(y, x);
    }
  return rgb;
}

std::uint8_t coded(double light) {
  // The curve on 4096 steps is finer than 8 bits anywhere above black.
  static const std::vector<std::uint8_t> kCurve = [] {
    std::vector<std::uint8_t> curve;
    for (int i = 0; i <= 4096; ++i) {
      const double l = i / 4096.0;
      const double code = l <= 0.0031308 ? 12.92 * l : 1.055 * std::pow(l, 1 / 2.4) - 0.055;
      curve.push_back(static_cast<std::uint8_t>(std::lround(255 * code)));
    }
    return curve;
  }();
  return kCurve[static_cast<std::size_t>(std::lround(4096 * std::clamp(light, 0.0, 1.0)))];
}

/// Normal deviates out of a long table, begun anywhere: millions are needed for one photo.
float quick_normal(Dice& dice) {
  static const std::vector<float> kTable = [] {
    Dice own(1);
    std::vector<float> table(1 << 16);
    for (float& value : table) value = static_cast<float>(own.normal());
    return table;
  }();
  return kTable[dice.bits() & 0xFFFF];
}

void put(std::string& text, std::uint32_t value, int bytes) {
  for (int i = bytes - 1; i >= 0; --i) text += static_cast<char>(value >> (8 * i) & 0xFF);
}

/// A camera record with orientation and exposure time, put behind the JPEG's start mark.
std::string with_record(const std::vector<std::uint8_t>& jpeg, const Phone& phone) {
  std::string body("Exif\0\0MM\0*\0\0\0\x08", 14);
  put(body, 2, 2);
  put(body, 0x0112, 2), put(body, 3, 2), put(body, 1, 4);
  put(body, static_cast<std::uint32_t>(phone.orientation) << 16, 4);
  put(body, 0x8769, 2), put(body, 4, 2), put(body, 1, 4), put(body, 38, 4);
  put(body, 0, 4);
  put(body, 1, 2);
  put(body, 0x829A, 2), put(body, 5, 2), put(body, 1, 4), put(body, 56, 4);
  put(body, 0, 4);
  put(body, static_cast<std::uint32_t>(std::lround(phone.exposure_s * 1e6)), 4);
  put(body, 1000000, 4);
  std::string file(jpeg.begin(), jpeg.begin() + 2);
  file += "\xFF\xE1";
  put(file, static_cast<std::uint32_t>(body.size() + 2), 2);
  file += body;
  file.append(jpeg.begin() + 2, jpeg.end());
  return file;
}

/// The stored picture that the orientation value turns back upright.
cv::Mat as_stored(const cv::Mat& upright, int orientation) {
  cv::Mat stored = upright;
  if (orientation == 3) cv::rotate(upright, stored, cv::ROTATE_180);
  if (orientation == 6) cv::rotate(upright, stored, cv::ROTATE_90_COUNTERCLOCKWISE);
  if (orientation == 8) cv::rotate(upright, stored, cv::ROTATE_90_CLOCKWISE);
  return stored;
}

}  // namespace

std::string develop(std::vector<float> raw, const Three& white, const Phone& phone, Dice& dice) {
  cv::Mat light(phone.height, phone.width, CV_32FC3, raw.data());
  cv::GaussianBlur(light, light, cv::Size(0, 0), phone.blur);
  const cv::Scalar mean = cv::mean(light);
  const double most = std::max({white[0], white[1], white[2]});
  const double gain = phone.exposure / most;
  cv::Mat mosaic(light.size(), CV_32FC1);
  for (int y = 0; y < light.rows; ++y)
    for (int x = 0; x < light.cols; ++x) {
      const auto c = static_cast<int>(channel_of(x, y));
      const double value = gain * (light.at<cv::Vec3f>(y, x)[c] + phone.flare * mean[c]);
      const double electrons = value * phone.full_well;
      const double noisy =
          electrons + std::sqrt(std::max(electrons, 0.0) + phone.read_noise * phone.read_noise) *
                          quick_normal(dice);
      mosaic.at<float>(y, x) =
          static_cast<float>(std::min(std::round(1023 * noisy / phone.full_well) / 1023, 1.0));
    }
  cv::Mat rgb = demosaiced(mosaic);
  const auto matrix = colour_matrix(phone.sensor);
  Three balance{};
  for (std::size_t c = 0; c < 3; ++c) balance[c] = most / white[c];
  balance[0] *= phone.cast;
  cv::Mat coded_picture(light.size(), CV_8UC3);
  for (int y = 0; y < light.rows; ++y)
    for (int x = 0; x < light.cols; ++x) {
      const auto& in = rgb.at<cv::Vec3f>(y, x);
      auto& out = coded_picture.at<cv::Vec3b>(y, x);
      for (std::size_t i = 0; i < 3; ++i) {
        double sum = 0;
        for (std::size_t j = 0; j < 3; ++j)
          sum += matrix[i][j] * balance[j] * in[static_cast<int>(j)];
        out[static_cast<int>(2 - i)] = coded(sum);
      }
    }
  std::vector<std::uint8_t> jpeg;
  cv::imencode(".jpg", as_stored(coded_picture, phone.orientation), jpeg,
               {cv::IMWRITE_JPEG_QUALITY, phone.quality});
  if (!phone.camera_record) return {jpeg.begin(), jpeg.end()};
  return with_record(jpeg, phone);
}

}  // namespace benchgraft::renderer
