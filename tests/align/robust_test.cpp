// Whatever is typed in, the answers are numbers inside what can be set, or one sentence.
#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "align/estimate.hpp"
#include "align/wheel_setting.hpp"
#include "shipped.hpp"

namespace benchgraft::align {
namespace {

double any_number() {
  const int kind = *rc::gen::inRange(0, 6);
  if (kind == 0) return 0;
  if (kind == 1) return *rc::gen::element(1e-12, -1e-12, 1e12, -1e12);
  return *rc::gen::inRange(-100000, 100000) / 1000.0;
}

void expect_sound(const Estimate& found, const Scale& scale) {
  RC_ASSERT(std::isfinite(found.value) && std::isfinite(found.next) && std::isfinite(found.chance));
  RC_ASSERT(found.value >= scale.low && found.value <= scale.high);
  RC_ASSERT(found.next >= scale.low && found.next <= scale.high);
  RC_ASSERT(found.chance >= 0 && found.chance <= 1);
  RC_ASSERT(std::isfinite(found.interval.low) && std::isfinite(found.interval.high));
  RC_ASSERT(found.interval.low <= found.interval.high);
  if (found.band) RC_ASSERT(found.band->low <= found.value && found.value <= found.band->high);
  if (found.slope) RC_ASSERT(std::isfinite(found.slope->per_unit));
}

RC_GTEST_PROP(Robust, any_readings_of_any_shipped_observer_give_a_sound_answer, ()) {
  Question question;
  question.setting =
      shipped(*rc::gen::element(std::string("wheel index"), std::string("pixel shift gain")));
  const auto& observers = question.setting.observers;
  const Scale scale = scale_of(question).value();
  for (int i = *rc::gen::inRange(0, 8); i > 0; --i) {
    const auto& observer = *rc::gen::elementOf(observers);
    const double value = scale.on_step(scale.low + scale.span() * *rc::gen::inRange(0, 101) / 100);
    if (observer.words.empty())
      question.readings.push_back(read(observer.name, value, any_number()));
    else
      question.readings.push_back(
          said(observer.name, value, (*rc::gen::elementOf(observer.words)).word));
  }
  const auto found = estimate(question);
  RC_ASSERT(found.ok());
  expect_sound(found.value(), scale);
}

RC_GTEST_PROP(Robust, numbers_without_any_error_stated_give_a_sound_answer, ()) {
  using catalogue::Response;
  Question question;
  question.setting.name = "any";
  question.setting.range = catalogue::Range{-3, *rc::gen::element(-2.0, 5.0, 4000.0)};
  question.setting.step = *rc::gen::element(0.01, 0.1, 0.5);
  auto& observer = question.setting.observers.emplace_back();
  observer.name = "it";
  observer.response = *rc::gen::element(Response::peak, Response::line, Response::threshold);
  observer.unit = "lux";
  observer.best = *rc::gen::element(catalogue::Best::highest, catalogue::Best::lowest);
  observer.wanted = any_number();
  if (*rc::gen::arbitrary<bool>()) observer.tolerance = 0.5;
  const Scale scale = scale_of(question).value();
  for (int i = *rc::gen::inRange(0, 7); i > 0; --i)
    question.readings.push_back(read(
        "it", scale.on_step(scale.low + scale.span() * *rc::gen::inRange(0, 5) / 4), any_number()));
  const auto found = estimate(question);
  RC_ASSERT(found.ok());
  expect_sound(found.value(), scale);
}

RC_GTEST_PROP(Robust, any_words_and_lux_on_a_wheel_give_a_sound_answer, ()) {
  WheelQuestion question;
  question.wheel =
      wheel_of(*rc::gen::element(std::string("RGB"), std::string("RGBRGB"), std::string("RGBW")))
          .value();
  question.scale = {0, 255, 1};
  if (*rc::gen::inRange(0, 3) == 0) question.degrees_per_unit = *rc::gen::element(-30.0, 0.01, 1.5);
  const auto words = colour_words();
  for (int i = *rc::gen::inRange(1, 4); i > 0; --i) {
    BarsAt look{static_cast<double>(*rc::gen::inRange(0, 256)), {}};
    for (const Hue bar : kBars) {
      SeenBar seen{bar, "", {}, {}};
      if (*rc::gen::arbitrary<bool>()) seen.word = *rc::gen::elementOf(words);
      if (*rc::gen::arbitrary<bool>()) seen.lux = std::abs(any_number()) + 1e-9;
      look.bars.push_back(seen);
    }
    question.looks.push_back(look);
  }
  const auto found = estimate_wheel(question);
  RC_ASSERT(found.ok());
  expect_sound(found.value().setting, question.scale);
  RC_ASSERT(std::isfinite(found.value().last.late));
  RC_ASSERT(!found.value().last.sentence.empty());
}

}  // namespace
}  // namespace benchgraft::align
