#include "fit/repin.hpp"

#include <algorithm>

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

// Bipartite matching of a's contacts to b's by augmenting paths; `partner[b]` = index into a.
class Matching {
 public:
  Matching(const std::vector<const Contact*>& a, const std::vector<const Contact*>& b,
           const Surroundings& around)
      : partner(b.size(), kNobody), a_(a), b_(b), around_(around) {}

  bool place(std::size_t i) {
    std::vector<bool> seen(b_.size(), false);
    return augment(i, seen);
  }
  std::vector<std::size_t> partner;

 private:
  bool augment(std::size_t i, std::vector<bool>& seen) {
    for (std::size_t k = 0; k < b_.size(); ++k) {
      if (seen[k] || !agree(a_[i], b_[k], around_)) continue;
      seen[k] = true;
      if (partner[k] != kNobody && !augment(partner[k], seen)) continue;
      partner[k] = i;
      return true;
    }
    return false;
  }
  const std::vector<const Contact*>& a_;
  const std::vector<const Contact*>& b_;
  const Surroundings& around_;
};

bool needs_partner(const Contact& contact) {
  return contact.direction == catalogue::Direction::in || is_excluded_circuit(contact);
}

// Every socket contact that has to be fed or answered found a partner.
bool all_served(const std::vector<const Contact*>& b, const std::vector<std::size_t>& partner) {
  for (std::size_t k = 0; k < b.size(); ++k)
    if (used(b[k]) && partner[k] == kNobody && needs_partner(*b[k])) return false;
  return true;
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
  Matching matching(a, b, around);
  for (std::size_t k = 0; k < faces.size(); ++k)
    if (agree(faces[k].a, b[k], around))
      matching.partner[k] =
          static_cast<std::size_t>(std::find(a.begin(), a.end(), faces[k].a) - a.begin());
  for (std::size_t i = 0; i < a.size(); ++i) {
    const bool stays =
        std::find(matching.partner.begin(), matching.partner.end(), i) != matching.partner.end();
    if (!stays && !matching.place(i)) return std::nullopt;
  }
  if (!all_served(b, matching.partner)) return std::nullopt;
  Rearrangement plan;
  for (std::size_t k = 0; k < b.size(); ++k) {
    if (matching.partner[k] == kNobody) continue;
    const Contact& moved = *a[matching.partner[k]];
    if (moved.number == seat[k]) continue;
    if (is_excluded_circuit(moved) || is_excluded_circuit(*b[k])) return std::nullopt;
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
  Matching matching(a, b, around);
  for (std::size_t i = 0; i < a.size(); ++i)
    if (!matching.place(i)) return std::nullopt;
  if (!all_served(b, matching.partner)) return std::nullopt;
  Rearrangement plan;
  for (std::size_t k = 0; k < b.size(); ++k) {
    if (matching.partner[k] == kNobody) continue;
    const Contact& from = *a[matching.partner[k]];
    plan.moves.push_back({from.signal, from.number, b[k]->number});
    plan.most_amps = std::max({plan.most_amps, from.amps.value_or(0), b[k]->amps.value_or(0)});
  }
  if (plan.moves.empty()) return std::nullopt;
  return plan;
}

}  // namespace benchgraft::fit
