#include "align/wheel_delay.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/text.hpp"

namespace benchgraft::align {
namespace {

constexpr std::size_t kDelays = 360;       // over one period
constexpr double kExchangedBefore = 0.05;  // chance of each exchange before anything is seen
constexpr double kSure = 0.9, kTooOpen = 0.3;
constexpr double kShiftOfFaint = 0.002;

Error bad(std::string message) { return {ErrorKind::bad_input, std::move(message)}; }

/// Which windows a bar's data opens: its own, or, with two colours exchanged, the other one's.
struct Order {
  std::optional<std::pair<Hue, Hue>> exchanged;
  [[nodiscard]] Hue window_of(Hue bar) const {
    if (exchanged && bar == exchanged->first) return exchanged->second;
    if (exchanged && bar == exchanged->second) return exchanged->first;
    return bar;
  }
};
const std::array<Order, 4> kOrders{{{std::nullopt},
                                    {{{Hue::red, Hue::green}}},
                                    {{{Hue::green, Hue::blue}}},
                                    {{{Hue::red, Hue::blue}}}}};

/// The light of the three windows at one delay.
using Windows = std::array<Xyz, 3>;

Windows windows_at(const Wheel& wheel, double late) {
  Windows windows;
  for (std::size_t i = 0; i < windows.size(); ++i)
    windows[i] = bar_light(wheel, kBars[i], late).light;
  return windows;
}

std::size_t index_of(Hue bar) {
  return static_cast<std::size_t>(std::find(kBars.begin(), kBars.end(), bar) - kBars.begin());
}

double log_chance_of_word(const std::string& word, const std::vector<double>& chances,
                          const std::vector<std::string>& words) {
  for (std::size_t i = 0; i < words.size(); ++i)
    if (words[i] == word) return std::log(chances[i]);
  return 0;
}

/// Lux of several bars against each other; what the meter is off by all over falls out.
double log_chance_of_lux(std::span<const SeenBar> bars, const Windows& windows, const Order& order,
                         const BarErrors& errors) {
  const double error = std::hypot(errors.lux_share, errors.primary_luminance);
  double sum = 0, squares = 0;
  int count = 0;
  for (const auto& seen : bars) {
    if (!seen.lux) continue;
    const double off = std::log(*seen.lux / windows[index_of(order.window_of(seen.bar))].y);
    sum += off, squares += off * off, ++count;
  }
  return count < 2 ? 0 : -(squares - sum * sum / count) / (2 * error * error);
}

/// Log chance of what was seen of each bar, if its data opens each of the three windows.
using Pairs = std::vector<std::array<double, 3>>;

Pairs log_chances(std::span<const SeenBar> bars, const Windows& windows, const BarErrors& errors,
                  const std::vector<std::string>& words) {
  Pairs pairs(bars.size());
  for (std::size_t w = 0; w < windows.size(); ++w) {
    const bool spoken = std::any_of(bars.begin(), bars.end(),
                                    [](const SeenBar& seen) { return !seen.word.empty(); });
    const auto chances = spoken ? word_chances(windows[w]) : std::vector<double>{};
    for (std::size_t b = 0; b < bars.size(); ++b) {
      if (bars[b].light) pairs[b][w] += log_chance_of_colour(*bars[b].light, windows[w], errors);
      if (!bars[b].word.empty()) pairs[b][w] += log_chance_of_word(bars[b].word, chances, words);
    }
  }
  return pairs;
}

/// Chances by order and delay; they add up to 1.
struct Weighed {
  std::vector<double> delays;
  std::array<std::vector<double>, 4> chances;
  [[nodiscard]] double of_order(std::size_t order) const {
    double sum = 0;
    for (const double chance : chances[order]) sum += chance;
    return sum;
  }
};

Weighed weigh(const Wheel& wheel, std::span<const SeenBar> bars, const BarErrors& errors) {
  const double turn = period(wheel);
  const auto words = colour_words();
  Weighed out;
  for (auto& chances : out.chances) chances.assign(kDelays, -INFINITY);
  for (std::size_t d = 0; d < kDelays; ++d)
    out.delays.push_back(turn * (static_cast<double>(d) / kDelays - 0.5));

  // Three spokes stand for what is believed of the one in this wheel: -1.2, 0, +1.2 errors.
  for (const double off : {-1.2, 0.0, 1.2}) {
    Wheel like = wheel;
    like.spoke *= 1 + off * errors.spoke_share;
    if (!check(like)) continue;
    for (std::size_t d = 0; d < kDelays; ++d) {
      const Windows windows = windows_at(like, out.delays[d]);
      const Pairs pairs = log_chances(bars, windows, errors, words);
      for (std::size_t o = 0; o < kOrders.size(); ++o) {
        double chance = log_chance_of_lux(bars, windows, kOrders[o], errors) +
                        std::log(o == 0 ? 1 - 3 * kExchangedBefore : kExchangedBefore);
        for (std::size_t b = 0; b < bars.size(); ++b)
          chance += pairs[b][index_of(kOrders[o].window_of(bars[b].bar))];
        double& held = out.chances[o][d];
        const double most = std::max(held, chance);
        held = most + std::log(std::exp(held - most) + std::exp(chance - most));
      }
    }
  }
  double most = -INFINITY, sum = 0;
  for (const auto& chances : out.chances)
    most = std::max(most, *std::max_element(chances.begin(), chances.end()));
  for (auto& chances : out.chances)
    for (double& chance : chances) sum += chance = std::exp(chance - most);
  for (auto& chances : out.chances)
    for (double& chance : chances) chance /= sum;
  return out;
}

/// Most likely delay, the shortest stretch around it that holds nine tenths, and the spread in it.
/// The stretch may run over the end of the period: then it goes on beyond it.
void find_delay(Diagnosis& out, const Weighed& weighed, double turn) {
  const auto& chances = weighed.chances[0];
  const auto count = static_cast<long>(kDelays);
  const auto at = [&](long i) {
    return chances[static_cast<std::size_t>((i % count + count) % count)];
  };
  const double all = weighed.of_order(0), cell = turn / kDelays;
  const long best = std::max_element(chances.begin(), chances.end()) - chances.begin();
  long low = best, high = best;
  double held = at(best);
  while (held < kSure * all && high - low + 1 < count)
    held += at(low - 1) >= at(high + 1) ? at(--low) : at(++high);

  double sum = 0, squares = 0;
  for (long i = low; i <= high; ++i) {
    const double off = static_cast<double>(i - best) * cell;
    sum += at(i) * off, squares += at(i) * off * off;
  }
  const double mean = sum / held, middle = weighed.delays[static_cast<std::size_t>(best)];
  out.late = middle + mean;
  out.interval = {middle + (static_cast<double>(low - best) - 0.5) * cell,
                  middle + (static_cast<double>(high - best) + 0.5) * cell};
  // A stretch of nine tenths of a normal distribution holds 0.79 of its spread.
  out.standard_error = std::sqrt(std::max(0.0, squares / held - mean * mean)) / 0.79;
}

/// Every exchange looks like another one a segment later; told is the one seen nearest to no delay.
std::size_t likeliest_exchange(const Weighed& weighed, const Wheel& wheel) {
  const double near = 180 / static_cast<double>(wheel.segments.size());
  std::size_t likeliest = 1;
  double most = -1;
  for (std::size_t o = 1; o < kOrders.size(); ++o) {
    double sum = 0;
    for (std::size_t d = 0; d < kDelays; ++d)
      if (std::abs(weighed.delays[d]) <= near) sum += weighed.chances[o][d];
    if (sum > most) most = sum, likeliest = o;
  }
  return likeliest;
}

std::string degrees_text(double degrees) { return fmt::format("{:.0f}", std::abs(degrees)); }

std::string told(const Diagnosis& out, const Wheel& wheel) {
  const std::string side = out.late > 0 ? "late" : "early";
  switch (out.fault) {
    case WheelFault::none:
      return fmt::format(
          "No error is seen: the data is right within {} degrees of wheel turn.",
          degrees_text(std::max(std::abs(out.interval.low), std::abs(out.interval.high))));
    case WheelFault::late:
    case WheelFault::early:
      return fmt::format(
          "The data comes {} degrees of wheel turn {} ({:.0f} microseconds): the "
          "delay setting cures it.",
          degrees_text(out.late), side, std::abs(microseconds(out.late, wheel.turns_per_second)));
    case WheelFault::segments_off:
      return fmt::format(
          "The data comes {} degrees {}, {}: each bar shows another bar's colour, in a ring. The "
          "delay setting cures it, or moving the mark where its range ends too early.",
          degrees_text(out.late), side,
          std::abs(out.segments) == 1 ? "about one segment"
                                      : fmt::format("about {} segments", std::abs(out.segments)));
    case WheelFault::exchanged:
      return fmt::format(
          "{} and {} are exchanged: this wheel runs in another order than the board sends. No "
          "delay "
          "and no mark cures that; wheel and board of one set belong together.",
          capitalised(std::string(name_of(out.pair->first))), name_of(out.pair->second));
    case WheelFault::unclear:
      break;
  }
  return "The bars do not say enough yet: show red, green and blue, one after the other, and give "
         "the "
         "colour of all three.";
}

void judge(Diagnosis& out, const Wheel& wheel, std::size_t bars) {
  const double segment = 360 / static_cast<double>(wheel.segments.size());
  out.segments = static_cast<int>(std::lround(out.late / segment));
  // A ring and an exchange look alike in one bar.
  const bool open =
      out.interval.high - out.interval.low > 0.9 * segment || (out.segments != 0 && bars < 2);
  if (out.exchanged >= kSure) {
    out.fault = WheelFault::exchanged;
  } else if (out.exchanged > kTooOpen || open) {
    out.fault = WheelFault::unclear;
  } else {
    out.curable = true;
    if (out.segments != 0)
      out.fault = WheelFault::segments_off;
    else if (std::abs(out.late) <= clean_within(wheel) ||
             (out.interval.low < 0 && out.interval.high > 0))
      out.fault = WheelFault::none;
    else
      out.fault = out.late > 0 ? WheelFault::late : WheelFault::early;
  }
  out.sentence = told(out, wheel);
}

Result<void> check(const SeenBar& seen, const std::vector<std::string>& words) {
  const auto name = name_of(seen.bar);
  if (seen.bar == Hue::white)
    return bad(
        "A white field looks the same at every delay and proves nothing; show pure red, green "
        "and blue bars.");
  if (index_of(seen.bar) == kBars.size())
    return bad(fmt::format("A {} bar is not used; show pure red, green and blue bars.", name));
  if (!seen.word.empty() && !contains(words, seen.word))
    return bad(fmt::format("\"{}\" is no word for the colour of the {} bar; say one of: {}.",
                           seen.word, name, listed(words, " or ")));
  if (seen.lux && !(std::isfinite(*seen.lux) && *seen.lux > 0))
    return bad(fmt::format("{:g} lux on the {} bar cannot be; the reading must be above 0.",
                           *seen.lux, name));
  if (seen.light) {
    const auto& light = *seen.light;
    const double sum = light.x + light.y + light.z;
    const double faint = -kShiftOfFaint * sum;
    if (!std::isfinite(sum) || !(sum > 0) || light.x < faint || light.y < faint || light.z < faint)
      return bad(fmt::format("The colour measured on the {} bar cannot be; take it again.", name));
  }
  return {};
}

}  // namespace

double log_chance_of_colour(const Xyz& measured, const Xyz& expected, const BarErrors& errors) {
  const double error = std::hypot(errors.colour, errors.primary_colour);
  const double a = measured.x + measured.y + measured.z, b = expected.x + expected.y + expected.z;
  const double dx = (measured.x / a - expected.x / b) / error;
  const double dy = (measured.y / a - expected.y / b) / error;
  return -2.5 * std::log1p((dx * dx + dy * dy) / 4);
}

double clean_within(const Wheel& wheel, double share) {
  double within = 360;
  for (const auto& segment : wheel.segments) {
    const double length = segment.degrees - wheel.spoke - 2 * wheel.guard;
    within = std::min(within, error_of_share(share, length, wheel.spoke, wheel.guard));
  }
  return within;
}

Result<void> check_bars(std::span<const SeenBar> bars) {
  const auto words = colour_words();
  if (bars.empty()) return bad("No bar was seen; show pure red, green and blue bars.");
  for (std::size_t i = 0; i < bars.size(); ++i) {
    if (const auto good = check(bars[i], words); !good) return good;
    for (std::size_t j = 0; j < i; ++j)
      if (bars[j].bar == bars[i].bar)
        return bad(fmt::format("The {} bar is given twice; keep one.", name_of(bars[i].bar)));
  }
  return {};
}

Result<Diagnosis> diagnose(const Wheel& wheel, std::span<const SeenBar> bars,
                           const BarErrors& errors) {
  if (const auto good = check(wheel); !good) return good.error();
  if (const auto good = check_bars(bars); !good) return good.error();
  const Weighed weighed = weigh(wheel, bars, errors);
  Diagnosis out;
  out.exchanged = 1 - weighed.of_order(0);
  if (out.exchanged > kTooOpen) out.pair = kOrders[likeliest_exchange(weighed, wheel)].exchanged;
  find_delay(out, weighed, period(wheel));
  judge(out, wheel, bars.size());
  return out;
}

}  // namespace benchgraft::align
