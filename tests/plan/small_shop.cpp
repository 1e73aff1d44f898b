#include "small_shop.hpp"

#include <algorithm>

#include <gtest/gtest.h>

#include "base/text.hpp"
#include "catalogue/text.hpp"

namespace benchgraft::plan {
namespace {

const char* const kFamily = R"(format = 1
family = "boxes"

[[set_kind]]
set_kind = "box"
judged = true
open_minutes = 6
close_minutes = 4
role = [
  { role = "supply", out_minutes = 5, in_minutes = 5 },
  { role = "picture", out_minutes = 5, in_minutes = 5 },
  { role = "light", out_minutes = 5, in_minutes = 5 },
  { role = "remote control", optional = true, out_minutes = 0, in_minutes = 0 },
]

[[set_kind]]
set_kind = "tube box"
judged = false
not_judged = "High voltage: transplants are not judged."
open_minutes = 5

[[part_type]]
part_type = "PS-1"
kind = "supply"
roles = ["supply"]
salvage_minor = 200

[[part_type]]
part_type = "PS-2"
kind = "supply"
roles = ["supply"]
salvage_minor = 200

[[part_type]]
part_type = "PS-3"
kind = "supply"
roles = ["supply"]
price_minor = 3000

[[part_type]]
part_type = "MB-1"
kind = "main board"
roles = ["picture"]
provides = ["picture"]
salvage_minor = 500

[[part_type]]
part_type = "MB-2"
kind = "main board"
roles = ["picture"]
provides = ["picture", "tuner"]
salvage_minor = 500

[[part_type]]
part_type = "LT-1"
kind = "light"
roles = ["light"]

[[part_type]]
part_type = "RC-1"
kind = "remote control"
roles = ["remote control"]

[[model]]
model = "Alpha"
kind = "box"
price = [
  { needs = ["picture", "tuner"], looks = "good", price_minor = 20000 },
  { needs = ["picture"], price_minor = 10000 },
]
  [[model.position]]
  position = "supply"
  [[model.position]]
  position = "picture"
  [[model.position]]
  position = "light"
  [[model.position]]
  position = "remote"
  roles = ["remote control"]
  optional = true
  [[model.variant]]
  variant = "standard"
  [model.variant.parts]
  "supply" = "PS-1"
  "picture" = "MB-1"
  "light" = "LT-1"
  "remote" = "RC-1"

[[model]]
model = "Beta"
kind = "box"
price = [
  { needs = ["picture"], price_minor = 12000 },
]
  [[model.position]]
  position = "supply"
  [[model.position]]
  position = "picture"
  [[model.position]]
  position = "light"
  [[model.position]]
  position = "remote"
  roles = ["remote control"]
  optional = true
  [[model.variant]]
  variant = "standard"
  [model.variant.parts]
  "supply" = "PS-2"
  "picture" = "MB-2"
  "light" = "LT-1"
)";

catalogue::Family family_of(const std::string& text) {
  auto family = catalogue::read_family(text, "boxes.toml");
  EXPECT_TRUE(family.ok()) << (family ? "" : family.error().message);
  return std::move(family).value();
}

}  // namespace

catalogue::Catalogue small_catalogue(const std::string& more) {
  auto known = catalogue::Catalogue::from_families({family_of(kFamily + more)});
  EXPECT_TRUE(known.ok()) << (known ? "" : known.error().message);
  return std::move(known).value();
}

SmallShop::SmallShop() : known(small_catalogue()), fitting(everything_fits()) {
  room.terms.per_hour = {1200};  // 20 minor units a minute
  room.terms.chance_untested = 0.5;
  room.terms.chance_good = 1;
}

shop::Set& SmallShop::set(const std::string& code, const std::string& model) {
  shop::Set set;
  set.id = {{room.sets.size() + 1, 7}};
  set.code = code;
  set.model = model;
  set.variant = "standard";
  set.consent = shop::Consent::may_strip;
  set.looks = shop::Looks::good;
  room.sets.push_back(set);
  return room.sets.back();
}

shop::Part& SmallShop::loose(const std::string& code, const std::string& type, double chance) {
  shop::Part part;
  part.id = {{room.parts.size() + 1, 8}};
  part.code = code;
  part.type = type;
  part.chance = chance;
  part.state = chance == 0    ? shop::State::bad
               : chance > 0.8 ? shop::State::good
                              : shop::State::untested;
  part.place = "shelf";
  room.parts.push_back(part);
  return room.parts.back();
}

shop::Part& SmallShop::part(const std::string& code, const std::string& type, double chance,
                            const std::string& in_set, const std::string& position) {
  auto& part = loose(code, type, chance);
  part.place.clear();
  part.in_set = room.set_by_code(in_set)->id;
  part.position = position;
  return part;
}

void SmallShop::fill(const std::string& code, double chance) {
  const auto* model = known.model(room.set_by_code(code)->model);
  for (const auto& [position, type] : model->variants.front().parts)
    part(in_capitals(code + position.substr(0, 1)), type, chance, code, position);
}

void SmallShop::wish(shop::WishSort sort, const std::string& set, const std::string& part) {
  shop::Wish wish;
  wish.sort = sort;
  wish.set = set;
  wish.part = part;
  room.wishes.push_back(wish);
}

Prospects SmallShop::prospects() const {
  Prospects all;
  for (const auto& part : room.parts) all.parts.push_back({part.chance.value_or(0.5)});
  return all;
}

Result<Plan> SmallShop::try_plan() const {
  return make_plan_with(known, room, prospects(), options, fitting);
}

Plan SmallShop::plan() const {
  auto plan = try_plan();
  EXPECT_TRUE(plan.ok()) << (plan ? "" : plan.error().message);
  return plan ? std::move(plan).value() : Plan{};
}

Fitting everything_fits(Bend more) {
  Fitting fitting;
  fitting.single = [](const auto& model, const auto&, const auto& part) -> Result<fit::PartAnswer> {
    fit::PartAnswer answer;
    if (model == "Alpha" && part.type == "PS-3") answer.verdict = fit::Verdict::does_not_fit;
    return answer;
  };
  fitting.pair = [](const auto&, const auto&, const auto&, const auto&) -> Result<fit::PartAnswer> {
    return fit::PartAnswer{};
  };
  fitting.whole = [more](const catalogue::RebuildText& rebuild) -> Result<fit::Judgement> {
    fit::Judgement judged;
    judged.verdict = fit::Verdict::fits;
    judged.chance = 0.9;
    if (!rebuild.parts.empty()) judged.work_minutes = 10;
    for (const auto& part : rebuild.parts) judged.work_minutes += part.place == "remote" ? 0 : 10;
    if (more) more(rebuild, judged);
    return judged;
  };
  return fitting;
}

void object(fit::Judgement& judged, fit::Verdict verdict, const std::string& code) {
  fit::Reason reason;
  reason.code = code;
  reason.rule = "test";
  reason.verdict = reason.before = verdict;
  judged.reasons.push_back(reason);
  judged.verdict = std::max(judged.verdict, verdict);
  if (verdict == fit::Verdict::fits_with_work) judged.chance = std::min(judged.chance, 0.8);
  if (verdict == fit::Verdict::unknown) judged.chance = std::min(judged.chance, 0.5);
  if (verdict > fit::Verdict::unknown) judged.chance = 0;
}

std::string put_into(const catalogue::RebuildText& rebuild, const std::string& place) {
  for (const auto& part : rebuild.parts)
    if (part.place == place) return part.type;
  return "";
}

const PlannedRebuild* rebuild_of(const Plan& plan, const std::string& host) {
  for (const auto& rebuild : plan.rebuilds)
    if (rebuild.host == host) return &rebuild;
  return nullptr;
}

const PlannedPart* part_in(const PlannedRebuild& rebuild, const std::string& position) {
  for (const auto& part : rebuild.parts)
    if (part.position == position) return &part;
  return nullptr;
}

Use use_of(const Plan& plan, const std::string& code) {
  for (const auto& set : plan.sets)
    if (set.code == code) return set.use;
  ADD_FAILURE() << "the plan says nothing about " << code;
  return Use::left;
}

std::string why_of(const Plan& plan, const std::string& code) {
  for (const auto& set : plan.sets)
    if (set.code == code) return set.why;
  return "";
}

bool remarks_on(const Plan& plan, const std::string& words) {
  return std::any_of(plan.remarks.begin(), plan.remarks.end(),
                     [&](const auto& remark) { return remark.find(words) != std::string::npos; });
}

}  // namespace benchgraft::plan
