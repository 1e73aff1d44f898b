#include "support/fit_sets.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "catalogue/text.hpp"
#include "support/fit_bench.hpp"
#include "support/fit_facts.hpp"

namespace benchgraft::fit_sets {
namespace {

using catalogue::Contact;
using catalogue::Half;
using catalogue::PartType;
using catalogue::Port;
using fit_random::Dice;

const std::vector<std::string> kRoles{"supply", "display driver", "sound", "lamp driver", "lamp"};

/// What joins two roles in the first generation: contacts as the first role has them.
struct Cable {
  std::size_t from, to;
  std::vector<Contact> contacts;
};

Contact known(std::string_view text, int n) {
  const auto port = fit_bench::port("P", "", "", {fit_bench::contact(n, std::string(text))});
  const auto known = fit_bench::catalogue_of(fit_bench::part("X", "supply", "", port));
  return known.part_type("X")->ports->front().contacts->front();
}

const std::string kIgnition =
    R"(signal = "lamp A", class = "ignition", domain = "lamp", volts = [0, 5000], amps = 2, direction = "out")";
const std::string kSound =
    R"(signal = "left", class = "sound", domain = "secondary", direction = "out", drive = "driven", protocol = "bridge amplifier")";

// Contacts that agree with their other_end(), out of the usual ones.
std::vector<Contact> usual_contacts(Dice& dice) {
  static const std::vector<Contact> kAll = [] {
    std::vector<Contact> all;
    for (const auto& text :
         {fit_bench::kSupplyOut, fit_bench::kEnableOut, fit_bench::kEnableIn, fit_bench::kLitOut,
          fit_bench::kLitIn, fit_bench::kPairOut, fit_bench::kDoor, fit_bench::kSensor,
          fit_bench::kBusOut, fit_bench::kUnused, fit_bench::kStringOut, fit_bench::kMainsOut,
          fit_bench::kEarth, kIgnition, kSound})
      all.push_back(known(text, 1));
    all[0].rail = "5 V";
    return all;
  }();
  static const Contact kGround = known(fit_bench::kGround, 1);
  std::vector<Contact> chosen{kGround};
  for (std::size_t n = 1 + dice.below(3); n > 0; --n) {
    chosen.push_back(dice.of(kAll));
    if (!chosen.back().signal.empty()) chosen.back().signal += fmt::format(" {}", n);
  }
  for (std::size_t i = 0; i < chosen.size(); ++i) chosen[i].number = std::to_string(i + 1);
  return chosen;
}

Contact other_end(const Contact& c) {
  Contact end = c;
  if (c.direction == catalogue::Direction::out) end.direction = catalogue::Direction::in;
  if (c.direction == catalogue::Direction::in) end.direction = catalogue::Direction::out;
  end.rail.clear();
  end.waits_s.reset();
  if (end.direction == catalogue::Direction::in && c.drive == catalogue::Drive::open_collector)
    end.pull_up = true;
  if (end.net_class == catalogue::NetClass::light) end.volts = catalogue::Range{50, 60};
  if (end.net_class == catalogue::NetClass::supply) {
    end.volts = catalogue::Range{c.volts->low * 0.9, c.volts->high * 1.1};
    end.amps = 0.5;
  }
  return end;
}

Port port_for(const Cable& cable, bool first_end) {
  Port port;
  port.name = fmt::format("{}{}{}", first_end ? "P" : "S", cable.from, cable.to);
  port.to = kRoles[first_end ? cable.to : cable.from];
  port.carries = fmt::format("cable {} {}", cable.from, cable.to);
  port.connector.family = "2.0 mm crimp";
  port.connector.pitch_mm = 2.0;
  port.connector.ways = static_cast<int>(cable.contacts.size());
  port.connector.gaps = std::vector<int>{};
  port.connector.half = first_end ? Half::plug : Half::socket;
  port.connector.key = "latch";
  port.connector.one_at = catalogue::OneAt::left;
  port.known = Source::measured;
  port.contacts.emplace();
  for (const auto& c : cable.contacts) port.contacts->push_back(first_end ? c : other_end(c));
  return port;
}

PartType part_of(std::size_t role, int generation, const std::vector<Cable>& cables, Dice& dice) {
  PartType type;
  type.name = fmt::format("{}-{}", static_cast<char>('A' + role), generation);
  type.kind = "board";
  type.roles = {kRoles[role]};
  type.mount = "plate";
  type.carries.emplace();
  type.needs.emplace();
  type.provides.emplace();
  type.stores.emplace();
  type.counters.emplace();
  if (dice.one_in(3)) type.carries->push_back({"shield", "shield", {}, {}});
  if (role == 0) {
    type.protection = catalogue::Protection::class_2;
    type.mains_volts = catalogue::Range{200, 240};
    type.y_nf = 1;
    type.rails = {{"5 V", catalogue::Range{5, 5}, 4, std::nullopt, {}}};
  }
  if (role >= 3) {
    type.lamp_watts = 120;
    type.lamp_volts = catalogue::Range{60, 90};
  }
  type.ports.emplace();
  for (const auto& cable : cables) {
    if (cable.from == role) type.ports->push_back(port_for(cable, true));
    if (cable.to == role) type.ports->push_back(port_for(cable, false));
  }
  return type;
}

// The next generation differs here and there.
void grow_older(Dice& dice, PartType& type) {
  for (auto& port : *type.ports) {
    for (auto& c : *port.contacts)
      if (dice.one_in(6)) {
        const std::string number = c.number;
        c = fit_random::partner(dice, c);
        c.number = number;
      }
    if (port.contacts->size() > 1 && dice.one_in(6))
      std::swap((*port.contacts)[0].number, (*port.contacts)[1].number);
    if (dice.one_in(8)) port.connector.family = "2.5 mm crimp";
  }
  if (dice.one_in(6)) type.mount = "rail";
  if (type.lamp_watts && dice.one_in(4)) type.lamp_watts = 150;
}

void make_holes(Dice& dice, PartType& type, std::size_t holes) {
  if (holes == 0) return;
  using fit_facts::Walk;
  std::size_t facts = fit_facts::count(Walk::What::take_away, type);
  for (std::size_t left = facts / holes; left > 0; --left) {
    std::string path;
    facts = fit_facts::count(Walk::What::take_away, type);
    if (facts == 0) return;
    type = fit_facts::with(Walk::What::take_away, type, dice.below(facts), path);
  }
}

catalogue::Model model_of(const std::string& name, std::size_t roles, int generation) {
  catalogue::Model model;
  model.name = name;
  model.kind = "bench set";
  model.protection = catalogue::Protection::class_2;
  catalogue::Variant variant;
  variant.name = "standard";
  for (std::size_t role = 0; role < roles; ++role) {
    catalogue::Position position;
    position.name = fmt::format("place {}", role);
    position.roles = {kRoles[role]};
    variant.parts[position.name] = fmt::format("{}-{}", static_cast<char>('A' + role), generation);
    model.positions.push_back(position);
  }
  model.variants.push_back(variant);
  return model;
}

}  // namespace

Sets random_sets(Dice& dice, std::size_t holes) {
  Sets sets;
  auto kinds = catalogue::read_family("format = 1\nfamily = \"kinds\"\n" + fit_bench::kBenchSet,
                                      "kinds.toml");
  EXPECT_TRUE(kinds.ok());
  sets.kinds = std::move(kinds).value();
  sets.first.name = "first";
  sets.second.name = "second";
  const std::size_t roles = 3 + dice.below(3);
  std::vector<Cable> cables;
  for (std::size_t i = 0; i < roles; ++i)
    for (std::size_t k = i + 1; k < roles; ++k)
      if (!dice.one_in(3)) cables.push_back({i, k, usual_contacts(dice)});
  for (std::size_t role = 0; role < roles; ++role) {
    PartType old_type = part_of(role, 1, cables, dice), new_type = part_of(role, 2, cables, dice);
    grow_older(dice, new_type);
    make_holes(dice, old_type, holes);
    make_holes(dice, new_type, holes);
    sets.first.part_types.push_back(std::move(old_type));
    sets.second.part_types.push_back(std::move(new_type));
  }
  sets.first.models = {model_of("Tern 40", roles, 1)};
  sets.second.models = {model_of("Wren 40", roles, 2)};
  sets.rebuild.name = "r";
  sets.rebuild.model = "Tern 40";
  const std::size_t role = dice.below(roles);
  for (std::size_t i = 0; i < 1 + dice.below(2); ++i) {
    catalogue::ProposedPart part;
    part.place = fmt::format("place {}", (role + i) % roles);
    part.type = fmt::format("{}-2", static_cast<char>('A' + (role + i) % roles));
    part.from = "Wren 40";
    sets.rebuild.parts.push_back(part);
  }
  return sets;
}

catalogue::Catalogue catalogue_of(const Sets& sets) {
  auto known = catalogue::Catalogue::from_families({sets.kinds, sets.first, sets.second});
  EXPECT_TRUE(known.ok()) << known.error().message;
  return known ? std::move(known).value() : catalogue::Catalogue{};
}

}  // namespace benchgraft::fit_sets
