// Random contacts and ports that meet often enough in the rows of the contact table to test them.
#pragma once

#include <cstdint>
#include <random>
#include <vector>

#include "catalogue/port.hpp"

namespace benchgraft::fit_random {

class Dice {
 public:
  explicit Dice(std::uint32_t seed) : random_(seed) {}
  /// 0 .. bound-1.
  std::size_t below(std::size_t bound) { return random_() % bound; }
  bool one_in(std::size_t n) { return below(n) == 0; }
  template <class T>
  T of(const std::vector<T>& all) {
    return all[below(all.size())];
  }

 private:
  std::mt19937 random_;
};

/// Every field at random, now and then not recorded.
catalogue::Contact contact(Dice& dice);
/// A contact like `other` that would go with it, with one to three facts changed or taken away, or
/// none.
catalogue::Contact partner(Dice& dice, const catalogue::Contact& other);
/// `n` contacts numbered from 1, and their partners; sometimes in another order.
struct Facing {
  std::vector<catalogue::Contact> plug, socket;
};
Facing facing(Dice& dice, std::size_t n);

}  // namespace benchgraft::fit_random
