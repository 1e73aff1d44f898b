// The shipped demo shop, planned with the real judgement.
#include <filesystem>
#include <fstream>
#include <limits>
#include <random>
#include <sstream>

#include <gtest/gtest.h>

#include "catalogue/text.hpp"
#include "plan/host_search.hpp"
#include "plan/planning.hpp"
#include "plan/room.hpp"
#include "shop/text.hpp"

namespace benchgraft::plan {
namespace {

std::string data(const std::string& folder) {
  return std::string(BENCHGRAFT_SOURCE_DIR) + "/data/" + folder;
}

struct Demo {
  catalogue::Catalogue known;
  shop::Shop room;
  Prospects prospects;
};

Demo demo() {
  std::vector<shop::NamedText> texts;
  std::vector<std::filesystem::path> paths;
  for (const auto& entry : std::filesystem::directory_iterator(data("demo/shop")))
    paths.push_back(entry.path());
  std::sort(paths.begin(), paths.end());
  for (const auto& path : paths) {
    std::ifstream in(path, std::ios::binary);
    std::stringstream bytes;
    bytes << in.rdbuf();
    texts.push_back({path.filename().string(), bytes.str()});
  }
  auto bundle = shop::sort_texts(texts);
  EXPECT_TRUE(bundle.ok()) << (bundle ? "" : bundle.error().message);
  std::mt19937_64 random(1);
  auto merged = shop::merge({}, bundle.value(), [&] { return random(); });
  EXPECT_TRUE(merged.ok()) << (merged ? "" : merged.error().message);
  auto known = catalogue::load_catalogue({data("kinds"), data("limits"), data("demo/catalogue")});
  EXPECT_TRUE(known.ok()) << (known ? "" : known.error().message);
  Demo all{std::move(known).value(), merged.value().after.shop, {}};
  const auto& terms = all.room.terms;
  for (const auto& part : all.room.parts)
    all.prospects.parts.push_back({part.state == shop::State::bad       ? 0
                                   : part.chance                        ? *part.chance
                                   : part.state == shop::State::good    ? terms.chance_good
                                   : part.state == shop::State::suspect ? terms.chance_suspect
                                                                        : terms.chance_untested});
  return all;
}

TEST(DemoShop, is_planned_with_proof_and_stands_the_recheck) {
  const auto all = demo();
  Options patient;  // the proof ends by itself, on a slow machine later
  patient.seconds = 300;
  patient.value_tests = false;
  const auto plan = make_plan(all.known, all.room, all.prospects, patient);
  ASSERT_TRUE(plan.ok()) << plan.error().message;
  EXPECT_TRUE(plan.value().proven);
  EXPECT_FALSE(plan.value().rebuilds.empty());
  const auto again = recheck(plan.value(), all.known, all.room, all.prospects);
  ASSERT_TRUE(again.ok()) << again.error().message;
  EXPECT_EQ(again.value(), plan.value().value);
  for (const auto& set : plan.value().sets) {
    EXPECT_FALSE(set.why.empty()) << set.code;
    if (all.room.set_by_code(set.code)->consent != shop::Consent::may_strip) {
      EXPECT_NE(set.use, Use::stripped) << set.code;
    }
  }
}

// The search learns from judgements and cuts off what it need not judge. Rebuilds drawn at random
// around its best must not beat it.
TEST(DemoShop, hides_no_rebuild_that_beats_the_best_the_search_finds) {
  const auto all = demo();
  const auto stock = take_stock(all.known, all.room, all.prospects);
  ASSERT_TRUE(stock.ok());
  const Wanted nothing;
  Answers answers(fitting_by_fit(all.known, {}));
  const Ground ground{all.known, all.room, stock.value(), nothing, answers, false};
  const auto room = room_of_numbers(ground);
  const Prices none{std::vector<double>(room.problem.pools.size(), 0.0), 0};
  std::mt19937 random(7);
  int allowed = 0;
  for (std::size_t h = 0; h < room.problem.hosts.size(); ++h) {
    HostSearch search(room.problem, static_cast<int>(h));
    Effort effort({60, 50'000'000, 0.5});
    const auto best = search.best(none, -std::numeric_limits<double>::infinity(), effort);
    if (!best) continue;
    EXPECT_FALSE(effort.over());
    EXPECT_FALSE(search.shared_work());
    for (int i = 0; i < 400; ++i) {
      Built other = best->built;
      for (int changes = 1 + i % 3; changes > 0; --changes) {
        const auto& places = room.problem.hosts[h].places;
        const std::size_t p = random() % places.size();
        const std::size_t c = random() % places[p].choices.size();
        other.choices[p] = static_cast<int>(c);
        other.sources[p] = static_cast<int>(random() % places[p].choices[c].sources.size());
      }
      const Worth worth = worth_of(room.problem, other);
      if (!worth.allowed) continue;
      ++allowed;
      EXPECT_LE(worth.value, best->worth.value + 0.5) << room.problem.hosts[h].name;
    }
  }
  EXPECT_GT(allowed, 200);
}

}  // namespace
}  // namespace benchgraft::plan
