#include "fit/verdict.hpp"

#include "catalogue/words.hpp"

namespace benchgraft::fit {

std::string to_text(Verdict verdict) {
  switch (verdict) {
    case Verdict::fits:
      return "fits";
    case Verdict::fits_with_work:
      return "fits_with_work";
    case Verdict::unknown:
      return "unknown";
    case Verdict::does_not_fit:
      return "does_not_fit";
    case Verdict::destroys:
      return "destroys";
  }
  return {};
}

std::string to_text(RuleSort sort) {
  switch (sort) {
    case RuleSort::single:
      return "single";
    case RuleSort::pair:
      return "pair";
    case RuleSort::whole:
      return "whole";
  }
  return {};
}

std::string to_text(Source source) {
  return std::string(catalogue::word_of(catalogue::kSourceWords, source));
}

}  // namespace benchgraft::fit
