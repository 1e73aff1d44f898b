// One judged rebuild with the records about it at hand: who sits where, what the kind says.
#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "fit/verdict.hpp"
#include "steps/steps.hpp"

namespace benchgraft::steps {

inline constexpr const char* kLamp = "lamp";
inline constexpr const char* kLampDriver = "lamp driver";

/// Look-ups the steps share. Keeps references: the catalogue and the judgement must outlive it.
class Site {
 public:
  Site(const catalogue::Catalogue& known, const fit::Judgement& judged);

  [[nodiscard]] const catalogue::Catalogue& known() const { return known_; }
  [[nodiscard]] const fit::Judgement& judged() const { return judged_; }
  [[nodiscard]] const catalogue::SetKind* kind() const { return kind_; }
  [[nodiscard]] const catalogue::Model* model() const { return model_; }

  /// A role that a seat of this rebuild fills or that its kind of set always has.
  [[nodiscard]] bool has_role(const std::string& role) const;
  /// True when it is on record what the host was built with; else an empty `was` means "not known".
  [[nodiscard]] bool build_known() const {
    return !judged_.model.empty() && !judged_.variant.empty();
  }
  /// The part that stays or goes in; null when its type is not recorded.
  [[nodiscard]] const catalogue::PartType* type_in(const fit::Seat& seat) const;
  /// The part that comes out; for a seat that is not changed, the one that stays.
  [[nodiscard]] const catalogue::PartType* type_out(const fit::Seat& seat) const;
  /// Usual minutes for the slowest of the roles; nothing when the kind does not say.
  [[nodiscard]] std::optional<double> out_minutes(const std::vector<std::string>& roles) const;
  [[nodiscard]] std::optional<double> in_minutes(const std::vector<std::string>& roles) const;
  /// Reason with that code; null when there is none.
  [[nodiscard]] const fit::Reason* reason(const std::string& code) const;
  /// What the rebuild meets, then whatever else this kind of set is known to hold.
  [[nodiscard]] const std::vector<fit::Caution>& cautions() const { return cautions_; }
  /// I or II of the finished set, as far as it is recorded.
  [[nodiscard]] catalogue::Protection protection() const;

 private:
  void add_usual(const catalogue::Hazard& hazard);

  const catalogue::Catalogue& known_;
  const fit::Judgement& judged_;
  const catalogue::SetKind* kind_ = nullptr;
  const catalogue::Model* model_ = nullptr;
  std::vector<fit::Caution> cautions_;
};

/// "the light engine (LE-20)", "the main board (type not known)".
std::string named(const std::string& position, const std::string& type);
/// True for a part that has to be bought.
bool is_bought(const std::string& from);
/// ", from D3", ", bought", "" when it stays in the host.
std::string from_words(const std::string& from);
/// Those of `roles` that this set has.
std::vector<std::string> present(const Site& site, std::initializer_list<const char*> roles);
/// `words` as a sentence: capital first, full stop last.
std::string sentence(const std::string& words);
bool shares(const std::vector<std::string>& some, const std::vector<std::string>& others);

}  // namespace benchgraft::steps
