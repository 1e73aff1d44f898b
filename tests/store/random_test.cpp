// Random commands against a model that knows only where parts are, what state they are in and who
// claims them, and shares no code with the shop.
#include <map>
#include <set>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "shop/contradiction.hpp"
#include "store/folder.hpp"
#include "store/journal.hpp"

namespace benchgraft::store {
namespace {

const std::vector<std::string> kSets = {"H2", "D3", "C7"};
const std::vector<std::string> kParts = {"PA", "PC", "PD", "PE"};
const std::vector<std::string> kPositions = {"supply", "lamp"};
const std::vector<std::string> kRebuilds = {"first", "second"};

struct ModelPart {
  std::string set, position, place, origin;
  bool bad = false;
  bool operator==(const ModelPart&) const = default;
};

struct ModelRebuild {
  std::string host;
  std::map<std::string, std::string> parts;  // position -> part
  bool operator==(const ModelRebuild&) const = default;
};

/// Set C7 belongs to a customer.
struct Model {
  std::map<std::string, std::set<std::string>> missing;  // of each set taken in
  std::map<std::string, ModelPart> parts;
  std::map<std::string, ModelRebuild> begun;
  std::set<std::string> ended;
  bool operator==(const Model&) const = default;

  [[nodiscard]] bool free(const std::string& set, const std::string& position,
                          const std::string& but = "") const {
    for (const auto& [code, part] : parts)
      if (code != but && part.set == set && part.position == position) return false;
    return true;
  }
  [[nodiscard]] bool customers(const std::string& part, const std::string& target) const {
    return parts.at(part).origin == "C7" && target != "C7";
  }
  void lift(const std::string& code, const std::string& place) {
    ModelPart& part = parts.at(code);
    if (!part.set.empty()) missing.at(part.set).insert(part.position);
    part.set.clear();
    part.position.clear();
    part.place = place;
  }
  void put(const std::string& code, const std::string& set, const std::string& position) {
    ModelPart& part = parts.at(code);
    part.set = set;
    part.position = position;
    part.place.clear();
    part.origin = set;
    missing.at(set).erase(position);
  }
};

std::string pick(const std::vector<std::string>& from) { return *rc::gen::elementOf(from); }
bool coin() { return *rc::gen::inRange(0, 2) == 0; }

/// A command, and whether and how the model follows it.
struct Try {
  shop::Command command;
  bool accepted = false;
  Model after;
};

Try take_in(Model m) {
  const std::string code = pick(kSets);
  Try t{set_with_code(code), !m.missing.contains(code), {}};
  if (code == "C7") std::get<shop::TakeIn>(t.command).set.consent = shop::Consent::must_go_back;
  m.missing[code];
  t.after = m;
  return t;
}

Try add_part(Model m) {
  const std::string code = pick(kParts);
  const bool shelf = coin();
  const std::string set = shelf ? "" : pick(kSets), position = shelf ? "" : pick(kPositions);
  Try t{part_in(code, set, position), false, {}};
  t.accepted =
      !m.parts.contains(code) && (shelf || (m.missing.contains(set) && m.free(set, position)));
  if (t.accepted) {
    m.parts[code] = {};
    if (!shelf) m.put(code, set, position);
  }
  t.after = m;
  return t;
}

Try move_part(Model m) {
  const std::string code = pick(kParts), place = coin() ? pick({"shelf 1", "shelf 2"}) : "";
  const std::string set = place.empty() ? pick(kSets) : "";
  const std::string position = place.empty() ? pick(kPositions) : "";
  Try t{shop::MovePart{code, set, position, place}, m.parts.contains(code), {}};
  if (t.accepted && place.empty()) {
    bool claimed_elsewhere = false;
    for (const auto& [name, rebuild] : m.begun)
      for (const auto& [at, part] : rebuild.parts)
        claimed_elsewhere = claimed_elsewhere || (part == code && rebuild.host != set);
    t.accepted = m.missing.contains(set) && m.free(set, position, code) &&
                 !m.customers(code, set) && !claimed_elsewhere;
  }
  if (t.accepted) {
    m.lift(code, place);
    if (place.empty()) m.put(code, set, position);
  }
  t.after = m;
  return t;
}

Try set_state(Model m) {
  const std::string code = pick(kParts);
  const bool bad = coin();
  Try t{shop::SetState{code, bad ? shop::State::bad : shop::State::good, "", "", ""},
        m.parts.contains(code),
        {}};
  if (t.accepted) m.parts[code].bad = bad;
  t.after = m;
  return t;
}

Try begin(Model m) {
  const std::string name = pick(kRebuilds), host = pick(kSets), position = pick(kPositions),
                    part = pick(kParts);
  Try t{shop::BeginRebuild{name, host, {{position, part}}, ""}, false, {}};
  t.accepted = m.missing.contains(host) && m.parts.contains(part) && !m.begun.contains(name) &&
               !m.ended.contains(name) && !m.parts.at(part).bad && !m.customers(part, host);
  for (const auto& [other, rebuild] : m.begun)
    t.accepted = t.accepted && rebuild.host != host && rebuild.parts.begin()->second != part;
  if (t.accepted) m.begun[name] = {host, {{position, part}}};
  t.after = m;
  return t;
}

Try finish(Model m) {
  const std::string name = pick(kRebuilds);
  const bool with_shelf = coin();
  Try t{
      shop::FinishRebuild{name, "", {}, "", with_shelf ? "scrap" : ""}, m.begun.contains(name), {}};
  if (t.accepted) {
    const ModelRebuild rebuild = m.begun.at(name);
    const auto& [position, part] = *rebuild.parts.begin();
    t.accepted = with_shelf || m.free(rebuild.host, position, part);
    if (t.accepted) {
      for (auto& [code, other] : m.parts)
        if (code != part && other.set == rebuild.host && other.position == position)
          m.lift(code, "scrap");
      m.lift(part, "");
      m.put(part, rebuild.host, position);
      m.begun.erase(name);
      m.ended.insert(name);
    }
  }
  t.after = m;
  return t;
}

Try give_up(Model m) {
  const std::string name = pick(kRebuilds);
  Try t{shop::GiveUpRebuild{name, ""}, m.begun.contains(name), {}};
  if (t.accepted) {
    m.begun.erase(name);
    m.ended.insert(name);
  }
  t.after = m;
  return t;
}

Try any_try(const Model& model) {
  switch (*rc::gen::inRange(0, 9)) {
    case 0:
      return take_in(model);
    case 1:
    case 2:
      return add_part(model);
    case 3:
    case 4:
      return move_part(model);
    case 5:
      return set_state(model);
    case 6:
      return begin(model);
    case 7:
      return finish(model);
    default:
      return give_up(model);
  }
}

/// What the model knows, read from the shop.
Model seen(const shop::Shop& shop) {
  Model view;
  for (const auto& set : shop.sets)
    view.missing[set.code] = {set.missing.begin(), set.missing.end()};
  for (const auto& part : shop.parts) {
    ModelPart& one = view.parts[part.code];
    if (part.in_set) one.set = shop.set(*part.in_set)->code;
    one.position = part.position;
    one.place = part.place;
    one.bad = part.state == shop::State::bad;
    // The set a part belongs to: the one it is in, else the one it came from.
    one.origin = one.set.empty() ? part.from : one.set;
  }
  for (const auto& rebuild : shop.rebuilds)
    if (rebuild.state == "begun")
      for (const auto& one : rebuild.parts)
        view.begun[rebuild.name] = {shop.set(rebuild.host)->code,
                                    {{one.position, shop.part(one.part)->code}}};
    else
      view.ended.insert(rebuild.name);
  return view;
}

/// Every entry of the journal made one after the other gives what the tables say.
void check_replay(Store& store, const std::string& path) {
  Connection connection(path, Access::read, 100);
  shop::Records replayed;
  for (const auto& entry : entries_from(connection, 1))
    shop::apply(must(edits_of(entry)), replayed);
  const shop::Records recorded{must(store.load()), {}};
  RC_ASSERT(shop::difference(replayed, recorded).empty());
  RC_ASSERT(!shop::first_contradiction(recorded.shop).has_value());
}

/// The journal as lines, for the message of a failed property.
std::string told(const Store& store) {
  std::string text;
  auto entries = must(store.journal());
  for (auto entry = entries.rbegin(); entry != entries.rend(); ++entry) {
    text += "\n" + std::to_string(entry->number) + " " + entry->what;
    for (const auto number : entry->takes_back) text += " <" + std::to_string(number);
  }
  return text;
}

RC_GTEST_PROP(RandomCommands, are_taken_and_refused_as_a_simple_model_says, ()) {
  const Folder folder;
  Store store = opened(folder.file());
  Model model;
  for (std::uint64_t n = 1; n <= 25; ++n) {
    const Try t = any_try(model);
    auto done = store.execute(t.command, support::at_the_bench(n));
    if (done.ok() != t.accepted)
      RC_FAIL((done ? "taken: " + done.value().what : "refused: " + done.error().message));
    if (t.accepted) model = t.after;
    RC_ASSERT(seen(must(store.load())) == model);
  }
  check_replay(store, folder.file());
}

RC_GTEST_PROP(RandomCommands, taken_back_from_the_newest_on_lead_through_every_earlier_shop, ()) {
  const Folder folder;
  Store store = opened(folder.file());
  Model model;
  std::vector<std::pair<std::int64_t, shop::Shop>> before;
  for (std::uint64_t n = 1; n <= 12; ++n) {
    const Try t = any_try(model);
    shop::Shop shop = must(store.load());
    auto done = store.execute(t.command, support::at_the_bench(n));
    if (!done || done.value().entry == 0) continue;
    model = t.after;
    before.emplace_back(done.value().entry, std::move(shop));
  }
  for (auto step = before.rbegin(); step != before.rend(); ++step) {
    RC_ASSERT(must(store.undo(step->first, false, support::at_the_bench(99))).in_the_way.empty());
    RC_ASSERT(must(store.load()) == step->second);
  }
  check_replay(store, folder.file());
}

/// Changes that the model does not follow: wishes, missing positions, tables read in. May be
/// refused.
std::int64_t change_something_else(Store& store, std::uint64_t seed) {
  const shop::Shop shop = must(store.load());
  const auto entry_of = [](const auto& done) { return done ? done.value().entry : 0; };
  const auto occasion = support::at_the_bench(seed);
  switch (*rc::gen::inRange(0, 5)) {
    case 0:
      return entry_of(store.execute(
          shop::AddWish{{{}, shop::WishSort::use_part_in, pick(kSets), pick(kParts), ""}},
          occasion));
    case 1:
      if (shop.wishes.empty()) return 0;
      return entry_of(store.execute(shop::WithdrawWish{shop.wishes.front().id}, occasion));
    case 2: {
      shop::ChangeSet change{pick(kSets)};
      change.missing = coin() ? kPositions : std::vector<std::string>{};
      return entry_of(store.execute(change, occasion));
    }
    case 3: {
      shop::ChangePart change{pick(kParts)};
      change.note = pick({"", "dusty", "clean"});
      return entry_of(store.execute(change, occasion));
    }
    default: {
      const std::string set = coin() ? pick(kSets) : "";
      const auto bundle = must(shop::sort_texts(
          {{"sets.csv", "code\n" + pick(kSets) + "\n"},
           {"parts.csv", "code,in_set,position\n" + pick(kParts) + "," + set + "," +
                             (set.empty() ? "" : pick(kPositions)) + "\n"}}));
      auto imported = store.import(bundle, occasion);
      return imported ? imported.value().done.entry : 0;
    }
  }
}

RC_GTEST_PROP(RandomCommands, can_be_taken_back_anywhere_with_what_depends_on_them, ()) {
  const Folder folder;
  Store store = opened(folder.file());
  Model model;
  std::int64_t newest = 0;
  for (std::uint64_t n = 1; n <= 20; ++n) {
    const bool undo = newest > 0 && *rc::gen::inRange(0, 4) == 0;
    if (!undo && coin()) {
      newest = std::max(newest, change_something_else(store, n));
    } else if (!undo) {
      auto done = store.execute(any_try(model).command, support::at_the_bench(n));
      if (done && done.value().entry > 0) newest = done.value().entry;
    } else {
      const auto entry = *rc::gen::inRange<std::int64_t>(1, newest + 1);
      const shop::Shop shop = must(store.load());
      auto alone = store.undo(entry, false, support::at_the_bench(n));
      if (!alone) {
        // The only reason there is: it was taken back already.
        if (alone.error().message.find("already taken back") == std::string::npos)
          RC_FAIL(std::to_string(entry) + ": " + alone.error().message + told(store));
        continue;
      }
      if (alone.value().in_the_way.empty()) {
        newest = std::max(newest, alone.value().done.entry);
      } else {
        RC_ASSERT(must(store.load()) == shop);
        auto both = store.undo(entry, true, support::at_the_bench(n));
        if (!both) RC_FAIL(std::to_string(entry) + ": " + both.error().message + told(store));
        newest = std::max(newest, both.value().done.entry);
      }
    }
    model = seen(must(store.load()));
  }
  check_replay(store, folder.file());
}

}  // namespace
}  // namespace benchgraft::store
