// Every recorded fact of a struct, one at a time: taken away, or changed to something else.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "catalogue/keys_knowledge.hpp"

namespace benchgraft::fit_facts {

/// Walks the keys of the catalogue text. After a walk `done` names the fact that was touched.
class Walk {
 public:
  enum class What { take_away, change, lower };
  Walk(What what, std::size_t target) : what_(what), target_(target) {}

  std::size_t count = 0;
  std::string done;  ///< "ports[1].contacts[0].volts"; "" = the target lies beyond

  template <class T>
  void all(T& thing) {
    each_key(*this, thing);
  }

  template <class F>
  void key(std::string_view name, F&& field, const catalogue::Demand& demand = {}) {
    if (!done.empty()) return;
    const std::string before = path_;
    path_ += (path_.empty() ? "" : ".") + std::string(name);
    value(field, demand.must);
    path_ = before;
  }

 private:
  bool hit() {
    if (count++ != target_) return false;
    done = path_;
    return true;
  }
  [[nodiscard]] double moved(double v) const {
    return what_ == What::lower ? v * 0.4 : v * 1.6 + 1;
  }

  void value(std::string& v, bool must) {
    if (v.empty() || (must && what_ == What::take_away) || !hit()) return;
    v = what_ == What::take_away ? "" : v + "~";
  }
  void value(bool& v, bool must) {
    if ((must && what_ == What::take_away) || !hit()) return;
    v = what_ == What::take_away ? false : !v;
  }
  void value(double& v, bool) {
    if (what_ != What::take_away && hit()) v = moved(v);
  }
  void value(int& v, bool) {
    if (what_ != What::take_away && hit()) ++v;
  }
  void value(Money& v, bool) {
    if (what_ != What::take_away && hit()) v.minor += 100;
  }
  void value(catalogue::Range& v, bool) {
    if (what_ != What::take_away && hit()) v = {moved(v.low), moved(v.high)};
  }
  void value(catalogue::Point& v, bool) {
    if (what_ != What::take_away && hit()) v = {v[0] + 300, v[1], v[2]};
  }
  void value(catalogue::Loose<std::string> v, bool must) { value(v.text, must); }
  void value(catalogue::Joined<std::string> v, bool must) {
    value(v.first, must);
    value(v.second, must || v.second_must);
  }
  void value(std::map<std::string, std::string>&, bool) {}
  template <class L, class S>
  void value(catalogue::OrName<L, S> v, bool must) {
    value(v.list, must);
  }
  template <class E, class List>
  void value(catalogue::Worded<E, List> v, bool must) {
    std::size_t at = v.list.size();
    for (std::size_t i = 0; i < v.list.size(); ++i)
      if (v.list[i].first == v.value) at = i;
    if (at == v.list.size() || (must && what_ == What::take_away)) return;
    if (!hit()) return;
    const std::size_t step = what_ == What::lower ? v.list.size() - 1 : 1;
    v.value = what_ == What::take_away ? E{} : v.list[(at + step) % v.list.size()].first;
  }
  template <class T>
  void value(std::optional<T>& v, bool must) {
    if (!v) return;
    if (what_ == What::take_away) {
      if (hit()) {
        v.reset();
        return;
      }
      inside(*v);
      return;
    }
    value(*v, must);
  }
  // A list that is recorded is taken away as a whole, and what stands in it one by one.
  template <class T>
  void inside(T& v) {
    if constexpr (catalogue::Keyed<T> || requires(T list) { list.push_back(list.front()); })
      if constexpr (!std::same_as<T, std::string>) value(v, false);
  }

  template <class T>
  void value(std::vector<T>& v, bool) {
    for (std::size_t i = 0; i < v.size() && done.empty(); ++i) {
      const std::string before = path_;
      path_ += "[" + std::to_string(i) + "]";
      if constexpr (catalogue::Keyed<T>)
        each_key(*this, v[i]);
      else if (what_ != What::take_away)
        value(v[i], true);
      path_ = before;
    }
  }
  template <catalogue::Keyed T>
  void value(T& v, bool) {
    each_key(*this, v);
  }

  What what_;
  std::size_t target_;
  std::string path_;
};

/// How many facts could be touched.
template <class T>
std::size_t count(Walk::What what, const T& thing) {
  T copy = thing;
  Walk walk(what, static_cast<std::size_t>(-1));
  walk.all(copy);
  return walk.count;
}

/// `thing` with its fact number `target` taken away or changed; `path` says which.
template <class T>
T with(Walk::What what, const T& thing, std::size_t target, std::string& path) {
  T copy = thing;
  Walk walk(what, target);
  walk.all(copy);
  path = walk.done;
  return copy;
}

}  // namespace benchgraft::fit_facts
