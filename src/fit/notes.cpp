#include "fit/notes.hpp"

#include <algorithm>

namespace benchgraft::fit {
namespace {

using catalogue::Catalogue;
using catalogue::PlugResult;
using catalogue::SwapNote;
using catalogue::SwapResult;

std::string before_slash(const std::string& reference) {
  return reference.substr(0, reference.find('/'));
}

bool into_host(const SwapNote& note, const Assembly& set) {
  if (!set.model) return false;
  const std::string whole =
      set.variant ? set.model->name + "/" + set.variant->name : set.model->name;
  return note.into == set.model->name || note.into == whole;
}

bool stayed_here(const SwapNote& note, const Assembly& set, const Place& moved) {
  return std::any_of(note.stayed.begin(), note.stayed.end(), [&](const std::string& reference) {
    return std::any_of(set.places.begin(), set.places.end(), [&](const Place& place) {
      return &place != &moved && place.type && !place.changed && means(reference, *place.type);
    });
  });
}

bool same_family(const Catalogue& known, const SwapNote& note, const Place& moved,
                 const Assembly& set) {
  const std::string family = known.family_of(moved.type->name);
  if (family.empty() || !set.model) return false;
  const bool moved_alike =
      std::any_of(note.moved.begin(), note.moved.end(), [&](const std::string& ref) {
        const auto revisions = known.revisions(before_slash(ref));
        return known.family_of(before_slash(ref)) == family && !revisions.empty() &&
               revisions.front()->kind == moved.type->kind;
      });
  return moved_alike &&
         known.family_of(before_slash(note.into)) == known.family_of(set.model->name);
}

bool ends_are(const catalogue::PlugNote& plug, const Place& a, const catalogue::Port& port_a,
              const Place& b, const catalogue::Port& port_b) {
  return means(plug.moved, *a.type) && plug.port == port_a.name && means(plug.to, *b.type) &&
         plug.socket == port_b.name;
}

int strength(PlugResult result) {
  return result == PlugResult::would_but_must_not ? 2 : result == PlugResult::did_not ? 1 : 0;
}

}  // namespace

bool means(const std::string& reference, const catalogue::PartType& type) {
  if (reference.find('/') == std::string::npos) return reference == type.name;
  return reference == type.reference();
}

std::vector<NoteMatch> notes_about(const Catalogue& known, const Assembly& set) {
  std::vector<NoteMatch> exact, family;
  for (const auto* note : known.notes())
    for (const auto& place : set.places) {
      if (!place.changed || place.same_make || !place.type || place.altered) continue;
      const bool moved =
          std::any_of(note->moved.begin(), note->moved.end(),
                      [&](const std::string& ref) { return means(ref, *place.type); });
      if (moved && (into_host(*note, set) || stayed_here(*note, set, place)))
        exact.push_back({note, &place, false});
      else if (same_family(known, *note, place, set))
        family.push_back({note, &place, true});
    }
  exact.insert(exact.end(), family.begin(), family.end());
  return exact;
}

std::optional<PlugWord> plug_word(const std::vector<NoteMatch>& notes, const Place& a,
                                  const catalogue::Port& port_a, const Place& b,
                                  const catalogue::Port& port_b) {
  std::vector<PlugWord> words;
  for (const auto& match : notes) {
    if (match.by_family) continue;
    for (const auto& plug : match.note->plugged)
      if (ends_are(plug, a, port_a, b, port_b) || ends_are(plug, b, port_b, a, port_a))
        words.push_back({match.note, plug.result, {}});
  }
  if (words.empty()) return std::nullopt;
  PlugWord word = *std::max_element(words.begin(), words.end(), [](const auto& x, const auto& y) {
    return strength(x.result) < strength(y.result);
  });
  for (const auto& other : words)
    if (other.result != word.result) word.against.push_back(other.note);
  return word;
}

Tally tally(const std::vector<NoteMatch>& notes) {
  Tally sum;
  std::vector<const SwapNote*> counted;
  for (const auto& match : notes) {
    if (std::find(counted.begin(), counted.end(), match.note) != counted.end()) continue;
    counted.push_back(match.note);
    const double weight = match.by_family ? 0.5 : 1.0;
    const bool good =
        match.note->result == SwapResult::works || match.note->result == SwapResult::works_with;
    if (good && match.note->came_back != true) {
      sum.worked += weight;
    } else if (good || match.note->result == SwapResult::damaged ||
               match.note->parts_known_good == true) {
      sum.failed += weight;
    } else {
      sum.blamed_on_part.push_back(match.note);
    }
  }
  return sum;
}

BetaPrior prior_for(const Catalogue& known, Verdict verdict) {
  if (const auto* own = known.prior(to_text(verdict))) return {own->worked, own->failed};
  switch (verdict) {
    case Verdict::fits:
      return {9, 1};
    case Verdict::fits_with_work:
      return {4, 1};
    case Verdict::unknown:
      return {1, 1};
    case Verdict::does_not_fit:
      return {0.5, 4.5};
    case Verdict::destroys:
      return {0, 1};
  }
  return {1, 1};
}

Evidence evidence_of(const Catalogue& known, Verdict verdict, const std::vector<NoteMatch>& notes) {
  const BetaPrior prior = prior_for(known, verdict);
  const Tally sum = tally(notes);
  Evidence evidence{prior.works, prior.fails, sum.worked, sum.failed, {}, {}, "assumed"};
  if (const auto* own = known.prior(to_text(verdict))) evidence.prior_source = own->source;
  for (const auto& match : notes) {
    const bool blamed = std::find(sum.blamed_on_part.begin(), sum.blamed_on_part.end(),
                                  match.note) != sum.blamed_on_part.end();
    auto& list = blamed ? evidence.blamed_on_part : evidence.notes;
    if (std::find(list.begin(), list.end(), match.note->name) == list.end())
      list.push_back(match.note->name);
  }
  return evidence;
}

double chance_from(const Evidence& evidence) {
  return posterior_mean({evidence.prior_worked, evidence.prior_failed},
                        {evidence.worked, evidence.failed, {}});
}

double posterior_mean(BetaPrior prior, const Tally& tally) {
  return (prior.works + tally.worked) / (prior.works + prior.fails + tally.worked + tally.failed);
}

}  // namespace benchgraft::fit
