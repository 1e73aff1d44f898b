#include "shop/edits.hpp"

#include <map>
#include <utility>

#include "shop/thing_key.hpp"

namespace benchgraft::shop {

namespace {

template <class T>
void compare(const std::vector<T>& before, const std::vector<T>& after,
             std::vector<Edit<T>>& edits) {
  std::map<std::string, const T*> left;
  for (std::size_t i = 0; i < before.size(); ++i)
    // Most things stand where they stood; only the others need looking up.
    if (i >= after.size() || !same_key(before[i], after[i]))
      left.emplace(key_of(before[i]), &before[i]);
  for (std::size_t i = 0; i < after.size(); ++i) {
    const T* was = i < before.size() && same_key(before[i], after[i]) ? &before[i] : nullptr;
    if (was == nullptr)
      if (const auto at = left.find(key_of(after[i])); at != left.end()) {
        was = at->second;
        left.erase(at);
      }
    if (was == nullptr)
      edits.push_back({std::nullopt, after[i]});
    else if (*was != after[i])
      edits.push_back({*was, after[i]});
  }
  for (const auto& [key, gone] : left) edits.push_back({*gone, std::nullopt});
}

template <class T>
void make(const std::vector<Edit<T>>& edits, std::vector<T>& things) {
  if (edits.empty()) return;
  std::map<std::string, std::size_t> at;
  for (std::size_t i = 0; i < things.size(); ++i) at.emplace(key_of(things[i]), i);
  std::vector<bool> gone(things.size(), false);
  for (const auto& edit : edits) {
    const auto found = at.find(key_of(edit.after ? *edit.after : *edit.before));
    if (found == at.end()) {
      if (edit.after) things.push_back(*edit.after);
    } else if (edit.after)
      things[found->second] = *edit.after;
    else
      gone[found->second] = true;
  }
  std::vector<T> kept;
  for (std::size_t i = 0; i < things.size(); ++i)
    if (i >= gone.size() || !gone[i]) kept.push_back(std::move(things[i]));
  things = std::move(kept);
}

}  // namespace

bool Edits::empty() const { return *this == Edits{}; }

Edits difference(const Records& before, const Records& after) {
  Edits edits;
  compare(before.shop.sets, after.shop.sets, edits.sets);
  compare(before.shop.parts, after.shop.parts, edits.parts);
  compare(before.shop.notes, after.shop.notes, edits.notes);
  compare(before.shop.rebuilds, after.shop.rebuilds, edits.rebuilds);
  compare(before.shop.wishes, after.shop.wishes, edits.wishes);
  compare(before.families, after.families, edits.families);
  if (before.shop.terms != after.shop.terms)
    edits.terms.push_back({before.shop.terms, after.shop.terms});
  return edits;
}

void apply(const Edits& edits, Records& records) {
  make(edits.sets, records.shop.sets);
  make(edits.parts, records.shop.parts);
  make(edits.notes, records.shop.notes);
  make(edits.rebuilds, records.shop.rebuilds);
  make(edits.wishes, records.shop.wishes);
  make(edits.families, records.families);
  for (const auto& edit : edits.terms) records.shop.terms = *edit.after;
}

}  // namespace benchgraft::shop
