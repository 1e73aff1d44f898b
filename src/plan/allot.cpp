#include "plan/allot.hpp"

#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

namespace benchgraft::plan {
namespace {

class Handout {
 public:
  Handout(const RoomOfNumbers& room, const Inventory& inventory, const Allotment& allotment)
      : room_(room), inventory_(inventory), allotment_(allotment), donors_(allotment.built.size()) {
    for (const auto& built : allotment.built) parts_.emplace_back(built.choices.size(), kNone);
    for (std::size_t b = 0; b < allotment.built.size(); ++b) built_[meaning(b).set] = b;
  }

  Result<Parts> run() {
    // First the uses that leave no choice of donor: they decide where the others look first.
    for (const bool only_without_choice : {true, false})
      for (std::size_t b = 0; b < parts_.size(); ++b)
        for (std::size_t p = 0; p < parts_[b].size(); ++p) {
          const int pool = source(b, p).pool;
          if (pool == kNone || parts_[b][p] != kNone) continue;
          const auto there = available(pool);
          if (there.empty())
            return Error{ErrorKind::conflict,
                         fmt::format("The plan does not add up: not enough of {}.",
                                     room_.problem.pools[static_cast<std::size_t>(pool)].name)};
          if (!only_without_choice || there.size() == 1) take(b, p, there);
        }
    return std::move(parts_);
  }

 private:
  const HostMeaning& meaning(std::size_t b) const {
    return room_.hosts[static_cast<std::size_t>(allotment_.built[b].host)];
  }
  const Choice& choice(std::size_t b, std::size_t p) const {
    const auto& built = allotment_.built[b];
    return room_.problem.hosts[static_cast<std::size_t>(built.host)]
        .places[p]
        .choices[static_cast<std::size_t>(built.choices[p])];
  }
  const Source& source(std::size_t b, std::size_t p) const {
    return choice(b, p).sources[static_cast<std::size_t>(allotment_.built[b].sources[p])];
  }
  const Item& item(int i) const { return inventory_.items[static_cast<std::size_t>(i)]; }

  bool is_there(const Stock& stock) const {
    if (taken_.count(stock.item)) return false;
    const Item& what = item(stock.item);
    if (stock.way == Way::shelf) return true;
    if (stock.way == Way::stripped)
      return allotment_.stripped[static_cast<std::size_t>(what.set)] != 0;
    const auto host = built_.find(what.set);
    return host != built_.end() &&
           choice(host->second, static_cast<std::size_t>(what.position)).changes;
  }

  std::vector<int> available(int pool) const {
    std::vector<int> there;
    for (const auto& stock : room_.stock[static_cast<std::size_t>(pool)])
      if (is_there(stock)) there.push_back(stock.item);
    return there;
  }

  void take(std::size_t b, std::size_t p, const std::vector<int>& there) {
    const auto best = std::min_element(there.begin(), there.end(), [&](int x, int y) {
      const bool known_x = donors_[b].count(item(x).set) > 0;
      const bool known_y = donors_[b].count(item(y).set) > 0;
      if (known_x != known_y) return known_x;
      return std::pair(item(x).code, x) < std::pair(item(y).code, y);
    });
    parts_[b][p] = *best;
    taken_.insert(*best);
    if (item(*best).set >= 0) donors_[b].insert(item(*best).set);
  }

  const RoomOfNumbers& room_;
  const Inventory& inventory_;
  const Allotment& allotment_;
  Parts parts_;
  std::vector<std::set<int>> donors_;  ///< per rebuild: sets it takes parts from
  std::map<int, std::size_t> built_;   ///< set -> rebuild
  std::set<int> taken_;
};

}  // namespace

Result<Parts> allot(const RoomOfNumbers& room, const Inventory& inventory,
                    const Allotment& allotment) {
  return Handout(room, inventory, allotment).run();
}

}  // namespace benchgraft::plan
