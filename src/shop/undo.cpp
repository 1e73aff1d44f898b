#include "shop/undo.hpp"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "shop/thing_key.hpp"
#include "shop/thing_text.hpp"
#include "shop/words.hpp"

namespace benchgraft::shop {

namespace {

const Field* find(const Fields& fields, const std::string& name) {
  const auto at = std::find_if(fields.begin(), fields.end(),
                               [&](const Field& one) { return one.name == name; });
  return at == fields.end() ? nullptr : &*at;
}

std::set<std::string> changed_names(const Fields& before, const Fields& after) {
  std::set<std::string> names;
  for (const auto* side : {&before, &after})
    for (const auto& field : *side) {
      const Field* was = find(before, field.name);
      const Field* is = find(after, field.name);
      if (was == nullptr || is == nullptr || *was != *is) names.insert(field.name);
    }
  return names;
}

/// Fields that say one thing together: where a part is, what its test said, which build a set is.
template <class T>
std::vector<std::vector<std::string>> groups() {
  if constexpr (std::is_same_v<T, Part>)
    return {{"in_set", "position", "place"}, {"state", "tested_how", "tested_in", "tested_on"}};
  else if constexpr (std::is_same_v<T, Set>)
    return {{"model", "variant"}};
  else if constexpr (std::is_same_v<T, RebuildRecord>)
    return {{"name", "host", "parts", "state", "started", "finished", "work_minutes", "note"}};
  else
    return {};
}

// `names`, and with each all fields of its group.
template <class T>
std::set<std::string> with_groups(std::set<std::string> names) {
  for (const auto& group : groups<T>())
    if (std::any_of(group.begin(), group.end(),
                    [&](const auto& name) { return names.contains(name); }))
      names.insert(group.begin(), group.end());
  return names;
}

std::vector<std::string> list_of(const Field* field) {
  return field != nullptr && field->list ? *field->list : std::vector<std::string>{};
}

// Words that are in `a` and not in `b`.
std::vector<std::string> without(const std::vector<std::string>& a,
                                 const std::vector<std::string>& b) {
  std::vector<std::string> left;
  for (const auto& word : a)
    if (std::find(b.begin(), b.end(), word) == b.end()) left.push_back(word);
  return left;
}

std::string spot(const std::string& set_key, const std::string& position) {
  return fmt::format("spot {} {}", set_key, position);
}

/// Traces that a sort of thing leaves beyond its own fields.
void trace_more(const Edit<Set>& edit, Traces& traces) {
  const std::string key = key_of(edit.after ? *edit.after : *edit.before);
  const auto missing = [](const std::optional<Set>& set) {
    return set ? set->missing : std::vector<std::string>{};
  };
  for (const auto& word : without(missing(edit.before), missing(edit.after)))
    traces.touched.insert(spot(key, word));
  for (const auto& word : without(missing(edit.after), missing(edit.before)))
    traces.touched.insert(spot(key, word));
}

void trace_more(const Edit<Part>& edit, Traces& traces) {
  const bool stayed = edit.before && edit.after && edit.before->in_set == edit.after->in_set &&
                      edit.before->position == edit.after->position;
  for (const auto* side : {&edit.before, &edit.after}) {
    if (!*side || !(*side)->in_set) continue;
    const std::string set = to_text(*(*side)->in_set);
    if (stayed) continue;
    traces.used.insert("set " + set);
    if (!(*side)->position.empty()) traces.touched.insert(spot(set, (*side)->position));
  }
}

void trace_more(const Edit<RebuildRecord>& edit, Traces& traces) {
  const bool stayed = edit.before && edit.after && edit.before->state == edit.after->state;
  for (const auto* side : {&edit.before, &edit.after}) {
    if (!*side) continue;
    const RebuildRecord& rebuild = **side;
    traces.used.insert("set " + to_text(rebuild.host));
    for (const auto& one : rebuild.parts) traces.used.insert("part " + to_text(one.part));
    if (stayed) continue;
    traces.touched.insert("claim " + to_text(rebuild.host));
    for (const auto& one : rebuild.parts) traces.touched.insert("claim " + to_text(one.part));
  }
}

void trace_more(const Edit<Wish>& edit, Traces& traces) {
  for (const auto* side : {&edit.before, &edit.after})
    if (*side)
      for (const auto& code : {(*side)->set, (*side)->part})
        if (!code.empty()) traces.used.insert("code " + code);
}

template <class T>
void trace_more(const Edit<T>&, Traces&) {}

// A code is a thing of its own: it can pass to another set or part.
template <class T>
void trace_code(const Edit<T>& edit, Traces& traces) {
  if constexpr (requires { edit.before->code; }) {
    if (edit.before && edit.after && edit.before->code == edit.after->code) return;
    for (const auto* side : {&edit.before, &edit.after})
      if (*side) traces.touched.insert("code " + (*side)->code);
    if (edit.after) traces.made.insert("code " + edit.after->code);
    if (edit.before) traces.removed.insert("code " + edit.before->code);
  }
}

template <class T>
void trace(const std::vector<Edit<T>>& edits, Traces& traces) {
  for (const auto& edit : edits) {
    const std::string thing =
        fmt::format("{} {}", sort_of<T>(), key_of(edit.after ? *edit.after : *edit.before));
    if (!edit.before) traces.made.insert(thing);
    if (!edit.after) traces.removed.insert(thing);
    if (edit.before && edit.after) {
      traces.used.insert(thing);
      // Lists of words are compared word by word (spots), not as one field.
      for (const auto& name :
           with_groups<T>(changed_names(fields_of(*edit.before), fields_of(*edit.after))))
        if (name != "missing") traces.touched.insert(thing + " " + name);
    } else {
      traces.touched.insert(thing);
    }
    trace_code(edit, traces);
    trace_more(edit, traces);
  }
}

bool overlap(const std::set<std::string>& a, const std::set<std::string>& b) {
  return std::any_of(a.begin(), a.end(), [&](const auto& one) { return b.contains(one); });
}

Error changed_again(const std::string& thing, const std::string& field) {
  return {ErrorKind::conflict,
          fmt::format("{} of {} was changed again since; take the later change back too.", field,
                      thing)};
}

// The value `name` had before the edit, where `now` still has the value of after it.
Result<std::optional<Field>> restored(const std::string& thing, const std::string& name,
                                      const Fields& before, const Fields& after,
                                      const Fields& now) {
  const Field *was = find(before, name), *became = find(after, name), *is = find(now, name);
  const bool untouched = became == nullptr ? is == nullptr : is != nullptr && *is == *became;
  if (untouched) return was == nullptr ? std::optional<Field>{} : std::optional<Field>{*was};
  if (name != "missing") return changed_again(thing, name);
  std::vector<std::string> words = list_of(is);
  const auto added = without(list_of(became), list_of(was));
  const auto removed = without(list_of(was), list_of(became));
  if (!without(added, words).empty() || without(removed, words).size() != removed.size())
    return changed_again(thing, name);
  words = without(words, added);
  words.insert(words.end(), removed.begin(), removed.end());
  if (words.empty()) return std::optional<Field>{};
  return std::optional<Field>{word_list_field(name, words)};
}

template <class T>
Result<T> restore(const T& before, const T& after, const T& now) {
  if (now == after) return before;
  if constexpr (std::is_same_v<T, FamilyText>) {
    return changed_again("family " + now.name, "the text");
  } else {
    const std::string thing = fmt::format("{} {}", sort_of<T>(), key_of(now));
    const Fields was = fields_of(before), became = fields_of(after);
    Fields fields = fields_of(now);
    for (const auto& name : with_groups<T>(changed_names(was, became))) {
      auto field = restored(thing, name, was, became, fields);
      if (!field) return field.error();
      std::erase_if(fields, [&](const Field& one) { return one.name == name; });
      if (field.value()) fields.push_back(*field.value());
    }
    return thing_from_text<T>(text_of(fields), thing);
  }
}

/// The things of one sort while edits of them are taken back.
template <class T>
class TakingBack {
 public:
  explicit TakingBack(std::vector<T>& things) : things_(things), gone_(things.size(), false) {
    for (std::size_t i = 0; i < things_.size(); ++i) at_.emplace(key_of(things_[i]), i);
  }

  Result<void> take(const Edit<T>& edit) {
    const T& shown = edit.after ? *edit.after : *edit.before;
    const auto at = at_.find(key_of(shown));
    const std::string thing = fmt::format("{} {}", sort_of<T>(), key_of(shown));
    if (!edit.after) {
      if (at != at_.end())
        return Error{ErrorKind::conflict,
                     thing + " is here again; take the later change back too."};
      at_.emplace(key_of(shown), things_.size());
      things_.push_back(*edit.before);
      gone_.push_back(false);
      return {};
    }
    if (at == at_.end())
      return Error{ErrorKind::conflict,
                   thing + " is not here any more; take the later change back too."};
    T& now = things_[at->second];
    if (!edit.before) {
      if (now != *edit.after) return changed_again(thing, "something");
      gone_[at->second] = true;
      at_.erase(at);
      return {};
    }
    auto old = restore(*edit.before, *edit.after, now);
    if (!old) return old.error();
    now = std::move(old.value());
    return {};
  }

  void drop_what_is_gone() {
    std::size_t kept = 0;
    for (std::size_t i = 0; i < things_.size(); ++i) {
      if (gone_[i]) continue;
      if (kept != i) things_[kept] = std::move(things_[i]);
      ++kept;
    }
    things_.resize(kept);
  }

 private:
  std::vector<T>& things_;
  std::vector<bool> gone_;
  std::map<std::string, std::size_t> at_;
};

template <class T>
Result<void> take_back_all(const std::vector<Edit<T>>& edits, std::vector<T>& things) {
  if (edits.empty()) return {};
  TakingBack<T> taking(things);
  for (auto edit = edits.rbegin(); edit != edits.rend(); ++edit)
    if (auto done = taking.take(*edit); !done) return done;
  taking.drop_what_is_gone();
  return {};
}

}  // namespace

Traces traces_of(const Edits& edits) {
  Traces traces;
  trace(edits.sets, traces);
  trace(edits.parts, traces);
  trace(edits.notes, traces);
  trace(edits.rebuilds, traces);
  trace(edits.wishes, traces);
  trace(edits.terms, traces);
  trace(edits.families, traces);
  return traces;
}

bool depends(const Traces& later, const Traces& earlier) {
  return overlap(later.touched, earlier.touched) || overlap(later.used, earlier.made) ||
         overlap(later.removed, earlier.used);
}

Result<Records> take_back(const Edits& edits, Records records) {
  Shop& shop = records.shop;
  if (auto done = take_back_all(edits.wishes, shop.wishes); !done) return done.error();
  if (auto done = take_back_all(edits.rebuilds, shop.rebuilds); !done) return done.error();
  if (auto done = take_back_all(edits.notes, shop.notes); !done) return done.error();
  if (auto done = take_back_all(edits.parts, shop.parts); !done) return done.error();
  if (auto done = take_back_all(edits.sets, shop.sets); !done) return done.error();
  if (auto done = take_back_all(edits.families, records.families); !done) return done.error();
  for (const auto& edit : edits.terms) {
    auto old = restore(*edit.before, *edit.after, shop.terms);
    if (!old) return old.error();
    shop.terms = std::move(old.value());
  }
  return records;
}

}  // namespace benchgraft::shop
