#include "fit/way_places.hpp"

#include <algorithm>
#include <optional>

#include "base/text.hpp"

namespace benchgraft::fit {
namespace {

bool share(const std::vector<std::string>& a, const std::vector<std::string>& b) {
  return std::any_of(a.begin(), a.end(), [&](const auto& word) { return contains(b, word); });
}

void add_new(const std::vector<std::string>& more, std::vector<std::string>& words) {
  for (const auto& word : more)
    if (!contains(words, word)) words.push_back(word);
}

// A whole rule weighs every part, and a pair rule that names one side was about two: changing what
// is not named may settle it. A missing part is answered only by a part that does the job.
bool weighs_all(const Reason& reason) {
  if (reason.rule == "missing part") return false;
  return reason.sort == RuleSort::whole || reason.roles.empty() ||
         (reason.sort == RuleSort::pair && reason.roles.size() < 2);
}

}  // namespace

WayPlaces::WayPlaces(const catalogue::Catalogue& known, const catalogue::RebuildText& rebuild,
                     const Host& host, const std::vector<Offer>& offers)
    : known_(known), rebuild_(rebuild), host_(host), offers_(offers) {
  add_places();
  widen_by_variants();
  note_offers();
}

void WayPlaces::add_places() {
  if (host_.model)
    for (const auto& position : host_.model->positions)
      places_.push_back({position.name, position.roles.empty()
                                            ? std::vector<std::string>{position.name}
                                            : position.roles});
  if (places_.empty() && host_.kind)
    for (const auto& role : host_.kind->roles) places_.push_back({role.role, {role.role}});
  for (const auto& part : rebuild_.parts)
    if (index_of(part.place) == places_.size()) places_.push_back({part.place, {part.place}});
}

void WayPlaces::widen_by_variants() {
  const auto widen = [&](const std::string& place, const std::string& reference) {
    const auto at = index_of(place);
    const auto* type = known_.part_type(reference);
    if (type && at < places_.size()) add_new(type->roles, places_[at].roles);
  };
  if (host_.model)
    for (const auto& variant : host_.model->variants)
      for (const auto& [position, reference] : variant.parts) widen(position, reference);
  for (const auto& seen : rebuild_.seen) widen(seen.place, seen.type);
}

void WayPlaces::note_offers() {
  for (const auto& offer : offers_) {
    std::vector<std::string> roles;
    if (const auto* type = known_.part_type(offer.part.type)) roles = type->roles;
    for (const auto& candidate : offer.part.candidates)
      if (const auto* type = known_.part_type(candidate)) add_new(type->roles, roles);
    roles_of_.push_back(std::move(roles));
  }
}

std::size_t WayPlaces::index_of(const std::string& name) const {
  for (std::size_t i = 0; i < places_.size(); ++i)
    if (places_[i].name == name) return i;
  for (std::size_t i = 0; i < places_.size(); ++i)
    if (contains(places_[i].roles, name)) return i;
  return places_.size();
}

std::vector<WayAnswer> WayPlaces::answers_to(const Reason& reason) const {
  std::vector<WayAnswer> answers;
  for (std::size_t p = 0; p < places_.size(); ++p)
    for (std::size_t o = 0; o < offers_.size(); ++o) {
      const auto& place = places_[p];
      const bool goes_there = offers_[o].part.place.empty() ? share(roles_of_[o], place.roles)
                                                            : index_of(offers_[o].part.place) == p;
      const bool named = weighs_all(reason) || share(reason.roles, place.roles) ||
                         contains(reason.roles, place.name) || share(reason.roles, roles_of_[o]);
      if (goes_there && named) answers.emplace_back(p, o);
    }
  return answers;
}

// Nothing on record says that what is there differs from its type.
bool WayPlaces::is_as_built(std::size_t place) const {
  const auto differs = [&](const catalogue::ProposedPart& part) {
    return index_of(part.place) == place && (!part.changes.empty() || part.known_good == false);
  };
  return std::none_of(rebuild_.seen.begin(), rebuild_.seen.end(), differs) &&
         std::none_of(rebuild_.parts.begin(), rebuild_.parts.end(), differs);
}

bool WayPlaces::changes_nothing(const Judgement& judged, const WayAnswer& answer) const {
  const auto& offer = offers_[answer.second];
  if (judged.variants_left.size() > 1 || offer.part.type.empty() || !offer.part.changes.empty() ||
      !is_as_built(answer.first))
    return false;
  return std::any_of(judged.seats.begin(), judged.seats.end(), [&](const Seat& seat) {
    return seat.position == places_[answer.first].name && seat.type == type_of(offer);
  });
}

catalogue::RebuildText WayPlaces::with(const PutIn& put_in) const {
  catalogue::RebuildText text = rebuild_;
  for (const auto& [place, offer] : put_in) {
    const auto is_there = [&, at = place](const std::string& name) { return index_of(name) == at; };
    std::erase_if(text.parts, [&](const auto& part) { return is_there(part.place); });
    auto part = offers_[offer].part;
    part.place = places_[place].name;
    text.parts.push_back(std::move(part));
  }
  return text;
}

double WayPlaces::handling(const std::vector<std::string>& roles) const {
  constexpr double kUsualMinutes = 10;  // as count_minutes() in one.cpp takes it
  double out = kUsualMinutes, in = kUsualMinutes;
  if (host_.kind)
    for (const auto& usual : host_.kind->roles)
      if (contains(roles, usual.role)) {
        out = usual.out_minutes.value_or(kUsualMinutes);
        in = usual.in_minutes.value_or(kUsualMinutes);
        break;
      }
  return out + in;
}

double WayPlaces::least_handling(const Offer& offer) const {
  std::optional<double> least;
  std::vector<std::string> types = offer.part.candidates;
  if (!offer.part.type.empty()) types = {offer.part.type};
  for (const auto& reference : types)
    if (const auto* type = known_.part_type(reference); type && !type->roles.empty())
      least = std::min(least.value_or(handling(type->roles)), handling(type->roles));
  return least.value_or(0);
}

double WayPlaces::least_cost(const PutIn& put_in, double minor_per_minute) const {
  double minutes = 0, money = 0;
  if (!put_in.empty() && host_.kind)
    minutes += host_.kind->open_minutes.value_or(0) + host_.kind->close_minutes.value_or(0);
  for (const auto& [place, offer] : put_in) {
    minutes += least_handling(offers_[offer]);
    minutes += offers_[offer].work_minutes;
    money += static_cast<double>(offers_[offer].money.minor);
  }
  return money + minor_per_minute * minutes;
}

std::string WayPlaces::type_of(const Offer& offer) const {
  if (const auto* type = known_.part_type(offer.part.type)) return type->reference();
  return offer.part.type.empty() ? listed(offer.part.candidates, " or ") : offer.part.type;
}

}  // namespace benchgraft::fit
