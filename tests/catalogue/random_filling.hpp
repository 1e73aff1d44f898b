// Fills any struct of the catalogue at random by walking its keys.
#pragma once

#include <map>
#include <optional>
#include <random>
#include <string>
#include <vector>

#include "catalogue/keys_knowledge.hpp"

namespace benchgraft::catalogue {

/// Fills any struct by walking its keys; what the walk cannot know (unique names, wires that end
/// somewhere) is put right afterwards by random_family().
class RandomFilling {
 public:
  RandomFilling(std::uint32_t seed, int most) : random_(seed), most_(most) {}

  int below(int bound) { return static_cast<int>(random_() % static_cast<std::uint32_t>(bound)); }
  bool coin() { return below(2) == 0; }

  /// Free text with everything that has to be escaped, and letters from all over Unicode.
  std::string sentence();
  /// A name: nothing a name may not hold, and no letter that joins names.
  std::string name();
  /// A number the demand allows, with all its digits.
  double number(const Demand& demand);

  void key(std::string_view, std::string& v, const Demand& d = {}) {
    if (d.must || coin()) v = d.sentence ? sentence() + (d.must ? "." : "") : name();
  }
  void key(std::string_view, bool& v, const Demand& = {}) { v = coin(); }
  void key(std::string_view, double& v, const Demand& d = {}) { v = number(d); }
  void key(std::string_view, int& v, const Demand& d = {}) {
    v = std::max(0, static_cast<int>(d.low)) +
        below(d.high < 100 ? static_cast<int>(d.high - d.low) + 1 : 100);
  }
  void key(std::string_view, Money& v, const Demand& = {}) {
    v.minor = static_cast<std::int64_t>(bits() >> 1U);
  }
  void key(std::string_view, Range& v, const Demand& d = {}) {
    v = {number(d), number(d)};
    if (v.low > v.high) std::swap(v.low, v.high);
  }
  void key(std::string_view, Point& v, const Demand& = {}) {
    for (double& part : v) part = coin() ? number({}) : -number({});
  }
  void key(std::string_view, Loose<std::string> v, const Demand& = {}) {
    v.text = coin() ? std::to_string(1 + below(1000)) : name();
  }
  void key(std::string_view, Joined<std::string> v, const Demand& = {}) {
    v.first = name();
    v.second = v.second_must || coin() ? name() : "";
  }
  void key(std::string_view, std::map<std::string, std::string>& v, const Demand& = {}) {
    for (int i = below(most_); i > 0; --i) v[name()] = name();
  }
  template <class E, class List>
  void key(std::string_view, Worded<E, List> v, const Demand& d = {}) {
    if (d.must || coin()) v.value = v.list[random_() % v.list.size()].first;
  }
  template <class L, class S>
  void key(std::string_view, OrName<L, S> v, const Demand& = {}) {
    if (coin()) v.list = {v.name, name()};
    if (v.list.empty()) v.list = {v.name};
  }
  template <class T>
  void key(std::string_view n, std::optional<T>& v, const Demand& d = {}) {
    if (coin()) return;
    Demand must = d;
    must.must = std::same_as<T, std::string>;
    key(n, v.emplace(), must);
  }
  template <class T>
  void key(std::string_view n, std::vector<T>& v, const Demand& d = {}) {
    Demand each = d;
    each.must = true;
    for (int i = below(most_) + (d.must ? 1 : 0); i > 0; --i) key(n, v.emplace_back(), each);
  }
  template <Keyed T>
  void key(std::string_view, T& v, const Demand& = {}) {
    each_key(*this, v);
  }

 private:
  std::uint64_t bits() { return (static_cast<std::uint64_t>(random_()) << 32U) | random_(); }
  std::mt19937 random_;
  int most_;
};

}  // namespace benchgraft::catalogue
