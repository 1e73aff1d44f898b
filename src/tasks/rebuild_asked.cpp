#include "tasks/rebuild_asked.hpp"

#include <algorithm>
#include <filesystem>
#include <set>

#include <fmt/format.h>

#include "catalogue/text.hpp"
#include "sheets/plan_page.hpp"
#include "sheets/said.hpp"
#include "tasks/files.hpp"
#include "tasks/plan_room.hpp"

namespace benchgraft::tasks {
namespace {

using catalogue::ProposedPart;
using catalogue::RebuildText;

std::optional<bool> known_good(shop::State state) {
  if (state == shop::State::good) return true;
  if (state == shop::State::bad) return false;
  return std::nullopt;
}

ProposedPart as_text(const shop::Part& part, const std::string& place) {
  ProposedPart text;
  text.place = place;
  text.type = part.type;
  text.candidates = part.type.empty() ? part.candidates : std::vector<std::string>{};
  text.changes = part.changes;
  text.run_hours = part.run_hours;
  text.known_good = known_good(part.state);
  text.where.file = "part " + part.code;
  return text;
}

ProposedPart put_in(const Room& room, const plan::PlannedPart& planned) {
  ProposedPart text;
  if (const auto* part = room.shop.part_by_code(planned.part))
    text = as_text(*part, planned.position);
  text.place = planned.position;
  if (text.type.empty()) text.type = planned.type;
  text.from = planned.origin == plan::Origin::bought  ? "bought"
              : planned.origin == plan::Origin::donor ? planned.donor
                                                      : "shelf";
  return text;
}

const plan::PlannedRebuild* planned_for(const plan::Plan& plan, const std::string& host) {
  for (const auto* list : {&plan.rebuilds, &plan.after_questions})
    for (const auto& rebuild : *list)
      if (rebuild.host == host) return &rebuild;
  return nullptr;
}

Error not_built(const Room& room, const plan::Plan& plan, const std::string& host) {
  if (room.shop.set_by_code(host) == nullptr)
    return {
        ErrorKind::not_found,
        fmt::format("\"{}\" is neither a rebuild file nor the code of a set of this shop.", host)};
  for (const auto& set : plan.sets)
    if (set.code == host)
      return {ErrorKind::not_found, fmt::format("The plan does not build {}, it says {}: {}", host,
                                                sheets::use_words(set.use), set.why)};
  return {ErrorKind::not_found, fmt::format("The plan does not build {}.", host)};
}

std::vector<store::Said> statements_of(const Judged& judged, const std::string& when) {
  const std::string about =
      sheets::said_json({judged.rebuild.name, catalogue::write_rebuild(judged.rebuild)});
  std::vector<store::Said> said;
  std::set<std::string> codes;
  const auto keep_code = [&](const std::string& code) {
    if (!code.empty() && codes.insert(code).second) said.push_back({code, about, when});
  };
  const auto keep = [&](const auto& list) {
    for (const auto& entry : list) keep_code(entry.code);
  };
  keep(judged.judgement.reasons);
  keep(judged.judgement.questions);
  keep(judged.judgement.companions);
  keep(judged.judgement.settings);
  keep(judged.judgement.counters);
  keep(judged.judgement.repins);
  keep_code(judged.judgement.orientation.code);
  return said;
}

// Statements are kept so that "why" can be asked tomorrow. A shop that may only be read spoils no
// answer; then they are not kept.
Result<void> remember(const ShopAt& at, const Judged& judged) {
  if (at.path.empty()) return {};
  auto store = open_shop(at, store::Mode::write);
  if (!store) return {};
  return store.value().remember(statements_of(judged, occasion(at).when));
}

struct Ground {
  catalogue::Catalogue known;
  fit::Conditions conditions;
  std::string currency = "EUR";
};

Result<Ground> ground_of(const RebuildAsked& asked) {
  if (asked.at.path.empty()) {
    auto known = known_catalogue(asked.knowledge);
    if (!known) return known.error();
    return Ground{std::move(known).value(), {}, "EUR"};
  }
  auto room = load_room(asked.at, asked.knowledge);
  if (!room) return room.error();
  const auto terms = room.value().shop.terms;
  return Ground{std::move(room.value().known), conditions_of(terms), terms.currency};
}

Result<RebuildText> planned_text(const RebuildAsked& asked) {
  auto room = load_room(asked.at, asked.knowledge);
  if (!room) return room.error();
  auto plan = plan_of(room.value(), {15, false, asked.progress});
  if (!plan) return plan.error();
  return rebuild_of(room.value(), plan.value(), asked.named);
}

}  // namespace

bool is_rebuild_file(const std::string& named) {
  std::error_code ignored;
  return named.ends_with(".toml") || std::filesystem::is_regular_file(named, ignored);
}

Result<RebuildText> read_rebuild_file(const std::string& path) {
  auto texts = read_files({path});
  if (!texts) return texts.error();
  return catalogue::read_rebuild(texts.value().front().bytes, path);
}

fit::Conditions conditions_of(const shop::Terms& terms) {
  return {terms.mains_volts, terms.mains_hz, terms.touch_profile};
}

Result<RebuildText> rebuild_of(const Room& room, const plan::Plan& plan, const std::string& named) {
  const auto* asked = room.shop.set_by_code(named);
  const std::string host = asked ? asked->code : named;
  const auto* planned = planned_for(plan, host);
  const auto* set = room.shop.set_by_code(host);
  if (planned == nullptr || set == nullptr) return not_built(room, plan, host);
  RebuildText text;
  text.name = host;
  text.model = planned->model;
  if (text.model.empty()) text.kind = set->kind;
  text.variant = planned->variant;
  text.note = set->note;
  text.where.file = "set " + host;
  for (const auto* part : room.shop.parts_in(set->id))
    if (!part->position.empty()) text.seen.push_back(as_text(*part, part->position));
  std::vector<std::string> filled;
  for (const auto& part : planned->parts)
    if (part.origin != plan::Origin::own) {
      text.parts.push_back(put_in(room, part));
      filled.push_back(part.position);
    }
  for (const auto& missing : set->missing)
    if (std::find(filled.begin(), filled.end(), missing) == filled.end())
      text.missing.push_back(missing);
  return text;
}

Result<Judged> judge_text(const RebuildAsked& asked, const RebuildText& rebuild) {
  auto ground = ground_of(asked);
  if (!ground) return ground.error();
  auto judgement = fit::judge(ground.value().known, rebuild, ground.value().conditions);
  if (!judgement) return judgement.error();
  Judged judged{std::move(ground.value().known), rebuild, std::move(judgement).value(),
                ground.value().currency};
  if (const auto kept = remember(asked.at, judged); !kept) return kept.error();
  return judged;
}

Result<Judged> judge_asked(const RebuildAsked& asked) {
  auto rebuild = is_rebuild_file(asked.named) || asked.at.path.empty()
                     ? read_rebuild_file(asked.named)
                     : planned_text(asked);
  if (!rebuild) return rebuild.error();
  return judge_text(asked, rebuild.value());
}

}  // namespace benchgraft::tasks
