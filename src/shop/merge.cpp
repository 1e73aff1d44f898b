// What was read meets what is here. Nothing of the result is recorded unless all of it holds.
#include <algorithm>

#include "base/text.hpp"
#include "catalogue/text.hpp"
#include "shop/codes.hpp"
#include "shop/contradiction.hpp"
#include "shop/paper_keys.hpp"
#include "shop/row_merge.hpp"
#include "shop/text.hpp"
#include "shop/thing_key.hpp"
#include "shop/thing_text.hpp"

namespace benchgraft::shop {

namespace {

template <class T>
std::size_t column_index(const std::vector<Column<T>>& columns, std::string_view name) {
  std::size_t at = 0;
  while (columns[at].name != name) ++at;
  return at;
}

template <class T>
Count counted(const std::vector<Edit<T>>& edits, const std::set<std::string>& spoken) {
  Count count;
  count.same = spoken.size();
  for (const auto& edit : edits) {
    ++(edit.before ? count.changed : count.made);
    count.same -= spoken.count(key_of(*edit.after));
  }
  return count;
}

/// The merge in its order: sets before the parts in them, both before what names them by code.
class Merging {
 public:
  Merging(const Records& here, const Bundle& bundle, const RandomBits& random)
      : here_(here), rows_(*bundle.rows), families_(bundle.families), random_(random) {
    merged_.after = here;
  }

  Result<Merged> run() {
    for (auto step :
         {&Merging::take_sets, &Merging::take_parts, &Merging::take_changes, &Merging::take_notes,
          &Merging::take_rebuilds, &Merging::take_wishes, &Merging::take_terms,
          &Merging::take_families, &Merging::look_for_contradictions})
      if (auto done = (this->*step)(); !done) return done.error();
    count();
    return std::move(merged_);
  }

 private:
  Shop& shop() { return merged_.after.shop; }

  template <class T>
  void came_from(const T& thing, const Where& where) {
    places_[sort_of<T>()][key_of(thing)] = place_of(where);
  }

  Result<void> take_sets() {
    const std::size_t missing = column_index(set_columns(), "missing");
    RowMerge<Set> rows(shop().sets, set_columns(), "set");
    auto done = rows.take(rows_.sets, random_, [&](const Row& row, const Set&, Set& set) {
      if (row.cells[missing]) missing_given_.insert(set.code);
    });
    if (!done) return done;
    for (const auto& [at, where] : rows.named_at) came_from(shop().sets[at], where);
    rename(rows.renamed, &Wish::set);
    draw_codes(shop().sets, rows_.parts);
    return {};
  }

  // A new code for a thing goes wherever the old one is written.
  void rename(const std::map<std::string, std::string>& renamed, std::string Wish::*code) {
    const auto follow = [&](std::string& text) {
      if (const auto at = renamed.find(text); at != renamed.end()) text = at->second;
    };
    for (auto& wish : shop().wishes) follow(wish.*code);
    if (code != &Wish::set) return;
    for (auto& part : shop().parts) follow(part.from), follow(part.tested_in);
  }

  template <class T>
  void draw_codes(std::vector<T>& things, const std::vector<Row>& part_rows) {
    std::set<std::string> taken;
    for (const auto& set : shop().sets) taken.insert(set.code);
    for (const auto& part : shop().parts) taken.insert(part.code);
    const std::size_t code = column_index(part_columns(), "code");
    for (const auto& row : part_rows)
      if (row.cells[code]) taken.insert(tape_code(*row.cells[code]));
    for (auto& thing : things)
      if (thing.code.empty()) {
        thing.code =
            draw_code([&](const std::string& one) { return taken.contains(one); }, random_);
        taken.insert(thing.code);
      }
  }

  Result<void> take_parts() {
    std::map<SetId, std::string> codes;
    std::map<std::string, std::size_t> sets;
    for (std::size_t i = 0; i < shop().sets.size(); ++i) {
      codes.emplace(shop().sets[i].id, shop().sets[i].code);
      sets.emplace(shop().sets[i].code, i);
    }
    std::vector<PartOnPaper> parts;
    for (const auto& part : shop().parts)
      parts.push_back({part, part.in_set ? codes[*part.in_set] : ""});
    RowMerge<PartOnPaper> rows(parts, part_columns(), "part");
    std::vector<std::pair<PartOnPaper, PartOnPaper>> moved;
    auto done = rows.take(
        rows_.parts, random_, [&](const Row& row, const PartOnPaper& before, PartOnPaper& part) {
          settle_place(row, before, part);
          if (before.in_set != part.in_set || before.part.position != part.part.position)
            moved.emplace_back(before, part);
        });
    if (!done) return done;
    shop().parts.clear();
    for (std::size_t i = 0; i < parts.size(); ++i) {
      Part& part = parts[i].part;
      const auto at = rows.named_at.find(i);
      if (at != rows.named_at.end()) {
        if (auto found = find_in_set(parts[i], sets, at->second); !found) return found;
        came_from(part, at->second);
      }
      shop().parts.push_back(std::move(part));
    }
    rename(rows.renamed, &Wish::part);
    draw_codes(shop().parts, rows_.parts);
    for (std::size_t i = 0; i < shop().parts.size(); ++i)
      part_codes_.emplace(shop().parts[i].code, i);
    note_missing(moved, sets);
    return {};
  }

  // A part is in one place: naming the one place leaves the other.
  static void settle_place(const Row& row, const PartOnPaper& before, PartOnPaper& part) {
    static const std::size_t in_set = column_index(part_columns(), "in_set");
    static const std::size_t position = column_index(part_columns(), "position");
    static const std::size_t place = column_index(part_columns(), "place");
    if (row.cells[in_set] && !part.in_set.empty() && !row.cells[place]) part.part.place.clear();
    if (row.cells[place] && !part.part.place.empty() && !row.cells[in_set]) part.in_set.clear();
    if (before.in_set != part.in_set && !row.cells[position]) part.part.position.clear();
  }

  static Result<void> find_in_set(PartOnPaper& paper,
                                  const std::map<std::string, std::size_t>& sets,
                                  const Where& where, const std::vector<Set>& all) {
    paper.part.in_set.reset();
    if (paper.in_set.empty()) return {};
    if (const auto at = sets.find(paper.in_set); at != sets.end()) {
      paper.part.in_set = all[at->second].id;
      return {};
    }
    return no_such_set(paper.in_set, sets, place_of(where) + "column \"in_set\": ");
  }
  Result<void> find_in_set(PartOnPaper& paper, const std::map<std::string, std::size_t>& sets,
                           const Where& where) {
    return find_in_set(paper, sets, where, shop().sets);
  }

  static Error no_such_set(const std::string& code, const std::map<std::string, std::size_t>& sets,
                           const std::string& place) {
    std::vector<std::string> known;
    for (const auto& [own, at] : sets) known.push_back(own);
    const std::string near = nearest_word(code, known);
    return {ErrorKind::not_found,
            fmt::format("{}set {} is not here; {}", place, code,
                        near.empty() ? "correct the code, or add the set to sets.csv."
                                     : "did you mean " + near + "?")};
  }

  // A part that leaves a position leaves it empty; where the file lists what is missing, that
  // counts.
  void note_missing(const std::vector<std::pair<PartOnPaper, PartOnPaper>>& moved,
                    const std::map<std::string, std::size_t>& sets) {
    std::set<std::pair<SetId, std::string>> held;
    for (const auto& part : shop().parts)
      if (part.in_set) held.emplace(*part.in_set, part.position);
    const auto set_of = [&](const std::string& code) -> Set* {
      const auto at = sets.find(code);
      return at == sets.end() || missing_given_.contains(code) ? nullptr : &shop().sets[at->second];
    };
    for (const auto& [before, after] : moved) {
      const std::string& old = before.part.position;
      if (Set* left = set_of(before.in_set); left != nullptr && !old.empty())
        if (!held.contains({left->id, old})) left->missing.push_back(old);
      if (Set* filled = set_of(after.in_set)) std::erase(filled->missing, after.part.position);
    }
  }

  Result<void> take_changes() {
    for (const auto& said : rows_.changes) {
      auto part = part_called(said.part, place_of(said.where));
      if (!part) return part.error();
      part.value()->changes = said.changes;
      if (auto sound = tidy_and_check(*part.value(), called(*part.value())); !sound)
        return Error{sound.error().kind, place_of(said.where) + sound.error().message};
      came_from(*part.value(), said.where);
    }
    return {};
  }

  Result<Part*> part_called(const std::string& given, const std::string& place) {
    const std::string code = tape_code(given);
    if (const auto at = part_codes_.find(code); at != part_codes_.end())
      return &shop().parts[at->second];
    std::vector<std::string> known;
    for (const auto& [own, at] : part_codes_) known.push_back(own);
    const std::string near = nearest_word(code, known);
    return Error{ErrorKind::not_found,
                 fmt::format("{}part {} is not here; {}", place, code,
                             near.empty() ? "correct the code, or add the part to parts.csv."
                                          : "did you mean " + near + "?")};
  }

  Result<void> take_notes() {
    for (catalogue::SwapNote note : rows_.notes) {
      const Where where = note.where;
      if (auto sound =
              tidy_and_check(note, fmt::format("{}swap note \"{}\"", place_of(where), note.name));
          !sound)
        return sound;
      note.where = where;
      put(shop().notes, note);
      came_from(note, where);
    }
    return {};
  }

  // Replaces the record with the same key, or adds it.
  template <class T>
  static void put(std::vector<T>& records, const T& record) {
    const auto at = std::find_if(records.begin(), records.end(),
                                 [&](const T& one) { return same_key(one, record); });
    if (at == records.end())
      records.push_back(record);
    else
      *at = record;
  }

  Result<void> take_rebuilds() {
    for (const auto& said : rows_.rebuilds) {
      const std::string place = place_of(said.where);
      auto rebuild = from_paper(said, place);
      if (!rebuild) return rebuild.error();
      if (auto sound =
              tidy_and_check(rebuild.value(), fmt::format("{}rebuild \"{}\"", place, said.name));
          !sound)
        return sound;
      put(shop().rebuilds, rebuild.value());
      came_from(rebuild.value(), said.where);
    }
    return {};
  }

  Result<RebuildRecord> from_paper(const RebuildOnPaper& said, const std::string& place) {
    RebuildRecord rebuild{said.id,       said.name,         {},       {}, said.state, said.started,
                          said.finished, said.work_minutes, said.note};
    const std::string host = tape_code(said.host);
    const auto set = std::find_if(shop().sets.begin(), shop().sets.end(),
                                  [&](const Set& one) { return one.code == host; });
    if (set == shop().sets.end()) {
      std::map<std::string, std::size_t> sets;
      for (const auto& one : shop().sets) sets.emplace(one.code, 0);
      return no_such_set(host, sets, place + "host: ");
    }
    rebuild.host = set->id;
    for (const auto& in : said.parts) {
      auto part = part_called(in.part, place);
      if (!part) return part.error();
      rebuild.parts.push_back({in.position, part.value()->id});
    }
    if (!rebuild.id.empty()) return rebuild;
    for (const auto& own : shop().rebuilds)
      if (own.name == rebuild.name) rebuild.id = own.id;
    if (rebuild.id.empty()) rebuild.id = new_id<RecordTag>(random_);
    return rebuild;
  }

  Result<void> take_wishes() {
    for (const auto& row : rows_.wishes) {
      Wish wish;
      for (std::size_t k = 0; k < row.cells.size(); ++k)
        if (row.cells[k]) wish_columns()[k].read(*row.cells[k], wish);
      if (wish.id.empty())
        for (const auto& own : shop().wishes)
          if (own.sort == wish.sort && own.set == wish.set && own.part == wish.part)
            wish.id = own.id;
      if (wish.id.empty()) wish.id = new_id<RecordTag>(random_);
      put(shop().wishes, wish);
      came_from(wish, row.where);
    }
    return {};
  }

  Result<void> take_terms() {
    for (const auto& said : rows_.terms) {
      Terms terms = shop().terms;
      catalogue::Reading reading(said.file);
      catalogue::TableReading keys(reading, said.keys, "shop file");
      each_key(keys, terms);
      if (reading.failed()) return reading.error();
      if (auto sound = tidy_and_check(terms, said.file); !sound) return sound;
      merged_.terms_changed = merged_.terms_changed || terms != shop().terms;
      shop().terms = std::move(terms);
    }
    return {};
  }

  Result<void> take_families() {
    std::map<std::string, const catalogue::Family*> seen;
    for (const auto& family : families_) {
      const auto [first, fresh] = seen.emplace(family.name, &family);
      if (!fresh)
        return Error{ErrorKind::conflict,
                     fmt::format("{}family \"{}\" stands in {} too; rename one or leave one out.",
                                 catalogue::place(family.where.file, 0), family.name,
                                 first->second->where.file)};
      const FamilyText text{family.name, catalogue::write_family(family)};
      put(merged_.after.families, text);
      came_from(text, family.where);
    }
    return {};
  }

  Result<void> look_for_contradictions() {
    const auto wrong = first_contradiction(shop());
    if (!wrong) return {};
    std::string place;
    for (const auto& one : wrong->about)
      if (const auto at = places_[one.sort].find(one.key); at != places_[one.sort].end())
        place = at->second;
    return Error{wrong->kind, place + wrong->sentence};
  }

  void count() {
    const Edits edits = difference(here_, merged_.after);
    const auto spoken = [&](const char* sort) {
      std::set<std::string> keys;
      for (const auto& [key, place] : places_[sort]) keys.insert(key);
      return keys;
    };
    merged_.sets = counted(edits.sets, spoken("set"));
    merged_.parts = counted(edits.parts, spoken("part"));
    merged_.notes = counted(edits.notes, spoken("note"));
    merged_.rebuilds = counted(edits.rebuilds, spoken("rebuild"));
    merged_.wishes = counted(edits.wishes, spoken("wish"));
    merged_.families = counted(edits.families, spoken("family"));
  }

  const Records& here_;
  const ShopRows& rows_;
  const std::vector<catalogue::Family>& families_;
  const RandomBits& random_;
  Merged merged_;
  std::set<std::string> missing_given_;  // codes of sets
  std::map<std::string, std::size_t> part_codes_;
  // sort, key -> "file, line 3: "
  std::map<std::string, std::map<std::string, std::string>> places_;
};

}  // namespace

Result<Merged> merge(const Records& here, const Bundle& bundle, const RandomBits& random) {
  return Merging(here, bundle, random).run();
}

}  // namespace benchgraft::shop
