// What is asked of the estimator: a setting, how it is judged, and what was seen so far.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "catalogue/knowledge.hpp"

namespace benchgraft::align {

/// The values a setting can be put to: `low`, `low + step`, ... `high`.
struct Scale {
  double low = 0;
  double high = 0;
  double step = 1;
  [[nodiscard]] double span() const { return high - low; }
  /// The nearest value that can be set.
  [[nodiscard]] double on_step(double value) const;
};

/// One look at the screen: the value that was set and what the observer then said.
struct Reading {
  std::string observer;
  double value = 0;              ///< of the setting
  std::string word;              ///< what was said, where the observer speaks in words
  std::optional<double> number;  ///< what was read, where it reads a number
  std::optional<double> error;   ///< standard error of this number, where it brings its own
  bool operator==(const Reading&) const = default;
};

/// Everything an estimate hangs on.
struct Question {
  catalogue::Setting setting;
  std::optional<catalogue::Range> own_range;  ///< of this set, where it differs from the kind's
  std::optional<double> own_step;
  std::string observer;               ///< who is asked next; "" = the one asked last
  std::optional<double> start;        ///< where the setting stands, or a value found before
  std::optional<double> start_error;  ///< how far the right value may be from it; standard error
  std::vector<Reading> readings;
};

/// fails: no range or step recorded, or one that leaves no choice.
Result<Scale> scale_of(const Question& question);

/// The observer called `name`. fails: no such observer; the message lists those there are.
Result<const catalogue::Observer*> observer_of(const catalogue::Setting& setting,
                                               const std::string& name);

/// fails: a value off the range, a word the observer does not know, a word where a number is
/// read or the other way round, more than 200 readings.
Result<void> check_readings(const Question& question, const Scale& scale);

/// A number as the technician writes it: no more digits than it has.
std::string number_text(double number);

}  // namespace benchgraft::align
