// How long something has run: time limits need it; nothing that is proven depends on it.
#pragma once

#include <chrono>

namespace benchgraft::num {

class Stopwatch {
 public:
  [[nodiscard]] double seconds() const {
    return std::chrono::duration<double>(now() - start_).count();
  }

 private:
  using Clock = std::chrono::steady_clock;
  static Clock::time_point now() {
    return std::chrono::steady_clock::now();  // core: a time limit cannot be kept without a clock
  }
  Clock::time_point start_ = now();
};

}  // namespace benchgraft::num
