// Three-valued logic: what is not recorded is neither true nor false.
#pragma once

namespace benchgraft {

enum class Tri { no, unknown, yes };

constexpr Tri tri(bool holds) { return holds ? Tri::yes : Tri::no; }
constexpr Tri both(Tri a, Tri b) { return a < b ? a : b; }
constexpr Tri either(Tri a, Tri b) { return a < b ? b : a; }
constexpr Tri negated(Tri a) { return a == Tri::yes ? Tri::no : a == Tri::no ? Tri::yes : a; }

}  // namespace benchgraft
