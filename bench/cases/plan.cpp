// How fast and how close a room is planned: column generation beside the whole room as one integer
// program with the same time, on the same random rooms.
#include <benchmark/benchmark.h>

#include "plan/columns.hpp"
#include "support/plan_compact.hpp"
#include "support/plan_workshop.hpp"

namespace benchgraft {
namespace {

constexpr double kSeconds = 15;
constexpr int kPieces = 8;  // of log chance, in the one program

test::WorkshopShape shape_of(const benchmark::State& state) {
  test::WorkshopShape shape;
  shape.sets = static_cast<int>(state.range(0));
  shape.loose = static_cast<int>(state.range(1));
  shape.limited = state.range(3) != 0;
  return shape;
}

void say(benchmark::State& state, const plan::Answer& answer) {
  state.counters["seed"] = static_cast<double>(state.range(2));
  state.counters["value"] = answer.value;
  state.counters["bound"] = answer.bound;
  state.counters["gap_%"] = 100 * (answer.bound - answer.value) / std::max(1.0, answer.bound);
  state.counters["built"] = static_cast<double>(answer.best.built.size());
}

void plan_by_columns(benchmark::State& state) {
  const auto room = test::workshop(static_cast<std::uint32_t>(state.range(2)), shape_of(state));
  plan::Answer best;
  for (auto _ : state) {
    auto answer = plan::plan_by_columns(room, {kSeconds, 2'000'000'000, 0.5});
    if (!answer) return state.SkipWithError(answer.error().message.c_str());
    best = std::move(answer).value();
  }
  say(state, best);
}

void plan_by_one_program(benchmark::State& state) {
  const auto room = test::workshop(static_cast<std::uint32_t>(state.range(2)), shape_of(state));
  plan::Answer best;
  for (auto _ : state) {
    auto answer = test::plan_by_one_program(room, kPieces, kSeconds);
    if (!answer) return state.SkipWithError(answer.error().message.c_str());
    best = std::move(answer).value();
  }
  say(state, best);
}

// Sets, loose parts, seed, bench hours limited or not. 14 roles each.
void rooms(benchmark::internal::Benchmark* bench) {
  bench->ArgNames({"sets", "loose", "seed", "limited"})->Unit(benchmark::kMillisecond);
  bench->Iterations(1);
  for (const int seed : {1, 2, 3}) bench->Args({26, 120, seed, 0});
  bench->Args({26, 120, 1, 1})->Args({60, 300, 1, 0});
}
BENCHMARK(plan_by_columns)->Apply(rooms)->Repetitions(3);
// Runs into its time limit, so once is enough.
BENCHMARK(plan_by_one_program)->Apply(rooms)->Repetitions(1)->ReportAggregatesOnly(false);

}  // namespace
}  // namespace benchgraft
