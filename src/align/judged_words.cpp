// Words. With u = (value - centre) / half width the screen is good for |u| < 1, broken for |u| > 1
// and far off for |u| > 3; the two edges are soft, because eyes are (a logistic curve in log |u|),
// and one word in a hundred is a slip. A threshold is one edge, soft over `half`.
#include <cmath>

#include "align/response.hpp"

namespace benchgraft::align {
namespace {

using catalogue::Meaning;

constexpr double kSlip = 0.01;
constexpr double kSoftGood = 0.12;  // softness of the edge of good, in log |u|
constexpr double kFar = 3;          // where "far" begins, in half widths
constexpr double kSoftFar = 0.35;
constexpr double kFarSaid = 0.9;  // not everybody uses the stronger word, however far off it is
// The sides of a word may be the other way round on another set.
constexpr double kReversed = 0.03;
constexpr std::size_t kWidths = 9;
constexpr double kReachShare = 1.0 / 16;  // where nothing else is recorded, of the range

double logistic(double x) { return 1 / (1 + std::exp(-x)); }

constexpr std::size_t index(Meaning meaning) { return static_cast<std::size_t>(meaning); }

class JudgedWords : public ResponseModel {
 public:
  JudgedWords(const catalogue::Observer& observer, const Scale& scale,
              const std::vector<Reading>& own)
      : widths_(usual_widths(observer, scale, kWidths)),
        threshold_(observer.response == catalogue::Response::threshold) {
    for (const auto& judged : observer.words) {
      if (!can_say_[index(judged.means)]) ++sayable_;
      can_say_[index(judged.means)] = true;
    }
    good_below_ = can_say_[index(Meaning::above)] || can_say_[index(Meaning::far_above)];
    reach_ = observer.usual_width ? observer.usual_width->high : scale.span() * kReachShare;
    if (threshold_ && !observer.usual_width)
      for (std::size_t i = 0; i < kWidths; ++i)
        widths_[i] = {scale.step / 4 * std::pow(1.3, static_cast<double>(i)), 0};
    for (const auto& reading : own) said_.push_back({reading.value, meaning_of(observer, reading)});
    sides_ =
        can_say_[index(Meaning::off)] || can_say_[index(Meaning::far_off)] || threshold_ ? 1 : 2;
  }

  [[nodiscard]] bool by_word() const override { return true; }
  [[nodiscard]] std::size_t shapes() const override { return sides_ * kWidths; }
  [[nodiscard]] double log_prior(std::size_t shape) const override {
    const double side = sides_ == 1 ? 0 : std::log(shape < kWidths ? 1 - kReversed : kReversed);
    return widths_[shape % kWidths].log_prior + side;
  }
  [[nodiscard]] double log_chance(double centre, std::size_t shape) const override {
    double sum = 0;
    for (const auto& [value, means] : said_)
      sum += std::log(chances(value, centre, shape)[index(means)]);
    return sum;
  }
  void forecast(std::span<const double> values, double centre, std::size_t shape,
                std::span<Forecast> out) const override {
    for (std::size_t i = 0; i < values.size(); ++i)
      out[i].words = chances(values[i], centre, shape);
  }
  [[nodiscard]] bool good(double value, double centre, std::size_t shape) const override {
    if (threshold_) {
      const double inside = good_below_ ? centre - value : value - centre;
      return inside >= 0 && inside <= reach_;
    }
    return std::abs(value - centre) <= widths_[shape % kWidths].half;
  }
  [[nodiscard]] double agreement(std::size_t i, double centre, std::size_t shape) const override {
    return chances(said_[i].first, centre, shape)[index(said_[i].second)];
  }

 private:
  using Words = std::array<double, kMostWords>;

  [[nodiscard]] Words chances(double value, double centre, std::size_t shape) const {
    const double half = widths_[shape % kWidths].half;
    const double u = (value - centre) / (shape < kWidths ? half : -half);
    Words words{};
    if (threshold_)
      over_the_edge(words, u);
    else
      around_the_window(words, u);
    for (std::size_t i = 0; i < words.size(); ++i)
      if (can_say_[i]) words[i] = (1 - kSlip) * words[i] + kSlip / sayable_;
    return words;
  }
  static Meaning meaning_of(const catalogue::Observer& observer, const Reading& reading) {
    for (const auto& judged : observer.words)
      if (judged.word == reading.word) return judged.means;
    ensure(false, "readings were checked before");
    return Meaning::unknown;
  }
  /// Puts `chance` on `far` and `near` as the distance says; on one of them where the other is no
  /// word of this observer.
  void share(Words& words, Meaning near, Meaning far, double chance, double far_share) const {
    if (!can_say_[index(far)]) far_share = 0;
    if (!can_say_[index(near)]) far_share = 1;
    words[index(near)] += chance * (1 - far_share);
    words[index(far)] += chance * far_share;
  }
  void around_the_window(Words& words, double u) const {
    const double distance = std::log(std::abs(u) + 1e-12);
    const double broken = logistic(distance / kSoftGood);
    const double far = kFarSaid * logistic((distance - std::log(kFar)) / kSoftFar);
    words[index(Meaning::good)] = 1 - broken;
    if (sides_ == 1)
      share(words, Meaning::off, Meaning::far_off, broken, far);
    else if (u < 0)
      share(words, Meaning::below, Meaning::far_below, broken, far);
    else
      share(words, Meaning::above, Meaning::far_above, broken, far);
  }
  void over_the_edge(Words& words, double u) const {
    const double broken = logistic(good_below_ ? u : -u);
    words[index(Meaning::good)] = 1 - broken;
    const double far = logistic(std::abs(u) - 2 * kFar);
    if (good_below_)
      share(words, Meaning::above, Meaning::far_above, broken, far);
    else
      share(words, Meaning::below, Meaning::far_below, broken, far);
  }

  std::vector<Width> widths_;
  bool threshold_;
  std::array<bool, kMostWords> can_say_{};
  double sayable_ = 0;
  bool good_below_ = false;
  double reach_ = 0;  // how far on the good side of a threshold is still a good value
  std::size_t sides_ = 1;
  std::vector<std::pair<double, Meaning>> said_;
};

}  // namespace

std::unique_ptr<ResponseModel> judged_words(const catalogue::Observer& observer, const Scale& scale,
                                            const std::vector<Reading>& own) {
  return std::make_unique<JudgedWords>(observer, scale, own);
}

}  // namespace benchgraft::align
