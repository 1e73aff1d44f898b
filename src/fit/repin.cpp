#include "fit/repin.hpp"

#include <algorithm>
#include <functional>

namespace benchgraft::fit {
namespace {

using catalogue::Contact;
using catalogue::NetClass;

constexpr std::size_t kNobody = static_cast<std::size_t>(-1);

bool used(const Contact* contact) { return contact && contact->net_class != NetClass::unused; }

bool agree(const Contact* a, const Contact* b, const Surroundings& around) {
  if (!used(a) || !used(b)) return false;
  std::vector<ContactFinding> found;
  judge_contacts(a, b, around, found);
  return found.empty();
}

bool needs_partner(const Contact& contact) {
  return contact.direction == catalogue::Direction::in || is_excluded_circuit(contact);
}

// Cheapest assignment of every row to a column of its own (Kuhn 1955, Munkres 1957; potentials and
// shortest augmenting paths, O(rows^2 columns)). Rows <= columns. Nothing when a row finds no
// allowed one.
class Assignment {
 public:
  Assignment(std::size_t rows, std::size_t columns,
             std::function<double(std::size_t, std::size_t)> cost)
      : rows_(rows),
        columns_(columns),
        cost_(std::move(cost)),
        row_price_(rows + 1, 0),
        column_price_(columns + 1, 0),
        row_of_(columns + 1, 0) {}

  /// Row of each column, kNobody where a column stays free.
  std::optional<std::vector<std::size_t>> solve() {
    if (rows_ > columns_) return std::nullopt;
    for (std::size_t row = 1; row <= rows_; ++row)
      if (!augment(row)) return std::nullopt;
    std::vector<std::size_t> partner(columns_, kNobody);
    for (std::size_t k = 1; k <= columns_; ++k)
      if (row_of_[k] != 0) partner[k - 1] = row_of_[k] - 1;
    return partner;
  }

 private:
  bool augment(std::size_t row) {
    std::vector<double> reach(columns_ + 1, kNever);
    std::vector<std::size_t> before(columns_ + 1, 0);
    std::vector<bool> used_column(columns_ + 1, false);
    row_of_[0] = row;
    std::size_t at = 0;
    do {
      used_column[at] = true;
      const std::size_t here = row_of_[at];
      std::size_t next = 0;
      double step = kNever;
      for (std::size_t k = 1; k <= columns_; ++k) {
        if (used_column[k]) continue;
        const double way = cost_(here - 1, k - 1) - row_price_[here] - column_price_[k];
        if (way < reach[k]) {
          reach[k] = way;
          before[k] = at;
        }
        if (reach[k] < step) {
          step = reach[k];
          next = k;
        }
      }
      if (step >= kNever / 2) return false;
      for (std::size_t k = 0; k <= columns_; ++k) {
        if (used_column[k]) {
          row_price_[row_of_[k]] += step;
          column_price_[k] -= step;
        } else {
          reach[k] -= step;
        }
      }
      at = next;
    } while (row_of_[at] != 0);
    for (; at != 0; at = before[at]) row_of_[at] = row_of_[before[at]];
    return true;
  }

  static constexpr double kNever = 1e9;
  std::size_t rows_, columns_;
  std::function<double(std::size_t, std::size_t)> cost_;
  std::vector<double> row_price_, column_price_;
  std::vector<std::size_t> row_of_;
};

// Every socket contact that has to be fed or answered found a partner.
bool all_served(const std::vector<const Contact*>& b, const std::vector<std::size_t>& partner) {
  for (std::size_t k = 0; k < b.size(); ++k)
    if (used(b[k]) && partner[k] == kNobody && needs_partner(*b[k])) return false;
  return true;
}

// Contacts that agree may be joined; staying costs nothing, moving 1, and those in need come first.
std::optional<std::vector<std::size_t>> cheapest(const std::vector<const Contact*>& a,
                                                 const std::vector<const Contact*>& b,
                                                 const std::vector<std::string>& seat,
                                                 const Surroundings& around) {
  constexpr double kForbidden = 1e9, kMove = 1, kWithoutNeed = 1e-3;
  std::vector<double> cost(a.size() * b.size(), kForbidden);
  for (std::size_t i = 0; i < a.size(); ++i)
    for (std::size_t k = 0; k < b.size(); ++k) {
      if (!agree(a[i], b[k], around)) continue;
      const bool stays = !seat.empty() && a[i]->number == seat[k];
      if (!stays && (is_excluded_circuit(*a[i]) || is_excluded_circuit(*b[k]))) continue;
      cost[i * b.size() + k] = (stays ? 0 : kMove) + (needs_partner(*b[k]) ? 0 : kWithoutNeed);
    }
  auto partner = Assignment(a.size(), b.size(), [&](std::size_t i, std::size_t k) {
                   return cost[i * b.size() + k];
                 }).solve();
  if (!partner || !all_served(b, *partner)) return std::nullopt;
  return partner;
}

}  // namespace

std::optional<Rearrangement> fewest_moves(const std::vector<Facing>& faces,
                                          const Surroundings& around) {
  std::vector<const Contact*> a, b;
  std::vector<std::string> seat;  // the plug's own number of the place facing b[k]
  for (const auto& face : faces) {
    if (!face.a || !face.b) return std::nullopt;
    if (used(face.a)) a.push_back(face.a);
    b.push_back(face.b);
    seat.push_back(face.a->number);
  }
  const auto partner = cheapest(a, b, seat, around);
  if (!partner) return std::nullopt;
  Rearrangement plan;
  for (std::size_t k = 0; k < b.size(); ++k) {
    if ((*partner)[k] == kNobody) continue;
    const Contact& moved = *a[(*partner)[k]];
    if (moved.number == seat[k]) continue;
    plan.moves.push_back({moved.signal, moved.number, seat[k]});
    plan.most_amps = std::max({plan.most_amps, moved.amps.value_or(0), b[k]->amps.value_or(0)});
  }
  return plan;
}

std::optional<Rearrangement> crossover_wires(const catalogue::Port& port_a,
                                             const catalogue::Port& port_b,
                                             const Surroundings& around) {
  if (!port_a.contacts || !port_b.contacts) return std::nullopt;
  std::vector<const Contact*> a, b;
  for (const auto& contact : *port_a.contacts)
    if (used(&contact)) a.push_back(&contact);
  for (const auto& contact : *port_b.contacts)
    if (used(&contact)) b.push_back(&contact);
  const auto excluded = [](const Contact* c) { return is_excluded_circuit(*c); };
  if (std::any_of(a.begin(), a.end(), excluded) || std::any_of(b.begin(), b.end(), excluded))
    return std::nullopt;
  const auto partner = cheapest(a, b, {}, around);
  if (!partner) return std::nullopt;
  Rearrangement plan;
  for (std::size_t k = 0; k < b.size(); ++k) {
    if ((*partner)[k] == kNobody) continue;
    const Contact& from = *a[(*partner)[k]];
    plan.moves.push_back({from.signal, from.number, b[k]->number});
    plan.most_amps = std::max({plan.most_amps, from.amps.value_or(0), b[k]->amps.value_or(0)});
  }
  if (plan.moves.empty()) return std::nullopt;
  return plan;
}

}  // namespace benchgraft::fit
