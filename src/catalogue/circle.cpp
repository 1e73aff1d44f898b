#include "catalogue/circle.hpp"

#include <algorithm>

namespace benchgraft::catalogue {

namespace {

// Takes away, again and again, what waits for nothing that is left. What stays waits in circles or
// for one.
WaitsFor stuck(const WaitsFor& waits) {
  std::map<std::string, std::vector<std::string>> waited_by;
  std::map<std::string, std::size_t> open;
  std::vector<std::string> free;
  for (const auto& [name, others] : waits) {
    std::size_t& count = open[name];
    for (const auto& other : others)
      if (waits.contains(other)) {
        waited_by[other].push_back(name);
        ++count;
      }
    if (count == 0) free.push_back(name);
  }
  WaitsFor left = waits;
  while (!free.empty()) {
    const std::string name = free.back();
    free.pop_back();
    left.erase(name);
    for (const auto& waiting : waited_by[name])
      if (--open[waiting] == 0) free.push_back(waiting);
  }
  return left;
}

}  // namespace

std::vector<std::string> find_circle(const WaitsFor& waits) {
  const WaitsFor left = stuck(waits);
  if (left.empty()) return {};
  // Every name that is left waits for another one that is left, so walking on must come round.
  std::vector<std::string> walked;
  std::map<std::string, std::size_t> seen;
  std::string at = left.begin()->first;
  while (!seen.contains(at)) {
    seen[at] = walked.size();
    walked.push_back(at);
    const auto& others = left.at(at);
    at = *std::find_if(others.begin(), others.end(),
                       [&](const auto& other) { return left.contains(other); });
  }
  walked.erase(walked.begin(), walked.begin() + static_cast<std::ptrdiff_t>(seen[at]));
  return walked;
}

std::string circle_text(const std::vector<std::string>& circle) {
  if (circle.size() == 1) return "\"" + circle.front() + "\" waits for itself";
  std::string text = "\"" + circle.front() + "\"";
  for (std::size_t i = 1; i <= circle.size(); ++i)
    text += (i == 1 ? " waits for \"" : ", which waits for \"") + circle[i % circle.size()] + "\"";
  return text;
}

}  // namespace benchgraft::catalogue
