#include "random_family.hpp"

#include <algorithm>
#include <set>

#include "random_filling.hpp"

namespace benchgraft::catalogue {

namespace {

// Random names are only by chance different; a number in front makes them so.
template <class Things, class Name>
void make_unique(Things& things, Name name) {
  int count = 0;
  for (auto& thing : things) name(thing) = std::to_string(++count) + name(thing);
}

void mend(Contact& contact, const PartType& type, int count) {
  if (std::all_of(contact.number.begin(), contact.number.end(),
                  [](char c) { return c >= '0' && c <= '9'; }))
    contact.number = std::to_string(count);
  else
    contact.number = "m" + std::to_string(count) + contact.number;
  if (!type.rails.empty() && !contact.rail.empty()) contact.rail = type.rails.front().name;
}

void mend(Port& port, const PartType& type) {
  const int contacts = port.contacts ? static_cast<int>(port.contacts->size()) : 0;
  if (port.connector.ways) port.connector.ways = *port.connector.ways + contacts;
  if (port.connector.gaps)
    for (int& gap : *port.connector.gaps) gap = std::min(gap, port.connector.ways.value_or(gap));
  int count = 0;
  if (port.contacts)
    for (auto& contact : *port.contacts) mend(contact, type, ++count);
}

void mend(std::optional<std::vector<Piece>>& pieces, const std::string& mark) {
  if (!pieces) return;
  int count = 0;
  for (auto& piece : *pieces) {
    piece.name = mark + std::to_string(++count) + piece.name;
    if (count > 1) piece.after.push_back((*pieces)[0].name);
  }
}

void mend(PartType& type, RandomFilling& random) {
  make_unique(type.rails, [](Rail& rail) -> std::string& { return rail.name; });
  if (type.counters)
    make_unique(*type.counters, [](Counter& own) -> std::string& { return own.name; });
  mend(type.carries, "c");
  mend(type.needs, "n");
  if (type.ports) {
    make_unique(*type.ports, [](Port& port) -> std::string& { return port.name; });
    for (auto& port : *type.ports) mend(port, type);
  }
  if (!type.ports || type.ports->empty()) type.wires.clear();
  for (auto& wire : type.wires) {
    auto& port = type.ports->front();
    if (port.contacts && port.contacts->empty()) port.contacts.reset();
    wire.from_end = wire.to_end = port.name;
    const auto any = [&] {
      if (!port.contacts) return std::string("1");
      return (*port.contacts)[static_cast<std::size_t>(
                                  random.below(static_cast<int>(port.contacts->size())))]
          .number;
    };
    wire.from_contact = any();
    wire.to_contact = any();
  }
}

void mend(Model& model) {
  for (std::size_t i = 0; i < model.positions.size(); ++i) {
    Position& position = model.positions[i];
    const std::string old = position.name;
    position.name = std::to_string(i) + old;
    std::replace(position.roles.begin(), position.roles.end(), old, position.name);
    if (i > 0) position.after.push_back(model.positions[i - 1].name);
  }
  make_unique(model.variants, [](Variant& own) -> std::string& { return own.name; });
  for (auto& variant : model.variants) {
    std::map<std::string, std::string> parts;
    std::size_t i = 0;
    for (const auto& [position, reference] : variant.parts)
      if (i < model.positions.size()) parts[model.positions[i++].name] = reference;
    variant.parts = parts;
  }
  if (model.positions.empty()) model.links.clear();
  for (auto& link : model.links) {
    link.from = model.positions.front().roles.front() + ":" + link.from;
    link.to = model.positions.back().roles.back() + ":" + link.to;
  }
  if (model.optics && model.optics->mirror_normals)
    model.optics->fold_mirrors = static_cast<int>(model.optics->mirror_normals->size());
}

void mend(SetKind& kind) {
  make_unique(kind.roles, [](KindRole& role) -> std::string& { return role.role; });
  make_unique(kind.hazards, [](Hazard& own) -> std::string& { return own.name; });
  for (std::size_t i = 0; i < kind.roles.size(); ++i)
    kind.roles[i].after =
        i > 0 ? std::vector<std::string>{kind.roles[i - 1].role} : std::vector<std::string>{};
  const bool any = !kind.roles.empty();
  for (auto& hazard : kind.hazards)
    hazard.roles = any ? std::vector{kind.roles[0].role} : std::vector<std::string>{};
  if (!any) kind.links.clear();
  for (auto& link : kind.links) {
    link.from = kind.roles.front().role;
    link.to = kind.roles.back().role;
  }
  if (!kind.judged) kind.not_judged += "?";
}

// Words or a number, as the response asks for.
void mend(Observer& observer) {
  make_unique(observer.words, [](JudgedWord& own) -> std::string& { return own.word; });
  if (observer.response == Response::line || observer.words.empty()) {
    observer.words.clear();
    if (observer.response == Response::window)
      observer.words = {{"a", Meaning::far_below}, {"b", Meaning::good}, {"c", Meaning::above}};
  }
  if (!observer.words.empty()) {
    observer.unit.clear();
    const Meaning other = observer.response == Response::peak ? Meaning::off : Meaning::below;
    if (observer.response != Response::window)
      for (auto& own : observer.words) own.means = other;
    observer.words.push_back({"0", Meaning::good});
    observer.words.push_back({"00", other});
    if (observer.response == Response::window) observer.words.push_back({"000", Meaning::above});
    return;
  }
  observer.unit += "u";
  if (observer.best == Best::unknown) observer.best = Best::lowest;
  if (!observer.wanted) observer.wanted = 1;
}

void mend(std::vector<Change>& changes) {
  for (auto& change : changes) {
    for (std::string* word : {&change.port, &change.piece}) *word += "z";
    change.from = "1";
    if (change.to == "1" || change.to.empty()) change.to = "2";
    if (!change.now) change.now = TraitValue{"own", {}, std::nullopt, {}};
    if (!change.contact) change.contact = Contact{};
    change.contact->number = "A1";
  }
}

void mend(std::vector<ProposedPart>& parts) {
  make_unique(parts, [](ProposedPart& part) -> std::string& { return part.place; });
  for (auto& part : parts) {
    if (!part.type.empty()) part.candidates.clear();
    if (!part.type.empty()) part.empty = false;
    mend(part.changes);
  }
}

}  // namespace

Family random_family(std::uint32_t seed, int most) {
  RandomFilling random(seed, most);
  Family family;
  each_key(random, family);
  std::erase(family.name, '/');
  std::erase(family.name, '\\');
  const auto own_name = [](auto& thing) -> std::string& { return thing.name; };
  make_unique(family.part_types, own_name);
  make_unique(family.models, own_name);
  make_unique(family.adaptations, own_name);
  make_unique(family.settings, own_name);
  make_unique(family.notes, own_name);
  make_unique(family.set_kinds, own_name);
  make_unique(family.part_kinds, own_name);
  make_unique(family.limits, [](TouchLimit& limit) -> std::string& { return limit.test; });
  make_unique(family.traits, own_name);
  std::set<std::string> spoken;
  std::erase_if(family.priors,
                [&](const Prior& prior) { return !spoken.insert(prior.verdict).second; });
  for (auto& prior : family.priors) prior.worked += 1;
  for (auto& type : family.part_types) mend(type, random);
  for (auto& model : family.models) mend(model);
  for (auto& kind : family.set_kinds) mend(kind);
  for (auto& setting : family.settings) {
    make_unique(setting.observers, own_name);
    for (auto& observer : setting.observers) mend(observer);
  }
  for (auto& adaptation : family.adaptations)
    for (auto& other : adaptation.excludes) other += " not";
  for (auto& adaptation : family.adaptations)
    for (auto& cure : adaptation.cures)
      if (cure == Cure{}) cure.rule = "rail high";
  for (auto& note : family.notes) note.date = random.coin() ? "2026-05-31" : "";
  return family;
}

RebuildText random_rebuild(std::uint32_t seed, int most) {
  RandomFilling random(seed, most);
  RebuildText rebuild;
  each_key(random, rebuild);
  if (rebuild.model.empty()) rebuild.kind += "k";
  mend(rebuild.parts);
  mend(rebuild.seen);
  for (auto& part : rebuild.parts) part.empty = false, part.signs.clear();
  rebuild.missing = {"0 the lost one"};
  return rebuild;
}

}  // namespace benchgraft::catalogue
