#include "align/photo_check.hpp"

#include <algorithm>
#include <cmath>
#include <complex>

#include <fmt/format.h>

namespace benchgraft::align {
namespace {

// Limits found on rendered photos; each sentence names its value so that a user can judge.
constexpr double kClipped = 0.02, kDark = 0.05, kDim = 0.12;
constexpr double kBlurSpoils = 0.02, kBlurSeen = 0.008;
constexpr double kNoiseSpoils = 0.25, kNoiseSeen = 0.08;
constexpr double kRippleSpoils = 0.08, kRippleSeen = 0.025;
constexpr double kStripesSpoil = 0.06, kStripesSeen = 0.02;
constexpr double kEnoughFrames = 8, kOffWhole = 0.03;

constexpr int kPlaces = 512;  // along one side of the white
constexpr double kInset = 0.025, kEnds = 0.04;

/// White along one side of the screen: level and the two colour ratios, place by place.
struct Band {
  std::vector<double> level, red, blue;
};

double level_of(const PixelLight& light) { return (light[0] + light[1] + light[2]) / 3.0; }

/// Reads a band of white; `from` and `to` are on the screen, each place a mean of a few across.
Band read_band(const Photo& photo, const Screen& screen, Point from, Point to, Point across) {
  Band band;
  for (int k = 0; k < kPlaces; ++k) {
    const double t = (k + 0.5) / kPlaces;
    const Point middle = (1 - t) * from + t * to;
    std::array<double, 3> sum{};
    for (int j = -4; j <= 4; ++j) {
      const PixelLight light = light_at(photo, screen.in_photo(middle + (j / 4.0) * across));
      for (std::size_t c = 0; c < 3; ++c) sum[c] += light[c] / 9;
    }
    band.level.push_back((sum[0] + sum[1] + sum[2]) / 3);
    const double green = std::max(sum[1], 1e-6);
    band.red.push_back(sum[0] / green);
    band.blue.push_back(sum[2] / green);
  }
  return band;
}

/// What is left of `values` when their slow change is divided out.
std::vector<double> without_trend(const std::vector<double>& values) {
  constexpr int kHalf = kPlaces / 8;
  std::vector<double> left(values.size());
  for (int k = 0; k < static_cast<int>(values.size()); ++k) {
    std::vector<Point> near;
    for (int i = std::max(0, k - kHalf); i < std::min<int>(kPlaces, k + kHalf); i += 4)
      near.push_back({static_cast<double>(i - k), values[static_cast<std::size_t>(i)]});
    const double trend = fit_parabola(near)(0);
    left[static_cast<std::size_t>(k)] =
        trend > 0 ? values[static_cast<std::size_t>(k)] / trend - 1 : 0;
  }
  return left;
}

/// Amplitude of the strongest wave of 6 to 128 periods along the band.
double strongest_wave(const std::vector<double>& values) {
  double best = 0;
  const auto n = static_cast<double>(values.size());
  for (int periods = 6; periods <= kPlaces / 4; ++periods) {
    const std::complex<double> turn = std::polar(1.0, 2 * M_PI * periods / n);
    std::complex<double> sum = 0, phase = 1;
    for (const double v : values) sum += v * phase, phase *= turn;
    best = std::max(best, 2 * std::abs(sum) / n);
  }
  return best;
}

double pixel_noise(const Photo& photo, const Screen& screen) {
  // Second differences along the rows: slopes and soft waves drop out.
  double squares = 0, level = 0;
  int count = 0;
  for (int k = 0; k < 2000; ++k) {
    const double t = kEnds + (1 - 2 * kEnds) * k / 2000;
    for (const double y : {kInset, 1 - kInset}) {
      const Point p = screen.in_photo({t, y});
      const int px = static_cast<int>(p.x), py = static_cast<int>(p.y);
      if (px < 1 || py < 0 || px + 1 >= photo.width || py >= photo.height) continue;
      const double here = level_of(photo.at(px, py));
      const double d = here - (level_of(photo.at(px - 1, py)) + level_of(photo.at(px + 1, py))) / 2;
      squares += d * d / 1.5;
      level += here;
      ++count;
    }
  }
  return level > 0 ? std::sqrt(squares * count) / level : 0;
}

void measure_level(const Photo& photo, const Screen& screen, PhotoQuality& quality) {
  std::vector<double> most;
  int clipped = 0;
  for (int k = 0; k < 400; ++k) {
    const double t = kEnds + (1 - 2 * kEnds) * k / 400;
    for (const Point at : {Point{t, kInset}, {t, 1 - kInset}, {kInset, t}, {1 - kInset, t}}) {
      const PixelLight light = light_at(photo, screen.in_photo(at));
      most.push_back(std::max({light[0], light[1], light[2]}));
      clipped += most.back() > 0.98;
    }
  }
  const auto at = most.begin() + static_cast<std::ptrdiff_t>(most.size() * 9 / 10);
  std::nth_element(most.begin(), at, most.end());
  quality.white = *at;
  quality.clipped = clipped / static_cast<double>(most.size());
}

/// Two bands alike, place by place: only what runs right across the photo is left.
std::vector<double> common(const std::vector<double>& a, const std::vector<double>& b) {
  std::vector<double> both(a.size());
  for (std::size_t i = 0; i < a.size(); ++i)
    both[i] = a[i] * b[i] > 0 ? std::copysign(std::min(std::abs(a[i]), std::abs(b[i])), a[i]) : 0;
  return both;
}

void measure_waves(const Photo& photo, const Screen& screen, PhotoQuality& quality) {
  const double near = kInset, far = 1 - kInset, begin = kEnds, end = 1 - kEnds;
  const Point down{0, 0.012}, right{0.012, 0};
  const Band top = read_band(photo, screen, {begin, near}, {end, near}, down);
  const Band bottom = read_band(photo, screen, {begin, far}, {end, far}, down);
  const Band left_side = read_band(photo, screen, {near, begin}, {near, end}, right);
  const Band right_side = read_band(photo, screen, {far, begin}, {far, end}, right);
  for (const Band* band : {&top, &bottom, &left_side, &right_side})
    quality.ripple = std::max(quality.ripple, strongest_wave(without_trend(band->level)));
  // A sensor is read row by row: a short exposure shows as coloured stripes along the rows, so as
  // waves down both sides, alike in phase.
  for (const auto part : {&Band::red, &Band::blue})
    quality.stripes = std::max(
        quality.stripes,
        strongest_wave(common(without_trend(left_side.*part), without_trend(right_side.*part))));
}

void judge_light(PhotoQuality& q) {
  const auto say = [&](PhotoFault fault, bool spoils, std::string sentence) {
    q.remarks.push_back({fault, spoils, std::move(sentence)});
  };
  if (q.clipped > kClipped)
    say(PhotoFault::too_bright, true,
        fmt::format("the photo is too bright: {:.0f} % of the screen's white is clipped; make the "
                    "exposure darker by one or two steps",
                    100 * q.clipped));
  if (q.white < kDark)
    say(PhotoFault::too_dark, true,
        fmt::format(
            "the photo is too dark: white reaches {:.0f} % only; make the exposure brighter "
            "or longer",
            100 * q.white));
  else if (q.white < kDim)
    say(PhotoFault::too_dark, false,
        fmt::format("the photo is dim: white reaches {:.0f} % only; a brighter exposure gives a "
                    "surer answer",
                    100 * q.white));
}

void judge_sharpness(PhotoQuality& q) {
  if (q.edge_width > kBlurSeen)
    q.remarks.push_back(
        {PhotoFault::blurred, q.edge_width > kBlurSpoils,
         fmt::format("the photo is blurred: the screen's edge is {:.1f} % of its width wide; rest "
                     "the phone on something and touch the screen in its picture to focus",
                     100 * q.edge_width)});
  if (q.noise > kNoiseSeen)
    q.remarks.push_back(
        {PhotoFault::noisy, q.noise > kNoiseSpoils,
         fmt::format("the photo is noisy: neighbouring points differ by {:.0f} %; choose a longer "
                     "exposure and a lower sensitivity",
                     100 * q.noise)});
  const double ripple =
      q.frames.value_or(0) < kEnoughFrames ? q.ripple : std::max(q.ripple, q.stripes);
  if (ripple > kRippleSeen)
    q.remarks.push_back(
        {PhotoFault::rippled, ripple > kRippleSpoils,
         fmt::format("the photo shows ripples (moire) of {:.0f} %; go a little nearer or further "
                     "off, or turn the phone by a few degrees",
                     100 * ripple)});
}

void judge_time(PhotoQuality& q) {
  // With frames enough in it, a photo has no stripes of time: they are ripples.
  if (q.stripes > kStripesSeen && q.frames.value_or(0) < kEnoughFrames)
    q.remarks.push_back(
        {PhotoFault::striped, q.stripes > kStripesSpoil,
         fmt::format("the photo has coloured stripes of {:.0f} %: it was exposed for a part of the "
                     "colour cycle only; set an exposure of 1/8 s or longer",
                     100 * q.stripes)});
  if (!q.frames || *q.frames >= kEnoughFrames) return;
  const double whole = std::round(*q.frames);
  if (whole >= 1 && std::abs(*q.frames - whole) <= kOffWhole * whole) return;
  q.remarks.push_back(
      {PhotoFault::short_exposure, *q.frames < 1,
       fmt::format("the exposure lasted {:.1f} frames of the picture, neither {:.0f} nor a whole "
                   "number: its colours are not in balance; set 1/8 s or longer",
                   *q.frames, kEnoughFrames)});
}

}  // namespace

bool PhotoQuality::usable() const {
  return std::none_of(remarks.begin(), remarks.end(),
                      [](const PhotoRemark& r) { return r.spoils; });
}

PhotoQuality check_photo(const Photo& photo, const Screen& screen, Seconds frame) {
  PhotoQuality quality;
  measure_level(photo, screen, quality);
  measure_waves(photo, screen, quality);
  quality.noise = pixel_noise(photo, screen);
  quality.edge_width = screen.edge_width / length(screen.corners[1] - screen.corners[0]);
  if (photo.exposure && frame.value > 0) quality.frames = photo.exposure->value / frame.value;
  judge_light(quality);
  judge_sharpness(quality);
  judge_time(quality);
  return quality;
}

}  // namespace benchgraft::align
