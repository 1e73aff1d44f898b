// What would it take: the cheapest changes that finish a host which cannot be finished as it is.
#include "fit/ways_out.hpp"

#include <random>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/fit_bench.hpp"
#include "support/fit_ways_twin.hpp"

namespace benchgraft::fit {
namespace {

using namespace fit_bench;
using fit_ways_twin::told;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

std::string driver(const std::string& name, const std::string& changes = "") {
  return part(name, "display driver", "",
              port("P", "supply", kPlug, {contact(1, kSupplyIn, changes), contact(2, kGround)}));
}
std::string supply(const std::string& name, const std::string& changes = "",
                   const std::string& facts = "") {
  return part(
      name, "supply", R"(protection = "II", mains_volts = [200, 250], y_nf = 0, )" + facts,
      port("S", "display driver", kSocket, {contact(1, kSupplyOut, changes), contact(2, kGround)}));
}

const std::string kTwelveIn = "volts = [11, 13]", kTwelveOut = "volts = 12";

/// A 5 V set; D-12 and S-12 are of another generation, D-5 is like the factory's.
const std::string kFive = driver("D-1") + supply("S-1") + driver("D-12", kTwelveIn) +
                          supply("S-12", kTwelveOut) + driver("D-5") + driver("D-X", "-direction") +
                          model("Tern 40", {{"display driver", "D-1"}, {"supply", "S-1"}});

Offer here(const std::string& type, double minutes = 0, const std::string& from = "shelf") {
  Offer offer;
  offer.part.type = type;
  offer.part.from = from;
  offer.called = "part " + type;
  offer.work_minutes = minutes;
  return offer;
}

Offer bought(const std::string& type, std::int64_t minor, int days = 3) {
  Offer offer = here(type, 0, "bought");
  offer.bought = true;
  offer.money = {minor};
  offer.delivery_days = days;
  return offer;
}

WaysOut ways(const std::string& body, const std::string& rebuild, const std::vector<Offer>& offers,
             const WaysAsked& asked = {}) {
  auto answer =
      ways_out(catalogue_of(kBenchSet + body), rebuild_of(kHost + rebuild), {}, offers, asked);
  EXPECT_TRUE(answer.ok()) << answer.error().message;
  return answer ? std::move(answer).value() : WaysOut{};
}

std::vector<std::string> all_told(const std::vector<Way>& list) {
  std::vector<std::string> words;
  for (const auto& way : list) words.push_back(told(way));
  return words;
}

TEST(WaysOut, a_missing_part_is_put_in_from_here_or_bought_the_cheaper_first) {
  const auto w = ways(kFive, "missing = [\"display driver\"]\n",
                      {bought("D-5", 4000), here("D-1", 30, "K4"), here("S-12")});
  EXPECT_EQ(w.now, Verdict::does_not_fit);
  ASSERT_EQ(w.ways.size(), 2U);
  const auto& first = w.ways[0];
  EXPECT_EQ(told(first), "put D-1 into display driver");
  EXPECT_EQ(first.changes.front().from, "K4");
  EXPECT_EQ(first.changes.front().step, WayStep::put_in);
  EXPECT_LE(first.verdict, Verdict::fits_with_work);
  EXPECT_EQ(w.ways[1].changes.front().step, WayStep::buy);
  EXPECT_EQ(w.ways[1].money.minor, 4000);
  EXPECT_EQ(w.ways[1].delivery_days, 3);
  EXPECT_TRUE(w.complete);
}

TEST(WaysOut, of_a_clash_change_either_side) {
  const auto w =
      ways(kFive, swap("display driver", "D-12"), {here("S-12", 10), bought("D-5", 9000)});
  EXPECT_EQ(w.now, Verdict::does_not_fit) << "5 V where 12 V is wanted";
  EXPECT_THAT(all_told(w.ways), ElementsAre("put S-12 into supply", "put D-5 into display driver"));
}

TEST(WaysOut, may_take_several_changes_at_once) {
  const auto w = ways(kFive, "missing = [\"display driver\", \"supply\"]\n",
                      {here("D-12"), here("S-12"), bought("S-1", 20000)});
  EXPECT_THAT(all_told(w.ways), ElementsAre("put D-12 into display driver; put S-12 into supply"));
}

TEST(WaysOut, a_question_is_a_way_by_measuring_and_a_known_part_is_another) {
  const auto w = ways(kFive, swap("display driver", "D-X"), {here("D-5", 200)});
  EXPECT_EQ(w.now, Verdict::unknown);
  ASSERT_EQ(w.ways.size(), 2U);
  EXPECT_EQ(told(w.ways[0]), "measure");
  EXPECT_EQ(w.ways[0].verdict, Verdict::unknown) << "it hangs on what is measured";
  EXPECT_FALSE(w.ways[0].changes.front().questions.empty());
  EXPECT_EQ(told(w.ways[1]), "put D-5 into display driver");
}

TEST(WaysOut, nothing_stands_in_the_way_of_what_fits) {
  const auto w = ways(kFive, swap("display driver", "D-5"), {here("S-12")});
  EXPECT_LE(w.now, Verdict::fits_with_work);
  EXPECT_THAT(w.ways, IsEmpty());
  EXPECT_THAT(w.in_the_way, IsEmpty());
  EXPECT_EQ(w.judgements, 1U);
}

TEST(WaysOut, there_may_be_none_and_then_the_reasons_are_told) {
  const auto w = ways(kFive, "missing = [\"display driver\"]\n", {here("S-12")});
  EXPECT_THAT(w.ways, IsEmpty());
  ASSERT_FALSE(w.in_the_way.empty());
  EXPECT_EQ(w.in_the_way.front().rule, "missing part");
  EXPECT_TRUE(w.complete);
}

TEST(WaysOut, what_must_go_back_is_never_taken_but_named_with_the_next_best) {
  Offer customers = here("D-1", 0, "C2");
  customers.refused = "C2 must go back to its owner";
  const auto w = ways(kFive, "missing = [\"display driver\"]\n", {customers, bought("D-5", 4000)});
  ASSERT_TRUE(w.refused);
  EXPECT_EQ(told(*w.refused), "put D-1 into display driver");
  EXPECT_THAT(w.refused->refused, HasSubstr("C2"));
  EXPECT_THAT(all_told(w.ways), ElementsAre("put D-5 into display driver"));
}

TEST(WaysOut, what_must_go_back_is_not_named_when_it_would_be_dearer) {
  Offer customers = here("D-1", 500, "C2");
  customers.refused = "C2 must go back to its owner";
  const auto w = ways(kFive, "missing = [\"display driver\"]\n", {customers, here("D-5")});
  EXPECT_FALSE(w.refused);
  EXPECT_EQ(w.ways.size(), 1U);
}

TEST(WaysOut, say_when_they_stopped_before_everything_was_judged) {
  WaysAsked asked;
  asked.most_judgements = 2;
  std::vector<Offer> offers;
  for (int i = 0; i < 4; ++i) offers.push_back(here("D-12", i));
  offers.push_back(here("D-5", 60));
  const auto w = ways(kFive, "missing = [\"display driver\"]\n", offers, asked);
  EXPECT_FALSE(w.complete);
  EXPECT_EQ(w.judgements, 2U);
}

TEST(WaysOut, a_part_is_put_in_once) {
  // One board does both jobs' places' type; the second place needs a second one.
  const auto w = ways(kFive, "missing = [\"display driver\", \"supply\"]\n", {here("D-5")});
  EXPECT_THAT(w.ways, IsEmpty());
}

TEST(WaysOut, chances_of_the_parts_count) {
  Offer doubtful = here("D-1");
  doubtful.chance = 0.5;
  const auto w = ways(kFive, "missing = [\"display driver\"]\n", {doubtful});
  const auto sure = ways(kFive, "missing = [\"display driver\"]\n", {here("D-1")});
  ASSERT_EQ(w.ways.size(), 1U);
  EXPECT_NEAR(w.ways[0].chance, 0.5 * sure.ways.at(0).chance, 1e-12);
}

TEST(WaysOut, of_a_kind_that_is_not_judged_are_none) {
  const std::string kind =
      "[[set_kind]]\nset_kind = \"tube set\"\njudged = false\nnot_judged = \"Tubes are not "
      "judged.\"\n";
  const auto w = ways(
      kind + driver("D-1") + model("Tern 40", {{"display driver", "D-1"}}, "kind = \"tube set\""),
      "missing = [\"display driver\"]\n", {here("D-1")});
  EXPECT_THAT(w.ways, IsEmpty());
  EXPECT_EQ(w.now, Verdict::unknown);
}

/// A random little catalogue: three places, part types of two generations, some with holes.
std::string random_body(std::mt19937& random) {
  const auto one_of = [&](std::initializer_list<std::string> list) {
    return *(list.begin() + random() % list.size());
  };
  std::string body;
  for (int i = 1; i <= 3; ++i) {
    body += driver(fmt::format("D-{}", i), one_of({"", "", kTwelveIn, "-direction"}));
    body += supply(fmt::format("S-{}", i), one_of({"", "", kTwelveOut, "-volts"}),
                   one_of({"", "", "mount = \"rail\""}));
    body +=
        part(fmt::format("A-{}", i), "sound", one_of({"", "mount = \"rail\"", "-mount", "-ports"}));
  }
  std::string built =
      model("Tern 40", {{"display driver", "D-1"}, {"supply", "S-1"}, {"sound", "A-1"}});
  for (const std::string place : {"display driver", "supply", "sound"}) {
    const std::string line = "position = \"" + place + "\"\n";
    built.insert(built.find(line) + line.size(), "seats = [\"plate\"]\n");
  }
  return body + built;
}

std::string random_rebuild(std::mt19937& random) {
  std::string missing, parts;
  for (const auto& [place, type] : {std::pair<std::string, std::string>{"display driver", "D-2"},
                                    {"supply", "S-2"},
                                    {"sound", "A-2"}}) {
    const auto draw = random() % 3;
    if (draw == 0) missing += (missing.empty() ? "\"" : ", \"") + place + "\"";
    if (draw == 1) parts += swap(place, type);
  }
  return "missing = [" + missing + "]\n" + parts;
}

std::vector<Offer> random_offers(std::mt19937& random) {
  std::vector<Offer> offers;
  for (const std::string letter : {"D", "S", "A"})
    for (int i = 1; i <= 3; ++i) {
      if (random() % 4 == 0) continue;
      Offer offer = here(fmt::format("{}-{}", letter, i), static_cast<double>(random() % 60));
      if (random() % 2 == 0) offer = bought(offer.part.type, 100 + random() % 9000);
      offers.push_back(offer);
    }
  return offers;
}

TEST(WaysOut, of_random_rooms_are_those_of_trying_every_set_of_parts) {
  constexpr std::uint32_t kSeed = 20261;
  std::mt19937 random(kSeed);
  int with_ways = 0, with_several_changes = 0;
  for (int round = 0; round < 60; ++round) {
    const std::string body = random_body(random), rebuild = random_rebuild(random);
    const auto offers = random_offers(random);
    const auto known = catalogue_of(kBenchSet + body);
    const auto text = rebuild_of(kHost + rebuild);
    WaysAsked asked;
    asked.most_judgements = 100000;
    const auto found = ways_out(known, text, {}, offers, asked);
    ASSERT_TRUE(found.ok()) << found.error().message;
    const auto twin = fit_ways_twin::try_all(known, text, offers, asked.most_ways);
    const auto& w = found.value();
    ASSERT_EQ(w.ways.size(), twin.size()) << "seed " << kSeed << " round " << round << "\n"
                                          << rebuild << ::testing::PrintToString(all_told(twin));
    for (std::size_t i = 0; i < twin.size(); ++i) {
      ASSERT_DOUBLE_EQ(w.ways[i].cost, twin[i].cost)
          << "seed " << kSeed << " round " << round << "\n"
          << rebuild << told(w.ways[i]) << "\ntwin: " << told(twin[i]);
      ASSERT_EQ(w.ways[i].verdict <= Verdict::fits_with_work,
                twin[i].verdict <= Verdict::fits_with_work);
      if (w.ways[i].changes.size() > 1) ++with_several_changes;
    }
    if (!twin.empty()) ++with_ways;
    EXPECT_TRUE(w.complete);
  }
  EXPECT_GT(with_ways, 20);
  EXPECT_GT(with_several_changes, 10);
}

}  // namespace
}  // namespace benchgraft::fit
