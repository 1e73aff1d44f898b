#include "support/fit_ways_twin.hpp"

#include <algorithm>
#include <set>

namespace benchgraft::fit_ways_twin {
namespace {

struct Tried {
  std::set<std::size_t> offers;
  fit::Way way;
};

bool fits(const fit::Way& way) { return way.verdict <= fit::Verdict::fits_with_work; }

catalogue::RebuildText with(const catalogue::Catalogue& known, catalogue::RebuildText text,
                            const std::vector<fit::Offer>& offers,
                            const std::set<std::size_t>& chosen) {
  for (const auto index : chosen) {
    auto part = offers[index].part;
    part.place = known.part_type(part.type)->roles.front();
    std::erase_if(text.parts, [&](const auto& other) { return other.place == part.place; });
    text.parts.push_back(part);
  }
  return text;
}

bool one_a_place(const catalogue::Catalogue& known, const std::vector<fit::Offer>& offers,
                 const std::set<std::size_t>& chosen) {
  std::set<std::string> places;
  for (const auto index : chosen)
    if (!places.insert(known.part_type(offers[index].part.type)->roles.front()).second)
      return false;
  return true;
}

fit::Way priced(const catalogue::Catalogue& known, const std::vector<fit::Offer>& offers,
                const std::set<std::size_t>& chosen, const fit::Judgement& judged) {
  fit::Way way;
  way.verdict = judged.verdict;
  way.money = judged.material;
  way.work_minutes = judged.work_minutes;
  for (const auto index : chosen) {
    way.money += offers[index].money;
    way.work_minutes += offers[index].work_minutes;
    fit::WayChange change;
    change.place = known.part_type(offers[index].part.type)->roles.front();
    change.type = offers[index].part.type;
    way.changes.push_back(change);
  }
  if (judged.verdict == fit::Verdict::unknown) {
    fit::WayChange measure;
    measure.step = fit::WayStep::measure;
    way.changes.push_back(measure);
  }
  way.cost = static_cast<double>(way.money.minor) + fit::kMinorPerMinute * way.work_minutes;
  return way;
}

bool spared(const Tried& more, const std::vector<Tried>& all) {
  return std::any_of(all.begin(), all.end(), [&](const Tried& less) {
    const bool inside = less.offers.size() < more.offers.size() &&
                        std::includes(more.offers.begin(), more.offers.end(), less.offers.begin(),
                                      less.offers.end());
    return inside && (fits(less.way) || (!fits(more.way) && less.way.cost <= more.way.cost));
  });
}

}  // namespace

std::string told(const fit::Way& way) {
  std::set<std::string> words;
  for (const auto& change : way.changes)
    words.insert(change.step == fit::WayStep::measure
                     ? "measure"
                     : "put " + change.type + " into " + change.place);
  std::string text;
  for (const auto& word : words) text += (text.empty() ? "" : "; ") + word;
  return text;
}

std::vector<fit::Way> try_all(const catalogue::Catalogue& known,
                              const catalogue::RebuildText& rebuild,
                              const std::vector<fit::Offer>& offers, std::size_t most) {
  std::vector<Tried> all;
  for (std::size_t mask = 0; mask < (std::size_t{1} << offers.size()); ++mask) {
    std::set<std::size_t> chosen;
    for (std::size_t i = 0; i < offers.size(); ++i)
      if ((mask >> i & 1U) != 0) chosen.insert(i);
    if (!one_a_place(known, offers, chosen)) continue;
    const auto judged = fit::judge(known, with(known, rebuild, offers, chosen));
    if (!judged || judged.value().verdict > fit::Verdict::unknown) continue;
    if (chosen.empty() && judged.value().verdict < fit::Verdict::unknown) return {};
    all.push_back({chosen, priced(known, offers, chosen, judged.value())});
  }
  std::vector<fit::Way> ways;
  for (const auto& one : all)
    if (!spared(one, all)) ways.push_back(one.way);
  std::stable_sort(ways.begin(), ways.end(),
                   [](const auto& a, const auto& b) { return a.cost < b.cost; });
  if (ways.size() > most) ways.resize(most);
  return ways;
}

}  // namespace benchgraft::fit_ways_twin
