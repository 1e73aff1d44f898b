#include "plan/lessons.hpp"

#include <algorithm>

namespace benchgraft::plan {
namespace {

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

}  // namespace

void Taught::add(const Finding& finding) {
  if (contains(counted, finding.code)) return;
  counted.push_back(finding.code);
  refused = refused || finding.refuses;
  level = std::max(level, finding.level);
  minutes += finding.minutes;
  money += finding.money;
}

Lessons::Lessons(const Host& host, const std::vector<std::size_t>& order)
    : host_(host), depth_(order.size()), by_last_place_(order.size()) {
  for (std::size_t d = 0; d < order.size(); ++d) depth_[order[d]] = d;
  for (const auto& place : host.places) {
    const auto found = std::find_if(place.choices.begin(), place.choices.end(),
                                    [](const Choice& choice) { return !choice.changes; });
    untouched_.push_back(
        found == place.choices.end() ? kNone : static_cast<int>(found - place.choices.begin()));
  }
}

bool Lessons::may_differ(std::size_t place) const { return host_.places[place].choices.size() > 1; }

bool Lessons::changed(const std::vector<int>& choices, std::size_t place) const {
  return choices[place] != untouched_[place] && may_differ(place);
}

// Per finding of `judged`: places where another choice, all else equal, takes it away.
std::vector<Lessons::Places> Lessons::moved_by_one(const std::vector<int>& choices,
                                                   const std::vector<Finding>& findings,
                                                   const Ask& ask) const {
  std::vector<Places> moved(findings.size());
  std::vector<int> other = choices;
  for (std::size_t p = 0; p < choices.size(); ++p) {
    for (std::size_t c = 0; c < host_.places[p].choices.size(); ++c) {
      if (static_cast<int>(c) == choices[p]) continue;
      other[p] = static_cast<int>(c);
      const Whole& there = ask(other);
      for (std::size_t f = 0; f < findings.size(); ++f)
        if (!stays(findings[f], there)) moved[f].insert(p);
    }
    other[p] = choices[p];
  }
  return moved;
}

// Puts back every change but those at `but`, as long as the finding stays.
std::vector<int> Lessons::least(const std::vector<int>& choices, const Finding& finding,
                                const Places& but, const Ask& ask) const {
  std::vector<int> least = choices;
  for (std::size_t p = 0; p < choices.size(); ++p)
    if (untouched_[p] != kNone && but.count(p) == 0) least[p] = untouched_[p];
  if (stays(finding, ask(least))) return least;
  least = choices;
  for (std::size_t p = 0; p < choices.size(); ++p) {
    if (!changed(choices, p) || untouched_[p] == kNone || but.count(p)) continue;
    least[p] = untouched_[p];
    if (!stays(finding, ask(least))) least[p] = choices[p];
  }
  return least;
}

void Lessons::learn(const std::vector<int>& choices, const Whole& judged, const Ask& ask) {
  const Taught foreseen = about(choices);
  std::vector<Finding> news;
  for (const auto& finding : judged.findings)
    if (!contains(foreseen.counted, finding.code)) news.push_back(finding);
  if (news.empty()) return;
  const auto hangs_on = moved_by_one(choices, news, ask);
  for (std::size_t f = 0; f < news.size(); ++f) {
    const auto small = least(choices, news[f], hangs_on[f], ask);
    Places places = hangs_on[f];
    if (small != choices) {
      // Several causes hide each other: with one of them left alone, its places show.
      const auto more = moved_by_one(small, {news[f]}, ask).front();
      places.insert(more.begin(), more.end());
    }
    for (std::size_t p = 0; p < small.size(); ++p)
      if (changed(small, p)) places.insert(p);
    keep(places, small, news[f]);
  }
}

void Lessons::keep(const Places& places, const std::vector<int>& choices, const Finding& finding) {
  Lesson lesson{{}, finding};
  for (const auto p : places) lesson.where.emplace_back(p, choices[p]);
  std::sort(lesson.where.begin(), lesson.where.end(),
            [&](const auto& a, const auto& b) { return depth_[a.first] < depth_[b.first]; });
  auto& there = lesson.where.empty() ? always_ : by_last_place_[depth_[lesson.where.back().first]];
  for (const auto& known : there)
    if (known.where == lesson.where && known.finding.code == finding.code) return;
  there.push_back(std::move(lesson));
  ++count_;
}

bool Lessons::holds(const Lesson& lesson, const std::vector<int>& choices) const {
  return std::all_of(lesson.where.rbegin(), lesson.where.rend(),
                     [&](const auto& at) { return choices[at.first] == at.second; });
}

void Lessons::hear(std::size_t depth, const std::vector<int>& choices, Taught& taught) const {
  for (const auto& lesson : by_last_place_[depth])
    if (holds(lesson, choices)) taught.add(lesson.finding);
}

Taught Lessons::from_the_start() const {
  Taught taught;
  for (const auto& lesson : always_) taught.add(lesson.finding);
  return taught;
}

Taught Lessons::about(const std::vector<int>& choices) const {
  Taught taught = from_the_start();
  for (std::size_t d = 0; d < by_last_place_.size(); ++d) hear(d, choices, taught);
  return taught;
}

}  // namespace benchgraft::plan
