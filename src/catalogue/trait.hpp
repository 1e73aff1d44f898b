// What two parts have to agree on beyond their contacts: wheel segments, panel code, lamp waveform.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/source.hpp"
#include "catalogue/port.hpp"

namespace benchgraft::catalogue {

/// How bad it is when the two do not agree.
enum class TraitVerdict { unknown, work, does_not_fit, destroys };

/// How two recorded values are compared.
enum class TraitCompare { unknown, common_word, within, round, same_as_old };

inline constexpr WordList<TraitVerdict, 3> kTraitVerdictWords{
    {{TraitVerdict::work, "fits_with_work"},
     {TraitVerdict::does_not_fit, "does_not_fit"},
     {TraitVerdict::destroys, "destroys"}}};
inline constexpr WordList<TraitCompare, 4> kTraitCompareWords{
    {{TraitCompare::common_word, "word"},
     {TraitCompare::within, "number"},
     {TraitCompare::round, "round"},
     {TraitCompare::same_as_old, "as before"}}};

/// One recorded value: what a part has, or what it takes.
struct TraitValue {
  std::string trait;
  std::vector<std::string> words;  ///< any of them
  std::optional<Range> number;
  Where where;
  bool operator==(const TraitValue&) const = default;
};

/// A thing two parts have to agree on, with what happens when they do not. Data, not code: a bench
/// may add its own.
struct Trait {
  std::string name;
  std::vector<std::string> of;        ///< roles whose part `has` it
  std::vector<std::string> taken_by;  ///< roles whose part `takes` it; empty with "as before"
  TraitCompare compare = TraitCompare::unknown;
  std::string unit;  ///< "turns/s", "mm"; "" = none
  TraitVerdict verdict = TraitVerdict::unknown;
  std::string says;    ///< what happens when they do not agree, one sentence
  std::string turned;  ///< ... when one is the other turned round a circle ("round")
  std::string mend;    ///< what puts it right
  std::optional<double> work_minutes;
  bool safety = false;  ///< never outranked by a swap that worked
  bool ask = false;     ///< asked for even when neither part has it on record
  std::string how;      ///< how it is found out at the bench
  std::string source;
  Where where;
  bool operator==(const Trait&) const = default;
};

}  // namespace benchgraft::catalogue
