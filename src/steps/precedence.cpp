#include "steps/precedence.hpp"

#include <algorithm>
#include <functional>
#include <queue>

#include "base/ensure.hpp"

namespace benchgraft::steps {

void Precedence::require(std::size_t first, std::size_t then) {
  ensure(first < size() && then < size(), "precedence between things that exist");
  auto& after = next_[first];
  if (std::find(after.begin(), after.end(), then) == after.end()) after.push_back(then);
}

bool Precedence::prefer(std::size_t first, std::size_t then) {
  if (first == then || reaches(then, first)) return false;
  require(first, then);
  return true;
}

std::vector<bool> Precedence::waiting_for(const std::vector<std::size_t>& firsts) const {
  std::vector<bool> found(size(), false);
  std::vector<std::size_t> open = firsts;
  for (const std::size_t start : firsts) found[start] = true;
  while (!open.empty()) {
    const std::size_t at = open.back();
    open.pop_back();
    for (const std::size_t then : next_[at]) {
      if (found[then]) continue;
      found[then] = true;
      open.push_back(then);
    }
  }
  return found;
}

bool Precedence::reaches(std::size_t first, std::size_t then) const {
  return waiting_for({first})[then];
}

Precedence::Outcome Precedence::sorted() const {
  std::vector<std::size_t> waits(size(), 0);
  for (const auto& after : next_)
    for (const std::size_t then : after) ++waits[then];
  std::priority_queue<std::size_t, std::vector<std::size_t>, std::greater<>> free;
  for (std::size_t i = 0; i < size(); ++i)
    if (waits[i] == 0) free.push(i);

  Outcome outcome;
  while (!free.empty()) {
    const std::size_t at = free.top();
    free.pop();
    outcome.order.push_back(at);
    for (const std::size_t then : next_[at])
      if (--waits[then] == 0) free.push(then);
  }
  if (outcome.order.size() == size()) return outcome;
  outcome.order.clear();
  outcome.circle = circle_among(waits);
  return outcome;
}

// Walking backwards from anything that still waits must come round to itself.
std::vector<std::size_t> Precedence::circle_among(const std::vector<std::size_t>& left) const {
  std::vector<std::size_t> before(size(), size());
  for (std::size_t i = 0; i < size(); ++i)
    for (const std::size_t then : next_[i])
      if (left[i] > 0 && left[then] > 0 && before[then] == size()) before[then] = i;
  std::size_t at = 0;
  while (left[at] == 0) ++at;
  std::vector<std::size_t> path;
  while (std::find(path.begin(), path.end(), at) == path.end()) {
    path.push_back(at);
    at = before[at];
  }
  path.erase(path.begin(), std::find(path.begin(), path.end(), at));
  std::reverse(path.begin(), path.end());
  return path;
}

}  // namespace benchgraft::steps
