// The code against the slow twin on random contacts, ports and rebuilds. A failure prints the seed.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "catalogue/text.hpp"
#include "fit/findings.hpp"
#include "fit/mate.hpp"
#include "fit/repin.hpp"
#include "support/fit_bench.hpp"
#include "support/fit_random.hpp"
#include "support/fit_twin.hpp"

namespace benchgraft::fit {
namespace {

using namespace fit_bench;
using catalogue::Contact;
using fit_twin::Opinion;
using fit_twin::Side;

std::string text_of(const Contact& c) {
  Place nowhere;
  nowhere.position = "p";
  catalogue::Port port;
  return fact_of(nowhere, port, c).text +
         fmt::format(" idle {} pull_up {} rail {}", static_cast<int>(c.idle),
                     c.pull_up ? (*c.pull_up ? "yes" : "no") : "?", c.rail);
}

Opinion of_code(const Contact* a, const Contact* b, Side side_a, Side side_b) {
  Surroundings around;
  around.a_measured = side_a.measured;
  around.b_measured = side_b.measured;
  around.a_lights = around.a_constant_power = side_a.lights;
  around.b_lights = around.b_constant_power = side_b.lights;
  std::vector<ContactFinding> found;
  judge_contacts(a, b, around, found);
  Opinion all;
  for (const auto& f : found) {
    EXPECT_TRUE(f.a == a || f.a == nullptr);
    EXPECT_TRUE(f.b == b || f.b == nullptr);
    all.rules.insert(rule_name(f.rule));
    all.verdict = std::max(all.verdict, f.verdict);
    all.safety = all.safety || f.safety;
  }
  return all;
}

std::string text_of(const Opinion& one) {
  std::string text = to_text(one.verdict) + (one.safety ? " (safety):" : ":");
  for (const auto& rule : one.rules) text += " " + rule;
  return text;
}

TEST(Twin, judges_random_contact_pairs_as_the_code_does) {
  constexpr std::uint32_t kSeed = 1;
  fit_random::Dice dice(kSeed);
  std::map<std::string, int> met;
  for (int round = 0; round < 60000; ++round) {
    const Contact a = fit_random::contact(dice);
    const Contact b = dice.one_in(3) ? fit_random::contact(dice) : fit_random::partner(dice, a);
    const Side side_a{dice.one_in(2), dice.one_in(4)}, side_b{dice.one_in(2), dice.one_in(4)};
    const Contact* pa = dice.one_in(40) ? nullptr : &a;
    const Contact* pb = dice.one_in(40) ? nullptr : &b;
    const Opinion twin = fit_twin::opinion(pa, pb, side_a, side_b);
    const Opinion code = of_code(pa, pb, side_a, side_b);
    ASSERT_EQ(text_of(code), text_of(twin)) << "seed " << kSeed << " round " << round << "\n"
                                            << text_of(a) << "\n"
                                            << text_of(b);
    const Opinion mirrored = of_code(pb, pa, side_b, side_a);
    ASSERT_EQ(text_of(code), text_of(mirrored))
        << "which side is called a does not matter, round " << round;
    for (const auto& rule : code.rules) ++met[rule];
  }
  for (const std::string rule :
       {"domain clash", "class clash", "over voltage", "rail low", "rail overload", "level clash",
        "drive clash", "direction clash", "protocol clash", "rate clash", "missing reply",
        "crossed signals", "nothing feeds it", "earth path", "safety loop open", "string current",
        "sensor curve", "empty contact", "not recorded"})
    EXPECT_GT(met[rule], 20) << rule << " was hardly met: the test would prove little";
}

catalogue::Port port_of(const std::vector<Contact>& contacts, bool plug, bool one_at_right) {
  catalogue::Port port;
  port.name = plug ? "P" : "S";
  port.to = plug ? "sound" : "display driver";
  port.connector.family = "2.0 mm crimp";
  port.connector.pitch_mm = 2.0;
  port.connector.ways = static_cast<int>(contacts.size());
  port.connector.gaps = std::vector<int>{};
  port.connector.half = plug ? catalogue::Half::plug : catalogue::Half::socket;
  port.connector.key = "latch";
  port.connector.one_at = one_at_right ? catalogue::OneAt::right : catalogue::OneAt::left;
  port.contacts = contacts;
  port.known = Source::measured;
  return port;
}

/// Two parts of these ports in a host; everything else recorded and of no account.
Judgement of_judge(const catalogue::Port& plug, const catalogue::Port& socket) {
  auto family = catalogue::read_family(
      "format = 1\nfamily = \"tern\"\n" + kBenchSet + part("OLD-1", "display driver") +
          part("NEW-1", "display driver") + part("HOST-1", "sound") +
          model("Tern 40", {{"display driver", "OLD-1"}, {"sound", "HOST-1"}}),
      "tern.toml");
  EXPECT_TRUE(family.ok());
  for (auto& type : family.value().part_types) {
    if (type.name == "NEW-1") type.ports = {plug};
    if (type.name == "HOST-1") type.ports = {socket};
  }
  std::vector<catalogue::Family> families{std::move(family).value()};
  const auto known = catalogue::Catalogue::from_families(std::move(families));
  EXPECT_TRUE(known.ok()) << known.error().message;
  auto j = judge(known.value(), rebuild_of(kHost + swap("display driver", "NEW-1")));
  EXPECT_TRUE(j.ok());
  return std::move(j).value();
}

TEST(Twin, judges_random_two_part_rebuilds_as_the_code_does) {
  constexpr std::uint32_t kSeed = 2;
  fit_random::Dice dice(kSeed);
  int agreed = 0;
  for (int round = 0; round < 4000; ++round) {
    auto faces = fit_random::facing(dice, 1 + dice.below(5));
    for (auto* side : {&faces.plug, &faces.socket})
      for (auto& c : *side) c.rail.clear();  // sums over a rail are not the joint's matter
    const bool turned = dice.one_in(5);
    const auto plug = port_of(faces.plug, true, false);
    const auto socket = port_of(faces.socket, false, turned);
    const Opinion twin = fit_twin::opinion(plug, socket, turned, {true, false}, {true, false});
    const auto j = of_judge(plug, socket);
    Opinion code;
    for (const auto& one : j.reasons) {
      if (one.sort != RuleSort::pair || one.ports.empty() || one.rule == "wrong socket") continue;
      code.rules.insert(one.rule);
      code.verdict = std::max(code.verdict, one.before);
      code.safety = code.safety || one.safety;
    }
    ASSERT_EQ(text_of(code), text_of(twin)) << "seed " << kSeed << " round " << round << told(j);
    if (twin == Opinion{}) {
      ASSERT_TRUE(j.questions.empty()) << round << told(j);
      ++agreed;
    }
  }
  EXPECT_GT(agreed, 50) << "some ports agree in everything";
}

TEST(Twin, finds_no_shorter_re_pin_by_trying_every_order) {
  constexpr std::uint32_t kSeed = 3;
  fit_random::Dice dice(kSeed);
  int possible = 0, impossible = 0;
  for (int round = 0; round < 6000; ++round) {
    auto faces = fit_random::facing(dice, 2 + dice.below(5));
    // Mostly contacts that have a partner, so that a re-pin often exists.
    for (std::size_t i = 0; i < faces.plug.size(); ++i)
      if (dice.one_in(2)) {
        faces.plug[i] = Contact{};
        faces.plug[i].net_class =
            dice.one_in(3) ? catalogue::NetClass::earth : catalogue::NetClass::ground;
        faces.plug[i].domain = faces.plug[i].net_class == catalogue::NetClass::earth
                                   ? catalogue::Domain::earth
                                   : catalogue::Domain::secondary;
        faces.plug[i].number = std::to_string(i + 1);
      }
    faces.socket = faces.plug;
    for (auto& c : faces.socket) {
      const std::string number = c.number;
      c = dice.one_in(12) ? fit_random::partner(dice, c) : c;
      if (c.direction == catalogue::Direction::in)
        c.direction = catalogue::Direction::out;
      else if (c.direction == catalogue::Direction::out)
        c.direction = catalogue::Direction::in;
      c.waits_s.reset();
    }
    for (std::size_t swaps = dice.below(4); swaps > 0; --swaps)
      std::swap(faces.socket[dice.below(faces.socket.size())],
                faces.socket[dice.below(faces.socket.size())]);
    std::vector<Facing> pairs;
    for (std::size_t i = 0; i < faces.plug.size(); ++i) {
      faces.socket[i].number = faces.plug[i].number = std::to_string(i + 1);
      pairs.push_back({&faces.plug[i], &faces.socket[i]});
    }
    const int least = fit_twin::fewest_moves_by_trying_all(faces.plug, faces.socket, {}, {});
    const auto plan = fewest_moves(pairs, {});
    std::string text;
    for (const auto& pair : pairs) text += text_of(*pair.a) + "  |  " + text_of(*pair.b) + "\n";
    ASSERT_EQ(plan.has_value(), least >= 0) << "seed " << kSeed << " round " << round << "\n"
                                            << text;
    if (plan) {
      ASSERT_EQ(static_cast<int>(plan->moves.size()), least)
          << "seed " << kSeed << " round " << round << "\n"
          << text;
      for (const auto& move : plan->moves) {
        const auto& moved = faces.plug[static_cast<std::size_t>(std::stoi(move.from) - 1)];
        ASSERT_FALSE(is_excluded_circuit(moved));
      }
    }
    ++(least > 0 ? possible : impossible);
  }
  EXPECT_GT(possible, 200);
  EXPECT_GT(impossible, 200);
}

}  // namespace
}  // namespace benchgraft::fit
