// Whole rules about the light path: which way round, how bright, does the picture fill the screen.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/orientation.hpp"
#include "fit/rules.hpp"

namespace benchgraft::fit {
namespace {

using catalogue::EngineOptics;
using catalogue::Flip;

const Place* engine_of(const Assembly& set) {
  for (const auto& place : set.places)
    if (place.type && !place.empty && place.type->optics) return &place;
  return set.filling("engine optics");
}

// The part whose memory holds the flip: it says so, or a flip setting is stored in its role.
const Place* flip_keeper(const Findings& findings) {
  for (const auto& place : findings.set.places)
    if (place.type && !place.empty && place.type->flip_default) return &place;
  for (const auto* setting : findings.known.settings()) {
    if (!setting->flip) continue;
    for (const auto& place : findings.set.places)
      if (place.type && place.type->stores)
        for (const auto& stored : *place.type->stores)
          if (stored == setting->name) return &place;
    if (const Place* by_role = findings.set.filling(setting->stored_in)) return by_role;
  }
  return nullptr;
}

const EngineOptics* optics_of(const catalogue::PartType* type) {
  return type && type->optics ? &*type->optics : nullptr;
}

// Optics of the engine a model was built with; null when not recorded.
const EngineOptics* engine_of_model(const catalogue::Catalogue& known,
                                    const catalogue::Model& model) {
  for (const auto& variant : model.variants)
    for (const auto& [position, reference] : variant.parts)
      if (const auto* optics = optics_of(known.part_type(reference))) return optics;
  return nullptr;
}

bool flip_overwritten(const Findings& findings, const Place& keeper) {
  if (contains(keeper.memory_changed, "")) return true;
  return std::any_of(keeper.memory_changed.begin(), keeper.memory_changed.end(),
                     [&](const std::string& name) {
                       const auto* setting = findings.known.setting(name);
                       return setting && setting->flip;
                     });
}

// What the flip memory holds now: a keeper that stays is set for its host with the old engine; one
// that comes from another set is set for that set; only where neither is known the factory's
// default counts.
std::optional<Flip> stored_flip(const Findings& findings, const Place& keeper,
                                const Place& engine) {
  if (flip_overwritten(findings, keeper)) return std::nullopt;
  std::vector<std::string> missing;
  std::optional<Flip> set_for;
  if (!keeper.changed) {
    const auto* old_engine = optics_of(engine.was);
    if (old_engine && findings.set.model && findings.set.model->optics)
      set_for = needed_flip(*findings.set.model->optics, *old_engine, missing);
  } else if (const auto* donor = donor_model(findings.known, keeper); donor && donor->optics) {
    const bool together = keeper.origin() == engine.origin();
    const auto* its_engine =
        together ? optics_of(engine.type) : engine_of_model(findings.known, *donor);
    if (its_engine) set_for = needed_flip(*donor->optics, *its_engine, missing);
  }
  // The factory's default speaks for a host's own board, never for one of unknown past.
  const bool past_known = !keeper.changed || keeper.same_make || keeper.from == "bought";
  if (!set_for && keeper.type && past_known) set_for = keeper.type->flip_default;
  return set_for;
}

void ask_orientation(Findings& findings, const Place& engine,
                     const std::vector<std::string>& missing) {
  Reason& reason = findings.unknown(
      RuleSort::whole,
      fmt::format("Which way round the picture comes up is not known: {} not recorded.",
                  listed(missing)),
      fmt::format("Find out: {}.", listed(missing)),
      engine.type ? engine.type->reference() : engine.position, "optics", engine.roles.front());
  // A picture the wrong way round hurts nothing: it is put right after first power.
  reason.verdict = reason.before = Verdict::fits_with_work;
  reason.rule = "orientation";
}

std::string mirror_words(const Findings& findings, const Place& keeper) {
  const auto* donor = donor_model(findings.known, keeper);
  const auto& host = findings.set.model->optics;
  if (!donor || donor == findings.set.model || !donor->optics || !donor->optics->fold_mirrors ||
      !host->fold_mirrors)
    return "";
  const int difference = *host->fold_mirrors - *donor->optics->fold_mirrors;
  if (difference == 0) return "Same number of fold mirrors; ";
  const int many = std::abs(difference);
  return fmt::format("{} fold mirror{} {} than in {}: ", many == 1 ? "One" : std::to_string(many),
                     many == 1 ? "" : "s", difference < 0 ? "fewer" : "more", donor->name);
}

void say_orientation(Findings& findings, const Place& engine, const Place& keeper, Flip stored,
                     Flip needed) {
  auto& out = findings.out.orientation;
  out.known = true;
  out.toggle = out.comes_up = stored ^ needed;
  const bool right = out.toggle == Flip{};
  const std::string which = out.toggle.h && out.toggle.v ? "both flips"
                            : out.toggle.h               ? "the left-right flip only"
                                                         : "the upside-down flip only";
  out.says = right ? "The picture comes up the right way round."
                   : fmt::format("{}the picture comes up {}. Toggle {} on {}.",
                                 mirror_words(findings, keeper), flip_words(out.comes_up), which,
                                 keeper.type->reference());
  out.says = capitalised(out.says);
  if (right) return;  // nothing to do, nothing to say
  Reason& reason =
      findings.add("orientation", RuleSort::whole, right ? Verdict::fits : Verdict::fits_with_work,
                   out.says, engine.type->reference() + "|" + keeper.type->reference());
  out.code = reason.code;
  reason.work_minutes = right ? 0 : 5;
  reason.roles = {engine.roles.front(), keeper.roles.front()};
  reason.types = {engine.type->reference(), keeper.type->reference()};
  reason.facts = {
      fact_of(*findings.set.model, fmt::format("needs the picture {}", flip_words(needed))),
      fact_of(*keeper.type, fmt::format("its memory is set for {}", flip_words(stored)))};
  reason.would_change =
      "Another count of fold mirrors, another mount or another stored flip would change this.";
}

std::optional<Flip> seen_in_notes(const std::vector<NoteMatch>& notes,
                                  const catalogue::SwapNote*& said) {
  for (const auto& match : notes) {
    if (match.by_family || match.note->saw == catalogue::Seen::not_written) continue;
    said = match.note;
    switch (match.note->saw) {
      case catalogue::Seen::mirrored:
        return Flip{true, false};
      case catalogue::Seen::upside_down:
        return Flip{false, true};
      case catalogue::Seen::turned:
        return Flip{true, true};
      default:
        return Flip{};
    }
  }
  return std::nullopt;
}

void heed_notes(Findings& findings, const Place& engine, const std::vector<NoteMatch>& notes) {
  const catalogue::SwapNote* said = nullptr;
  const auto seen = seen_in_notes(notes, said);
  auto& out = findings.out.orientation;
  if (!seen || (out.known && *seen == out.comes_up)) return;
  if (out.known) {
    Reason& reason = findings.add(
        "records disagree", RuleSort::whole, Verdict::fits_with_work,
        fmt::format("The mirrors say {}, swap note \"{}\" saw it {}. Look at the first picture "
                    "before any flip is changed.",
                    flip_words(out.comes_up), said->name, flip_words(*seen)),
        "orientation|" + engine.position);
    reason.source = Source::verified;
    reason.roles = {engine.roles.front()};
    reason.facts = {fact_of(*said)};
    return;
  }
  out.known = true;
  out.comes_up = out.toggle = *seen;
  out.says =
      fmt::format("The picture came up {} in swap note \"{}\".", flip_words(*seen), said->name);
  Reason& reason = findings.add("orientation", RuleSort::whole, Verdict::fits_with_work, out.says,
                                engine.position);
  out.code = reason.code;
  reason.work_minutes = *seen == Flip{} ? 0 : 5;
  reason.source = Source::verified;
  reason.roles = {engine.roles.front()};
  reason.facts = {fact_of(*said)};
}

double picture_width_mm(const catalogue::ModelOptics& optics) {
  // 16:9: width = 0.8716 of the diagonal (geometry).
  return optics.width_mm      ? *optics.width_mm
         : optics.diagonal_in ? *optics.diagonal_in * 25.4 * 0.8716
                              : 0;
}

void judge_light(Findings& findings, const Place& engine) {
  const auto* donor = donor_model(findings.known, engine);
  const auto& host = findings.set.model->optics;
  if (!donor || !donor->optics || !host || !donor->optics->diagonal_in || !host->diagonal_in)
    return;
  const double ratio = std::pow(*donor->optics->diagonal_in / *host->diagonal_in, 2);
  if (std::abs(ratio - 1) < 0.02) return;
  Reason& reason = findings.add(
      "light and throw", RuleSort::whole, Verdict::fits,
      fmt::format("The same light on {} in instead of {} in: the picture is {:.2f} times as "
                  "bright.",
                  number(*host->diagonal_in), number(*donor->optics->diagonal_in), ratio),
      "light|" + engine.type->reference());
  reason.roles = {engine.roles.front()};
  reason.types = {engine.type->reference()};
  reason.facts = {fact_of(*findings.set.model, number(*host->diagonal_in) + " in"),
                  fact_of(*donor, number(*donor->optics->diagonal_in) + " in")};
  reason.would_change = "Other screen sizes would change this (light goes with 1 / area).";
}

void ask_throw(Findings& findings, const Place& engine, bool engine_known) {
  const auto& host = *findings.set.model;
  Reason& reason = findings.unknown(
      RuleSort::whole,
      fmt::format(
          "Whether {} fills the screen of {} sharply is not known: {} not recorded.",
          engine.type->reference(), host.name,
          engine_known ? "the throw or the screen size of the cabinet is" : "its throw ratio is"),
      engine_known
          ? fmt::format("Measure the way from lens to screen in {}, along the mirrors, in mm.",
                        host.name)
          : fmt::format("Measure distance and picture width of {} for its throw ratio.",
                        engine.type->reference()),
      engine_known ? host.name : engine.type->reference(),
      engine_known ? "optics: throw_mm" : "optics: throw_ratio", engine.roles.front());
  reason.rule = "light and throw";
}

void judge_throw(Findings& findings, const Place& engine) {
  const auto* optics = optics_of(engine.type);
  const auto& host = findings.set.model->optics;
  const double width = host ? picture_width_mm(*host) : 0;
  if (!optics || !optics->throw_ratio || *optics->throw_ratio <= 0)
    return ask_throw(findings, engine, false);
  if (!host || !host->throw_mm || width <= 0) return ask_throw(findings, engine, true);
  const double thrown = *host->throw_mm / *optics->throw_ratio;
  const double off = thrown / width - 1;
  if (std::abs(off) <= 0.02) return;
  Reason& reason = findings.add(
      "light and throw", RuleSort::whole, Verdict::does_not_fit,
      fmt::format("{} throws a picture {:.0f} mm wide in this cabinet; the screen is {:.0f} mm: "
                  "{:.0f} % too {}.",
                  engine.type->reference(), thrown, width, std::abs(off) * 100,
                  off > 0 ? "large" : "small"),
      "throw|" + engine.type->reference());
  reason.roles = {engine.roles.front()};
  reason.types = {engine.type->reference()};
  reason.facts = {fact_of(*engine.type, "throw ratio " + number(*optics->throw_ratio)),
                  fact_of(*findings.set.model, "throw " + number(*host->throw_mm) + " mm")};
  reason.would_change =
      "The old projection lens on the new engine, or another cabinet, would change this.";
}

}  // namespace

void judge_orientation(Findings& findings, const std::vector<NoteMatch>& notes) {
  const Place* engine = engine_of(findings.set);
  const Place* keeper = flip_keeper(findings);
  if (!engine || !findings.set.model) return;
  const bool overwritten = keeper && flip_overwritten(findings, *keeper);
  if (!engine->changed && !(keeper && keeper->changed) && !overwritten) return;
  std::vector<std::string> missing;
  std::optional<Flip> needed;
  if (findings.set.model->optics && optics_of(engine->type))
    needed = needed_flip(*findings.set.model->optics, *optics_of(engine->type), missing);
  else
    missing.emplace_back(findings.set.model->optics ? "optics of the engine"
                                                    : "optics of the cabinet");
  std::optional<Flip> stored;
  if (keeper && keeper->type) stored = stored_flip(findings, *keeper, *engine);
  if (!stored) missing.emplace_back("the flip stored in the memory that comes with it");
  if (needed && stored) say_orientation(findings, *engine, *keeper, *stored, *needed);
  heed_notes(findings, *engine, notes);
  const bool news = overwritten || differs(*engine) || (keeper && differs(*keeper));
  if (!findings.out.orientation.known && news) ask_orientation(findings, *engine, missing);
}

void judge_light_and_throw(Findings& findings) {
  const Place* engine = engine_of(findings.set);
  if (!engine || !engine->type || !differs(*engine) || !findings.set.model) return;
  const bool rear = findings.set.kind && findings.set.kind->rear;
  if (!rear) return;
  for (const auto* model : findings.known.built_with(engine->type->reference()))
    if (model == findings.set.model) return;  // the factory put this engine in this cabinet
  judge_light(findings, *engine);
  judge_throw(findings, *engine);
}

}  // namespace benchgraft::fit
