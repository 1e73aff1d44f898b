#include "steps/site.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"

namespace benchgraft::steps {

Site::Site(const catalogue::Catalogue& known, const fit::Judgement& judged)
    : known_(known),
      judged_(judged),
      model_(known.model(judged.model)),
      cautions_(judged.cautions) {
  kind_ = known.set_kind(model_ != nullptr && judged.kind.empty() ? model_->kind : judged.kind);
  if (kind_ != nullptr)
    for (const auto& hazard : kind_->hazards) add_usual(hazard);
}

// A hazard is met wherever the kind says so, also where nothing is changed.
void Site::add_usual(const catalogue::Hazard& hazard) {
  for (auto& caution : cautions_) {
    if (caution.hazard != hazard.name || caution.roles.empty() != hazard.roles.empty()) continue;
    for (const auto& role : hazard.roles)
      if (!shares({role}, caution.roles)) caution.roles.push_back(role);
    return;
  }
  cautions_.push_back(
      {hazard.name, hazard.caution, hazard.roles, hazard.waiting_minutes.value_or(0)});
}

bool Site::has_role(const std::string& role) const {
  for (const auto& seat : judged_.seats)
    if (std::find(seat.roles.begin(), seat.roles.end(), role) != seat.roles.end()) return true;
  if (kind_ != nullptr)
    for (const auto& usual : kind_->roles)
      if (usual.role == role && !usual.optional) return true;
  return false;
}

const catalogue::PartType* Site::type_in(const fit::Seat& seat) const {
  return seat.type.empty() ? nullptr : known_.part_type(seat.type);
}

const catalogue::PartType* Site::type_out(const fit::Seat& seat) const {
  if (!seat.changed) return type_in(seat);
  return seat.was.empty() ? nullptr : known_.part_type(seat.was);
}

namespace {
std::optional<double> slowest(const catalogue::SetKind* kind, const std::vector<std::string>& roles,
                              std::optional<double> catalogue::KindRole::*minutes) {
  std::optional<double> most;
  if (kind == nullptr) return most;
  for (const auto& usual : kind->roles)
    if (usual.*minutes && std::find(roles.begin(), roles.end(), usual.role) != roles.end())
      most = std::max(most.value_or(0), *(usual.*minutes));
  return most;
}
}  // namespace

std::optional<double> Site::out_minutes(const std::vector<std::string>& roles) const {
  return slowest(kind_, roles, &catalogue::KindRole::out_minutes);
}

std::optional<double> Site::in_minutes(const std::vector<std::string>& roles) const {
  return slowest(kind_, roles, &catalogue::KindRole::in_minutes);
}

const fit::Reason* Site::reason(const std::string& code) const {
  if (!code.empty())
    for (const auto& held : judged_.reasons)
      if (held.code == code) return &held;
  return nullptr;
}

catalogue::Protection Site::protection() const {
  for (const auto& seat : judged_.seats) {
    const auto* type = type_in(seat);
    if (type == nullptr || !type->inlet_wires) continue;
    return *type->inlet_wires >= 3 ? catalogue::Protection::class_1
                                   : catalogue::Protection::class_2;
  }
  return model_ != nullptr ? model_->protection : catalogue::Protection::unknown;
}

std::string named(const std::string& position, const std::string& type) {
  if (position.empty()) return type.empty() ? "the part (type not known)" : type;
  return fmt::format("the {} ({})", position, type.empty() ? "type not known" : type);
}

bool is_bought(const std::string& from) { return from == "bought" || from == "buy"; }

std::string from_words(const std::string& from) {
  if (from.empty() || from == "host") return "";
  if (is_bought(from)) return ", bought";
  if (from == "shelf") return ", from the shelf";
  return ", from " + from;
}

std::vector<std::string> present(const Site& site, std::initializer_list<const char*> roles) {
  std::vector<std::string> found;
  for (const char* role : roles)
    if (site.has_role(role)) found.emplace_back(role);
  return found;
}

std::string sentence(const std::string& words) {
  const auto text = capitalised(words);
  return text.empty() || text.back() == '.' || text.back() == '?' ? text : text + ".";
}

bool shares(const std::vector<std::string>& some, const std::vector<std::string>& others) {
  return std::any_of(some.begin(), some.end(), [&](const std::string& word) {
    return std::find(others.begin(), others.end(), word) != others.end();
  });
}

}  // namespace benchgraft::steps
