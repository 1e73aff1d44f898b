#include "plan/host_search.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

#include "plan/hull.hpp"
#include "plan/lessons.hpp"

namespace benchgraft::plan {
namespace {

constexpr int kNoRule = -1, kRefused = -2;
constexpr std::size_t kMostJudgedToLearn = 50000, kLessonsBetweenOrders = 16;
constexpr double kRounding = 1e-6;  // minor units of money
constexpr double kNever = -std::numeric_limits<double>::infinity();

double price_within(const Host& host, Bits provides) {
  double best = 0;
  for (const auto& tier : host.tiers)
    if ((tier.needs & ~provides) == 0) best = std::max(best, tier.price);
  return best;
}

}  // namespace

/// What does not change from call to call.
struct HostSearch::Known {
  Known(const Problem& problem, int host)
      : problem(problem), index(host), host(problem.hosts[static_cast<std::size_t>(host)]) {
    number_choices();
    read_pairs();
    lessons.emplace(this->host);
    order_places();
  }

  void number_choices() {
    for (const auto& place : host.places) {
      first.push_back(count);
      count += place.choices.size();
    }
  }
  std::size_t id(std::size_t place, int choice) const {
    return first[place] + static_cast<std::size_t>(choice);
  }
  double cost(const Work& work) const {
    return work.money + problem.money_per_minute * work.minutes;
  }

  void read_pairs() {
    rules.assign(count * count, kNoRule);
    for (const auto& pair : host.pairs) {
      const auto a = id(static_cast<std::size_t>(pair.place_a), pair.choice_a);
      const auto b = id(static_cast<std::size_t>(pair.place_b), pair.choice_b);
      int& rule = rules[a * count + b];
      if (rule == kRefused || (!pair.refused && !pair.work.needed())) continue;
      if (pair.refused) {
        rule = kRefused;
      } else if (rule == kNoRule) {
        rule = static_cast<int>(works.size());
        works.push_back(pair.work);
      } else if (cost(pair.work) > cost(works[static_cast<std::size_t>(rule)])) {
        works[static_cast<std::size_t>(rule)] = pair.work;
      }
      rules[b * count + a] = rule;
    }
  }

  // Places that must change come first, then those that most refusals hang on.
  void order_places() {
    auto weight = lessons->refusals_by_place();
    order.clear();
    for (const auto& pair : host.pairs) {
      ++weight[static_cast<std::size_t>(pair.place_a)];
      ++weight[static_cast<std::size_t>(pair.place_b)];
    }
    for (std::size_t p = 0; p < host.places.size(); ++p) {
      order.push_back(p);
      const auto& choices = host.places[p].choices;
      if (std::all_of(choices.begin(), choices.end(), [](const auto& c) { return c.changes; }))
        weight[p] += host.pairs.size() + 1;
    }
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return weight[a] > weight[b]; });
    lessons->file(order);
    fills_after.assign(order.size() + 1, 0);
    provides_after.assign(order.size() + 1, 0);
    notes_after.assign(order.size() + 1, 0);
    for (std::size_t d = order.size(); d-- > 0;) {
      fills_after[d] = fills_after[d + 1];
      provides_after[d] = provides_after[d + 1];
      double most_notes = 0;
      for (const auto& choice : host.places[order[d]].choices) {
        most_notes = std::max(most_notes, choice.notes);
        fills_after[d] |= choice.fills;
        provides_after[d] |= choice.provides;
      }
      notes_after[d] = notes_after[d + 1] + most_notes;
    }
  }

  const Whole& judge(const std::vector<int>& choices, Effort& effort) {
    const auto found = judged.find(choices);
    if (found != judged.end()) return found->second;
    effort.spend_judgement();
    return judged.emplace(choices, problem.whole(index, choices)).first->second;
  }

  // Judges, and learns when the lessons so far did not foresee what comes out.
  const Whole& judge_and_learn(const std::vector<int>& choices, Effort& effort) {
    const Whole& whole = judge(choices, effort);
    if (judged.size() > kMostJudgedToLearn || !learned_from.insert(choices).second) return whole;
    lessons->learn(
        choices, whole,
        [&](const std::vector<int>& other) -> const Whole& { return judge(other, effort); },
        [&](std::size_t p, int choice, std::size_t q, int other) {
          return rules[id(p, choice) * count + id(q, other)] == kRefused;
        });
    return whole;
  }

  const Problem& problem;
  int index;
  const Host& host;
  std::size_t count = 0;
  std::vector<std::size_t> first;  ///< of a place, in the numbering of all choices
  std::vector<int> rules;          ///< count x count
  std::vector<Work> works;
  std::vector<std::size_t> order;
  std::vector<Bits> fills_after, provides_after;  ///< what places from a depth on could give
  std::vector<double> notes_after;
  std::map<std::vector<int>, Whole> judged;
  std::optional<Lessons> lessons;
  std::set<std::vector<int>> learned_from;
  bool shared_work = false;
};

/// One run at given prices.
class HostSearch::Search {
 public:
  Search(Known& known, const Prices& prices, double floor, Effort& effort, const Banned* banned)
      : known_(known),
        prices_(prices),
        rate_(known.problem.money_per_minute + prices.minute),
        floor_(floor),
        effort_(effort),
        banned_(banned),
        chosen_(known.host.places.size(), kNone) {
    price_sources();
  }

  void run_for_best() { run(); }
  /// False when there are more than `most`.
  bool run_for_all(std::size_t most, std::vector<Found>& out) {
    all_ = &out;
    most_ = most;
    run();
    return !overfull_;
  }
  std::optional<Found> best() { return std::move(best_); }
  double cut_off() const { return cut_off_; }

 private:
  struct State {
    Bits filled, provides;
    Level level;
    Work dearest;
    double notes;
    bool changed;
    Taught taught;
  };
  struct Child {
    int choice;
    double upper;
    Frontier partial;
    State state;
  };

  // After many lessons it begins again, with the places first that these hang on.
  void run() {
    for (std::size_t lessons = kLessonsBetweenOrders;; lessons *= 2) {
      known_.order_places();
      sum_rest();
      new_order_at_ = known_.lessons->count() + lessons;
      new_order_ = false;
      cut_off_ = kNever;
      if (all_) all_->clear();
      if (possible_ && !start().taught.refused) descend(0, {}, start());
      if (!new_order_) return;
      chosen_.assign(chosen_.size(), kNone);
    }
  }

  State start() const {
    return {
        0, known_.host.provides, Level::plain, Work{}, 0, false, known_.lessons->from_the_start()};
  }

  bool allowed(std::size_t place, std::size_t choice, std::size_t source) const {
    if (banned_ && !banned_->empty() && (*banned_)[place][choice][source]) return false;
    return known_.host.places[place].choices[choice].sources[source].chance > 0;
  }

  double cost_of(const Source& source) const {
    const double draws =
        source.pool == kNone ? 0 : prices_.pools[static_cast<std::size_t>(source.pool)];
    return source.money + rate_ * source.minutes + draws;
  }

  double cost_of(const Place& place, const Choice& choice) const {
    const double freed = choice.changes && place.frees != kNone
                             ? prices_.pools[static_cast<std::size_t>(place.frees)]
                             : 0;
    return choice.money + rate_ * choice.minutes - freed;
  }

  // Frontier of every choice, and of everything the places from a depth on could be.
  void price_sources() {
    const auto& places = known_.host.places;
    any_.resize(places.size());
    frontiers_.resize(known_.count);
    usable_.assign(known_.count, 0);
    for (std::size_t p = 0; p < places.size(); ++p) {
      std::vector<Point> of_place;
      for (std::size_t c = 0; c < places[p].choices.size(); ++c) {
        const auto& choice = places[p].choices[c];
        const double base = cost_of(places[p], choice);
        std::vector<Point> points;
        for (std::size_t s = 0; s < choice.sources.size(); ++s)
          if (allowed(p, c, s))
            points.push_back({std::log(choice.sources[s].chance), base + cost_of(choice.sources[s]),
                              static_cast<int>(s)});
        if (points.empty()) continue;
        of_place.insert(of_place.end(), points.begin(), points.end());
        const auto id = known_.id(p, static_cast<int>(c));
        usable_[id] = 1;
        frontiers_[id] = frontier_of(std::move(points), static_cast<int>(p));
      }
      if (of_place.empty())
        possible_ = false;
      else
        any_[p] = frontier_of(std::move(of_place), static_cast<int>(p));
    }
  }

  void sum_rest() {
    rest_.assign(any_.size() + 1, {});
    if (!possible_) return;
    for (std::size_t d = any_.size(); d-- > 0;) rest_[d] = sum(any_[known_.order[d]], rest_[d + 1]);
  }

  // Adds `choice` to `state`; false when a pair refuses it or a role can no longer be filled.
  bool take(std::size_t depth, std::size_t place, int choice, State& state) const {
    const auto& what = known_.host.places[place].choices[static_cast<std::size_t>(choice)];
    const auto row = known_.id(place, choice) * known_.count;
    const auto heed = [&](const Work& work) {
      state.level = std::max(state.level, work.level);
      if (work.needed() &&
          (!state.dearest.needed() || known_.cost(work) > known_.cost(state.dearest)))
        state.dearest = work;
    };
    for (std::size_t d = 0; d < depth; ++d) {
      const auto other = known_.order[d];
      const int rule = known_.rules[row + known_.id(other, chosen_[other])];
      if (rule == kRefused) return false;
      if (rule != kNoRule) heed(known_.works[static_cast<std::size_t>(rule)]);
    }
    heed(what.work);
    state.filled |= what.fills;
    state.provides |= what.provides;
    state.notes += what.notes;
    state.changed = state.changed || what.changes;
    return (known_.host.required & ~(state.filled | known_.fills_after[depth + 1])) == 0;
  }

  void descend(std::size_t depth, const Frontier& partial, const State& state) {
    if (new_order_) return;
    if (effort_.over()) {
      cut_off_ = std::max(cut_off_, upper(state, partial, depth));
      return;
    }
    if (depth == known_.order.size()) return finish(partial, state);
    const std::size_t place = known_.order[depth];
    std::vector<Child> children;
    for (std::size_t c = 0; c < known_.host.places[place].choices.size(); ++c) {
      if (overfull_ || new_order_) return;
      const auto id = known_.id(place, static_cast<int>(c));
      if (!usable_[id]) continue;
      effort_.spend(1);
      Child child{static_cast<int>(c), 0, {}, state};
      if (!take(depth, place, child.choice, child.state)) continue;
      chosen_[place] = child.choice;
      known_.lessons->hear(depth, chosen_, child.state.taught);
      if (child.state.taught.refused) continue;
      child.partial = sum(partial, frontiers_[id]);
      if (child.state.changed && !state.changed)
        child.partial.cost += rate_ * known_.host.open_minutes;
      child.upper = upper(child.state, child.partial, depth + 1);
      if (child.upper >= floor_) children.push_back(std::move(child));
    }
    std::stable_sort(children.begin(), children.end(),
                     [](const Child& a, const Child& b) { return a.upper > b.upper; });
    std::size_t lessons = known_.lessons->count();
    for (const auto& child : children) {
      if (child.upper < floor_) continue;
      if (lessons != known_.lessons->count()) {  // learned below: does it shut this branch?
        lessons = known_.lessons->count();
        chosen_[place] = kNone;
        if (known_.lessons->about(chosen_).refused) return;
      }
      chosen_[place] = child.choice;
      descend(depth + 1, child.partial, child.state);
    }
    chosen_[place] = kNone;
  }

  double upper(const State& state, const Frontier& partial, std::size_t depth) const {
    const double evidence = evidence_of(known_.host, std::max(state.level, state.taught.level),
                                        state.notes + known_.notes_after[depth]);
    const double price = price_within(known_.host, state.provides | known_.provides_after[depth]);
    const double work = std::max(state.dearest.needed() ? known_.cost(state.dearest) : 0,
                                 state.taught.money + rate_ * state.taught.minutes);
    return highest(price * evidence, partial, rest_[depth]) - work + kRounding;
  }

  void finish(const Frontier& partial, State state) {
    // Lessons learned below this branch's places since they were filled.
    state.taught = known_.lessons->about(chosen_);
    const double foreseen = upper(state, partial, known_.order.size());
    if (state.taught.refused || foreseen < floor_) return;
    Whole whole = by_tables(state);
    if (known_.problem.whole) {
      whole = known_.judge_and_learn(chosen_, effort_);
      new_order_ = known_.lessons->count() >= new_order_at_;
      if (!whole.allowed) return;
    }
    const double factor = whole.price * whole.chance;
    const double fixed = whole.money + rate_ * whole.minutes;
    Frontier own = partial;
    own.cost += fixed - table_cost(state);
    std::size_t corner = 0;
    const double net = highest(factor, own, {}, &corner);
    if (net > foreseen + 0.5) known_.shared_work = true;
    if (net < floor_) return;
    if (all_)
      list(factor, fixed);
    else
      keep(own, corner);
  }

  Whole by_tables(const State& state) const {
    Whole whole;
    whole.minutes = state.dearest.minutes + (state.changed ? known_.host.open_minutes : 0);
    whole.money = state.dearest.money;
    for (std::size_t p = 0; p < chosen_.size(); ++p) {
      const auto& choice = known_.host.places[p].choices[static_cast<std::size_t>(chosen_[p])];
      whole.minutes += choice.minutes;
      whole.money += choice.money;
    }
    whole.chance = evidence_of(known_.host, state.level, state.notes);
    whole.price = price_within(known_.host, state.provides);
    return whole;
  }

  // What `partial` already holds of it: opening and handling, not the work.
  double table_cost(const State& state) const {
    const Whole whole = by_tables(state);
    return whole.money - state.dearest.money + rate_ * (whole.minutes - state.dearest.minutes);
  }

  void keep(const Frontier& own, std::size_t corner) {
    Built built{known_.index, chosen_, {}};
    for (std::size_t p = 0; p < chosen_.size(); ++p)
      built.sources.push_back(frontiers_[known_.id(p, chosen_[p])].source);
    for (std::size_t i = 0; i < corner; ++i)
      built.sources[static_cast<std::size_t>(own.edges[i].place)] = own.edges[i].source;
    best_ = found(std::move(built));
    floor_ = std::max(floor_, best_->net + kRounding);
  }

  Found found(Built built) const {
    Found one{std::move(built), {}, 0};
    one.worth = worth_of(known_.problem, one.built);
    one.net = one.worth.value - prices_.minute * one.worth.minutes;
    for (std::size_t p = 0; p < chosen_.size(); ++p) {
      const auto& place = known_.host.places[p];
      const auto& choice = place.choices[static_cast<std::size_t>(one.built.choices[p])];
      const auto& source = choice.sources[static_cast<std::size_t>(one.built.sources[p])];
      if (source.pool != kNone) one.net -= prices_.pools[static_cast<std::size_t>(source.pool)];
      if (choice.changes && place.frees != kNone)
        one.net += prices_.pools[static_cast<std::size_t>(place.frees)];
    }
    return one;
  }

  // Every combination of sources for the chosen choices that reaches the floor.
  void list(double factor, double fixed) {
    std::vector<std::vector<Point>> points(chosen_.size());
    std::vector<Frontier> rest(chosen_.size() + 1);
    for (std::size_t p = chosen_.size(); p-- > 0;) {
      const auto& place = known_.host.places[p];
      const auto c = static_cast<std::size_t>(chosen_[p]);
      const double freed = cost_of(place, place.choices[c]) - place.choices[c].money -
                           rate_ * place.choices[c].minutes;
      for (std::size_t s = 0; s < place.choices[c].sources.size(); ++s)
        if (allowed(p, c, s))
          points[p].push_back({std::log(place.choices[c].sources[s].chance),
                               freed + cost_of(place.choices[c].sources[s]), static_cast<int>(s)});
      rest[p] = sum(frontier_of(points[p], static_cast<int>(p)), rest[p + 1]);
    }
    Built built{known_.index, chosen_, std::vector<int>(chosen_.size(), 0)};
    list_from(0, factor, {0, fixed, 0, {}}, points, rest, built);
  }

  void list_from(std::size_t place, double factor, const Frontier& so_far,
                 const std::vector<std::vector<Point>>& points, const std::vector<Frontier>& rest,
                 Built& built) {
    if (overfull_ || effort_.over()) return;
    effort_.spend(1);
    if (highest(factor, so_far, rest[place]) + kRounding < floor_) return;
    if (place == points.size()) {
      if (all_->size() == most_)
        overfull_ = true;
      else
        all_->push_back(found(built));
      return;
    }
    for (const auto& point : points[place]) {
      built.sources[place] = point.source;
      list_from(place + 1, factor, {so_far.q + point.q, so_far.cost + point.cost, 0, {}}, points,
                rest, built);
    }
  }

  Known& known_;
  const Prices& prices_;
  double rate_;
  double floor_;
  Effort& effort_;
  const Banned* banned_;
  std::vector<int> chosen_;
  std::vector<Frontier> frontiers_;  ///< per choice
  std::vector<char> usable_;
  std::vector<Frontier> any_;   ///< per place, over all its choices
  std::vector<Frontier> rest_;  ///< per depth
  bool possible_ = true, overfull_ = false, new_order_ = false;
  std::size_t new_order_at_ = 0;  ///< how many lessons
  double cut_off_ = kNever;
  std::optional<Found> best_;
  std::vector<Found>* all_ = nullptr;
  std::size_t most_ = 0;
};

HostSearch::HostSearch(const Problem& problem, int host)
    : known_(std::make_unique<Known>(problem, host)), cut_off_(kNever) {}
HostSearch::~HostSearch() = default;
HostSearch::HostSearch(HostSearch&&) noexcept = default;

std::optional<Found> HostSearch::best(const Prices& prices, double floor, Effort& effort,
                                      const Banned* banned) {
  Search search(*known_, prices, floor + kRounding, effort, banned);
  search.run_for_best();
  cut_off_ = search.cut_off();
  return search.best();
}

std::optional<std::vector<Found>> HostSearch::all(const Prices& prices, double floor,
                                                  std::size_t most, Effort& effort,
                                                  const Banned* banned) {
  std::vector<Found> out;
  Search search(*known_, prices, floor, effort, banned);
  if (!search.run_for_all(most, out) || effort.over()) return std::nullopt;
  std::stable_sort(out.begin(), out.end(),
                   [](const Found& a, const Found& b) { return a.net > b.net; });
  return out;
}

bool HostSearch::shared_work() const { return known_->shared_work; }
std::size_t HostSearch::judged() const { return known_->judged.size(); }

}  // namespace benchgraft::plan
