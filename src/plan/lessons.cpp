#include "plan/lessons.hpp"

#include <algorithm>

namespace benchgraft::plan {
namespace {

constexpr int kDrawn = 4;        // rebuilds that have to agree with a new lesson
constexpr int kMostDoubts = 12;  // then it is kept for the judged rebuild alone

bool contains(const std::vector<std::uint64_t>& codes, std::uint64_t code) {
  return std::find(codes.begin(), codes.end(), code) != codes.end();
}

const Finding* find(const Whole& whole, std::uint64_t code) {
  for (const auto& finding : whole.findings)
    if (finding.code == code) return &finding;
  return nullptr;
}

// The finding is still there and no milder.
bool stays(const Finding& finding, const Whole& elsewhere) {
  const Finding* there = find(elsewhere, finding.code);
  return there && there->refuses >= finding.refuses && there->level >= finding.level &&
         there->minutes >= finding.minutes - 1e-9 && there->money >= finding.money - 1e-9;
}

bool holds(const std::vector<Site>& where, const std::vector<int>& choices) {
  return std::all_of(where.rbegin(), where.rend(), [&](const Site& site) {
    const int choice = choices[site.place];
    return choice != kNone && site.holds[static_cast<std::size_t>(choice)];
  });
}

}  // namespace

void Taught::add(const Finding& finding) {
  if (contains(counted, finding.code)) return;
  counted.push_back(finding.code);
  refused = refused || finding.refuses;
  level = std::max(level, finding.level);
  minutes += finding.minutes;
  money += finding.money;
}

Lessons::Lessons(const Host& host) : host_(host) {
  std::vector<std::size_t> order;
  for (const auto& place : host.places) {
    const auto found = std::find_if(place.choices.begin(), place.choices.end(),
                                    [](const Choice& choice) { return !choice.changes; });
    untouched_.push_back(
        found == place.choices.end() ? kNone : static_cast<int>(found - place.choices.begin()));
    order.push_back(order.size());
  }
  file(order);
}

void Lessons::file(const std::vector<std::size_t>& order) {
  depth_.resize(order.size());
  for (std::size_t d = 0; d < order.size(); ++d) depth_[order[d]] = d;
  by_filled_.assign(order.size() + 1, {});
  for (std::size_t i = 0; i < all_.size(); ++i) file(i);
}

void Lessons::file(std::size_t lesson) {
  auto& where = all_[lesson].where;
  std::sort(where.begin(), where.end(),
            [&](const Site& a, const Site& b) { return depth_[a.place] < depth_[b.place]; });
  by_filled_[where.empty() ? 0 : depth_[where.back().place] + 1].push_back(lesson);
}

std::vector<std::size_t> Lessons::refusals_by_place() const {
  std::vector<std::size_t> counts(host_.places.size(), 0);
  for (const auto& lesson : all_)
    if (lesson.finding.refuses)
      for (const auto& site : lesson.where) ++counts[site.place];
  return counts;
}

// A part is put in where another could have stayed.
bool Lessons::put_in(const std::vector<int>& choices, std::size_t place) const {
  return untouched_[place] != kNone && choices[place] != untouched_[place];
}

std::size_t Lessons::changes(const std::vector<int>& choices) const {
  std::size_t count = 0;
  for (std::size_t p = 0; p < choices.size(); ++p) count += put_in(choices, p) ? 1 : 0;
  return count;
}

// The finding with as few changes as possible; places in `kept` stay as in `choices`.
std::vector<int> Lessons::least(const std::vector<int>& choices, const Finding& finding,
                                const Places& kept, const Ask& ask) const {
  std::vector<int> none = choices;
  Places put;
  for (std::size_t p = 0; p < choices.size(); ++p)
    if (put_in(choices, p) && kept.count(p) == 0) {
      none[p] = untouched_[p];
      put.insert(p);
    }
  if (stays(finding, ask(none))) return none;
  for (const auto p : put) {  // one change alone
    std::vector<int> one = none;
    one[p] = choices[p];
    if (stays(finding, ask(one))) return one;
  }
  std::vector<int> least = choices;
  for (const auto p : put) {
    least[p] = untouched_[p];
    if (!stays(finding, ask(least))) least[p] = choices[p];
  }
  return least;
}

// Which choices of `place` leave the finding where it is, all else equal.
std::vector<char> Lessons::staying(const std::vector<int>& small, std::size_t place,
                                   const Finding& finding, const Ask& ask) const {
  std::vector<char> stay(host_.places[place].choices.size(), 1);
  std::vector<int> other = small;
  for (std::size_t c = 0; c < stay.size(); ++c) {
    if (static_cast<int>(c) == small[place]) continue;
    other[place] = static_cast<int>(c);
    stay[c] = stays(finding, ask(other));
  }
  return stay;
}

// The places of `small` the finding hangs on.
std::vector<Site> Lessons::around(const std::vector<int>& small, const Finding& finding,
                                  const Ask& ask, const Refused& refused) const {
  // With one of the changes the tables refuse this choice anyway: it cures nothing.
  const auto beside = [&](std::size_t p, int choice) {
    for (std::size_t q = 0; q < small.size(); ++q)
      if (q != p && put_in(small, q) && refused(p, choice, q, small[q])) return true;
    return false;
  };
  std::vector<Site> where;
  std::vector<int> other = small;
  for (std::size_t p = 0; p < small.size(); ++p) {
    Site site{p, std::vector<char>(host_.places[p].choices.size(), 1)};
    bool hangs = false;
    for (std::size_t c = 0; c < site.holds.size(); ++c) {
      other[p] = static_cast<int>(c);
      if (other[p] == small[p] || beside(p, other[p])) continue;
      site.holds[c] = stays(finding, ask(other));
      hangs = hangs || !site.holds[c];
    }
    other[p] = small[p];
    if (!hangs) continue;
    if (put_in(small, p)) {
      site.holds.assign(site.holds.size(), 0);
      site.holds[static_cast<std::size_t>(small[p])] = 1;
    }
    where.push_back(std::move(site));
  }
  return where;
}

// Draws rebuilds that the lesson speaks of. The first without the finding shows a place it hangs on
// as well: `where` gets narrower, and the answer is true.
bool Lessons::doubted(std::vector<Site>& where, const std::vector<int>& small,
                      const Finding& finding, const Ask& ask, const Refused& refused) {
  for (int drawn = 0; drawn < kDrawn; ++drawn) {
    std::vector<int> other = small;
    for (std::size_t p = 0; p < other.size(); ++p) {
      const int choice = static_cast<int>(random_() % host_.places[p].choices.size());
      bool beside = false;
      for (std::size_t q = 0; q < p; ++q) beside = beside || refused(p, choice, q, other[q]);
      if (!beside) other[p] = choice;
      if (!holds(where, other)) other[p] = small[p];
    }
    if (stays(finding, ask(other))) continue;
    std::vector<int> on_the_way = small;
    for (std::size_t p = 0; p < other.size(); ++p) {
      if (other[p] == small[p]) continue;
      on_the_way[p] = other[p];
      if (stays(finding, ask(on_the_way))) continue;
      on_the_way[p] = small[p];
      const auto stay = staying(on_the_way, p, finding, ask);
      const auto same = std::find_if(where.begin(), where.end(),
                                     [&](const Site& site) { return site.place == p; });
      if (same == where.end())
        where.push_back({p, stay});
      else
        for (std::size_t c = 0; c < stay.size(); ++c) same->holds[c] &= stay[c];
      return true;
    }
  }
  return false;
}

void Lessons::learn_one(const std::vector<int>& choices, const std::vector<int>& first,
                        const Finding& finding, Places kept, const Ask& ask,
                        const Refused& refused) {
  std::vector<int> small = first;
  for (std::size_t round = 0; round <= choices.size(); ++round) {
    auto where = around(small, finding, ask, refused);
    int doubts = 0;
    while (doubts < kMostDoubts && doubted(where, small, finding, ask, refused)) ++doubts;
    if (doubts < kMostDoubts && holds(where, choices)) return keep(std::move(where), finding);
    // Some place of `choices` cures what `small` has: there it has another cause.
    const std::size_t before = kept.size();
    for (const auto& site : where)
      if (!site.holds[static_cast<std::size_t>(choices[site.place])]) kept.insert(site.place);
    if (kept.size() == before) break;
    small = least(choices, finding, kept, ask);
  }
  std::vector<Site> where;
  for (std::size_t p = 0; p < choices.size(); ++p) {
    Site site{p, std::vector<char>(host_.places[p].choices.size(), 0)};
    site.holds[static_cast<std::size_t>(choices[p])] = 1;
    where.push_back(std::move(site));
  }
  keep(std::move(where), finding);
}

void Lessons::learn(const std::vector<int>& choices, const Whole& judged, const Ask& ask,
                    const Refused& refused) {
  const Taught foreseen = about(choices);
  if (foreseen.refused) return;
  std::vector<std::pair<std::vector<int>, Finding>> news;
  const auto note = [&](bool refuses) {
    for (const auto& finding : judged.findings)
      if (finding.refuses == refuses && !contains(foreseen.counted, finding.code))
        news.emplace_back(least(choices, finding, {}, ask), finding);
  };
  note(true);
  if (news.empty()) {
    note(false);
    for (const auto& [small, finding] : news) learn_one(choices, small, finding, {}, ask, refused);
    return;
  }
  // One reason is enough to leave it out: the one that asks for the fewest changes says most.
  const auto widest = std::min_element(news.begin(), news.end(), [&](const auto& a, const auto& b) {
    return changes(a.first) < changes(b.first);
  });
  learn_one(choices, widest->first, widest->second, {}, ask, refused);
}

void Lessons::keep(std::vector<Site> where, const Finding& finding) {
  std::sort(where.begin(), where.end(),
            [&](const Site& a, const Site& b) { return depth_[a.place] < depth_[b.place]; });
  for (const auto& known : all_)
    if (known.finding.code == finding.code && known.where == where) return;
  all_.push_back({std::move(where), finding});
  file(all_.size() - 1);
}

void Lessons::hear(std::size_t depth, const std::vector<int>& choices, Taught& taught) const {
  for (const auto lesson : by_filled_[depth + 1])
    if (holds(all_[lesson].where, choices)) taught.add(all_[lesson].finding);
}

Taught Lessons::from_the_start() const {
  Taught taught;
  for (const auto lesson : by_filled_[0]) taught.add(all_[lesson].finding);
  return taught;
}

Taught Lessons::about(const std::vector<int>& choices) const {
  Taught taught = from_the_start();
  for (std::size_t d = 0; d + 1 < by_filled_.size(); ++d) hear(d, choices, taught);
  return taught;
}

}  // namespace benchgraft::plan
