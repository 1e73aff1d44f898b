#include "fit/assembly.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/text.hpp"
#include "catalogue/effective.hpp"
#include "catalogue/references.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Catalogue;
using catalogue::PartType;
using catalogue::ProposedPart;

const PartType* type_in(const Catalogue& known, const catalogue::Variant* variant,
                        const std::string& position) {
  if (!variant) return nullptr;
  const auto found = variant->parts.find(position);
  return found == variant->parts.end() ? nullptr : known.part_type(found->second);
}

Place place_of(const Catalogue& known, const catalogue::Position& position,
               const catalogue::Variant* variant) {
  Place place;
  place.position = position.name;
  place.place = &position;
  place.after = position.after;
  place.optional = position.optional;
  place.type = place.was = type_in(known, variant, position.name);
  place.roles = place.type && !place.type->roles.empty() ? place.type->roles : position.roles;
  if (place.roles.empty()) place.roles = {position.name};
  place.empty =
      variant && !place.type && variant->parts.count(position.name) == 0 && position.optional;
  place.where = position.where;
  return place;
}

// A model nobody wrote positions for still has the places usual for its kind.
void add_usual_places(Assembly& set) {
  if (!set.kind) return;
  for (const auto& role : set.kind->roles) {
    if (set.filling(role.role) || set.factory(role.role)) continue;
    if (set.model && !set.model->positions.empty()) continue;
    Place place;
    place.position = role.role;
    place.roles = {role.role};
    place.optional = role.optional;
    place.after = role.after;
    set.places.push_back(std::move(place));
  }
}

Place* find_place(Assembly& set, const std::string& name) {
  for (auto& place : set.places)
    if (place.position == name) return &place;
  for (auto& place : set.places)
    if (contains(place.roles, name)) return &place;
  return nullptr;
}

Result<const PartType*> effective(const Catalogue& known, Assembly& set, const ProposedPart& part) {
  const PartType* made = known.part_type(part.type);
  if (!made)
    return Error{ErrorKind::not_found,
                 fmt::format("{}, line {}: \"{}\" names {}", part.where.file, part.where.line,
                             part.place, catalogue::reference_fault(known, part.type))};
  if (part.changes.empty()) return made;
  auto changed = catalogue::effective_type(*made, part.changes);
  if (!changed) return changed.error();
  set.owned.push_back(std::move(changed).value());
  return &set.owned.back();
}

void note_memory(Place& place, const ProposedPart& part) {
  for (const auto& change : part.changes)
    if (change.sort == catalogue::ChangeSort::memory_changed)
      place.memory_changed.push_back(change.setting);
}

// A memory is no plug: the board is still the make it was.
bool changes_the_make(const ProposedPart& part) {
  return std::any_of(part.changes.begin(), part.changes.end(), [](const auto& change) {
    return change.sort != catalogue::ChangeSort::memory_changed;
  });
}

Result<Place*> place_for(const Catalogue& known, Assembly& set, const ProposedPart& part) {
  if (Place* place = find_place(set, part.place)) return place;
  const PartType* type = known.part_type(part.type);
  const bool known_role = type && contains(type->roles, part.place);
  if (known_role ||
      (set.kind && std::any_of(set.kind->roles.begin(), set.kind->roles.end(),
                               [&](const auto& r) { return r.role == part.place; }))) {
    Place added;
    added.position = part.place;
    added.roles = {part.place};
    set.places.push_back(std::move(added));
    return &set.places.back();
  }
  std::vector<std::string> names;
  for (const auto& place : set.places) {
    names.push_back(place.position);
    names.insert(names.end(), place.roles.begin(), place.roles.end());
  }
  const std::string near = nearest_word(part.place, names);
  return Error{ErrorKind::not_found,
               fmt::format("{}, line {}: the host has no place \"{}\"{}", part.where.file,
                           part.where.line, part.place,
                           near.empty() ? "; write a position of the model or a role."
                                        : fmt::format("; did you mean \"{}\"?", near))};
}

// What was seen on the host's own part before: changes on it, its hours.
Result<void> note_seen(const Catalogue& known, Assembly& set, const ProposedPart& seen) {
  Place* place = find_place(set, seen.place);
  if (!place) return {};
  place->own_hours = seen.run_hours;
  if (seen.type.empty()) return {};
  auto type = effective(known, set, seen);
  if (!type) return type.error();
  place->type = place->was = type.value();
  place->altered = changes_the_make(seen);
  note_memory(*place, seen);
  if (!place->type->roles.empty()) place->roles = place->type->roles;
  return {};
}

Result<void> put_in(const Catalogue& known, Assembly& set, const ProposedPart& part) {
  auto found = place_for(known, set, part);
  if (!found) return found.error();
  Place& place = *found.value();
  if (place.changed)
    return Error{ErrorKind::conflict,
                 fmt::format("{}, line {}: two parts are put in as \"{}\"; a place takes one part.",
                             part.where.file, part.where.line, part.place)};
  place.changed = true;
  place.memory_changed.clear();
  place.empty = false;
  place.from = part.from.empty() ? "elsewhere" : part.from;
  place.run_hours = part.run_hours;
  place.known_good = part.known_good;
  place.where = part.where;
  place.type = nullptr;
  if (part.type.empty()) return {};
  auto type = effective(known, set, part);
  if (!type) return type.error();
  place.type = type.value();
  place.altered = changes_the_make(part);
  note_memory(place, part);
  place.same_make =
      place.was && !place.altered && place.was->reference() == place.type->reference();
  if (!place.type->roles.empty()) place.roles = place.type->roles;
  return {};
}

// A board that does several jobs pushes out the parts that did them, unless those are put in as
// well.
void take_over_roles(Assembly& set) {
  for (auto& strong : set.places) {
    if (!strong.changed || !strong.type) continue;
    for (auto& weak : set.places) {
      if (&weak == &strong || weak.changed || weak.empty || weak.roles.empty()) continue;
      const bool all = std::all_of(weak.roles.begin(), weak.roles.end(), [&](const auto& role) {
        return contains(strong.type->roles, role);
      });
      if (!all) continue;
      weak.taken_over =
          weak.place || weak.was;  // of a set known only by its kind nobody says it has one
      weak.taken_over_by = strong.called();
      weak.type = nullptr;
      weak.empty = true;
    }
  }
}

}  // namespace

bool Place::fills(const std::string& role) const { return !empty && contains(roles, role); }

std::string Place::called() const {
  return type ? fmt::format("the {} {}", position, type->reference())
              : fmt::format("the {}", position);
}

std::string Place::origin() const {
  if (!changed) return "host";
  const bool loose = from.empty() || from == "shelf" || from == "bought" || from == "elsewhere";
  return loose ? from + "|" + position : from;
}

const Place* Assembly::filling(const std::string& role) const {
  const Place* found = nullptr;
  for (const auto& place : places)
    if (place.fills(role) && (!found || (place.changed && !found->changed))) found = &place;
  return found;
}

Place* Assembly::filling(const std::string& role) {
  return const_cast<Place*>(static_cast<const Assembly*>(this)->filling(role));
}

const Place* Assembly::factory(const std::string& role) const {
  for (const auto& place : places)
    if (place.was ? place.was->fills(role) : contains(place.roles, role)) return &place;
  return nullptr;
}

Result<Assembly> assemble(const Catalogue& known, const catalogue::RebuildText& rebuild,
                          const catalogue::Model* model, const catalogue::SetKind* kind,
                          const catalogue::Variant* variant) {
  Assembly set;
  set.model = model;
  set.kind = kind;
  set.variant = variant;
  if (model)
    for (const auto& position : model->positions)
      set.places.push_back(place_of(known, position, variant));
  add_usual_places(set);
  for (const auto& seen : rebuild.seen)
    if (auto done = note_seen(known, set, seen); !done) return done.error();
  for (const auto& missing : rebuild.missing) {
    Place* place = find_place(set, missing);
    if (!place)
      return Error{ErrorKind::not_found,
                   fmt::format("{}: \"{}\" is said to be missing, but the host has no such "
                               "place; write a position or a role.",
                               rebuild.where.file, missing)};
    place->empty = place->host_lost_it = true;
    place->type = nullptr;
  }
  for (const auto& part : rebuild.parts)
    if (auto done = put_in(known, set, part); !done) return done.error();
  take_over_roles(set);
  return set;
}

bool built_together(const Catalogue& known, const Place& a, const Place& b) {
  if (!a.type || !b.type || a.altered || b.altered) return false;
  const std::string ra = a.type->reference(), rb = b.type->reference();
  const auto in = [&](const catalogue::Variant& variant, const std::string& reference) {
    return std::any_of(variant.parts.begin(), variant.parts.end(), [&](const auto& entry) {
      const PartType* type = known.part_type(entry.second);
      return type && type->reference() == reference;
    });
  };
  for (const auto* model : known.built_with(ra))
    for (const auto& variant : model->variants)
      if (in(variant, ra) && in(variant, rb)) return true;
  return false;
}

double distance(const catalogue::Point& a, const catalogue::Point& b) {
  return std::hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

const catalogue::Model* donor_model(const Catalogue& known, const Place& place) {
  if (const auto* named = known.model(place.from.substr(0, place.from.find('/')))) return named;
  if (!place.type) return nullptr;
  const auto built = known.built_with(place.type->reference());
  return built.size() == 1 ? built.front() : nullptr;
}

}  // namespace benchgraft::fit
