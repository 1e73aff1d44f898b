#include "support/some_shops.hpp"

#include <algorithm>
#include <set>

#include "base/text.hpp"

namespace benchgraft::support {

namespace {

using namespace shop;

template <class T>
T pick(std::initializer_list<T> choices) {
  return *rc::gen::elementOf(std::vector<T>(choices));
}

int up_to(int most) { return *rc::gen::inRange(0, most + 1); }
bool coin() { return up_to(1) == 1; }

std::string mixed(const std::vector<std::string>& pieces, int most) {
  std::string text;
  for (int n = up_to(most); n > 0; --n) text += *rc::gen::elementOf(pieces);
  return std::string(trimmed(text));
}

std::string any_sentence() {
  return mixed({"a",    "lamp", " ",        "\"",           ",",
                ";",    "|",    "\\",       "\n",           "\t",
                "=1+1", "'",    "\xC3\xA9", "\xE2\x82\xAC", "\xF0\x9F\x94\xA7",
                "#",    "[x]",  "\n\n",     "\"\"\"",       "-"},
               6);
}

std::string any_word() {
  std::string word = any_name();
  return word.empty() ? "tuner" : word;
}

std::vector<std::string> any_words() {
  std::vector<std::string> words;
  for (int n = up_to(3); n > 0; --n)
    if (std::string word = any_word(); std::find(words.begin(), words.end(), word) == words.end())
      words.push_back(word);
  return words;
}

std::string any_date() { return pick<std::string>({"", "2026-01-31", "2024-02-29", "1999-12-01"}); }

std::optional<double> any_number(double scale) {
  if (coin()) return std::nullopt;
  return pick<double>({0.0, 0.1, 0.25, 1.0 / 3.0, 1.0}) * scale;
}

template <class Tag>
Id<Tag> any_id() {
  return {{*rc::gen::inRange<std::uint64_t>(1, UINT64_MAX),
           *rc::gen::inRange<std::uint64_t>(0, UINT64_MAX)}};
}

std::string any_code(std::set<std::string>& taken) {
  for (;;) {
    std::string code = short_code(*rc::gen::inRange<std::uint64_t>(0, UINT64_MAX), 1 + up_to(4));
    if (taken.insert(code).second) return code;
  }
}

Set any_set(std::set<std::string>& codes) {
  Set set;
  set.id = any_id<SetTag>();
  set.code = any_code(codes);
  set.owner = any_name();
  set.consent = pick({Consent::unknown, Consent::may_strip, Consent::must_go_back});
  set.kind = any_name();
  set.model = any_name();
  set.variant = any_name();
  set.candidates = any_words();
  set.looks = pick({Looks::unknown, Looks::poor, Looks::fair, Looks::good});
  set.missing = any_words();
  set.complaint = any_sentence();
  set.place = any_name();
  set.taken_in = any_date();
  set.fate = pick({Fate::here, Fate::rebuilt, Fate::stripped, Fate::gone});
  set.note = any_sentence();
  return set;
}

catalogue::Change any_change() {
  catalogue::Change change;
  change.sort = pick({catalogue::ChangeSort::plug_cut, catalogue::ChangeSort::contact_added,
                      catalogue::ChangeSort::piece_gone, catalogue::ChangeSort::lead_replaced,
                      catalogue::ChangeSort::trait_changed});
  change.port = "CN" + std::to_string(1 + up_to(3));
  change.piece = "shield";
  if (change.sort == catalogue::ChangeSort::trait_changed)
    change.now =
        catalogue::TraitValue{"panel code", {"P" + std::to_string(up_to(9))}, std::nullopt, {}};
  if (change.sort == catalogue::ChangeSort::contact_added) {
    change.contact.emplace();
    change.contact->number = std::to_string(1 + up_to(8));
    change.contact->signal = any_name();
    change.contact->volts = catalogue::Range{0, 5};
  }
  change.lead_mm = any_number(300);
  change.note = any_sentence();
  return change;
}

Part any_part(std::set<std::string>& codes, const std::vector<Set>& sets) {
  Part part;
  part.id = any_id<PartTag>();
  part.code = any_code(codes);
  part.type = any_name();
  part.candidates = any_words();
  part.roles = any_words();
  for (int n = up_to(2); n > 0; --n) part.changes.push_back(any_change());
  part.state = pick({State::untested, State::good, State::suspect, State::bad});
  part.tested_how = any_sentence();
  part.tested_in = any_name();
  part.tested_on = any_date();
  part.run_hours = any_number(9000);
  part.chance = any_number(1);
  if (!sets.empty() && coin()) {
    part.in_set = sets[static_cast<std::size_t>(up_to(static_cast<int>(sets.size()) - 1))].id;
    // Its own code in the position: no two parts meet, and none lies where something is missing.
    if (coin()) part.position = "position " + part.code;
  } else {
    part.place = any_name();
  }
  part.from = any_name();
  part.note = any_sentence();
  return part;
}

catalogue::SwapNote any_note(int n) {
  catalogue::SwapNote note;
  note.name = "note " + std::to_string(n);
  note.into = any_word();
  note.from = any_name();
  note.moved = any_words();
  note.plugged = {{"LD-20/B", "CN1", "QM-20", "CN7",
                   pick({catalogue::PlugResult::straight_in, catalogue::PlugResult::did_not})}};
  note.did = {{"moved the " + any_word(), "", any_number(20)}};
  note.saw = pick({catalogue::Seen::not_written, catalogue::Seen::upside_down});
  note.found = {{"wheel index", "35"}};
  note.work_minutes = any_number(90);
  note.result = pick({catalogue::SwapResult::works, catalogue::SwapResult::damaged});
  if (coin()) note.parts_known_good = coin();
  note.by = any_name();
  note.date = any_date();
  note.note = any_sentence();
  return note;
}

RebuildRecord any_rebuild(int n, const Set& host, const std::vector<Part>& parts) {
  RebuildRecord rebuild;
  rebuild.id = any_id<RecordTag>();
  rebuild.name = "rebuild " + std::to_string(n);
  rebuild.host = host.id;
  // Only the first one is open: it may claim anything.
  rebuild.state = n == 0 ? "begun" : pick<std::string>({"finished", "given up"});
  for (const auto& part : parts)
    if (coin()) rebuild.parts.push_back({"place " + part.code, part.id});
  rebuild.started = any_date();
  rebuild.finished = any_date();
  rebuild.work_minutes = any_number(200);
  rebuild.note = any_sentence();
  return rebuild;
}

void add_wishes(Shop& shop) {
  const auto add = [&](WishSort sort, const std::string& set, const std::string& part) {
    if (coin()) shop.wishes.push_back({any_id<RecordTag>(), sort, set, part, any_sentence()});
  };
  if (!shop.sets.empty()) {
    add(WishSort::build_this, shop.sets.front().code, "");
    add(WishSort::never_strip, shop.sets.back().code, "");
  }
  if (!shop.parts.empty()) add(WishSort::keep_part, "", shop.parts.back().code);
  if (!shop.sets.empty() && !shop.parts.empty())
    add(WishSort::use_part_in, shop.sets.front().code, shop.parts.front().code);
}

Terms any_terms() {
  Terms terms;
  terms.currency = pick<std::string>({"EUR", "CHF", "kr"});
  terms.per_hour.minor = up_to(100000);
  terms.hours = any_number(80);
  terms.mains_volts = pick({230.0, 120.0, 100.5});
  terms.touch_profile = any_name();
  terms.chance_untested = pick({0.0, 0.5, 1.0 / 3.0});
  terms.note = any_sentence();
  return terms;
}

Shop make_shop() {
  Shop shop;
  std::set<std::string> codes;
  for (int n = up_to(4); n > 0; --n) shop.sets.push_back(any_set(codes));
  for (int n = up_to(6); n > 0; --n) shop.parts.push_back(any_part(codes, shop.sets));
  for (int n = up_to(2); n > 0; --n) shop.notes.push_back(any_note(n));
  if (!shop.sets.empty())
    for (int n = up_to(2); n > 0; --n)
      shop.rebuilds.push_back(any_rebuild(n - 1, shop.sets.back(), shop.parts));
  add_wishes(shop);
  shop.terms = any_terms();
  return shop;
}

}  // namespace

std::string any_name() {
  return mixed(
      {"a", "B 56", " ", "\"", ",", ";", "|", "\\", "'", "\xC3\xA9", "\xE2\x82\xAC", "#", "/", "-"},
      5);
}

RandomBits repeatable(std::uint64_t seed) {
  // SplitMix64 (Steele, Lea, Flood 2014): any seed gives well mixed bits.
  return [state = seed]() mutable {
    std::uint64_t z = state += 0x9E3779B97F4A7C15ULL;
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
    return z ^ (z >> 31U);
  };
}

Occasion at_the_bench(std::uint64_t seed) {
  return {"kim", "2026-05-31T10:00:00Z", repeatable(seed)};
}

rc::Gen<Shop> any_shop() { return rc::gen::exec(make_shop); }

}  // namespace benchgraft::support
