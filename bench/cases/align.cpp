// How fast a setting is estimated, with the error of the value beside the time: every kind of
// response over its whole range, and a wheel by words.
#include <cmath>

#include <benchmark/benchmark.h>

#include "align/estimate.hpp"
#include "align/pixel_shift.hpp"
#include "align/wheel_setting.hpp"

namespace benchgraft::align {
namespace {

catalogue::Observer observer(catalogue::Response response) {
  using catalogue::Meaning;
  catalogue::Observer out;
  out.name = "it";
  out.response = response;
  out.best = catalogue::Best::highest;
  out.error_share = 0.03;
  out.wanted = 0;
  if (response == catalogue::Response::window)
    out.words = {{"below", Meaning::below}, {"good", Meaning::good}, {"above", Meaning::above}};
  else if (response == catalogue::Response::threshold)
    out.words = {{"good", Meaning::good}, {"above", Meaning::above}};
  else
    out.unit = "lux";
  return out;
}

/// What is read at `value` when 120 is right.
Reading reading(catalogue::Response response, double value) {
  using catalogue::Response;
  const double off = value - 120;
  switch (response) {
    case Response::window:
      return {"it", value, off < -10 ? "below" : off > 10 ? "above" : "good", {}, {}};
    case Response::threshold:
      return {"it", value, off > 0 ? "above" : "good", {}, {}};
    case Response::peak:
      return {"it", value, "", 50 + 50 / std::cosh(off / 20), {}};
    default:
      return {"it", value, "", 0.4 * off, {}};
  }
}

void estimate_one(benchmark::State& state, catalogue::Response response) {
  Question question;
  question.setting.name = "setting";
  question.setting.range = catalogue::Range{0, 255};
  question.setting.step = 1;
  question.setting.observers = {observer(response)};
  for (const double value : {20.0, 200.0, 60.0, 140.0, 118.0, 121.0})
    question.readings.push_back(reading(response, value));
  for (auto _ : state) benchmark::DoNotOptimize(estimate(question));
  state.counters["error"] = std::abs(estimate(question).value().value - 120);
}
BENCHMARK_CAPTURE(estimate_one, window, catalogue::Response::window)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(estimate_one, peak, catalogue::Response::peak)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(estimate_one, line, catalogue::Response::line)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(estimate_one, threshold, catalogue::Response::threshold)
    ->Unit(benchmark::kMillisecond);

/// Bars said by the model itself, so the error is that of words and steps alone.
void wheel_by_words(benchmark::State& state) {
  WheelQuestion question;
  question.wheel = wheel_of("RGBRGB").value();
  question.scale = {0, 255, 1};
  for (const double value : {90.0, 150.0, 120.0, 135.0}) {
    BarsAt look{value, {}};
    for (const Hue bar : kBars) {
      const auto light = bar_light(question.wheel, bar, 0.8 * (value - 120)).light;
      look.bars.push_back({bar, std::string(colour_word(light)), {}, {}});
    }
    question.looks.push_back(look);
  }
  for (auto _ : state) benchmark::DoNotOptimize(estimate_wheel(question));
  state.counters["error"] = std::abs(estimate_wheel(question).value().setting.value - 120);
}
BENCHMARK(wheel_by_words)->Unit(benchmark::kMillisecond);

/// The forward model of the wheel over a whole turn, in steps of one degree.
void wheel_over_a_turn(benchmark::State& state) {
  const Wheel wheel = wheel_of("RGBRGB").value();
  for (auto _ : state)
    for (int late = -180; late < 180; ++late)
      for (const Hue bar : kBars) benchmark::DoNotOptimize(bar_light(wheel, bar, late).light);
}
BENCHMARK(wheel_over_a_turn)->Unit(benchmark::kMillisecond);

/// Displacement over the whole range of the gain byte.
void pixel_shift_over_its_gain(benchmark::State& state) {
  for (auto _ : state)
    for (int byte = 0; byte < 256; ++byte)
      benchmark::DoNotOptimize(displacement({byte / 128.0, 0.25, 0}));
}
BENCHMARK(pixel_shift_over_its_gain)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace benchgraft::align
