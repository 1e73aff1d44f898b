#include "fit/ways_out.hpp"

#include <algorithm>
#include <queue>
#include <set>

#include "fit/findings.hpp"
#include "fit/one.hpp"
#include "fit/way_places.hpp"

namespace benchgraft::fit {
namespace {

/// A set of offers that waits to be judged.
struct Waiting {
  double least = 0;
  PutIn put_in;
};
struct DearerFirst {
  bool operator()(const Waiting& a, const Waiting& b) const {
    if (a.least != b.least) return a.least > b.least;
    return a.put_in > b.put_in;
  }
};

struct Found {
  PutIn put_in;
  Way way;
};

bool stands_in_the_way(const Reason& reason) {
  return reason.will && reason.verdict >= Verdict::unknown;
}

bool is_refusal(const Reason& reason) { return reason.will && reason.verdict > Verdict::unknown; }

bool goes_together(const Way& way) { return way.verdict <= Verdict::fits_with_work; }

// `less` makes `more` pointless: the same with less put in.
bool spares(const Found& less, const Found& more) {
  if (less.put_in.size() >= more.put_in.size() ||
      !std::includes(more.put_in.begin(), more.put_in.end(), less.put_in.begin(),
                     less.put_in.end()))
    return false;
  return goes_together(less.way) || (!goes_together(more.way) && less.way.cost <= more.way.cost);
}

class Search {
 public:
  Search(const catalogue::Catalogue& known, const Conditions& conditions,
         const std::vector<Offer>& offers, const WaysAsked& asked, const WayPlaces& places)
      : known_(known), conditions_(conditions), offers_(offers), asked_(asked), places_(places) {}

  void begin(const Judgement& judged) {
    seen_.insert(PutIn{});
    out_.judgements = 1;
    take({}, judged);
  }

  WaysOut run() {
    while (!waiting_.empty() && !enough()) {
      if (out_.judgements >= asked_.most_judgements) return finish(false);
      const PutIn put_in = waiting_.top().put_in;
      waiting_.pop();
      if (is_pointless(put_in)) continue;
      ++out_.judgements;
      const auto judged = judge(known_, places_.with(put_in), conditions_);
      if (judged) take(put_in, judged.value());
    }
    return finish(true);
  }

 private:
  void take(const PutIn& put_in, const Judgement& judged) {
    if (judged.verdict <= Verdict::unknown &&
        !(put_in.empty() && judged.verdict < Verdict::unknown))
      keep({put_in, way_of(put_in, judged)});
    if (judged.verdict >= Verdict::unknown && put_in.size() < asked_.most_changes)
      go_on(put_in, judged);
  }

  // Each of the worst reasons has to be settled on every way that goes on from here: so the answers
  // to one of them are enough, the one with the fewest.
  void go_on(const PutIn& put_in, const Judgement& judged) {
    const bool hopeless = std::any_of(judged.reasons.begin(), judged.reasons.end(), is_refusal);
    std::optional<std::vector<WayAnswer>> fewest;
    for (const auto& reason : judged.reasons) {
      if (hopeless ? !is_refusal(reason) : !stands_in_the_way(reason)) continue;
      auto answers = free_answers(put_in, judged, reason);
      if (!fewest || answers.size() < fewest->size()) fewest = std::move(answers);
    }
    if (fewest) add(put_in, *fewest);
  }

  [[nodiscard]] std::vector<WayAnswer> free_answers(const PutIn& put_in, const Judgement& judged,
                                                    const Reason& reason) const {
    const bool refused = std::any_of(put_in.begin(), put_in.end(), [&](const auto& entry) {
      return !offers_[entry.second].refused.empty();
    });
    auto answers = places_.answers_to(reason);
    std::erase_if(answers, [&](const WayAnswer& answer) {
      if (refused && !offers_[answer.second].refused.empty()) return true;
      return places_.changes_nothing(judged, answer) ||
             std::any_of(put_in.begin(), put_in.end(), [&](const auto& entry) {
               return entry.first == answer.first || entry.second == answer.second;
             });
    });
    return answers;
  }

  void add(const PutIn& put_in, const std::vector<WayAnswer>& answers) {
    for (const auto& answer : answers) {
      PutIn next = put_in;
      next.insert(std::upper_bound(next.begin(), next.end(), answer), answer);
      if (seen_.insert(next).second)
        waiting_.push({places_.least_cost(next, asked_.minor_per_minute), next});
    }
  }

  Way way_of(const PutIn& put_in, const Judgement& judged) const {
    Way way;
    way.verdict = judged.verdict;
    way.money = judged.material;
    way.work_minutes = judged.work_minutes;
    way.waiting_minutes = judged.waiting_minutes;
    way.chance = judged.chance;
    for (const auto& [place, index] : put_in) add_change(place, offers_[index], way);
    if (judged.verdict == Verdict::unknown) add_measuring(judged, way);
    way.cost = static_cast<double>(way.money.minor) + asked_.minor_per_minute * way.work_minutes;
    return way;
  }

  void add_change(std::size_t place, const Offer& offer, Way& way) const {
    WayChange change;
    change.step = offer.bought ? WayStep::buy : WayStep::put_in;
    change.place = places_.place(place).name;
    change.type = places_.type_of(offer);
    change.called = offer.called;
    change.from = offer.part.from;
    change.money = offer.money;
    change.work_minutes = offer.work_minutes;
    change.delivery_days = offer.delivery_days;
    way.money += offer.money;
    way.work_minutes += offer.work_minutes;
    way.chance *= offer.chance;
    way.delivery_days = std::max(way.delivery_days, offer.delivery_days.value_or(0));
    if (way.refused.empty()) way.refused = offer.refused;
    way.changes.push_back(std::move(change));
  }

  static void add_measuring(const Judgement& judged, Way& way) {
    WayChange change;
    change.step = WayStep::measure;
    for (const auto& question : judged.questions) {
      change.questions.push_back(question.text);
      change.work_minutes += question.work_minutes;
    }
    if (change.questions.empty())
      for (const auto& reason : judged.reasons)
        if (stands_in_the_way(reason)) change.questions.push_back(reason.says);
    way.changes.push_back(std::move(change));
  }

  void keep(Found found) {
    if (!found.way.refused.empty()) {
      if (!refused_ || found.way.cost < refused_->cost) refused_ = std::move(found.way);
      return;
    }
    for (const auto& other : found_)
      if (spares(other, found)) return;
    std::erase_if(found_, [&](const Found& other) { return spares(found, other); });
    const auto dearer = std::find_if(found_.begin(), found_.end(), [&](const Found& other) {
      return found.way.cost < other.way.cost;
    });
    found_.insert(dearer, std::move(found));
  }

  // More than what goes together already.
  [[nodiscard]] bool is_pointless(const PutIn& put_in) const {
    return std::any_of(found_.begin(), found_.end(), [&](const Found& found) {
      return goes_together(found.way) &&
             std::includes(put_in.begin(), put_in.end(), found.put_in.begin(), found.put_in.end());
    });
  }

  // What waits cannot be cheaper than the last of those that are shown.
  [[nodiscard]] bool enough() const {
    return found_.size() >= asked_.most_ways &&
           waiting_.top().least >= found_[asked_.most_ways - 1].way.cost;
  }

  WaysOut finish(bool complete) {
    out_.complete = complete;
    const auto is_proven = [&](const Way& way) {
      return complete || waiting_.empty() || way.cost <= waiting_.top().least;
    };
    for (auto& found : found_) {
      if (out_.ways.size() == asked_.most_ways) break;
      if (is_proven(found.way)) ++out_.proven;
      out_.ways.push_back(std::move(found.way));
    }
    if (refused_ && (out_.ways.empty() || refused_->cost < out_.ways.front().cost))
      out_.refused = std::move(refused_);
    return std::move(out_);
  }

  const catalogue::Catalogue& known_;
  const Conditions& conditions_;
  const std::vector<Offer>& offers_;
  const WaysAsked& asked_;
  const WayPlaces& places_;
  std::priority_queue<Waiting, std::vector<Waiting>, DearerFirst> waiting_;
  std::set<PutIn> seen_;
  std::vector<Found> found_;  // cheapest first
  std::optional<Way> refused_;
  WaysOut out_;
};

}  // namespace

Result<WaysOut> ways_out(const catalogue::Catalogue& known, const catalogue::RebuildText& rebuild,
                         const Conditions& conditions, const std::vector<Offer>& offers,
                         const WaysAsked& asked) {
  const auto judged = judge(known, rebuild, conditions);
  if (!judged) return judged.error();
  const auto host = host_of(known, rebuild.model, rebuild.kind, rebuild.where);
  if (!host) return host.error();
  WaysOut out;
  const auto& reasons = judged.value().reasons;
  // No part makes a kind of set one that is judged.
  const bool hopeless = std::any_of(reasons.begin(), reasons.end(),
                                    [](const Reason& r) { return r.rule == "not judged"; });
  if (hopeless) {
    out.judgements = 1;
    out.complete = true;
  } else {
    const WayPlaces places(known, rebuild, host.value(), offers);
    Search search(known, conditions, offers, asked, places);
    search.begin(judged.value());
    out = search.run();
  }
  out.now = judged.value().verdict;
  for (const auto& reason : reasons)
    if (stands_in_the_way(reason)) out.in_the_way.push_back(reason);
  return out;
}

std::string to_text(WayStep step) {
  switch (step) {
    case WayStep::put_in:
      return "put_in";
    case WayStep::buy:
      return "buy";
    case WayStep::measure:
      return "measure";
  }
  return {};
}

}  // namespace benchgraft::fit
