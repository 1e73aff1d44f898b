// What is here: the sets and parts of one shop, what was done with them, and what the user insists
// on.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/id.hpp"
#include "base/units.hpp"
#include "catalogue/knowledge.hpp"

namespace benchgraft::shop {

using SetId = Id<struct SetTag>;
using PartId = Id<struct PartTag>;
using RecordId = Id<struct RecordTag>;

/// May the set be taken apart, or must it go back to its owner? Unknown counts as "must go back".
enum class Consent { unknown, may_strip, must_go_back };
enum class Looks { unknown, poor, fair, good };
/// `suspect` = blamed but not shown to be bad; `untested` parts are never planned as good.
enum class State { untested, good, suspect, bad };
enum class Fate { here, rebuilt, stripped, gone };

/// One physical television or projector.
struct Set {
  SetId id;
  std::string code;  ///< at most 5 letters, written on tape
  std::string owner;
  Consent consent = Consent::unknown;
  std::string kind;                     ///< when the model is not known
  std::string model;                    ///< "" = unknown
  std::string variant;                  ///< "" = unknown
  std::vector<std::string> candidates;  ///< models it may be
  Looks looks = Looks::unknown;
  std::vector<std::string> missing;  ///< positions or roles that are empty
  std::string complaint;
  std::string place;
  std::string taken_in;  ///< date
  Fate fate = Fate::here;
  std::string note;
  bool operator==(const Set&) const = default;
};

/// One physical assembly. In a set (`in_set` and `position`), or on a shelf (`place`).
struct Part {
  PartId id;
  std::string code;
  std::string type;                     ///< reference; "" = unknown
  std::vector<std::string> candidates;  ///< references
  std::vector<std::string> roles;       ///< what it does, when the type is unknown
  std::vector<catalogue::Change> changes;
  State state = State::untested;
  std::string tested_how, tested_in, tested_on;  ///< how, in which set, date
  std::optional<double> run_hours;
  std::optional<double> chance;  ///< that it works, when the technician says so (0..1)
  std::optional<SetId> in_set;
  std::string position;  ///< in the set
  std::string place;     ///< on the shelf
  std::string from;      ///< set it was pulled from (code), or model
  std::string note;
  bool operator==(const Part&) const = default;
};

/// Something a rebuild record says was put in.
struct RecordedPart {
  std::string position;
  PartId part;
  bool operator==(const RecordedPart&) const = default;
};

/// A rebuild that was begun or finished.
struct RebuildRecord {
  RecordId id;
  std::string name;
  SetId host;
  std::vector<RecordedPart> parts;
  std::string state;  ///< "begun", "finished", "given up"
  std::string started, finished;
  std::optional<double> work_minutes;
  std::string note;
  bool operator==(const RebuildRecord&) const = default;
};

enum class WishSort { build_this, never_strip, never_build, use_part_in, keep_part };

/// What the user insists on.
struct Wish {
  RecordId id;
  WishSort sort = WishSort::build_this;
  std::string set;   ///< code
  std::string part;  ///< code
  std::string note;
  bool operator==(const Wish&) const = default;
};

struct Terms {
  std::string currency = "EUR";
  Money per_hour{3000};         ///< what an hour at the bench costs
  std::optional<double> hours;  ///< bench hours to plan for; nothing = as many as it takes
  double mains_volts = 230;
  double mains_hz = 50;
  std::string touch_profile;     ///< limit profile; "" = the strictest recorded
  double chance_untested = 0.5;  ///< that an untested part works (assumed, editable)
  double chance_good = 0.95;     ///< that a part tested good works in the rebuild (assumed)
  double chance_suspect = 0.2;   ///< (assumed)
  std::string note;
  bool operator==(const Terms&) const = default;
};

/// A whole shop at one moment. Order: as recorded.
struct Shop {
  Terms terms;
  std::vector<Set> sets;
  std::vector<Part> parts;
  std::vector<catalogue::SwapNote> notes;
  std::vector<RebuildRecord> rebuilds;
  std::vector<Wish> wishes;
  bool operator==(const Shop&) const = default;

  [[nodiscard]] const Set* set(const SetId& id) const;
  [[nodiscard]] const Set* set_by_code(const std::string& code) const;
  [[nodiscard]] const Part* part(const PartId& id) const;
  [[nodiscard]] const Part* part_by_code(const std::string& code) const;
  [[nodiscard]] std::vector<const Part*> parts_in(const SetId& id) const;
};

}  // namespace benchgraft::shop
