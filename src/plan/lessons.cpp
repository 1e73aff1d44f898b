#include "plan/lessons.hpp"

#include <algorithm>

namespace benchgraft::plan {
namespace {

const Finding* find(const Whole& whole, std::uint64_t code) {
  for (const auto& finding : whole.findings)
    if (finding.code == code) return &finding;
  return nullptr;
}

// The finding is still there and no milder.
bool stays(const Finding& finding, const Whole& elsewhere) {
  const Finding* there = find(elsewhere, finding.code);
  return there && there->refuses >= finding.refuses && there->needs_work >= finding.needs_work &&
         there->minutes >= finding.minutes - 1e-9 && there->money >= finding.money - 1e-9 &&
         there->chance <= finding.chance + 1e-12;
}

}  // namespace

void Taught::add(const Finding& finding) {
  chance = std::min(chance, finding.chance);
  if (std::find(counted.begin(), counted.end(), finding.code) != counted.end()) return;
  counted.push_back(finding.code);
  refused = refused || finding.refuses;
  needs_work = needs_work || finding.needs_work;
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

std::vector<int> Lessons::put_back(const std::vector<std::size_t>& but,
                                   const std::vector<int>& choices) const {
  std::vector<int> back = choices;
  for (std::size_t p = 0; p < back.size(); ++p)
    if (untouched_[p] != kNone && std::find(but.begin(), but.end(), p) == but.end())
      back[p] = untouched_[p];
  return back;
}

void Lessons::learn(const std::vector<int>& choices, const Whole& judged, const Ask& ask) {
  std::vector<std::vector<std::size_t>> hangs_on(judged.findings.size());
  std::vector<int> other = choices;
  for (std::size_t p = 0; p < choices.size(); ++p) {
    std::vector<char> moved(judged.findings.size(), 0);
    for (std::size_t c = 0; c < host_.places[p].choices.size(); ++c) {
      if (static_cast<int>(c) == choices[p]) continue;
      other[p] = static_cast<int>(c);
      const Whole& there = ask(other);
      for (std::size_t f = 0; f < moved.size(); ++f)
        if (!stays(judged.findings[f], there)) moved[f] = 1;
    }
    other[p] = choices[p];
    for (std::size_t f = 0; f < moved.size(); ++f)
      if (moved[f]) hangs_on[f].push_back(p);
  }
  for (std::size_t f = 0; f < hangs_on.size(); ++f) {
    auto& places = hangs_on[f];
    if (!stays(judged.findings[f], ask(put_back(places, choices)))) {
      for (std::size_t p = 0; p < choices.size(); ++p)
        if (choices[p] != untouched_[p] &&
            std::find(places.begin(), places.end(), p) == places.end())
          places.push_back(p);
    }
    keep(places, choices, judged.findings[f]);
  }
}

void Lessons::keep(const std::vector<std::size_t>& places, const std::vector<int>& choices,
                   const Finding& finding) {
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
