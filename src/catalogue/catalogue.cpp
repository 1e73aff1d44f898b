#include "catalogue/catalogue.hpp"

#include <algorithm>

#include "catalogue/faults.hpp"
#include "catalogue/references.hpp"

namespace benchgraft::catalogue {

namespace {

using Index = std::map<std::string, std::pair<std::size_t, std::size_t>>;

std::string shown_place(const Where& where) {
  return where.line > 0 ? fmt::format("{}, line {}", where.file, where.line) : where.file;
}

/// Finds names that two families record.
class Doubles {
 public:
  explicit Doubles(Faults& faults) : faults_(faults) {}
  void take(const std::string& what, const std::string& name, const Where& where) {
    const auto [first, fresh] = seen_.emplace(what + " \"" + name + "\"", where);
    if (!fresh)
      faults_.add(where,
                  fmt::format("{} is already recorded in {}; keep one.", first->first,
                              shown_place(first->second)),
                  ErrorKind::conflict);
  }

 private:
  Faults& faults_;
  std::map<std::string, Where> seen_;
};

std::string limit_name(const TouchLimit& limit) {
  return fmt::format("{} {}, {}, class {}", limit.profile, limit.edition, limit.test,
                     limit.protection == Protection::unknown
                         ? "any"
                         : word_of(kProtectionWords, limit.protection));
}

Result<void> refuse_doubles(const std::vector<Family>& families) {
  Faults faults;
  Doubles doubles(faults);
  for (const auto& family : families) {
    doubles.take("family", family.name, family.where);
    for (const auto& type : family.part_types)
      doubles.take("part type", type.reference(), type.where);
    for (const auto& model : family.models) doubles.take("model", model.name, model.where);
    for (const auto& own : family.adaptations) doubles.take("adaptation", own.name, own.where);
    for (const auto& setting : family.settings)
      doubles.take("setting", setting.name, setting.where);
    for (const auto& note : family.notes) doubles.take("swap note", note.name, note.where);
    for (const auto& kind : family.set_kinds) doubles.take("set kind", kind.name, kind.where);
    for (const auto& kind : family.part_kinds) doubles.take("part kind", kind.name, kind.where);
    for (const auto& limit : family.limits)
      doubles.take("touch limit", limit_name(limit), limit.where);
    for (const auto& trait : family.traits) doubles.take("trait", trait.name, trait.where);
    for (const auto& prior : family.priors) doubles.take("prior", prior.verdict, prior.where);
  }
  return faults.result();
}

template <class T>
Index index_of(const std::vector<Family>& families, std::vector<T> Family::*things) {
  Index index;
  for (std::size_t f = 0; f < families.size(); ++f)
    for (std::size_t i = 0; i < (families[f].*things).size(); ++i)
      index[(families[f].*things)[i].name] = {f, i};
  return index;
}

template <class T>
const T* look_up(const std::vector<Family>& families, std::vector<T> Family::*things,
                 const Index& index, const std::string& name) {
  const auto found = index.find(name);
  if (found == index.end()) return nullptr;
  return &(families[found->second.first].*things)[found->second.second];
}

template <class T>
std::vector<const T*> all(const std::vector<Family>& families, std::vector<T> Family::*things) {
  std::vector<const T*> found;
  for (const auto& family : families)
    for (const auto& thing : family.*things) found.push_back(&thing);
  return found;
}

}  // namespace

Result<Catalogue> Catalogue::from_families(std::vector<Family> families) {
  if (auto single = refuse_doubles(families); !single) return single.error();
  Catalogue made;
  made.families_ = std::move(families);
  for (std::size_t f = 0; f < made.families_.size(); ++f)
    for (std::size_t i = 0; i < made.families_[f].part_types.size(); ++i) {
      const PartType& type = made.families_[f].part_types[i];
      made.types_[type.reference()] = {f, i};
      made.revisions_[type.name].push_back(type.reference());
    }
  made.models_ = index_of(made.families_, &Family::models);
  made.set_kinds_ = index_of(made.families_, &Family::set_kinds);
  made.part_kinds_ = index_of(made.families_, &Family::part_kinds);
  made.settings_ = index_of(made.families_, &Family::settings);
  if (auto sound = check_references(made); !sound) return sound.error();
  return made;
}

const PartType* Catalogue::part_type(const std::string& reference) const {
  if (const auto* exact = look_up(families_, &Family::part_types, types_, reference)) return exact;
  const auto revisions = revisions_.find(reference);
  if (revisions == revisions_.end() || revisions->second.size() != 1) return nullptr;
  return look_up(families_, &Family::part_types, types_, revisions->second.front());
}

std::vector<const PartType*> Catalogue::revisions(const std::string& name) const {
  std::vector<const PartType*> found;
  if (const auto own = revisions_.find(name); own != revisions_.end())
    for (const auto& reference : own->second)
      found.push_back(look_up(families_, &Family::part_types, types_, reference));
  return found;
}

const Model* Catalogue::model(const std::string& name) const {
  return look_up(families_, &Family::models, models_, name);
}
const SetKind* Catalogue::set_kind(const std::string& name) const {
  return look_up(families_, &Family::set_kinds, set_kinds_, name);
}
const PartKind* Catalogue::part_kind(const std::string& name) const {
  return look_up(families_, &Family::part_kinds, part_kinds_, name);
}
const Setting* Catalogue::setting(const std::string& name) const {
  return look_up(families_, &Family::settings, settings_, name);
}

std::vector<const PartType*> Catalogue::part_types() const {
  return all(families_, &Family::part_types);
}
std::vector<const Model*> Catalogue::models() const { return all(families_, &Family::models); }
std::vector<const Adaptation*> Catalogue::adaptations() const {
  return all(families_, &Family::adaptations);
}
std::vector<const Setting*> Catalogue::settings() const {
  return all(families_, &Family::settings);
}
std::vector<const SwapNote*> Catalogue::notes() const { return all(families_, &Family::notes); }
std::vector<const TouchLimit*> Catalogue::limits() const { return all(families_, &Family::limits); }
std::vector<const Trait*> Catalogue::traits() const { return all(families_, &Family::traits); }

const Prior* Catalogue::prior(const std::string& verdict) const {
  for (const auto& family : families_)
    for (const auto& prior : family.priors)
      if (prior.verdict == verdict) return &prior;
  return nullptr;
}

std::vector<const Model*> Catalogue::built_with(const std::string& reference) const {
  std::vector<const Model*> found;
  const PartType* wanted = part_type(reference);
  if (wanted == nullptr) return found;
  for (const auto* model : models())
    if (std::any_of(model->variants.begin(), model->variants.end(), [&](const Variant& variant) {
          return std::any_of(variant.parts.begin(), variant.parts.end(),
                             [&](const auto& part) { return part_type(part.second) == wanted; });
        }))
      found.push_back(model);
  return found;
}

std::string Catalogue::family_of(const std::string& name) const {
  if (const auto model = models_.find(name); model != models_.end())
    return families_[model->second.first].name;
  const PartType* type = part_type(name);
  if (type == nullptr) return "";
  return families_[types_.at(type->reference()).first].name;
}

}  // namespace benchgraft::catalogue
