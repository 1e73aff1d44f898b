// Runs the benchmarks with what a figure needs to be believed: machine, compiler, repetitions with
// their medians, and the most memory the run took.
#include <fstream>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>
#include <fmt/format.h>
#include <sys/resource.h>

namespace {

std::string processor() {
  std::ifstream cpus("/proc/cpuinfo");
  for (std::string line; std::getline(cpus, line);)
    if (line.rfind("model name", 0) == 0) return line.substr(line.find(':') + 2);
  return "not known";
}

}  // namespace

int main(int argc, char** argv) {
  // Medians of five runs, unless the command line says otherwise.
  std::string repetitions = "--benchmark_repetitions=5";
  std::string aggregates = "--benchmark_report_aggregates_only=true";
  std::vector<char*> arguments{argv[0], repetitions.data(), aggregates.data()};
  arguments.insert(arguments.end(), argv + 1, argv + argc);
  int count = static_cast<int>(arguments.size());
  benchmark::AddCustomContext("processor", processor());
  benchmark::AddCustomContext("compiler", __VERSION__);
  benchmark::Initialize(&count, arguments.data());
  if (benchmark::ReportUnrecognizedArguments(count, arguments.data())) return 2;
  benchmark::RunSpecifiedBenchmarks();
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  fmt::print("most memory in use: {} MiB\n", used.ru_maxrss / 1024);
  return 0;
}
