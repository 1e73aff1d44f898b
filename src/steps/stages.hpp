// The stages of the work, each written onto the end of the order. Their sentences are common
// practice of the trade, no source, except where docs/decisions/0004-order-of-work.md names one.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "steps/handling.hpp"
#include "steps/site.hpp"
#include "steps/steps.hpp"

namespace benchgraft::steps {

using Steps = std::vector<Step>;

inline constexpr double kPieceMinutes = 3;  ///< to fit, take off or move one piece; assumed
inline constexpr const char* kCutAlways =
    "smoke, a smell, arcing, a humming or hissing part, or anything that gets hot fast";

inline Step step(Stage stage, std::string title, std::optional<double> minutes) {
  Step made;
  made.stage = stage;
  made.title = std::move(title);
  made.work_minutes = minutes;
  return made;
}

// before_power.cpp, fetching.cpp, on_the_bench.cpp: nothing here has mains on it.
void read_first(const Site& site, Steps& steps);
void fetch(const Site& site, Steps& steps);
void make_safe(const Site& site, const Handling& handling, Steps& steps);
void open(const Site& site, Steps& steps);
void take_out(const Site& site, const Handling& handling, Steps& steps);
void on_the_bench(const Site& site, const Handling& handling, Steps& steps);
void put_in(const Site& site, const Handling& handling, Steps& steps);

// joins.cpp
/// What is plugged together once `put_in[at]` is in, because everything it joins is in by then.
std::vector<Statement> joins(const Site& site, const Handling& handling, std::size_t at);
/// "CN3 of PS-1 and CN5 of MB-2 take the same plug: mark both ends of each lead."
std::vector<Statement> alike_plugs(const Site& site, const Handling& handling, std::size_t at);

// with_power.cpp, adjusting.cpp, proving.cpp
void close(const Site& site, Steps& steps);
void cold_tests(const Site& site, Steps& steps);
void first_power(const Site& site, Steps& steps);
void adjust(const Site& site, Steps& steps);
void prove(const Site& site, Steps& steps);
void hand_over(const Site& site, Steps& steps);

// marks.cpp
/// Puts each caution on the steps of its roles, and those without roles on the opening.
void place_cautions(const Site& site, Steps& steps);
/// Puts each "not before" where the thing is joined, and where it meets power.
void place_not_before(const fit::Judgement& judged, Steps& steps);

}  // namespace benchgraft::steps
