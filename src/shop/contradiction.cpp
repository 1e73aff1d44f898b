#include "shop/contradiction.hpp"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "shop/thing_key.hpp"
#include "shop/words.hpp"

namespace benchgraft::shop {

namespace {

template <class T>
Named named(const T& thing) {
  return {sort_of<T>(), key_of(thing)};
}

std::string place_text(const Part& part) {
  return part.place.empty() ? "on a shelf" : fmt::format("on shelf \"{}\"", part.place);
}

/// Walks the shop once; after the first contradiction nothing more is looked for.
class Search {
 public:
  explicit Search(const Shop& shop) : shop_(shop) {}

  std::optional<Contradiction> first() {
    ids_and_names();
    codes();
    places();
    rebuilds();
    wishes();
    return std::move(found_);
  }

 private:
  void say(std::string sentence, std::vector<Named> about, ErrorKind kind = ErrorKind::conflict) {
    if (!found_) found_ = Contradiction{kind, std::move(sentence), std::move(about)};
  }

  template <class T, class Key, class Shown>
  void refuse_doubles(const std::vector<T>& things, Key key, Shown shown) {
    std::map<std::string, const T*> seen;
    for (const auto& thing : things) {
      const auto [first, fresh] = seen.emplace(key(thing), &thing);
      if (!fresh) return say(shown(*first->second, thing), {named(*first->second), named(thing)});
    }
  }

  void ids_and_names() {
    const auto same_id = [](const auto& a, const auto& b) {
      return fmt::format("{} and {} have the same id {}; take the id off one of them.", a.code,
                         b.code, to_text(a.id));
    };
    refuse_doubles(
        shop_.sets, [](const Set& one) { return key_of(one); }, same_id);
    refuse_doubles(
        shop_.parts, [](const Part& one) { return key_of(one); }, same_id);
    refuse_doubles(
        shop_.notes, [](const auto& one) { return one.name; },
        [](const auto& one, const auto&) {
          return fmt::format("there are two swap notes called \"{}\"; rename one.", one.name);
        });
    refuse_doubles(
        shop_.rebuilds, [](const auto& one) { return one.name; },
        [](const auto& one, const auto&) {
          return fmt::format("there are two rebuilds called \"{}\"; rename one.", one.name);
        });
    refuse_doubles(
        shop_.rebuilds, [](const auto& one) { return key_of(one); },
        [](const auto& a, const auto& b) {
          return fmt::format("rebuilds \"{}\" and \"{}\" have the same id; take it off one.",
                             a.name, b.name);
        });
    refuse_doubles(
        shop_.wishes, [](const auto& one) { return key_of(one); },
        [](const auto& one, const auto&) {
          return fmt::format("two wishes have the same id {}; take it off one.", to_text(one.id));
        });
  }

  void codes() {
    std::map<std::string, Named> seen;
    const auto take = [&](const auto& thing) {
      const auto [first, fresh] = seen.emplace(thing.code, named(thing));
      if (fresh) return;
      const std::string sort = sort_of<std::decay_t<decltype(thing)>>();
      const std::string both = first->second.sort == sort
                                   ? fmt::format("two {}s", sort)
                                   : fmt::format("a {} and also on a {}", first->second.sort, sort);
      say(fmt::format("code {} is on {}; give one of them another code.", thing.code, both),
          {first->second, named(thing)});
    };
    for (const auto& set : shop_.sets) {
      take(set);
      sets_.emplace(set.id, &set);
      set_codes_.emplace(set.code, &set);
    }
    for (const auto& part : shop_.parts) {
      take(part);
      parts_.emplace(part.id, &part);
      part_codes_.emplace(part.code, &part);
    }
  }

  void places() {
    std::map<std::pair<SetId, std::string>, const Part*> held;
    for (const auto& part : shop_.parts) {
      if (!part.in_set) {
        if (!part.position.empty())
          say(fmt::format(
                  "part {} has position \"{}\" but is in no set; name the set in in_set, or "
                  "take the position away.",
                  part.code, part.position),
              {named(part)}, ErrorKind::bad_input);
        continue;
      }
      const auto at = sets_.find(*part.in_set);
      if (at == sets_.end()) {
        say(fmt::format(
                "part {} is said to be in a set with id {}, which is not here; name a set of "
                "this shop or a shelf.",
                part.code, to_text(*part.in_set)),
            {named(part)}, ErrorKind::not_found);
        continue;
      }
      in_set(part, *at->second);
      if (part.position.empty()) continue;
      const auto [first, fresh] = held.emplace(std::pair{*part.in_set, part.position}, &part);
      if (!fresh)
        say(fmt::format("parts {} and {} are both in position \"{}\" of set {}; move one of them.",
                        first->second->code, part.code, part.position, at->second->code),
            {named(*first->second), named(part)});
    }
  }

  void in_set(const Part& part, const Set& set) {
    if (!part.place.empty())
      say(fmt::format(
              "part {} is in set {} and also {}; a part is in one place: keep one of the two.",
              part.code, set.code, place_text(part)),
          {named(part)});
    if (!part.position.empty() &&
        std::find(set.missing.begin(), set.missing.end(), part.position) != set.missing.end())
      say(fmt::format(
              "\"{}\" of set {} is recorded as missing, but part {} is in it; take it off the "
              "missing list, or move the part.",
              part.position, set.code, part.code),
          {named(set), named(part)});
  }

  void rebuilds() {
    std::map<SetId, const RebuildRecord*> hosts;
    std::map<PartId, const RebuildRecord*> claimed;
    for (const auto& rebuild : shop_.rebuilds) {
      if (!sets_.contains(rebuild.host))
        say(fmt::format("the host of rebuild \"{}\" is not here; name a set of this shop.",
                        rebuild.name),
            {named(rebuild)}, ErrorKind::not_found);
      rebuild_parts(rebuild);
      if (rebuild.state != kBegun || found_) continue;
      const auto [host, fresh_host] = hosts.emplace(rebuild.host, &rebuild);
      if (!fresh_host)
        say(fmt::format(
                "set {} is already the host of rebuild \"{}\"; finish it or give it up before "
                "\"{}\" begins.",
                sets_.at(rebuild.host)->code, host->second->name, rebuild.name),
            {named(*host->second), named(rebuild)});
      for (const auto& one : rebuild.parts) {
        const auto [first, fresh] = claimed.emplace(one.part, &rebuild);
        if (!fresh)
          say(fmt::format(
                  "part {} is already claimed by rebuild \"{}\"; finish it or give it up before "
                  "\"{}\" begins.",
                  parts_.at(one.part)->code, first->second->name, rebuild.name),
              {named(*first->second), named(rebuild)});
      }
    }
  }

  void rebuild_parts(const RebuildRecord& rebuild) {
    std::map<std::string, PartId> positions;
    std::map<PartId, std::string> inside;
    for (const auto& one : rebuild.parts) {
      const auto at = parts_.find(one.part);
      if (at == parts_.end()) {
        say(fmt::format(
                "the part for \"{}\" in rebuild \"{}\" is not here; name a part of this shop.",
                one.position, rebuild.name),
            {named(rebuild)}, ErrorKind::not_found);
        return;
      }
      if (const auto [first, fresh] = positions.emplace(one.position, one.part); !fresh)
        say(fmt::format("rebuild \"{}\" puts parts {} and {} into position \"{}\"; leave one out.",
                        rebuild.name, parts_.at(first->second)->code, at->second->code,
                        one.position),
            {named(rebuild)});
      if (const auto [first, fresh] = inside.emplace(one.part, one.position); !fresh)
        say(fmt::format("rebuild \"{}\" puts part {} into both \"{}\" and \"{}\"; leave one out.",
                        rebuild.name, at->second->code, first->second, one.position),
            {named(rebuild)});
    }
  }

  void wishes() {
    std::map<std::string, const Wish*> seen;
    for (const auto& wish : shop_.wishes) {
      const std::string word(word_of(kWishWords, wish.sort));
      refer(wish, word, "set", wish.set, needs_set(wish.sort), set_codes_.contains(wish.set));
      refer(wish, word, "part", wish.part, needs_part(wish.sort), part_codes_.contains(wish.part));
      const auto [first, fresh] = seen.emplace(word + "|" + wish.set + "|" + wish.part, &wish);
      if (!fresh)
        say(fmt::format("the wish \"{}\" for {} is already recorded; once is enough.", word,
                        wish.set.empty() ? wish.part : wish.set),
            {named(*first->second), named(wish)});
    }
  }

  void refer(const Wish& wish, const std::string& word, const std::string& sort,
             const std::string& code, bool needed, bool there) {
    if (code.empty() && needed)
      say(fmt::format("the wish \"{}\" names no {}; give its code.", word, sort), {named(wish)},
          ErrorKind::bad_input);
    else if (!code.empty() && !needed)
      say(fmt::format("the wish \"{}\" is not about a {}, but names {}; take it away.", word, sort,
                      code),
          {named(wish)}, ErrorKind::bad_input);
    else if (!code.empty() && !there)
      say(fmt::format("the wish \"{}\" names {} {}, which is not here; correct the code.", word,
                      sort, code),
          {named(wish)}, ErrorKind::not_found);
  }

  const Shop& shop_;
  std::optional<Contradiction> found_;
  std::map<SetId, const Set*> sets_;
  std::map<PartId, const Part*> parts_;
  std::map<std::string, const Set*> set_codes_;
  std::map<std::string, const Part*> part_codes_;
};

}  // namespace

std::optional<Contradiction> first_contradiction(const Shop& shop) { return Search(shop).first(); }

}  // namespace benchgraft::shop
