// Touch current to expect from Y capacitors, as an interval.
#pragma once

namespace benchgraft::fit {

/// mA rms: `low` at -20 % capacitance and nominal mains, `nominal`, `high` at +20 % and mains +10
/// %.
struct Milliampere {
  double low = 0, nominal = 0, high = 0;
};

/// Current through `nanofarad` from line to chassis with earth open: I = 2 pi f C V.
/// The tolerance of 20 % is usual (from memory). Gives no pass: only "will fail" or "measure".
Milliampere y_capacitor_current(double nanofarad, double volts, double hertz);

}  // namespace benchgraft::fit
