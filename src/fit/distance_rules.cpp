// Whole rule: recorded distances across the barrier against what the class asked of the part needs
// on this mains. Says "will fail" or "measure", never that anything passes.
#include <fmt/format.h>

#include "fit/mains_figures.hpp"
#include "fit/mains_side.hpp"
#include "fit/rules.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Protection;

/// What this part is asked for in this set.
struct Asked {
  const Place& place;
  Distances needed;
  bool reinforced = false;
};

std::string class_words(const Asked& asked, double mains) {
  return fmt::format("{} insulation of a class {} set on {} V mains",
                     asked.reinforced ? "double or reinforced" : "basic",
                     asked.reinforced ? "II" : "I", number(mains));
}

void add_distance_facts(Reason& reason, const Asked& asked) {
  const auto& side = mains_of(asked.place.type);
  if (side.creepage_mm)
    reason.facts.push_back(fact_of(
        *asked.place.type,
        fmt::format("{} mm over the surface across the barrier", number(*side.creepage_mm))));
  if (side.clearance_mm)
    reason.facts.push_back(
        fact_of(*asked.place.type,
                fmt::format("{} mm through air across the barrier", number(*side.clearance_mm))));
  reason.facts.push_back({fmt::format("{}: {} mm over the surface, {} mm through air; rows read as "
                                      "excerpts",
                                      kDistanceProfile, number(asked.needed.creepage_mm),
                                      number(asked.needed.clearance_mm)),
                          {}});
  reason.would_change =
      "Another measured distance, another mains or another class of the set would change this.";
}

bool say_too_near(Findings& findings, const Asked& asked) {
  const auto& side = mains_of(asked.place.type);
  const auto too_near = [&](const std::optional<double>& has, double needs, const char* way) {
    if (!has || *has >= needs) return false;
    Reason& reason = say_mains(
        findings, "insulation distance", Verdict::does_not_fit, asked.place,
        fmt::format("{} keeps {} mm {} between hot and cold side; {} needs {} mm by {}: it will "
                    "fail.",
                    asked.place.type->reference(), number(*has), way,
                    class_words(asked, findings.conditions.mains_volts), number(needs),
                    kDistanceProfile),
        way);
    add_distance_facts(reason, asked);
    return true;
  };
  const bool surface = too_near(side.creepage_mm, asked.needed.creepage_mm, "over the surface");
  return too_near(side.clearance_mm, asked.needed.clearance_mm, "through air") || surface;
}

void ask_distance(Findings& findings, const Place& place, const char* way, const char* key) {
  ask_mains(findings, "insulation distance", place,
            fmt::format("The shortest way {} across the barrier of {} is not recorded.", way,
                        place.type->reference()),
            fmt::format("How many mm is the shortest way {} between hot and cold side of {}? Look "
                        "at slots, opto-couplers, the transformer and screws.",
                        way, place.type->reference()),
            key);
}

// One distance without the other settles nothing; neither does silence where the old part told.
bool ask_missing(Findings& findings, const Place& place) {
  const auto &side = mains_of(place.type), &was = mains_of(place.was);
  const bool told = side.creepage_mm || side.clearance_mm;
  if (!side.creepage_mm && (told || was.creepage_mm))
    ask_distance(findings, place, "over the surface", "mains: creepage_mm");
  if (!side.clearance_mm && (told || was.clearance_mm))
    ask_distance(findings, place, "through air", "mains: clearance_mm");
  if (!told || !side.creepage_mm || !side.clearance_mm) return true;
  if (*side.creepage_mm >= *side.clearance_mm) return false;
  ask_mains(
      findings, "insulation distance", place,
      fmt::format("{} has {} mm over the surface and {} mm through air on record: the way "
                  "over a surface is never the shorter one.",
                  place.type->reference(), number(*side.creepage_mm), number(*side.clearance_mm)),
      fmt::format("Measure both distances of {} again.", place.type->reference()),
      "mains: creepage_mm and clearance_mm");
  return true;
}

// The class asked of it is more than the class it was made for, or the mains is.
bool more_than_made_for(const Findings& findings, const Asked& asked) {
  const auto& type = *asked.place.type;
  const bool higher_class = asked.reinforced && type.protection != Protection::class_2;
  return higher_class ||
         (type.mains_volts && type.mains_volts->high < findings.conditions.mains_volts);
}

void say_measure(Findings& findings, const Asked& asked) {
  Reason& reason = say_mains(
      findings, "insulation distance", Verdict::fits_with_work, asked.place,
      fmt::format(
          "{} is asked for {}, more than it was made for. The recorded distances are not "
          "under {} and {} mm ({}); that passes nothing: measure at the narrowest place, "
          "then insulation; transformer, opto-couplers and Y capacitors have to be made "
          "for it too.",
          asked.place.type->reference(), class_words(asked, findings.conditions.mains_volts),
          number(asked.needed.creepage_mm), number(asked.needed.clearance_mm), kDistanceProfile),
      "measure");
  reason.work_minutes = 10;
  reason.not_before = "not before distances and insulation are measured";
  add_distance_facts(reason, asked);
}

}  // namespace

void judge_distances(Findings& findings) {
  const Protection cabinet =
      findings.set.model ? findings.set.model->protection : Protection::unknown;
  for (const auto& place : findings.set.places) {
    if (!place.type || place.empty || !new_here(place)) continue;
    const bool missing = ask_missing(findings, place);
    // The class of the cabinet is asked for by the earth path.
    if (cabinet == Protection::unknown) continue;
    const bool reinforced = cabinet == Protection::class_2;
    const auto needed = distances_needed(findings.conditions.mains_volts, reinforced);
    if (!needed) continue;
    const Asked asked{place, *needed, reinforced};
    if (say_too_near(findings, asked) || missing) continue;
    if (more_than_made_for(findings, asked)) say_measure(findings, asked);
  }
}

}  // namespace benchgraft::fit
