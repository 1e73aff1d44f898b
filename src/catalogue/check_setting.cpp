// An observer must be able to answer: the words or the number its response asks for are there.
#include <algorithm>

#include "catalogue/check_family.hpp"

namespace benchgraft::catalogue {
namespace {

bool says(const Observer& observer, std::initializer_list<Meaning> any) {
  return std::any_of(observer.words.begin(), observer.words.end(), [&](const JudgedWord& word) {
    return std::find(any.begin(), any.end(), word.means) != any.end();
  });
}

/// What is still missing, or "" when the observer can answer.
std::string missing(const Observer& observer) {
  const bool good = says(observer, {Meaning::good});
  const bool below = says(observer, {Meaning::below, Meaning::far_below});
  const bool above = says(observer, {Meaning::above, Meaning::far_above});
  const bool off = says(observer, {Meaning::off, Meaning::far_off});
  const bool number = !observer.unit.empty();
  switch (observer.response) {
    case Response::unknown:
      return "response";
    case Response::window:
      return good && below && above ? "" : "words for below, good and above";
    case Response::peak:
      if (!number) return good && off ? "" : "words for good and off, or a unit";
      return observer.best == Best::unknown ? "best = \"highest\" or \"lowest\"" : "";
    case Response::line:
      return number ? "" : "unit";
    case Response::threshold:
      if (!number)
        return good && below != above ? "" : "words for good and for one side, or a unit";
      return observer.wanted ? "" : "wanted";
  }
  return "";
}

}  // namespace

void check_setting(Faults& faults, const Setting& setting) {
  refuse_doubles(faults, "observer", setting.observers, setting.where,
                 [](const Observer& observer) { return observer.name; });
  for (const auto& observer : setting.observers) {
    if (const std::string gap = missing(observer); !gap.empty())
      faults.add(observer.where,
                 fmt::format("observer \"{}\" of setting \"{}\" cannot answer; add {}.",
                             observer.name, setting.name, gap));
    if (!observer.words.empty() && !observer.unit.empty())
      faults.add(
          observer.where,
          fmt::format("observer \"{}\" of setting \"{}\" has both words and a unit; make two "
                      "observers of it.",
                      observer.name, setting.name));
    refuse_doubles(faults, "word", observer.words, observer.where,
                   [](const JudgedWord& word) { return word.word; });
  }
}

}  // namespace benchgraft::catalogue
