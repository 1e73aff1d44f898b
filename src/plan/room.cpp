#include "plan/room.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>
#include <utility>

#include "plan/whole.hpp"

namespace benchgraft::plan {
namespace {

using catalogue::PartType;

constexpr std::size_t kMostBits = 64;

/// Names as bits of one host.
class Names {
 public:
  Bits bit(const std::string& name) {
    const auto found = std::find(names_.begin(), names_.end(), name);
    const auto at = static_cast<std::size_t>(found - names_.begin());
    if (found == names_.end() && names_.size() < kMostBits) names_.push_back(name);
    return at < kMostBits ? Bits{1} << at : 0;
  }
  /// Only names that were asked for before.
  [[nodiscard]] Bits bits(const std::vector<std::string>& names) const {
    Bits all = 0;
    for (std::size_t i = 0; i < names_.size(); ++i)
      if (contains(names, names_[i])) all |= Bits{1} << i;
    return all;
  }

 private:
  std::vector<std::string> names_;
};

/// A type that may be put in: what is in the room, or for sale.
struct Offer {
  const PartType* type = nullptr;  ///< null: unknown
  std::vector<std::string> roles;
  catalogue::ProposedPart part;
  std::vector<int> pools;
  bool for_sale = false;
};

class Builder {
 public:
  explicit Builder(const Ground& ground) : ground_(ground) {}

  RoomOfNumbers run() {
    const auto& terms = ground_.shop.terms;
    out_.problem.money_per_minute = static_cast<double>(terms.per_hour.minor) / 60;
    if (terms.hours) out_.problem.minutes = *terms.hours * 60;
    for (const auto& here : ground_.inventory.sets) add_carcass(here);
    for (std::size_t i = 0; i < ground_.inventory.items.size(); ++i) add_item(static_cast<int>(i));
    for (const auto* type : ground_.known.part_types())
      if (type->price) offer_of(type->reference(), type, {}).for_sale = true;
    for (std::size_t s = 0; s < ground_.inventory.sets.size(); ++s)
      if (may_host(static_cast<int>(s))) add_host(static_cast<int>(s));
    join_judgement();
    return std::move(out_);
  }

 private:
  const SetHere& set(int s) const { return ground_.inventory.sets[static_cast<std::size_t>(s)]; }
  const Item& item(int i) const { return ground_.inventory.items[static_cast<std::size_t>(i)]; }

  bool may_host(int s) const {
    return set(s).not_a_host.empty() && ground_.wanted.never_build.count(s) == 0;
  }
  bool may_strip(int s) const {
    const auto& here = set(s);
    return here.ours && (!here.kind || here.kind->judged) &&
           claimed_by(ground_.shop, *here.set) == nullptr &&
           ground_.wanted.never_strip.count(s) == 0;
  }

  void add_carcass(const SetHere& here) {
    Carcass carcass;
    carcass.name = here.set->code;
    carcass.may_strip = may_strip(static_cast<int>(out_.problem.sets.size()));
    carcass.strip_minutes = minutes_to_open(here.kind);
    out_.problem.sets.push_back(std::move(carcass));
  }

  Offer& offer_of(const std::string& key, const PartType* type,
                  const catalogue::ProposedPart& part) {
    Offer& offer = offers_[key];
    if (offer.part.type.empty() && offer.part.candidates.empty()) {
      offer.type = type;
      offer.part = part;
      if (type) offer.part.type = type->reference(), offer.roles = type->roles;
    }
    return offer;
  }

  // A part that is wished into one set has pools of its own.
  int pool_of(int i, double out_minutes) {
    const Item& what = item(i);
    const auto wish = ground_.wanted.use_in.find(i);
    const bool wished = wish != ground_.wanted.use_in.end();
    const auto [at, added] =
        pools_.try_emplace(std::tuple(what.key, what.chance, out_minutes, wished ? i : kNone),
                           static_cast<int>(pools_.size()));
    if (added) {
      out_.problem.pools.push_back({what.type ? what.type->reference() : what.key, 0});
      out_.stock.emplace_back();
      chance_.push_back(what.chance);
      out_minutes_.push_back(out_minutes);
      wished_for_.push_back(wished ? wish->second : kNone);
      Offer& offer = offer_of(what.key, what.type, proposed(what));
      if (!what.type) offer.roles = what.roles;
      offer.pools.push_back(at->second);
    }
    return at->second;
  }

  catalogue::ProposedPart proposed(const Item& what) const {
    if (what.part == kUnrecorded) return {};
    auto part = as_proposed(ground_.shop.parts[what.part], "");
    part.run_hours.reset();
    part.known_good.reset();
    if (!what.type) part.type.clear();
    return part;
  }

  void add_item(int i) {
    const Item& what = item(i);
    if (!what.usable || ground_.wanted.keep.count(i) || (!what.type && !asks(what))) return;
    const auto put = [&](double out_minutes, Way way) {
      const int pool = pool_of(i, out_minutes);
      out_.stock[static_cast<std::size_t>(pool)].push_back({i, way});
      return pool;
    };
    if (what.set < 0) {
      ++out_.problem.pools[static_cast<std::size_t>(put(0, Way::shelf))].on_shelf;
      return;
    }
    if (may_strip(what.set)) {
      const int pool = put(handling(set(what.set).kind, what.roles).out, Way::stripped);
      auto& holds = out_.problem.sets[static_cast<std::size_t>(what.set)].holds;
      const auto same = std::find_if(holds.begin(), holds.end(),
                                     [&](const Supply& supply) { return supply.pool == pool; });
      if (same == holds.end())
        holds.push_back({pool, 1});
      else
        ++same->count;
    }
    // A customer's set keeps its parts.
    if (may_host(what.set) && set(what.set).ours && what.position >= 0)
      freed_[i] = put(0, Way::freed);
  }

  bool asks(const Item& what) const {
    return ground_.allow_unknown && what.part != kUnrecorded && !what.roles.empty();
  }

  void add_host(int s);
  Bits required_roles(int s, Names& roles) const;
  void add_own(int s, std::size_t p, const Names& roles, const Names& abilities);
  void add_offers(int s, std::size_t p, const Names& roles, const Names& abilities);
  void add_gaps(int s);
  void add_pairs(int s);
  void insist(int s);
  bool joined_by_other_lead(std::size_t a, std::size_t b, const Meaning& x, const Meaning& y) const;
  std::vector<Source> sources_of(const Offer& offer, int s, std::size_t p) const;
  void join_judgement();

  bool part_counts(int s, std::size_t p, const PartType* type,
                   const std::vector<std::string>& roles) const {
    const auto& here = set(s);
    const auto& position = here.model->positions[p];
    return counts(*here.model, here.set->looks, here.kind, position,
                  factory_part(ground_.known, position, here.variants).type, type, roles);
  }

  std::vector<std::string> variant_names(int s) const {
    std::vector<std::string> names;
    for (const auto* variant : set(s).variants) names.push_back(variant->name);
    if (names.empty()) names.emplace_back();
    return names;
  }

  const Ground& ground_;
  RoomOfNumbers out_;
  std::map<std::tuple<std::string, double, double, int>, int> pools_;
  std::vector<double> chance_, out_minutes_;
  std::vector<int> wished_for_;          ///< per pool: the only set it may go into
  std::map<std::string, Offer> offers_;  ///< by key of the effective type
  std::map<int, int> freed_;             ///< item -> pool
  // Of the host in hand:
  Host host_;
  HostMeaning meaning_;
};

fit::Verdict worst_allowed(const Ground& ground) {
  return ground.allow_unknown ? fit::Verdict::unknown : fit::Verdict::fits_with_work;
}

Bits Builder::required_roles(int s, Names& roles) const {
  const auto& here = set(s);
  Bits required = 0;
  for (std::size_t p = 0; p < here.seats.size(); ++p) {
    const auto& position = here.model->positions[p];
    if (here.seats[p].has == Seat::Has::left_empty) continue;
    const auto factory = factory_part(ground_.known, position, here.variants);
    const auto& jobs = factory.type ? factory.type->roles : position.roles;
    for (const auto& role : jobs) {
      const Bits bit = roles.bit(role);
      if (is_needed(here.kind, position, factory.type, role)) required |= bit;
    }
  }
  return required;
}

void Builder::add_own(int s, std::size_t p, const Names& roles, const Names& abilities) {
  const Seat& seat = set(s).seats[p];
  auto& place = host_.places[p];
  if (seat.has == Seat::Has::left_empty) {
    place.choices.push_back({"nothing", false, {{}}, 0, 0, 0, 0, {}});
    meaning_.places[p].push_back({Sits::stays, "", nullptr, {}});
    return;
  }
  if (seat.has != Seat::Has::part) return;
  const Item& own = item(seat.item);
  const auto wish = ground_.wanted.use_in.find(seat.item);
  if (!own.usable || ground_.wanted.keep.count(seat.item) ||
      (wish != ground_.wanted.use_in.end() && wish->second != s))
    return;
  const double chance = part_counts(s, p, own.type, own.roles) ? own.chance : 1;
  Choice choice{"its own " + set(s).model->positions[p].name,
                false,
                {{kNone, chance, 0, 0}},
                roles.bits(own.roles),
                0,
                0,
                0,
                {}};
  if (own.type && own.type->provides) choice.provides = abilities.bits(*own.type->provides);
  place.choices.push_back(std::move(choice));
  meaning_.places[p].push_back({Sits::stays, own.key, own.type, {}});
  const auto freed = freed_.find(seat.item);
  if (freed != freed_.end()) place.frees = freed->second;
}

std::vector<Source> Builder::sources_of(const Offer& offer, int s, std::size_t p) const {
  std::vector<Source> sources;
  const double salvage =
      offer.type && offer.type->salvage ? static_cast<double>(offer.type->salvage->minor) : 0;
  for (const int pool : offer.pools) {
    const auto g = static_cast<std::size_t>(pool);
    if (wished_for_[g] != kNone && wished_for_[g] != s) continue;
    const bool only_itself =
        std::all_of(out_.stock[g].begin(), out_.stock[g].end(), [&](const Stock& stock) {
          return item(stock.item).set == s &&
                 (item(stock.item).position == static_cast<int>(p) || stock.way == Way::stripped);
        });
    if (!only_itself) sources.push_back({pool, chance_[g], salvage * chance_[g], out_minutes_[g]});
  }
  if (offer.for_sale)
    sources.push_back(
        {kNone, ground_.shop.terms.chance_good, static_cast<double>(offer.type->price->minor), 0});
  std::erase_if(sources, [](const Source& source) { return source.chance <= 0; });
  if (!part_counts(s, p, offer.type, offer.roles))
    for (auto& source : sources) source.chance = 1;
  return sources;
}

void Builder::add_offers(int s, std::size_t p, const Names& roles, const Names& abilities) {
  const auto& here = set(s);
  const auto& position = here.model->positions[p];
  const auto factory = factory_part(ground_.known, position, here.variants);
  const auto own = own_types(ground_, here);
  for (const auto& [key, offer] : offers_) {
    if (!share_a_word(offer.roles, position.roles) &&
        !(factory.type && share_a_word(offer.roles, factory.type->roles)))
      continue;
    auto sources = sources_of(offer, s, p);
    if (sources.empty()) continue;
    Placed placed{key, offer.part};
    placed.part.place = position.name;
    const auto verdict = ground_.answers.single(here.model->name, variant_names(s), placed);
    if (verdict > worst_allowed(ground_)) continue;
    const auto minutes = handling(here.kind, offer.roles);
    Choice choice{key,
                  true,
                  std::move(sources),
                  roles.bits(offer.roles),
                  0,
                  minutes.out + minutes.in,
                  0,
                  {level_of(verdict), 0, 0}};
    if (offer.type && offer.type->provides) choice.provides = abilities.bits(*offer.type->provides);
    choice.notes = notes_for(ground_, here, own, offer.type);
    host_.places[p].choices.push_back(std::move(choice));
    meaning_.places[p].push_back({Sits::put, key, offer.type, placed.part});
  }
}

// A place may stay without a working part when nobody needs its jobs or one other part does them
// all.
void Builder::add_gaps(int s) {
  const auto& here = set(s);
  Names roles;
  (void)required_roles(s, roles);
  for (std::size_t p = 0; p < host_.places.size(); ++p) {
    if (here.seats[p].has == Seat::Has::left_empty) continue;
    const auto& position = here.model->positions[p];
    const auto factory = factory_part(ground_.known, position, here.variants);
    const Bits jobs =
        roles.bits(factory.type ? factory.type->roles : position.roles) & host_.required;
    // A part nobody needs stays where it is; one that only a better price asks for may be given up.
    bool may = jobs == 0 && std::all_of(host_.places[p].choices.begin(),
                                        host_.places[p].choices.end(), [](const auto& choice) {
                                          return choice.changes || choice.sources[0].chance < 1;
                                        });
    for (std::size_t q = 0; q < host_.places.size() && jobs != 0 && !may; ++q)
      for (const auto& choice : host_.places[q].choices)
        may = may || (q != p && (choice.fills & jobs) == jobs);
    if (!may) continue;
    host_.places[p].choices.push_back({"nothing", false, {{}}, 0, 0, 0, 0, {}});
    meaning_.places[p].push_back({Sits::nothing, "", nullptr, {}});
  }
}

// With another lead between them the answer for two parts may be another: only the whole knows.
bool Builder::joined_by_other_lead(std::size_t a, std::size_t b, const Meaning& x,
                                   const Meaning& y) const {
  const auto reaches = [](const PartType& lead, const PartType& part) {
    return lead.ports && std::any_of(lead.ports->begin(), lead.ports->end(),
                                     [&](const auto& end) { return part.fills(end.to); });
  };
  for (std::size_t p = 0; p < meaning_.places.size(); ++p) {
    if (p == a || p == b) continue;
    std::set<std::string> keys;
    bool between = false;
    for (const auto& meaning : meaning_.places[p]) {
      keys.insert(meaning.key);
      between = between || (meaning.type && meaning.type->is_lead() &&
                            reaches(*meaning.type, *x.type) && reaches(*meaning.type, *y.type));
    }
    if (between && keys.size() > 1) return true;
  }
  return false;
}

void Builder::add_pairs(int s) {
  const auto& here = set(s);
  const auto variants = variant_names(s);
  const auto placed = [&](std::size_t p, const Meaning& meaning) {
    Placed one{meaning.key, meaning.part};
    if (meaning.sits == Sits::stays) {
      const Item& own = item(here.seats[p].item);
      one.part = proposed(own);
      one.part.type = meaning.type->reference();
    }
    one.part.place = here.model->positions[p].name;
    return one;
  };
  for (std::size_t a = 0; a < meaning_.places.size(); ++a)
    for (std::size_t b = a + 1; b < meaning_.places.size(); ++b)
      for (std::size_t i = 0; i < meaning_.places[a].size(); ++i)
        for (std::size_t j = 0; j < meaning_.places[b].size(); ++j) {
          const auto &x = meaning_.places[a][i], &y = meaning_.places[b][j];
          if (!x.type || !y.type || (x.sits != Sits::put && y.sits != Sits::put)) continue;
          const auto verdict =
              ground_.answers.pair(here.model->name, variants, placed(a, x), placed(b, y));
          if (verdict == fit::Verdict::fits || joined_by_other_lead(a, b, x, y)) continue;
          host_.pairs.push_back({static_cast<int>(a),
                                 static_cast<int>(i),
                                 static_cast<int>(b),
                                 static_cast<int>(j),
                                 verdict > worst_allowed(ground_),
                                 {level_of(verdict), 0, 0}});
        }
}

// A part that is wished into this host: its place takes nothing else.
void Builder::insist(int s) {
  host_.must = ground_.wanted.build.count(s) > 0;
  for (const auto& [wished, into] : ground_.wanted.use_in) {
    if (into != s) continue;
    host_.must = true;
    const Item& what = item(wished);
    std::size_t best = 0, most = 0;
    for (std::size_t p = 0; p < host_.places.size(); ++p) {
      std::size_t shared = 0;
      for (const auto& role : set(s).model->positions[p].roles)
        if (contains(what.roles, role)) ++shared;
      if (shared > most) most = shared, best = p;
    }
    const bool own = what.set == s && what.position == static_cast<int>(best);
    auto& choices = host_.places[best].choices;
    auto& meanings = meaning_.places[best];
    for (std::size_t c = choices.size(); c-- > 0;) {
      if (own ? meanings[c].sits == Sits::stays : meanings[c].key == what.key) {
        if (!own)
          std::erase_if(choices[c].sources, [&](const Source& source) {
            return source.pool == kNone ||
                   out_.stock[static_cast<std::size_t>(source.pool)].front().item != wished;
          });
        if (!choices[c].sources.empty()) continue;
      }
      choices.erase(choices.begin() + static_cast<std::ptrdiff_t>(c));
      meanings.erase(meanings.begin() + static_cast<std::ptrdiff_t>(c));
    }
  }
}

void Builder::add_host(int s) {
  const auto& here = set(s);
  host_ = {};
  meaning_ = {s, {}};
  host_.name = here.set->code;
  host_.places.resize(here.seats.size());
  meaning_.places.resize(here.seats.size());
  Names roles, abilities;
  host_.required = required_roles(s, roles);
  for (const auto& price : here.model->prices) {
    if (!looks_enough(here.set->looks, price.looks)) continue;
    Tier tier{static_cast<double>(price.price.minor), 0};
    for (const auto& need : price.needs) tier.needs |= abilities.bit(need);
    host_.tiers.push_back(tier);
  }
  host_.provides = abilities.bits(abilities_of(here, {}, {}));
  for (std::size_t p = 0; p < here.seats.size(); ++p) {
    add_own(s, p, roles, abilities);
    add_offers(s, p, roles, abilities);
  }
  add_gaps(s);
  insist(s);
  add_pairs(s);
  if (here.kind)
    host_.open_minutes = here.kind->open_minutes.value_or(0) + here.kind->close_minutes.value_or(0);
  host_.evidence = {prior_of(ground_.known, fit::Verdict::fits),
                    prior_of(ground_.known, fit::Verdict::fits_with_work),
                    prior_of(ground_.known, fit::Verdict::unknown)};
  out_.problem.sets[static_cast<std::size_t>(s)].host = static_cast<int>(out_.problem.hosts.size());
  out_.problem.hosts.push_back(std::move(host_));
  out_.hosts.push_back(std::move(meaning_));
}

void Builder::join_judgement() {
  const auto hosts = std::make_shared<std::vector<HostMeaning>>(out_.hosts);
  out_.problem.whole = [ground = ground_, hosts](int host, const std::vector<int>& choices) {
    return whole_of(ground, (*hosts)[static_cast<std::size_t>(host)], choices);
  };
}

}  // namespace

RoomOfNumbers room_of_numbers(const Ground& ground) { return Builder(ground).run(); }

catalogue::RebuildText as_text(const Ground& ground, const HostMeaning& host,
                               const std::vector<int>& choices) {
  const auto& here = ground.inventory.sets[static_cast<std::size_t>(host.set)];
  auto text = host_as_text(ground.known, ground.shop, *here.set);
  auto foreign = std::exchange(text.parts, {});
  std::vector<std::string> filled;
  for (std::size_t p = 0; p < choices.size(); ++p) {
    const auto& meaning = host.places[p][static_cast<std::size_t>(choices[p])];
    if (meaning.sits != Sits::put) continue;
    text.parts.push_back(meaning.part);
    filled.push_back(meaning.part.place);
  }
  for (const auto& missing : here.set->missing)
    if (!contains(filled, missing)) text.missing.push_back(missing);
  keep_foreign(text, std::move(foreign));
  return text;
}

std::vector<std::string> abilities_of(const SetHere& set, const std::vector<const PartType*>& parts,
                                      const std::vector<std::string>& lost) {
  std::vector<std::string> all;
  const auto add = [&](const std::vector<std::string>& more) {
    for (const auto& ability : more)
      if (!contains(all, ability) && !contains(lost, ability)) all.push_back(ability);
  };
  if (set.model->provides) add(*set.model->provides);
  for (const auto& ability :
       set.variants.empty() ? std::vector<std::string>{} : set.variants.front()->provides)
    if (std::all_of(set.variants.begin(), set.variants.end(),
                    [&](const auto* variant) { return contains(variant->provides, ability); }))
      add({ability});
  for (const auto* type : parts)
    if (type && type->provides) add(*type->provides);
  return all;
}

}  // namespace benchgraft::plan
