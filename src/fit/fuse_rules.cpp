// Whole rules: a recorded fuse against the current that flows, against the wires behind it, and
// against the fuse the old part had. Never a fuse by its printed amperes alone.
#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/mains_figures.hpp"
#include "fit/mains_side.hpp"
#include "fit/rules.hpp"
#include "fit/wire_figures.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::Direction;
using catalogue::FuseSpeed;
using catalogue::FuseStandard;
using catalogue::NetClass;

std::string fuse_words(const catalogue::MainsSide& side) {
  const auto standard = catalogue::word_of(catalogue::kFuseStandardWords, side.fuse_standard);
  const auto speed = catalogue::word_of(catalogue::kFuseSpeedWords, side.fuse_speed);
  std::string text = side.fuse_amps ? number(*side.fuse_amps) + " A" : "fuse";
  for (const auto word : {standard, speed})
    if (!word.empty()) text += fmt::format(", {}", word);
  return text;
}

/// Steady amps through a fuse, as far as they are recorded.
struct Load {
  double amps = 0;
  std::vector<const Place*> users, silent;  ///< `silent`: nobody recorded what they draw
  std::vector<Fact> facts;
};

std::optional<double> drawn_by(const Place& user, const catalogue::Port* port) {
  if (const auto& amps = mains_of(user.type).amps) return amps;
  std::optional<double> most;  // line and neutral carry the same current
  if (port && port->contacts)
    for (const auto& contact : *port->contacts)
      if (contact.net_class == NetClass::mains && contact.direction == Direction::in &&
          contact.amps)
        most = std::max(most.value_or(0), *contact.amps);
  return most;
}

void count(Load& load, const Place& user, const catalogue::Port* port) {
  if (std::find(load.users.begin(), load.users.end(), &user) != load.users.end()) return;
  load.users.push_back(&user);
  const auto amps = drawn_by(user, port);
  if (!amps) {
    load.silent.push_back(&user);
    return;
  }
  load.amps += *amps;
  load.facts.push_back(
      fact_of(*user.type, fmt::format("draws {} A from the mains", number(*amps))));
}

Load load_on(const Findings& findings, const Place& fused) {
  Load load;
  if (!fused.fills("mains inlet")) {
    count(load, fused, nullptr);
    return load;
  }
  for (const auto& joint : findings.joints.joined) {
    if (!carries_mains(joint)) continue;
    if (joint.a == &fused && joint.b->type) count(load, *joint.b, joint.port_b);
    if (joint.b == &fused && joint.a->type) count(load, *joint.a, joint.port_a);
  }
  const Place* supply = findings.set.filling("supply");
  if (load.users.empty() && supply && supply->type) count(load, *supply, nullptr);
  return load;
}

bool concerns(const Place& fused, const Load& load) {
  return new_here(fused) || std::any_of(load.users.begin(), load.users.end(),
                                        [](const Place* user) { return new_here(*user); });
}

void say_opens(Findings& findings, const Place& fused, const Load& load, double least) {
  const auto& side = mains_of(fused.type);
  Reason& reason = say_mains(
      findings, "fuse rating", Verdict::does_not_fit, fused,
      fmt::format("The fuse of {} ({}) opens in use: {} A flow, and a fuse of this sort has to be "
                  "printed {} A at least. Never a bigger fuse in the same holder: an inlet and "
                  "leads made for this current are needed.",
                  fused.type->reference(), fuse_words(side), number(load.amps), number(least)),
      "opens");
  reason.facts = load.facts;
  reason.facts.push_back(fact_of(*fused.type, "fuse " + fuse_words(side)));
  reason.facts.push_back(
      {"UL 248-14: steady current / 0.75; IEC 60127: the current itself; before "
       "the maker's temperature curve (read as an excerpt)",
       {}});
  reason.would_change = "A smaller draw, or an inlet with another fuse, would change this.";
}

void judge_rating(Findings& findings, const Place& fused) {
  const auto& side = mains_of(fused.type);
  const Load load = load_on(findings, fused);
  if (!side.fuse_amps || load.users.empty() || !concerns(fused, load)) return;
  const bool unknown_kind = side.fuse_standard == FuseStandard::unknown;
  const FuseStandard least_strict = unknown_kind ? FuseStandard::iec_60127 : side.fuse_standard;
  const double least = least_fuse_amps(least_strict, load.amps);
  if (*side.fuse_amps < least - 1e-9) return say_opens(findings, fused, load, least);
  for (const auto* user : load.silent)
    if (user != &fused)  // its own fuse suits it as long as nobody says otherwise
      ask_mains(findings, "fuse rating", *user,
                fmt::format("What {} draws from the mains is not recorded; the fuse of {} is {}.",
                            user->type->reference(), fused.type->reference(), fuse_words(side)),
                fmt::format("How many amps does {} draw at most (label, or measured)?",
                            user->type->reference()),
                "mains: amps");
  if (unknown_kind && *side.fuse_amps < least_fuse_amps(FuseStandard::ul_248_14, load.amps) - 1e-9)
    ask_mains(findings, "fuse rating", fused,
              fmt::format("{} A through the {} A fuse of {}: an IEC 60127 fuse holds that, a UL "
                          "248-14 fuse does not. Which one it is, is not recorded.",
                          number(load.amps), number(*side.fuse_amps), fused.type->reference()),
              fmt::format("Which standard is printed on the fuse of {}?", fused.type->reference()),
              "mains: fuse_standard");
}

// --- against the fuse the old part had ---------------------------------------------------------

void judge_kind(Findings& findings, const Place& place) {
  if (!differs(place) || !place.was) return;
  const auto &side = mains_of(place.type), &was = mains_of(place.was);
  if (!was.fuse_amps && !side.fuse_amps) return;
  const auto ask = [&](const char* what, const char* key) {
    ask_mains(
        findings, "fuse type", place,
        fmt::format("The {} of the fuse of {} is not recorded; the old part had {}.", what,
                    place.type->reference(), fuse_words(was)),
        fmt::format("Which {} is printed beside the fuse of {}?", what, place.type->reference()),
        key);
  };
  if (was.fuse_standard != FuseStandard::unknown && side.fuse_standard == FuseStandard::unknown)
    ask("standard", "mains: fuse_standard");
  if (was.fuse_speed != FuseSpeed::unknown && side.fuse_speed == FuseSpeed::unknown)
    ask("speed", "mains: fuse_speed");
  if (was.fuse_amps && !side.fuse_amps) ask("amps", "mains: fuse_amps");
  const bool standard = was.fuse_standard != side.fuse_standard &&
                        was.fuse_standard != FuseStandard::unknown &&
                        side.fuse_standard != FuseStandard::unknown;
  const bool speed = was.fuse_speed != side.fuse_speed && was.fuse_speed != FuseSpeed::unknown &&
                     side.fuse_speed != FuseSpeed::unknown;
  if (!standard && !speed) return;
  Reason& reason = say_mains(
      findings, "fuse type", Verdict::fits_with_work, place,
      fmt::format("{} takes {}, the old part had {}: fuses of the same printed amps are not alike. "
                  "Fit what is printed on {}; the old fuse stays out.",
                  place.type->reference(), fuse_words(side), fuse_words(was),
                  place.type->reference()),
      "kind");
  reason.work_minutes = 2;
  reason.facts = {fact_of(*place.type, "fuse " + fuse_words(side)),
                  fact_of(*place.was, "fuse " + fuse_words(was))};
  reason.would_change = "Another fuse on record would change this.";
}

// --- against the wires behind it ---------------------------------------------------------------

void say_wire_burns(Findings& findings, const Place& fused, const Joint& joint,
                    const catalogue::Wire& wire, double carries) {
  const auto& side = mains_of(fused.type);
  Reason& reason = say_mains(
      findings, "fuse rating", Verdict::does_not_fit, *joint.lead,
      fmt::format(
          "Behind the fuse of {} ({}) the lead {} has wires of {} mm2, which carry {:.1f} A "
          "at most: in a fault the wire burns before the fuse opens.",
          fused.type->reference(), fuse_words(side), joint.lead->type->reference(),
          number(*wire.area_mm2), carries),
      fused.type->reference() + "|wire");
  reason.types.push_back(fused.type->reference());
  reason.facts = {
      fact_of(*fused.type, "fuse " + fuse_words(side)),
      {fmt::format("{}: wire of {} mm2", joint.lead->type->reference(), number(*wire.area_mm2)),
       wire.where},
      {"hook-up wire 105 C at 40 C in free air (read as an excerpt)", {}}};
  reason.would_change = "A thicker whole lead, or a smaller fuse, would change this.";
}

void judge_wires_behind(Findings& findings, const Place& fused, const Joint& joint) {
  const double fuse = *mains_of(fused.type).fuse_amps;
  const catalogue::Wire* thinnest = nullptr;
  bool unknown = false;
  for (const auto& face : contacts_across(joint).faces) {
    if (!face.wire || !face.a || !face.b) continue;
    const bool live = face.a->net_class == NetClass::mains || face.a->net_class == NetClass::bus;
    if (!live) continue;
    unknown = unknown || !face.wire->area_mm2;
    if (face.wire->area_mm2 && (!thinnest || *face.wire->area_mm2 < *thinnest->area_mm2))
      thinnest = face.wire;
  }
  if (thinnest) {
    const auto carries = hook_up_amps(*thinnest->area_mm2);
    if (carries && *carries < fuse - 1e-9)
      return say_wire_burns(findings, fused, joint, *thinnest, *carries);
  }
  if (unknown && new_here(*joint.lead) && fuse > *hook_up_amps(kThinnestUsualMm2))
    ask_mains(findings, "fuse rating", *joint.lead,
              fmt::format("How thick the wires of {} are is not recorded; the fuse before them is "
                          "{} A.",
                          joint.lead->type->reference(), number(fuse)),
              fmt::format("What cross-section in mm2 is printed on the wires of {}?",
                          joint.lead->type->reference()),
              "wire: area_mm2");
}

bool feeds(const Place& fused, const Joint& joint) {
  const auto& port = joint.a == &fused ? *joint.port_a : *joint.port_b;
  return port.contacts &&
         std::any_of(port.contacts->begin(), port.contacts->end(), [](const auto& c) {
           return c.direction == Direction::out &&
                  (c.net_class == NetClass::mains || c.net_class == NetClass::bus);
         });
}

}  // namespace

void judge_fuses(Findings& findings) {
  for (const auto& place : findings.set.places) {
    if (!place.type || place.empty) continue;
    judge_kind(findings, place);
    if (!mains_of(place.type).fuse_amps) continue;
    judge_rating(findings, place);
    for (const auto& joint : findings.joints.joined)
      if ((joint.a == &place || joint.b == &place) && joint.lead && feeds(place, joint) &&
          (new_here(place) || new_here(*joint.lead)) && !built_so(findings.known, joint))
        judge_wires_behind(findings, place, joint);
  }
}

}  // namespace benchgraft::fit
