// Everything known about makes: kinds, part types, models, adaptations, settings, swap notes.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "catalogue/kind.hpp"
#include "catalogue/knowledge.hpp"
#include "catalogue/model.hpp"
#include "catalogue/part_type.hpp"

namespace benchgraft::catalogue {

/// One text file: what was in it, in its order.
struct Family {
  std::string name;  ///< unique; the file is called after it
  std::string note;
  std::vector<PartType> part_types;
  std::vector<Model> models;
  std::vector<Adaptation> adaptations;
  std::vector<Setting> settings;
  std::vector<SwapNote> notes;
  std::vector<SetKind> set_kinds;
  std::vector<PartKind> part_kinds;
  std::vector<TouchLimit> limits;
  std::vector<Trait> traits;
  std::vector<Prior> priors;
  Where where;
  bool operator==(const Family&) const = default;
};

/// All families together, with look-up by reference. Copies are deep and cheap enough to pass once.
class Catalogue {
 public:
  /// Fails when two families name the same thing twice or name a thing that is nowhere.
  static Result<Catalogue> from_families(std::vector<Family> families);

  [[nodiscard]] const std::vector<Family>& families() const { return families_; }
  /// "LD-20/B", or "LD-20" when only one revision is recorded. Null when not recorded or ambiguous.
  [[nodiscard]] const PartType* part_type(const std::string& reference) const;
  /// All revisions of a printed number.
  [[nodiscard]] std::vector<const PartType*> revisions(const std::string& name) const;
  [[nodiscard]] const Model* model(const std::string& name) const;
  [[nodiscard]] const SetKind* set_kind(const std::string& name) const;
  [[nodiscard]] const PartKind* part_kind(const std::string& name) const;
  [[nodiscard]] const Setting* setting(const std::string& name) const;
  [[nodiscard]] std::vector<const PartType*> part_types() const;
  [[nodiscard]] std::vector<const Model*> models() const;
  [[nodiscard]] std::vector<const Adaptation*> adaptations() const;
  [[nodiscard]] std::vector<const Setting*> settings() const;
  [[nodiscard]] std::vector<const SwapNote*> notes() const;
  [[nodiscard]] std::vector<const TouchLimit*> limits() const;
  [[nodiscard]] std::vector<const Trait*> traits() const;
  [[nodiscard]] const Prior* prior(const std::string& verdict) const;
  /// Models that some variant was built with `reference`.
  [[nodiscard]] std::vector<const Model*> built_with(const std::string& reference) const;
  /// Family a part type or model came in; "" when not recorded.
  [[nodiscard]] std::string family_of(const std::string& name) const;

 private:
  std::vector<Family> families_;
  std::map<std::string, std::pair<std::size_t, std::size_t>> types_;  // reference -> family, index
  std::map<std::string, std::vector<std::string>> revisions_;         // name -> references
  std::map<std::string, std::pair<std::size_t, std::size_t>> models_;
  std::map<std::string, std::pair<std::size_t, std::size_t>> set_kinds_;
  std::map<std::string, std::pair<std::size_t, std::size_t>> part_kinds_;
  std::map<std::string, std::pair<std::size_t, std::size_t>> settings_;
};

}  // namespace benchgraft::catalogue
