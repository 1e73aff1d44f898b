// Whole rules about the mains side: fuse and switch open the line, the plug goes in one way round,
// the cord is held. Common practice after IEC 62368-1; no source was read for the wording.
#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/mains_side.hpp"
#include "fit/rules.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::MainsSide;
using catalogue::Pole;

constexpr const char* kLicensed = "by someone licensed for it, as your local code asks";

bool single(Pole pole) { return pole == Pole::line || pole == Pole::neutral; }

std::string devices(const MainsSide& side, Pole pole) {
  const bool fuse = side.fuse_in == pole, opened = side.switch_in == pole;
  return fuse && opened ? "fuse and switch" : fuse ? "fuse" : "switch";
}

/// What this set's plug does, and what the plug it had did.
struct Plug {
  const Place* inlet = nullptr;
  std::optional<bool> polarised, before;
  bool changed = false;
};

Plug plug_of(const Assembly& set) {
  Plug plug;
  plug.inlet = set.filling("mains inlet");
  if (!plug.inlet || !plug.inlet->type) return {};
  plug.polarised = mains_of(plug.inlet->type).polarised;
  plug.before = mains_of(plug.inlet->was).polarised;
  plug.changed = new_here(*plug.inlet);
  return plug;
}

void add_plug_fact(Reason& reason, const Plug& plug) {
  if (!plug.inlet) return;
  const auto words = plug.polarised ? (*plug.polarised ? "plug goes in one way round only"
                                                       : "plug goes in either way round")
                                    : "polarised not recorded";
  reason.facts.push_back(fact_of(*plug.inlet->type, words));
}

// A fuse that opens only the neutral leaves the whole set live when it has blown.
void say_in_neutral(Findings& findings, const Place& place, const Plug& plug) {
  const auto& side = mains_of(place.type);
  const std::string what = devices(side, Pole::neutral);
  Reason& reason = say_mains(
      findings, "fuse and switch", Verdict::fits_with_work, place,
      fmt::format("In {} the neutral goes through the {}, not the line: the set stays live behind "
                  "it. Fuse and switch have to open the line; it is put right {}, or another part "
                  "is used.",
                  place.type->reference(), what, kLicensed),
      "neutral");
  reason.work_minutes = 10;
  reason.not_before = fmt::format("not before line is proven at the {}", what);
  reason.facts = {fact_of(*place.type, what + " in the neutral")};
  add_plug_fact(reason, plug);
  reason.would_change = "A part whose fuse and switch open the line or both would change this.";
}

void say_either_way(Findings& findings, const Place& place, const Plug& plug) {
  const std::string what = devices(mains_of(place.type), Pole::line);
  Reason& reason = say_mains(
      findings, "fuse and switch", Verdict::fits_with_work, place,
      fmt::format("The plug of {} goes in either way round, so the {} of {} may sit in the "
                  "neutral: blown or off, the set stays live. Measure touch current both ways "
                  "round, switch on and off; a two-pole switch or a polarised plug is fitted {}.",
                  plug.inlet->type->reference(), what, place.type->reference(), kLicensed),
      "either way");
  reason.work_minutes = 5;
  reason.roles.push_back(plug.inlet->roles.front());
  reason.not_before = "not before touch current is measured with the plug both ways round";
  reason.facts = {fact_of(*place.type, what + " in the line only")};
  add_plug_fact(reason, plug);
  reason.would_change =
      "A polarised plug, or fuse and switch in both conductors, would change "
      "this.";
}

void ask_where_it_sits(Findings& findings, const Place& place, const char* what, const char* key) {
  ask_mains(findings, "fuse and switch", place,
            fmt::format("In which conductor the {} of {} sits is not recorded.", what,
                        place.type->reference()),
            fmt::format("Does the {} of {} open the line, the neutral, or both?", what,
                        place.type->reference()),
            key);
}

// What the old part told is asked of the new one; a plug that lost its polarity asks of all.
void ask_missing_poles(Findings& findings, const Place& place, bool lost_polarity) {
  const auto &side = mains_of(place.type), &was = mains_of(place.was);
  const bool holds_them = place.fills("supply") || place.type->mains;
  if (!holds_them) return;
  if (side.fuse_in == Pole::unknown && ((new_here(place) && was.fuse_in != Pole::unknown) ||
                                        (lost_polarity && place.fills("supply"))))
    ask_where_it_sits(findings, place, "fuse", "mains: fuse_in");
  if (side.switch_in == Pole::unknown && new_here(place) && was.switch_in != Pole::unknown)
    ask_where_it_sits(findings, place, "switch", "mains: switch_in");
}

void judge_fuse_and_switch(Findings& findings, const Plug& plug) {
  const bool may_turn = plug.polarised == false;
  const bool lost_polarity = plug.changed && may_turn && plug.before != false;
  for (const auto& place : findings.set.places) {
    if (!place.type || place.empty) continue;
    const auto& side = mains_of(place.type);
    if (new_here(place) && (side.fuse_in == Pole::neutral || side.switch_in == Pole::neutral))
      say_in_neutral(findings, place, plug);
    const auto& was = mains_of(place.was);
    const bool lost_a_pole =
        new_here(place) && ((side.fuse_in == Pole::line && was.fuse_in == Pole::both) ||
                            (side.switch_in == Pole::line && was.switch_in == Pole::both));
    if ((side.fuse_in == Pole::line || side.switch_in == Pole::line) && may_turn &&
        (lost_polarity || lost_a_pole))
      say_either_way(findings, place, plug);
    ask_missing_poles(findings, place, lost_polarity);
  }
}

bool single_pole_somewhere(const Assembly& set) {
  return std::any_of(set.places.begin(), set.places.end(), [](const Place& place) {
    if (!place.type || place.empty) return false;
    const auto& side = mains_of(place.type);
    return single(side.fuse_in) || single(side.switch_in);
  });
}

void judge_plug_polarity(Findings& findings, const Plug& plug) {
  if (!plug.changed) return;
  if (!plug.polarised) {
    if (!plug.before && !single_pole_somewhere(findings.set)) return;
    ask_mains(
        findings, "plug polarity", *plug.inlet,
        fmt::format("Whether the plug of {} goes in either way round is not recorded.",
                    plug.inlet->type->reference()),
        fmt::format("Does the plug of {} go in one way round only?", plug.inlet->type->reference()),
        "mains: polarised");
    return;
  }
  if (*plug.polarised || plug.before != true) return;
  Reason& reason = say_mains(
      findings, "plug polarity", Verdict::fits_with_work, *plug.inlet,
      fmt::format("The plug was polarised; that of {} goes in either way round. Line and neutral "
                  "are then a matter of chance: measure touch current both ways round.",
                  plug.inlet->type->reference()),
      "lost");
  reason.work_minutes = 3;
  reason.not_before = "not before touch current is measured with the plug both ways round";
  add_plug_fact(reason, plug);
  reason.facts.push_back(fact_of(*plug.inlet->was, "plug goes in one way round only"));
  reason.would_change = "A polarised plug would change this.";
}

void judge_cord_anchorage(Findings& findings, const Plug& plug) {
  if (!plug.changed) return;
  const auto& held = mains_of(plug.inlet->type).cord_anchored;
  if (!held) {
    ask_mains(findings, "cord anchorage", *plug.inlet,
              fmt::format("Whether the cord of {} is held against pull and twist is not recorded.",
                          plug.inlet->type->reference()),
              fmt::format("Is the cord of {} held against pull, push and twist? An inlet whose "
                          "cord unplugs counts as held.",
                          plug.inlet->type->reference()),
              "mains: cord_anchored");
    return;
  }
  if (*held) return;
  Reason& reason = say_mains(
      findings, "cord anchorage", Verdict::fits_with_work, *plug.inlet,
      fmt::format("The cord of {} is not held: pulled, its live ends come loose inside. Bring the "
                  "anchorage made for this cord, and leave the earth conductor the longest; a knot "
                  "or glue is none.",
                  plug.inlet->type->reference()),
      "cord");
  reason.work_minutes = 10;
  reason.not_before = "not before the cord is held against pull and twist";
  reason.facts = {fact_of(*plug.inlet->type, "cord not anchored")};
  reason.would_change = "An anchorage recorded on it would change this.";
}

}  // namespace

void judge_mains_side(Findings& findings) {
  const Plug plug = plug_of(findings.set);
  judge_fuse_and_switch(findings, plug);
  judge_plug_polarity(findings, plug);
  judge_cord_anchorage(findings, plug);
}

}  // namespace benchgraft::fit
