#include "shop/shop.hpp"

#include <algorithm>

#include "base/text.hpp"

namespace benchgraft::shop {

namespace {

template <class T, class Key>
const T* first_with(const std::vector<T>& things, Key holds) {
  const auto at = std::find_if(things.begin(), things.end(), holds);
  return at == things.end() ? nullptr : &*at;
}

}  // namespace

const Set* Shop::set(const SetId& id) const {
  return first_with(sets, [&](const Set& one) { return one.id == id; });
}

const Set* Shop::set_by_code(const std::string& code) const {
  // Read off tape: codes have no small letters, so those mean the same.
  return first_with(sets,
                    [asked = in_capitals(code)](const Set& one) { return one.code == asked; });
}

const Part* Shop::part(const PartId& id) const {
  return first_with(parts, [&](const Part& one) { return one.id == id; });
}

const Part* Shop::part_by_code(const std::string& code) const {
  return first_with(parts,
                    [asked = in_capitals(code)](const Part& one) { return one.code == asked; });
}

std::vector<const Part*> Shop::parts_in(const SetId& id) const {
  std::vector<const Part*> found;
  for (const auto& one : parts)
    if (one.in_set == id) found.push_back(&one);
  return found;
}

}  // namespace benchgraft::shop
