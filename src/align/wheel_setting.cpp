#include "align/wheel_setting.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/text.hpp"

namespace benchgraft::align {
namespace {

constexpr std::size_t kDelays = 360, kSlopes = 24;
// What the whole range of a setting may turn, where nothing is recorded.
constexpr double kLeastTurn = 20, kMostTurn = 720;
constexpr double kReversed = 0.15;
constexpr double kSlopeError = 0.1;
constexpr double kOut = -600;  // log chance of what cannot be
constexpr std::size_t kMostLooks = 60;

/// Everything a bar shows, at every delay of one period.
struct BarTable {
  std::vector<std::array<double, kMostWords>> words;  // log chances, by place in colour_words()
  std::vector<double> log_luminance;
  std::vector<double> luminance_error;  // of its logarithm, from not knowing the segments' lights
  std::vector<Xyz> light;
};

/// Share of a bar's luminance by which it hangs on other segments than its own.
double mixed_in(const Wheel& wheel, Hue bar, const BarLight& seen) {
  double other = 0;
  for (std::size_t i = 0; i < seen.degrees.size(); ++i)
    if (wheel.segments[i].hue != bar) other += seen.degrees[i] * wheel.segments[i].light.y;
  return other / seen.light.y;
}

BarTable table_of(const Wheel& wheel, Hue bar, const BarErrors& errors) {
  BarTable table;
  for (std::size_t d = 0; d < kDelays; ++d) {
    const double late = period(wheel) * (static_cast<double>(d) / kDelays - 0.5);
    const BarLight seen = bar_light(wheel, bar, late);
    table.light.push_back(seen.light);
    table.log_luminance.push_back(std::log(seen.light.y));
    table.luminance_error.push_back(1.41 * errors.primary_luminance * mixed_in(wheel, bar, seen));
    const auto chances = word_chances(seen.light);
    auto& logs = table.words.emplace_back();
    for (std::size_t w = 0; w < logs.size(); ++w) logs[w] = std::log(chances[w]);
  }
  return table;
}

class WheelResponse : public ResponseModel {
 public:
  explicit WheelResponse(const WheelQuestion& question)
      : question_(question), words_(colour_words()), turn_(period(question.wheel)) {
    for (std::size_t b = 0; b < kBars.size(); ++b)
      tables_[b] = table_of(question.wheel, kBars[b], question.errors);
    from_ = question.start.value_or(question.looks.empty() ? question.scale.low
                                                           : question.looks.front().value);
    set_slopes();
    for (const auto& look : question.looks)
      for (const auto& seen : look.bars) by_word_ = by_word_ || !seen.word.empty();
    clean_ = clean_within(question.wheel, by_word_ ? kShareSeen : kCleanShare);
  }

  [[nodiscard]] bool by_word() const override { return by_word_; }
  [[nodiscard]] std::size_t shapes() const override { return slopes_.size(); }
  [[nodiscard]] double log_prior(std::size_t shape) const override {
    return slopes_[shape].log_prior;
  }
  [[nodiscard]] double log_chance(double centre, std::size_t shape) const override {
    if (std::abs((centre - from_) * slopes_[shape].slope) > turn_ / 2) return kOut;
    double sum = 0;
    std::array<LuxSums, 3> lux;
    for (const auto& look : question_.looks) {
      const std::size_t d = place(look.value, centre, shape);
      for (const auto& seen : look.bars) sum += of_bar(seen, d, lux);
    }
    for (const auto& bar : lux) sum += bar.log_chance();
    return sum;
  }
  void forecast(std::span<const double> values, double centre, std::size_t shape,
                std::span<Forecast> out) const override {
    const BarTable& table = tables_[by_word_ ? 0 : 2];  // what red is called, how bright blue is
    for (std::size_t i = 0; i < values.size(); ++i) {
      const std::size_t d = place(values[i], centre, shape);
      for (std::size_t w = 0; w < words_.size(); ++w) out[i].words[w] = std::exp(table.words[d][w]);
      out[i].mean = table.log_luminance[d];
      out[i].variance =
          std::pow(question_.errors.lux_share, 2) + std::pow(table.luminance_error[d], 2);
    }
  }
  [[nodiscard]] bool good(double value, double centre, std::size_t shape) const override {
    const double late = (value - centre) * slopes_[shape].slope;
    return std::abs(late - turn_ * std::round(late / turn_)) <= clean_;
  }
  [[nodiscard]] double agreement(std::size_t index, double centre,
                                 std::size_t shape) const override {
    const auto& look = question_.looks[index];
    double least = 1;
    for (const auto& seen : look.bars)
      if (!seen.word.empty())
        least = std::min(
            least,
            std::exp(
                tables_[bar_place(seen.bar)].words[place(look.value, centre, shape)][word(seen)]));
    return least;
  }
  [[nodiscard]] double slope_of(std::size_t shape) const { return slopes_[shape].slope; }

 private:
  struct SlopeShape {
    double slope = 0, log_prior = 0;
  };
  /// Readings of one bar against the model; how bright it is at all is taken out.
  struct LuxSums {
    double weight = 0, off = 0, squares = 0, logs = 0;
    void add(double difference, double variance) {
      weight += 1 / variance, off += difference / variance;
      squares += difference * difference / variance, logs += std::log(variance);
    }
    [[nodiscard]] double log_chance() const {
      if (weight <= 0) return 0;
      return -0.5 * (squares - off * off / weight + logs + std::log(weight));
    }
  };

  void set_slopes() {
    if (question_.degrees_per_unit) {
      for (const double off : {-1.2, 0.0, 1.2})
        slopes_.push_back({*question_.degrees_per_unit * (1 + kSlopeError * off), 0});
      return;
    }
    const double span = question_.scale.span();
    for (const double side : {1.0, -1.0})
      for (std::size_t i = 0; i < kSlopes; ++i) {
        const double share = static_cast<double>(i) / (kSlopes - 1);
        slopes_.push_back({side * kLeastTurn / span * std::pow(kMostTurn / kLeastTurn, share),
                           std::log(side > 0 ? 1 - kReversed : kReversed)});
      }
  }
  [[nodiscard]] std::size_t place(double value, double centre, std::size_t shape) const {
    const double turns = (value - centre) * slopes_[shape].slope / turn_ + 0.5;
    const double within = turns - std::floor(turns);
    return std::min(kDelays - 1, static_cast<std::size_t>(within * kDelays + 0.5) % kDelays);
  }
  static std::size_t bar_place(Hue bar) {
    return static_cast<std::size_t>(std::find(kBars.begin(), kBars.end(), bar) - kBars.begin());
  }
  [[nodiscard]] std::size_t word(const SeenBar& seen) const {
    return static_cast<std::size_t>(std::find(words_.begin(), words_.end(), seen.word) -
                                    words_.begin());
  }
  [[nodiscard]] double of_bar(const SeenBar& seen, std::size_t d,
                              std::array<LuxSums, 3>& lux) const {
    const std::size_t b = bar_place(seen.bar);
    const BarTable& table = tables_[b];
    double sum = 0;
    if (!seen.word.empty()) sum += table.words[d][word(seen)];
    if (seen.light) sum += log_chance_of_colour(*seen.light, table.light[d], question_.errors);
    if (seen.lux)
      lux[b].add(std::log(*seen.lux) - table.log_luminance[d],
                 std::pow(question_.errors.lux_share, 2) + std::pow(table.luminance_error[d], 2));
    return sum;
  }

  const WheelQuestion& question_;
  std::vector<std::string> words_;
  double turn_, clean_ = 0, from_ = 0;
  bool by_word_ = false;
  std::array<BarTable, 3> tables_;
  std::vector<SlopeShape> slopes_;
};

/// A look is good when every bar bears its own name; lux alone is never seen good.
std::vector<Look> looks_of(const WheelQuestion& question) {
  std::vector<Look> looks;
  for (const auto& at : question.looks) {
    Look look{at.value, !at.bars.empty(), ""};
    for (const auto& seen : at.bars) {
      look.good = look.good && seen.word == name_of(seen.bar);
      look.said += (look.said.empty() ? "" : ", ") + seen.word;
    }
    looks.push_back(look);
  }
  return looks;
}

Result<void> check(const WheelQuestion& question) {
  const auto& scale = question.scale;
  if (question.looks.empty())
    return Error{ErrorKind::bad_input,
                 "No bar was seen; show pure red, green and blue bars at the present value."};
  if (question.looks.size() > kMostLooks)
    return Error{ErrorKind::limit, fmt::format("{} looks are too many; give the last {} at most.",
                                               question.looks.size(), kMostLooks)};
  if (question.degrees_per_unit && !(std::abs(*question.degrees_per_unit) > 0))
    return Error{ErrorKind::bad_input,
                 "0 degrees for one step cannot be; leave it out when it is not known."};
  for (const auto& look : question.looks) {
    if (const auto good = check_bars(look.bars); !good) return good;
    if (!(look.value >= scale.low - scale.step / 2) || !(look.value <= scale.high + scale.step / 2))
      return Error{
          ErrorKind::bad_input,
          fmt::format("The value {} lies outside the range {} to {} of the wheel index.",
                      number_text(look.value), number_text(scale.low), number_text(scale.high))};
  }
  return {};
}

Slope slope_of(const WheelResponse& wheel, const Belief& belief) {
  double sum = 0, squares = 0;
  for (const auto& state : belief.states) {
    const double slope = wheel.slope_of(state.shape);
    sum += slope, squares += slope * slope;
  }
  const double count = static_cast<double>(belief.states.size()), mean = sum / count;
  return {mean, std::sqrt(std::max(0.0, squares / count - mean * mean))};
}

}  // namespace

Result<WheelEstimate> estimate_wheel(const WheelQuestion& question) {
  if (const auto good = check(question); !good) return good.error();
  WheelEstimate out;
  auto last = diagnose(question.wheel, question.looks.back().bars, question.errors);
  if (!last) return last.error();
  out.last = std::move(last).value();
  auto made = std::make_unique<WheelResponse>(question);
  const WheelResponse& wheel = *made;
  std::vector<std::unique_ptr<ResponseModel>> models;
  models.push_back(std::move(made));
  const Belief belief = believe(models, question.scale, std::nullopt);
  const auto looks = looks_of(question);
  const bool good =
      std::any_of(looks.begin(), looks.end(), [](const Look& look) { return look.good; });
  out.setting =
      read_off(wheel, belief, question.scale, looks, wheel.by_word() ? good : looks.size() >= 3);
  out.degrees_per_unit = slope_of(wheel, belief);
  out.microseconds_per_unit =
      microseconds(out.degrees_per_unit.per_unit, question.wheel.turns_per_second);
  return out;
}

}  // namespace benchgraft::align
