// How fast fit answers: port pairs contact by contact beside the slow twin on the same pairs, the
// demo's first rebuild, and the catalogue it needs.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>

#include "catalogue/text.hpp"
#include "fit/contact_rules.hpp"
#include "fit/judge.hpp"
#include "fit/mate.hpp"
#include "fit/repin.hpp"
#include "support/fit_random.hpp"
#include "support/fit_twin.hpp"

namespace benchgraft {
namespace {

constexpr std::uint32_t kSeed = 20;
constexpr std::size_t kContacts = 20, kPairs = 256;

struct PortPair {
  catalogue::Port a, b;
};

catalogue::Port port_of(const std::vector<catalogue::Contact>& contacts, catalogue::Half half) {
  catalogue::Port port;
  port.connector.family = "2.5 mm crimp";
  port.connector.pitch_mm = 2.5;
  port.connector.ways = static_cast<int>(contacts.size());
  port.connector.gaps = std::vector<int>{};
  port.connector.half = half;
  port.connector.key = "latch";
  port.connector.one_at = catalogue::OneAt::left;
  port.contacts = contacts;
  return port;
}

const std::vector<PortPair>& pairs() {
  static const std::vector<PortPair> kAll = [] {
    fit_random::Dice dice(kSeed);
    std::vector<PortPair> all;
    for (std::size_t i = 0; i < kPairs; ++i) {
      const auto facing = fit_random::facing(dice, kContacts);
      all.push_back({port_of(facing.plug, catalogue::Half::plug),
                     port_of(facing.socket, catalogue::Half::socket)});
    }
    return all;
  }();
  return kAll;
}

void say_sizes(benchmark::State& state) {
  state.SetItemsProcessed(state.iterations());
  state.counters["seed"] = kSeed;
  state.counters["contacts"] = kContacts;
  state.counters["pairs"] = kPairs;
}

void port_pairs_by_fit(benchmark::State& state) {
  std::size_t next = 0;
  std::vector<fit::ContactFinding> found;
  for (auto _ : state) {
    const auto& pair = pairs()[next++ % kPairs];
    found.clear();
    const auto mating = fit::mate(pair.a.connector, pair.b.connector);
    for (const auto& face : fit::facing_contacts(pair.a, pair.b, mating.turned_round))
      fit::judge_contacts(face.a, face.b, {}, found);
    benchmark::DoNotOptimize(found.data());
  }
  say_sizes(state);
}
BENCHMARK(port_pairs_by_fit);

void port_pairs_by_the_slow_twin(benchmark::State& state) {
  std::size_t next = 0;
  for (auto _ : state) {
    const auto& pair = pairs()[next++ % kPairs];
    benchmark::DoNotOptimize(fit_twin::opinion(pair.a, pair.b, false, {}, {}));
  }
  say_sizes(state);
}
BENCHMARK(port_pairs_by_the_slow_twin);

/// Contacts in a plug of `n` ways, all used, in an order that has to be found.
fit_random::Facing crossed(std::size_t n) {
  fit_random::Facing facing;
  for (std::size_t i = 0; i < n; ++i) {
    catalogue::Contact c;
    c.number = std::to_string(i + 1);
    c.net_class = catalogue::NetClass::ground;
    c.domain = catalogue::Domain::secondary;
    if (i % 2 == 0) {
      c.net_class = catalogue::NetClass::pair;
      c.protocol = "differential video";
      c.signal = "data " + c.number;
      c.direction = catalogue::Direction::in;
    }
    facing.plug.push_back(c);
    c.direction = catalogue::Direction::out;
    c.number = std::to_string((i + 1) % n + 1);
    facing.socket.push_back(c);
  }
  std::rotate(facing.socket.begin(), facing.socket.end() - 1, facing.socket.end());
  return facing;
}

void re_pin_by_fit(benchmark::State& state) {
  const auto facing = crossed(static_cast<std::size_t>(state.range(0)));
  std::vector<fit::Facing> faces;
  for (std::size_t i = 0; i < facing.plug.size(); ++i)
    faces.push_back({&facing.plug[i], &facing.socket[i]});
  std::size_t moves = 0;
  for (auto _ : state) {
    const auto plan = fit::fewest_moves(faces, {});
    moves = plan ? plan->moves.size() : 0;
  }
  state.counters["moves"] = static_cast<double>(moves);
}
BENCHMARK(re_pin_by_fit)->Arg(6)->Arg(20);

void re_pin_by_trying_all(benchmark::State& state) {
  const auto facing = crossed(6);
  int moves = 0;
  for (auto _ : state)
    moves = fit_twin::fewest_moves_by_trying_all(facing.plug, facing.socket, {}, {});
  state.counters["moves"] = moves;
}
BENCHMARK(re_pin_by_trying_all);

std::string data(const std::string& folder) {
  return std::string(BENCHGRAFT_SOURCE_DIR) + "/data/" + folder;
}

const std::vector<std::string>& demo_folders() {
  static const std::vector<std::string> kFolders{data("kinds"), data("limits"),
                                                 data("demo/catalogue")};
  return kFolders;
}

void load_the_demo_catalogue(benchmark::State& state) {
  std::size_t types = 0, bytes = 0;
  for (const auto& folder : demo_folders())
    for (const auto& entry : std::filesystem::directory_iterator(folder))
      if (entry.path().extension() == ".toml") bytes += entry.file_size();
  for (auto _ : state) {
    const auto known = catalogue::load_catalogue(demo_folders());
    if (!known) state.SkipWithError(known.error().message.c_str());
    if (known) types = known.value().part_types().size();
  }
  state.SetBytesProcessed(static_cast<std::int64_t>(bytes) * state.iterations());
  state.counters["part_types"] = static_cast<double>(types);
}
BENCHMARK(load_the_demo_catalogue)->Unit(benchmark::kMillisecond);

// The bound: the same bytes read from disk and looked at once.
void read_the_demo_files(benchmark::State& state) {
  std::size_t bytes = 0;
  for (auto _ : state) {
    bytes = 0;
    std::size_t lines = 0;
    for (const auto& folder : demo_folders())
      for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        std::ifstream in(entry.path());
        std::stringstream text;
        text << in.rdbuf();
        for (const char c : text.str()) lines += c == '\n';
        bytes += text.str().size();
      }
    benchmark::DoNotOptimize(lines);
  }
  state.SetBytesProcessed(static_cast<std::int64_t>(bytes) * state.iterations());
}
BENCHMARK(read_the_demo_files)->Unit(benchmark::kMillisecond);

void judge_the_first_rebuild(benchmark::State& state) {
  const auto known = catalogue::load_catalogue(demo_folders());
  std::ifstream in(data("demo/rebuilds/first.toml"));
  std::stringstream text;
  text << in.rdbuf();
  const auto rebuild = catalogue::read_rebuild(text.str(), "first.toml");
  if (!known || !rebuild) return state.SkipWithError("the demo does not load");
  std::size_t reasons = 0;
  for (auto _ : state) {
    const auto judged = fit::judge(known.value(), rebuild.value());
    reasons = judged ? judged.value().reasons.size() : 0;
  }
  if (reasons == 0) state.SkipWithError("nothing was judged");
  state.counters["reasons"] = static_cast<double>(reasons);
}
BENCHMARK(judge_the_first_rebuild)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace benchgraft
