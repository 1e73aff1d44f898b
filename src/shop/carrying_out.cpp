#include "shop/carrying_out.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "shop/codes.hpp"
#include "shop/words.hpp"

namespace benchgraft::shop {

namespace {

template <class T>
Result<T*> find_code(std::vector<T>& things, const std::string& sort, const std::string& given) {
  const std::string code = tape_code(std::string(trimmed(given)));
  if (code.empty())
    return Error{ErrorKind::bad_input, fmt::format("no {} is named; give its code.", sort)};
  std::vector<std::string> known;
  for (auto& thing : things) {
    if (thing.code == code) return &thing;
    known.push_back(thing.code);
  }
  const std::string near = nearest_word(code, known);
  return Error{ErrorKind::not_found, fmt::format("{} {} is not here; {}", sort, code,
                                                 near.empty() ? "look for its code on the tape."
                                                              : "did you mean " + near + "?")};
}

}  // namespace

Result<Set*> find_set(Shop& shop, const std::string& code) {
  return find_code(shop.sets, "set", code);
}

Result<Part*> find_part(Shop& shop, const std::string& code) {
  return find_code(shop.parts, "part", code);
}

Result<RebuildRecord*> find_begun(Shop& shop, const std::string& name) {
  std::vector<std::string> known;
  for (auto& rebuild : shop.rebuilds) {
    if (rebuild.name == name) {
      if (rebuild.state == kBegun) return &rebuild;
      return Error{
          ErrorKind::conflict,
          fmt::format("rebuild \"{}\" is already {}; begin a new one.", name, rebuild.state)};
    }
    known.push_back(rebuild.name);
  }
  const std::string near = nearest_word(name, known);
  return Error{ErrorKind::not_found,
               fmt::format("there is no rebuild \"{}\"; {}", name,
                           near.empty() ? "begin it first." : "did you mean \"" + near + "\"?")};
}

std::string whereabouts(const Shop& shop, const Part& part) {
  if (part.in_set) {
    const Set* set = shop.set(*part.in_set);
    const std::string code = set == nullptr ? "" : set->code;
    return part.position.empty() ? "set " + code : fmt::format("set {}, {}", code, part.position);
  }
  return part.place.empty() ? "no named place" : fmt::format("shelf \"{}\"", part.place);
}

void lift_out(Shop& shop, Part& part, const std::string& place, bool stays) {
  if (part.in_set) {
    const auto set = std::find_if(shop.sets.begin(), shop.sets.end(),
                                  [&](const Set& one) { return one.id == *part.in_set; });
    if (!stays) part.from = set->code;
    if (!part.position.empty()) set->missing.push_back(part.position);
  }
  part.in_set.reset();
  part.position.clear();
  part.place = place;
}

void put_in(Part& part, Set& set, const std::string& position) {
  part.in_set = set.id;
  part.position = position;
  part.place.clear();
  std::erase(set.missing, position);
}

std::string free_name(const std::string& wanted, const std::vector<std::string>& taken) {
  std::string name = wanted;
  for (int n = 2; std::find(taken.begin(), taken.end(), name) != taken.end(); ++n)
    name = fmt::format("{} ({})", wanted, n);
  return name;
}

}  // namespace benchgraft::shop
