#include "catalogue/references.hpp"

#include <map>
#include <set>

#include "base/text.hpp"
#include "catalogue/circle.hpp"
#include "catalogue/faults.hpp"

namespace benchgraft::catalogue {

namespace {

std::vector<std::string> sorted(const std::set<std::string>& words) {
  return {words.begin(), words.end()};
}

/// Every name that other things may refer to.
struct Names {
  std::set<std::string> set_kinds, part_kinds, adaptations, settings, roles, hazards, pieces;
  std::map<std::string, const Trait*> traits;
  std::vector<std::string> usual_roles;  ///< those the kinds know
};

void take_pieces(Names& names, const std::optional<std::vector<Piece>>& pieces) {
  if (pieces)
    for (const auto& piece : *pieces) names.pieces.insert(piece.name);
}

Names all_names(const Catalogue& catalogue) {
  Names names;
  for (const auto& family : catalogue.families()) {
    for (const auto& kind : family.set_kinds) {
      names.set_kinds.insert(kind.name);
      for (const auto& role : kind.roles) {
        names.roles.insert(role.role);
        names.usual_roles.push_back(role.role);
      }
      for (const auto& hazard : kind.hazards) names.hazards.insert(hazard.name);
    }
    for (const auto& kind : family.part_kinds) {
      names.part_kinds.insert(kind.name);
      names.roles.insert(kind.usual_roles.begin(), kind.usual_roles.end());
      names.usual_roles.insert(names.usual_roles.end(), kind.usual_roles.begin(),
                               kind.usual_roles.end());
    }
    for (const auto& type : family.part_types) {
      names.roles.insert(type.roles.begin(), type.roles.end());
      take_pieces(names, type.carries);
      take_pieces(names, type.needs);
    }
    for (const auto& model : family.models)
      for (const auto& position : model.positions)
        names.roles.insert(position.roles.begin(), position.roles.end());
    for (const auto& adaptation : family.adaptations) names.adaptations.insert(adaptation.name);
    for (const auto& setting : family.settings) names.settings.insert(setting.name);
    for (const auto& trait : family.traits) names.traits.emplace(trait.name, &trait);
  }
  return names;
}

/// The checks of one catalogue; each faults what is named and nowhere recorded.
class ReferenceCheck {
 public:
  explicit ReferenceCheck(const Catalogue& catalogue)
      : catalogue_(catalogue), names_(all_names(catalogue)) {}

  Result<void> all() {
    for (const auto& family : catalogue_.families()) {
      for (const auto& type : family.part_types) part_type(type);
      for (const auto& model : family.models) this->model(model);
      for (const auto& adaptation : family.adaptations) this->adaptation(adaptation);
      for (const auto& setting : family.settings) this->setting(setting);
      for (const auto& kind : family.set_kinds) set_kind(kind);
      for (const auto& trait : family.traits) this->trait(trait);
    }
    circles();
    return faults_.result();
  }

 private:
  void type_named(const Where& where, const std::string& owner, const std::string& reference) {
    const std::string why = reference_fault(catalogue_, reference);
    if (!why.empty()) faults_.add(where, fmt::format("{} names {}", owner, why));
  }

  void named(const Where& where, const std::string& owner, const std::string& what,
             const std::string& name, const std::set<std::string>& known) {
    if (name.empty() || known.contains(name)) return;
    faults_.add(where,
                fmt::format("{} names the {} \"{}\", which is not recorded{}", owner, what, name,
                            mend(name, sorted(known), "record it, or correct the name")));
  }

  // Roles, hazards and kinds are judged only beside the kinds that say which there are.
  void role(const Where& where, const std::string& owner, const std::string& name) {
    if (!names_.set_kinds.empty()) named(where, owner, "role", name, names_.roles);
  }
  // A new role may be made up, but one that is nearly a usual one is a slip of the pen: the part
  // would never be found for its job.
  void own_role(const Where& where, const std::string& owner, const std::string& name) {
    constexpr std::size_t kSlip = 2, kLongEnough = 6;
    if (name.size() < kLongEnough || contains(names_.usual_roles, name)) return;
    for (const auto& usual : names_.usual_roles)
      if (usual.size() >= kLongEnough && edit_distance(name, usual) <= kSlip &&
          !starts_with_other(name, usual)) {
        faults_.add(where, fmt::format("{} has the role \"{}\", which no kind knows; did you mean "
                                       "\"{}\"?",
                                       owner, name, usual));
        return;
      }
  }
  // "lamp fan 2" beside "lamp fan" is meant so.
  static bool starts_with_other(const std::string& a, const std::string& b) {
    return a.starts_with(b) || b.starts_with(a);
  }

  void hazards(const Where& where, const std::string& owner,
               const std::vector<std::string>& hazards) {
    if (names_.hazards.empty()) return;
    for (const auto& hazard : hazards) named(where, owner, "hazard", hazard, names_.hazards);
  }

  // A word where a number is compared, or the other way round, could never be judged.
  void trait_values(const std::string& owner, const std::vector<TraitValue>& values) {
    for (const auto& value : values) {
      const auto known = names_.traits.find(value.trait);
      if (known == names_.traits.end()) {
        std::set<std::string> names;
        for (const auto& [name, trait] : names_.traits) names.insert(name);
        if (!names.empty()) named(value.where, owner, "trait", value.trait, names);
        continue;
      }
      const bool number = known->second->compare == TraitCompare::within;
      if (number ? !value.number || !value.words.empty() : value.number || value.words.empty())
        faults_.add(value.where,
                    fmt::format("the trait \"{}\" of {} is told by {}; write {}.", value.trait,
                                owner, number ? "a number" : "words",
                                number ? "number = 12 or number = [10, 14]" : "words = [\"...\"]"));
    }
  }

  void trait(const Trait& trait) {
    const std::string owner = fmt::format("trait \"{}\"", trait.name);
    for (const auto& name : trait.of) role(trait.where, owner, name);
    for (const auto& name : trait.taken_by) role(trait.where, owner, name);
    if (trait.taken_by.empty() != (trait.compare == TraitCompare::same_as_old))
      faults_.add(trait.where,
                  trait.taken_by.empty()
                      ? fmt::format("{} names no role that takes it; add taken_by.", owner)
                      : fmt::format("{} is compared \"as before\" and needs no taken_by; take it "
                                    "away.",
                                    owner));
  }

  void pieces(const std::string& owner, const std::optional<std::vector<Piece>>& pieces) {
    if (!pieces || names_.set_kinds.empty()) return;
    for (const auto& piece : *pieces)
      for (const auto& before : piece.after)
        if (!names_.pieces.contains(before))
          role(piece.where, fmt::format("\"after\" of piece \"{}\" of {}", piece.name, owner),
               before);
  }

  void part_type(const PartType& type) {
    const std::string owner = fmt::format("part type \"{}\"", type.reference());
    if (!names_.part_kinds.empty() && !names_.part_kinds.contains(type.kind))
      faults_.add(
          type.where,
          fmt::format("{} names the part kind \"{}\", which is not recorded{}", owner, type.kind,
                      mend(type.kind, sorted(names_.part_kinds),
                           "record it, or take one of: " + listed(sorted(names_.part_kinds)))));
    for (const auto& own : type.roles) own_role(type.where, owner, own);
    for (const auto& fellow : type.fellows) {
      role(fellow.where, "a fellow of " + owner, fellow.role);
      for (const auto& reference : fellow.types)
        type_named(fellow.where, "a fellow of " + owner, reference);
    }
    if (type.ports)
      for (const auto& port : *type.ports)
        role(port.where, fmt::format("port \"{}\" of {}", port.name, owner), port.to);
    if (type.counters)
      for (const auto& counter : *type.counters)
        role(type.where, "a counter of " + owner, counter.speaks_of);
    for (const auto& name : type.memory_of) role(type.where, "memory_of of " + owner, name);
    trait_values(owner, type.has);
    trait_values(owner, type.takes);
    pieces(owner, type.carries);
    pieces(owner, type.needs);
    hazards(type.where, owner, type.hazards);
  }

  void model(const Model& model) {
    const std::string owner = fmt::format("model \"{}\"", model.name);
    if (!names_.set_kinds.empty())
      named(model.where, owner, "set kind", model.kind, names_.set_kinds);
    std::set<std::string> before = names_.pieces;
    for (const auto& position : model.positions) {
      before.insert(position.name);
      before.insert(position.roles.begin(), position.roles.end());
    }
    for (const auto& position : model.positions)
      for (const auto& name : position.after)
        named(position.where, fmt::format("\"after\" of position \"{}\"", position.name),
              "position or piece", name, before);
    for (const auto& variant : model.variants)
      for (const auto& [position, reference] : variant.parts)
        type_named(variant.where, fmt::format("variant \"{}\" of {}", variant.name, owner),
                   reference);
    trait_values(owner, model.has);
    hazards(model.where, owner, model.hazards);
  }

  void adaptation(const Adaptation& adaptation) {
    const std::string owner = fmt::format("adaptation \"{}\"", adaptation.name);
    for (const auto& other : adaptation.needs)
      named(adaptation.where, owner, "adaptation", other, names_.adaptations);
    for (const auto& other : adaptation.excludes)
      named(adaptation.where, owner, "adaptation", other, names_.adaptations);
    for (const auto& cure : adaptation.cures) {
      role(adaptation.where, "a cure of " + owner, cure.role);
      if (!cure.type.empty()) type_named(adaptation.where, "a cure of " + owner, cure.type);
    }
  }

  void setting(const Setting& setting) {
    const std::string owner = fmt::format("setting \"{}\"", setting.name);
    for (const auto& name : setting.depends_on) role(setting.where, owner, name);
    role(setting.where, owner, setting.stored_in);
    for (const auto& name : setting.reached_with) role(setting.where, owner, name);
    for (const auto& other : setting.after)
      named(setting.where, owner, "setting", other, names_.settings);
  }

  void set_kind(const SetKind& kind) {
    for (const auto& surprise : kind.surprises)
      role(kind.where, fmt::format("a surprise of set kind \"{}\"", kind.name), surprise.changed);
  }

  void circles() {
    WaitsFor settings, adaptations;
    for (const auto* setting : catalogue_.settings()) settings[setting->name] = setting->after;
    for (const auto* adaptation : catalogue_.adaptations())
      adaptations[adaptation->name] = adaptation->needs;
    if (const auto circle = find_circle(settings); !circle.empty())
      faults_.add(
          catalogue_.setting(circle.front())->where,
          fmt::format("settings wait for each other in a circle: {}; take one \"after\" away.",
                      circle_text(circle)));
    if (const auto circle = find_circle(adaptations); !circle.empty())
      for (const auto* adaptation : catalogue_.adaptations())
        if (adaptation->name == circle.front())
          faults_.add(adaptation->where,
                      fmt::format("adaptations need each other in a circle: {}; take one "
                                  "\"needs\" away.",
                                  circle_text(circle)));
  }

  const Catalogue& catalogue_;
  Names names_;
  Faults faults_;
};

}  // namespace

std::string reference_fault(const Catalogue& catalogue, const std::string& reference) {
  if (catalogue.part_type(reference) != nullptr) return "";
  const auto revisions = catalogue.revisions(reference);
  const auto reference_of = [](const PartType* type) { return type->reference(); };
  if (!revisions.empty())
    return fmt::format("\"{}\", which has the revisions {}; write one of them.", reference,
                       listed(names_of(revisions, reference_of)));
  const auto known = names_of(catalogue.part_types(), reference_of);
  return fmt::format("part type \"{}\", which is not recorded{}", reference,
                     mend(reference, known, "record it with at least its kind and roles"));
}

Result<void> check_references(const Catalogue& catalogue) {
  return ReferenceCheck(catalogue).all();
}

}  // namespace benchgraft::catalogue
