// The estimator against screens it knows nothing of, from starts all over the range.
#include <algorithm>
#include <iostream>
#include <vector>

#include <gtest/gtest.h>

#include "align/estimate.hpp"
#include "shipped.hpp"
#include "simulated_screen.hpp"

namespace benchgraft::align {
namespace {

constexpr int kScreens = 150;
constexpr std::size_t kMostReadings = 14;

struct Outcome {
  std::vector<std::size_t> readings;  ///< needed until settled
  int good = 0;                       ///< settled on a value that does
  int held = 0;                       ///< settled with an interval that holds the right value
  [[nodiscard]] std::size_t part(double share) {
    std::sort(readings.begin(), readings.end());
    return readings[static_cast<std::size_t>(share * static_cast<double>(readings.size() - 1))];
  }
};

Reading look(const SimulatedScreen& screen, const std::string& observer, double value) {
  return screen.word ? said(observer, value, screen.word(value))
                     : read(observer, value, screen.number(value));
}

void adjust(const SimulatedScreen& screen, Question question, double start, Outcome& outcome) {
  double value = start;
  while (question.readings.size() < kMostReadings) {
    question.readings.push_back(look(screen, question.observer, value));
    const auto found = estimate(question);
    ASSERT_TRUE(found.ok()) << found.error().message;
    if (found.value().settled) {
      const auto& interval = found.value().interval;
      if (screen.good(found.value().value)) ++outcome.good;
      if (interval.low <= screen.right && screen.right <= interval.high) ++outcome.held;
      break;
    }
    value = found.value().next;
  }
  outcome.readings.push_back(question.readings.size());
}

Outcome adjust_many(SimulatedScreen (*make)(Random&), const Question& question) {
  Random random(20240607);
  Outcome outcome;
  const Scale scale = scale_of(question).value();
  for (int i = 0; i < kScreens; ++i) {
    const SimulatedScreen screen = make(random);
    const double start =
        scale.on_step(scale.low + scale.span() * ((i * 37) % kScreens + 0.5) / kScreens);
    adjust(screen, question, start, outcome);
  }
  std::cout << question.observer << ": median " << outcome.part(0.5) << " readings, nine in ten by "
            << outcome.part(0.9) << "; good " << outcome.good << ", interval held " << outcome.held
            << " of " << kScreens << "\n";
  return outcome;
}

Question asking(const std::string& setting, const std::string& observer) {
  Question question;
  question.setting = shipped(setting);
  question.observer = observer;
  return question;
}

void expect_six_readings(Outcome outcome, std::size_t at_most = 8) {
  EXPECT_LE(outcome.part(0.5), 6U);
  EXPECT_LE(outcome.part(0.9), at_most);
  EXPECT_GE(outcome.good, kScreens * 95 / 100);
  EXPECT_GE(outcome.held, kScreens * 85 / 100);
}

TEST(Simulation, finds_a_window_by_words_in_six_readings) {
  expect_six_readings(adjust_many(red_bar, asking("wheel index", "red bar")));
}

TEST(Simulation, finds_a_peak_by_words_in_six_readings) {
  expect_six_readings(adjust_many(fine_lines, asking("pixel shift gain", "fine lines")));
}

TEST(Simulation, finds_a_measured_peak_in_six_readings) {
  expect_six_readings(adjust_many(green_light, asking("wheel index", "green bar light")), 10);
}

TEST(Simulation, finds_a_line_through_zero_in_six_readings) {
  expect_six_readings(adjust_many(comb, asking("pixel shift gain", "photo of the comb")));
}

TEST(Simulation, finds_a_threshold_in_six_readings) {
  Question question;
  question.setting.name = "lamp power trim";
  question.setting.range = catalogue::Range{0, 255};
  question.setting.step = 1;
  question.observer = "white field";
  catalogue::Observer& observer = question.setting.observers.emplace_back();
  observer.name = question.observer;
  observer.response = catalogue::Response::threshold;
  observer.words = {{"steady", catalogue::Meaning::good}, {"flickers", catalogue::Meaning::above}};
  expect_six_readings(adjust_many(flicker, question));
}

// A test of the test: an estimator that is sure of the wrong thing must not pass.
TEST(Simulation, sees_an_observer_that_lies) {
  const auto lying = [](Random& random) {
    SimulatedScreen screen = comb(random);
    screen.number = [number = screen.number](double value) { return number(value) + 0.2; };
    return screen;
  };
  const Outcome outcome = adjust_many(lying, asking("pixel shift gain", "photo of the comb"));
  EXPECT_LT(outcome.good, kScreens / 2);
  EXPECT_LT(outcome.held, kScreens / 2);
}

}  // namespace
}  // namespace benchgraft::align
