// Quantities as types, so that hours are never added to volts.
#pragma once

#include <compare>
#include <cstdint>

namespace benchgraft {

/// A double in one fixed unit, named by its tag.
template <class Tag>
struct Quantity {
  double value = 0;
  auto operator<=>(const Quantity&) const = default;
  friend Quantity operator+(Quantity a, Quantity b) { return {a.value + b.value}; }
  friend Quantity operator-(Quantity a, Quantity b) { return {a.value - b.value}; }
  friend Quantity operator*(double k, Quantity q) { return {k * q.value}; }
  Quantity& operator+=(Quantity other) {
    value += other.value;
    return *this;
  }
};

using Volts = Quantity<struct VoltsTag>;
using Amps = Quantity<struct AmpsTag>;
using Watts = Quantity<struct WattsTag>;
using Hours = Quantity<struct HoursTag>;
using Minutes = Quantity<struct MinutesTag>;
using Seconds = Quantity<struct SecondsTag>;
using Millimetres = Quantity<struct MillimetresTag>;
using Kilograms = Quantity<struct KilogramsTag>;
using Nanofarads = Quantity<struct NanofaradsTag>;
using Milliamps = Quantity<struct MilliampsTag>;
using Lumens = Quantity<struct LumensTag>;
using Inches = Quantity<struct InchesTag>;

/// Money in minor units of the shop's one currency.
struct Money {
  std::int64_t minor = 0;
  auto operator<=>(const Money&) const = default;
  friend Money operator+(Money a, Money b) { return {a.minor + b.minor}; }
  friend Money operator-(Money a, Money b) { return {a.minor - b.minor}; }
  Money& operator+=(Money other) {
    minor += other.minor;
    return *this;
  }
};

}  // namespace benchgraft
