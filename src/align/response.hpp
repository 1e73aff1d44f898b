// Response models: what an observer would see at one value, if the right value were known.
//
// Each model has the right value (the centre) and a few shapes: widths, slopes, sides. Numbers it
// can integrate out by formula (height and foot of a peak, slope of a line) are not shapes.
#pragma once

#include <array>
#include <cstddef>
#include <memory>
#include <span>
#include <vector>

#include "align/reading.hpp"

namespace benchgraft::align {

inline constexpr std::size_t kMostWords = 12;

/// Chances of the meanings of a word, or mean and variance of a number.
struct Forecast {
  /// By catalogue::Meaning, or by place in the observer's list of words.
  std::array<double, kMostWords> words{};
  double mean = 0;
  double variance = 0;
};

/// How much a reading changes for one unit of the setting.
struct Slope {
  double per_unit = 0;
  double error = 0;  ///< standard error
};

/// One observer of one setting, with the readings it has given.
class ResponseModel {
 public:
  virtual ~ResponseModel() = default;
  [[nodiscard]] virtual bool by_word() const = 0;
  [[nodiscard]] virtual std::size_t shapes() const = 0;
  /// Log chance of the shape before any reading.
  [[nodiscard]] virtual double log_prior(std::size_t shape) const = 0;
  /// Log chance of all readings taken, up to a constant that is the same for all centres and
  /// shapes.
  [[nodiscard]] virtual double log_chance(double centre, std::size_t shape) const = 0;
  /// What a reading at each of `values` would bring; `out` has as many places.
  virtual void forecast(std::span<const double> values, double centre, std::size_t shape,
                        std::span<Forecast> out) const = 0;
  /// Whether `value` would do.
  [[nodiscard]] virtual bool good(double value, double centre, std::size_t shape) const = 0;
  /// How well reading `index` agrees with this centre and shape: 1 fully, 0 not at all.
  [[nodiscard]] virtual double agreement(std::size_t index, double centre,
                                         std::size_t shape) const = 0;
  /// Of a line with readings at two values or more.
  [[nodiscard]] virtual std::optional<Slope> slope() const { return std::nullopt; }
};

/// The model of `observer`, fed with those of `readings` that are its own.
std::unique_ptr<ResponseModel> response_of(const catalogue::Observer& observer,
                                           const catalogue::Setting& setting, const Scale& scale,
                                           const std::vector<Reading>& readings);

// One kind of response each; response_of() chooses.
std::unique_ptr<ResponseModel> judged_words(const catalogue::Observer& observer, const Scale& scale,
                                            const std::vector<Reading>& own);
std::unique_ptr<ResponseModel> measured_peak(const catalogue::Observer& observer,
                                             const Scale& scale, const std::vector<Reading>& own);
/// `slope`: change of the reading for one unit of the setting, where it is known.
std::unique_ptr<ResponseModel> measured_line(const catalogue::Observer& observer,
                                             const Scale& scale, std::optional<double> slope,
                                             const std::vector<Reading>& own);

/// Half widths to reckon with, evenly spread in their logarithm, with what is believed of each.
struct Width {
  double half = 1;
  double log_prior = 0;
};
std::vector<Width> usual_widths(const catalogue::Observer& observer, const Scale& scale,
                                std::size_t count);

/// Standard error of a reading that shows `number`.
double reading_error(const catalogue::Observer& observer, double number);
/// The same of one reading taken: its own, where it brings one.
double reading_error(const catalogue::Observer& observer, const Reading& reading);

}  // namespace benchgraft::align
