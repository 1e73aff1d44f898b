// How a setting is judged on the screen: what to look at, in words or numbers, and how it answers.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "catalogue/port.hpp"
#include "catalogue/words.hpp"

namespace benchgraft::catalogue {

/// How what is seen follows the value of the setting.
enum class Response {
  unknown,
  window,     ///< good over a stretch, breaks below it and above it
  peak,       ///< best at one value, worse the further away
  line,       ///< a number that grows evenly and is `wanted` at the right value
  threshold,  ///< good up to one value, or from one value on
};

/// What a judged word says about the value that is set.
enum class Meaning { unknown, far_below, below, good, above, far_above, off, far_off };

/// Which end of a peak is the right one.
enum class Best { unknown, highest, lowest };

inline constexpr WordList<Response, 4> kResponseWords{{{Response::window, "window"},
                                                       {Response::peak, "peak"},
                                                       {Response::line, "line"},
                                                       {Response::threshold, "threshold"}}};
inline constexpr WordList<Meaning, 7> kMeaningWords{{{Meaning::far_below, "far below"},
                                                     {Meaning::below, "below"},
                                                     {Meaning::good, "good"},
                                                     {Meaning::above, "above"},
                                                     {Meaning::far_above, "far above"},
                                                     {Meaning::off, "off"},
                                                     {Meaning::far_off, "far off"}}};
inline constexpr WordList<Best, 2> kBestWords{
    {{Best::highest, "highest"}, {Best::lowest, "lowest"}}};

/// One word the technician may say, and what it means for the value.
struct JudgedWord {
  std::string word;  ///< "purplish"
  Meaning means = Meaning::unknown;
  bool operator==(const JudgedWord&) const = default;
};

/// One way to judge a setting: by a word, by a number typed in, or by a photo that gives a number.
struct Observer {
  std::string name;   ///< "red bar"
  std::string shows;  ///< one plain sentence: what to put on the screen and where to look
  Response response = Response::unknown;
  std::vector<JudgedWord> words;  ///< in the order they come as the value goes up
  std::string unit;               ///< of the number read; "" = a word is said
  Best best = Best::unknown;
  bool uneven = false;                ///< a peak may fall faster on one side
  std::optional<double> wanted;       ///< the reading a line or a threshold is held against
  std::optional<double> error;        ///< standard error of one reading, in `unit`
  std::optional<double> error_share;  ///< the same as a share of the reading
  std::optional<double> tolerance;    ///< how far a line may be off and still be good, in `unit`
  std::optional<Range>
      usual_width;      ///< from centre to where it is no longer good, in steps of value
  std::string pattern;  ///< the test pattern a photo is taken of; "" = no photo
  std::string source;
  Where where;
  bool operator==(const Observer&) const = default;
};

}  // namespace benchgraft::catalogue
