// What must hold on every catalogue. Random sets; a failure prints the seed and the fact.
#include <algorithm>
#include <map>
#include <numeric>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "fit/judge.hpp"
#include "support/fit_bench.hpp"
#include "support/fit_facts.hpp"
#include "support/fit_sets.hpp"

namespace benchgraft::fit {
namespace {

using fit_bench::told;
using fit_facts::Walk;
using fit_sets::Sets;

Judgement judged(const Sets& sets) {
  auto answer = judge(fit_sets::catalogue_of(sets), sets.rebuild);
  EXPECT_TRUE(answer.ok()) << answer.error().message;
  return answer ? std::move(answer).value() : Judgement{};
}

/// "class clash destroys fits_with_work" for every reason, sorted: no names.
std::vector<std::string> shape(const Judgement& j) {
  std::vector<std::string> all;
  for (const auto& one : j.reasons)
    all.push_back(fmt::format("{} {} {}{}", one.rule, to_text(one.before), to_text(one.verdict),
                              one.safety ? " safety" : ""));
  std::sort(all.begin(), all.end());
  return all;
}

// --- names -------------------------------------------------------------------------------------

std::string other_name(const std::string& name) {
  if (name.empty()) return name;
  std::string turned(name.rbegin(), name.rend());
  return "q" + turned;
}
void rename(std::string& name) { name = other_name(name); }

void rename(catalogue::PartType& type) {
  rename(type.name);
  if (type.mount) rename(*type.mount);
  if (type.carries)
    for (auto& piece : *type.carries) rename(piece.name);
  for (auto& rail : type.rails) rename(rail.name);
  if (!type.ports) return;
  for (auto& port : *type.ports) {
    rename(port.name);
    rename(port.carries);
    if (!port.contacts) continue;
    for (auto& c : *port.contacts) rename(c.signal), rename(c.rail);
  }
}

void rename(catalogue::Family& family) {
  for (auto& type : family.part_types) rename(type);
  for (auto& model : family.models) {
    rename(model.name);
    for (auto& position : model.positions) rename(position.name);
    for (auto& variant : model.variants) {
      rename(variant.name);
      std::map<std::string, std::string> parts;
      for (const auto& [position, type] : variant.parts)
        parts[other_name(position)] = other_name(type);
      variant.parts = parts;
    }
  }
}

TEST(Property, names_of_types_ports_signals_and_places_change_no_verdict) {
  constexpr std::uint32_t kSeed = 11;
  fit_random::Dice dice(kSeed);
  int compared = 0;
  for (int round = 0; round < 300; ++round) {
    const Sets sets = fit_sets::random_sets(dice, dice.below(30));
    Sets renamed = sets;
    rename(renamed.first);
    rename(renamed.second);
    rename(renamed.rebuild.model);
    for (auto& part : renamed.rebuild.parts)
      rename(part.place), rename(part.type), rename(part.from);
    const auto before = judged(sets), after = judged(renamed);
    const std::string where = fmt::format("seed {} round {}\n", kSeed, round);
    // Where the records do not say which socket it is, the names decide which one is told of; it is
    // asked either way.
    if (fit_bench::asks(before, "Which of ")) {
      ASSERT_GE(std::min(before.verdict, after.verdict), Verdict::unknown) << where;
      continue;
    }
    ++compared;
    ASSERT_EQ(shape(before), shape(after)) << where << told(before) << "\n" << told(after);
    ASSERT_EQ(before.verdict, after.verdict) << where;
    ASSERT_EQ(before.questions.size(), after.questions.size()) << where;
  }
  EXPECT_GT(compared, 200);
}

// --- order -------------------------------------------------------------------------------------

template <class T>
void shuffle(fit_random::Dice& dice, std::vector<T>& all) {
  for (std::size_t i = all.size(); i > 1; --i) std::swap(all[i - 1], all[dice.below(i)]);
}

TEST(Property, the_order_of_files_and_tables_changes_nothing) {
  constexpr std::uint32_t kSeed = 12;
  fit_random::Dice dice(kSeed);
  for (int round = 0; round < 300; ++round) {
    const Sets sets = fit_sets::random_sets(dice, dice.below(30));
    Sets other = sets;
    for (auto* family : {&other.first, &other.second}) {
      shuffle(dice, family->part_types);
      for (auto& type : family->part_types) {
        if (!type.ports) continue;
        shuffle(dice, *type.ports);
        for (auto& port : *type.ports)
          if (port.contacts) shuffle(dice, *port.contacts);
      }
      for (auto& model : family->models) shuffle(dice, model.positions);
    }
    shuffle(dice, other.rebuild.parts);
    std::swap(other.first, other.second);
    const auto before = judged(sets), after = judged(other);
    ASSERT_EQ(shape(before), shape(after)) << "seed " << kSeed << " round " << round << "\n"
                                           << told(before) << "\n"
                                           << told(after);
    ASSERT_EQ(before.verdict, after.verdict);
    ASSERT_DOUBLE_EQ(before.work_minutes, after.work_minutes);
  }
}

// --- missing facts -----------------------------------------------------------------------------

/// Every part type that sits in the rebuilt set.
std::vector<catalogue::PartType*> in_the_set(Sets& sets) {
  std::vector<catalogue::PartType*> all;
  const auto& model = sets.first.models.front();
  for (const auto& position : model.positions) {
    std::string reference = model.variants.front().parts.at(position.name);
    for (const auto& part : sets.rebuild.parts)
      if (part.place == position.name) reference = part.type;
    for (auto* family : {&sets.first, &sets.second})
      for (auto& type : family->part_types)
        if (type.reference() == reference) all.push_back(&type);
  }
  return all;
}

/// Keys whose absence is a statement by convention, not a hole: taken away, the set may rightly
/// look better.
const std::map<std::string, const char*> kNoneWhenAbsent{
    {"waits_s", "an input without it waits for nothing"},
    {"rail", "a supply contact without it is judged by its own amps"},
    {"least_amps", "a rail without it regulates from no load on"},
    {"fellow", "a part without it asks for nobody"},
    {"carries", "what a lead is for only tells two leads apart"},
};

/// Keys that are asked for when one side tells them, and taken as the reason says when neither
/// does.
const std::map<std::string, const char*> kToldByNeither{
    {"protocol", "a plain level"},
    {"idle", "the level that is not active"},
    {"pitch_mm", "the pitch its family names"},
    {"key", "none: it may go in turned round, which is said"},
    {"one_at", "the family's own order"},
    {"ribbon_side", "the side its socket touches"},
};

std::string last_key(const std::string& path) { return path.substr(path.rfind('.') + 1); }

/// The text of `port` without its fact `key` (of contact `number`), to compare the two ends.
bool tells(const catalogue::Port& port, const std::string& number, const std::string& key) {
  const auto& c = port.connector;
  if (key == "pitch_mm") return c.pitch_mm.has_value();
  if (key == "key") return !c.key.empty();
  if (key == "one_at") return c.one_at != catalogue::OneAt::unknown;
  if (key == "ribbon_side") return c.ribbon_side != catalogue::RibbonSide::unknown;
  if (!port.contacts) return false;
  for (const auto& contact : *port.contacts)
    if (contact.number == number)
      return key == "protocol" ? !contact.protocol.empty()
                               : contact.idle != catalogue::Level::unknown;
  return false;
}

/// True when no port of the same name on another part in the set tells `key` either.
bool told_by_neither(const std::vector<catalogue::PartType*>& parts, const catalogue::PartType& own,
                     const std::string& path) {
  if (kToldByNeither.count(last_key(path)) == 0 || !own.ports) return false;
  const auto index = [&](const std::string& list) {
    const auto at = path.find(list + "[");
    return at == std::string::npos ? std::size_t{0} : std::stoul(path.substr(at + list.size() + 1));
  };
  const auto& port = (*own.ports)[index("port")];
  const std::string number =
      path.find("contacts[") == std::string::npos ? "" : (*port.contacts)[index("contacts")].number;
  for (const auto* other : parts) {
    if (other == &own || !other->ports) continue;
    for (const auto& end : *other->ports)
      if (end.name.substr(1) == port.name.substr(1) && tells(end, number, last_key(path)))
        return false;
  }
  return true;
}

/// A fact of a port whose partner is of the same generation: what a factory built together is
/// proven, recorded or not.
bool built_together(const std::vector<catalogue::PartType*>& parts, const catalogue::PartType& own,
                    const std::string& path) {
  if (path.rfind("port[", 0) != 0) return false;
  const auto& port = (*own.ports)[std::stoul(path.substr(5))];
  for (const auto* other : parts) {
    if (other == &own || !other->ports) continue;
    for (const auto& end : *other->ports)
      if (end.name.substr(1) == port.name.substr(1)) return other->name.back() == own.name.back();
  }
  return false;
}

/// A domain that would follow from the class if nobody had written it.
bool follows_from_class(const catalogue::PartType& own, const std::string& path) {
  if (last_key(path) != "domain") return false;
  const auto& port = (*own.ports)[std::stoul(path.substr(5))];
  const auto& contact = (*port.contacts)[std::stoul(path.substr(path.find("contacts[") + 9))];
  using catalogue::NetClass;
  return contact.net_class == NetClass::mains || contact.net_class == NetClass::bus ||
         contact.net_class == NetClass::ignition || contact.net_class == NetClass::earth;
}

/// Facts of ports, contacts, connectors, mounts, pieces, lamp and mains: those the contract speaks
/// of ("an unknown contact, pin or piece gives a question, never fits").
bool speaks_of(const std::string& path) {
  const std::string key = last_key(path);
  if (path.rfind("port", 0) == 0) return key != "note" && key != "known" && key != "lead_mm";
  for (const auto* whole : {"mount", "carries", "needs", "lamp_watts", "lamp_volts", "protection",
                            "mains_volts", "y_nf"})
    if (path == whole) return true;
  return false;
}

TEST(Property, a_fact_taken_away_never_makes_a_doubtful_or_bad_set_good) {
  constexpr std::uint32_t kSeed = 13;
  fit_random::Dice dice(kSeed);
  int taken = 0, judged_bad = 0;
  for (int round = 0; round < 120; ++round) {
    const Sets sets = fit_sets::random_sets(dice, dice.below(2) * 40);
    const auto before = judged(sets);
    if (before.verdict < Verdict::unknown) continue;
    // Contacts that contradict what a factory built: without them the factory is believed again.
    if (fit_bench::has(before, "records disagree")) continue;
    ++judged_bad;
    Sets less = sets;
    const std::size_t parts = in_the_set(less).size();
    for (std::size_t part = 0; part < parts; ++part) {
      const std::size_t facts = fit_facts::count(Walk::What::take_away, *in_the_set(less)[part]);
      for (std::size_t fact = 0; fact < facts; ++fact) {
        less = sets;
        std::string path;
        auto& type = *in_the_set(less)[part];
        type = fit_facts::with(Walk::What::take_away, type, fact, path);
        if (!speaks_of(path) || kNoneWhenAbsent.count(last_key(path)) > 0) continue;
        if (told_by_neither(in_the_set(less), type, path)) continue;
        if (built_together(in_the_set(less), type, path)) continue;
        if (follows_from_class(type, path)) continue;
        ++taken;
        const auto after = judged(less);
        ASSERT_GE(after.verdict, Verdict::unknown)
            << "seed " << kSeed << " round " << round << ": " << path << " of " << type.reference()
            << " taken away\n"
            << told(before) << "\n"
            << told(after);
      }
    }
  }
  EXPECT_GT(judged_bad, 40);
  EXPECT_GT(taken, 4000);
}

TEST(Property, a_fact_added_turns_destroys_into_fits_only_through_that_fact) {
  // The set without the fact destroys, the set with it fits: then a reason that destroyed is gone,
  // and it was about the part the fact belongs to.
  constexpr std::uint32_t kSeed = 14;
  fit_random::Dice dice(kSeed);
  int turned = 0, tried = 0;
  for (int round = 0; round < 150; ++round) {
    const Sets more = fit_sets::random_sets(dice, 0);
    const auto with = judged(more);
    if (with.verdict > Verdict::fits_with_work) continue;
    Sets less = more;
    const std::size_t parts = in_the_set(less).size();
    for (std::size_t part = 0; part < parts; ++part) {
      const std::size_t facts = fit_facts::count(Walk::What::take_away, *in_the_set(less)[part]);
      for (std::size_t fact = 0; fact < facts; ++fact) {
        less = more;
        std::string path;
        auto& type = *in_the_set(less)[part];
        type = fit_facts::with(Walk::What::take_away, type, fact, path);
        const auto without = judged(less);
        ++tried;
        if (without.verdict != Verdict::destroys) continue;
        ++turned;
        const bool named =
            std::any_of(without.reasons.begin(), without.reasons.end(), [&](const Reason& one) {
              return one.verdict == Verdict::destroys &&
                     std::find(one.types.begin(), one.types.end(), type.reference()) !=
                         one.types.end();
            });
        ASSERT_TRUE(named) << "seed " << kSeed << " round " << round << " " << path << "\n"
                           << told(without);
        ASSERT_NE(shape(without), shape(with));
      }
    }
  }
  EXPECT_GT(tried, 1000);
  RecordProperty("turned", turned);
}

// --- like for like -----------------------------------------------------------------------------

TEST(Property, like_for_like_fits_whatever_is_not_recorded) {
  constexpr std::uint32_t kSeed = 15;
  fit_random::Dice dice(kSeed);
  for (int round = 0; round < 200; ++round) {
    Sets sets = fit_sets::random_sets(dice, dice.below(12));
    const auto& model = sets.first.models.front();
    for (const auto& [position, type] : model.variants.front().parts) {
      catalogue::ProposedPart part;
      part.place = position;
      part.type = type;
      part.from = "shelf";
      sets.rebuild.parts = {part};
      const auto j = judged(sets);
      ASSERT_LE(j.verdict, Verdict::fits_with_work)
          << "seed " << kSeed << " round " << round << " " << type << "\n"
          << told(j);
      for (const auto& one : j.reasons) ASSERT_LE(one.before, Verdict::fits_with_work) << told(j);
    }
  }
}

}  // namespace
}  // namespace benchgraft::fit
