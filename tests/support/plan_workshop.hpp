// A random room the size of a real one: generations of models, carcasses robbed and half tested,
// loose parts, things to buy.
#pragma once

#include <cstdint>

#include "plan/problem.hpp"

namespace benchgraft::test {

struct WorkshopShape {
  int sets = 26;
  int loose = 120;
  int roles = 14;
  int generations = 4;
  int grades = 12;       ///< different chances a part may have
  bool limited = false;  ///< bench hours for about half the sets
};

plan::Problem workshop(std::uint32_t seed, const WorkshopShape& shape);

}  // namespace benchgraft::test
