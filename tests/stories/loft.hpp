// Asks the program about rebuild files of the invented loft, through its tasks.
#pragma once

#include <set>
#include <string>

#include "fit/verdict.hpp"

namespace benchgraft::stories {

/// What the program answered: the judgement, and the page as a person reads it.
struct Asked {
  fit::Judgement judgement;
  std::string text;  ///< in one line, so that a sentence can be searched
};

/// in: `rebuild` is the name of a file of data/demo/rebuilds, without its ending.
Asked asked(const std::string& rebuild);

/// The rules that say something certain ("will"), whatever their verdict.
std::set<std::string> told_for_certain(const fit::Judgement& judgement);

/// The first reason of `rule` whose sentence has `words` in it; none: nullptr.
const fit::Reason* reason(const fit::Judgement& judgement, const std::string& rule,
                          const std::string& words = "");

/// `page` without its line breaks, so that a sentence can be searched.
std::string in_one_line(const std::string& page);

/// A file of the source tree.
std::string source(const std::string& path);

}  // namespace benchgraft::stories
