// From reading the settings to the last part that goes in.
#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "steps/stages.hpp"

namespace benchgraft::steps {
namespace {

// Usual minutes, common practice, no source; replaced by the kind's own where it has them.
constexpr double kReadMinutes = 10;
constexpr double kUnplugMinutes = 1;
constexpr double kPlugProofMinutes = 1;
constexpr double kDeadProofMinutes = 5;
constexpr double kPhotoMinutes = 3;

// Shortest cool-down found in user manuals (docs/decisions/0004-order-of-work.md).
constexpr double kLampCoolMinutes = 45;
constexpr double kTwoPeopleKilograms = 25;

std::vector<std::string> live_roles(const Site& site) {
  std::vector<std::string> roles;
  for (const char* role : {"mains inlet", "supply", kLampDriver})
    if (site.has_role(role)) roles.emplace_back(role);
  return roles;
}

// Roles a hand comes near in this rebuild.
std::vector<std::string> handled_roles(const Site& site, const Handling& handling) {
  auto roles = live_roles(site);
  for (const auto* list : {&handling.take_out, &handling.put_in, &handling.on_bench})
    for (const auto& item : *list) roles.insert(roles.end(), item.roles.begin(), item.roles.end());
  return roles;
}

struct Wait {
  double minutes = 0;
  std::vector<StepCaution> why;
};

// What has to cool or run out of charge does so side by side: the longest wait is the wait.
Wait wait_before_opening(const Site& site, const Handling& handling) {
  const auto roles = handled_roles(site, handling);
  Wait wait;
  for (const auto& caution : site.cautions()) {
    if (caution.waiting_minutes <= 0) continue;
    if (!caution.roles.empty() && !shares(caution.roles, roles)) continue;
    wait.minutes = std::max(wait.minutes, caution.waiting_minutes);
    wait.why.push_back({caution.hazard, caution.text});
  }
  if (shares(roles, {kLamp})) wait.minutes = std::max(wait.minutes, kLampCoolMinutes);
  return wait;
}

std::string out_title(const Site& site, const fit::Seat& seat) {
  if (seat.changed && seat.was.empty())
    return fmt::format("Take out the old {}, if there is one.", seat.position);
  if (seat.changed) return fmt::format("Take out {}.", named(seat.position, seat.was));
  return fmt::format("Take out {}: {}.", named(seat.position, seat.type),
                     site.model() != nullptr
                         ? "it is in the way and goes back"
                         : "in this kind it is usually in the way; it goes back");
}

Step seat_out(const Site& site, const fit::Seat& seat) {
  auto made = step(Stage::take_out, out_title(site, seat), site.out_minutes(seat.roles));
  made.position = seat.position;
  made.roles = seat.roles;
  if (seat.lead) made.details.push_back({"Unplug both ends; note how it was dressed.", ""});
  made.details.push_back(seat.changed
                             ? Statement{"Bag it and label it: what it is, from which set, how "
                                         "good, today's date.",
                                         ""}
                             : Statement{"Put it where nothing can fall on it.", ""});
  return made;
}

Step seat_in(const Site& site, const fit::Seat& seat) {
  auto made = step(Stage::put_in,
                   fmt::format("Put in {}{}.", named(seat.position, seat.type),
                               seat.changed ? from_words(seat.from) : " again"),
                   site.in_minutes(seat.roles));
  made.position = seat.position;
  made.roles = seat.roles;
  if (seat.lead)
    made.details.push_back({"Dress it low, clear of fans, hot parts and high voltage.", ""});
  return made;
}

}  // namespace

void read_first(const Site& site, Steps& steps) {
  const auto& judged = site.judged();
  if (judged.settings.empty() && judged.counters.empty()) return;
  auto made =
      step(Stage::read_first, "If the set still starts, read before you unplug.", kReadMinutes);
  made.details.push_back({"Photograph every page of the service menu.", ""});
  std::vector<std::string> names;
  for (const auto& setting : judged.settings) names.push_back(setting.name);
  for (const auto& counter : judged.counters) names.push_back("what " + counter.name + " shows");
  made.details.push_back({fmt::format("Write down: {}.", listed(names)), ""});
  steps.push_back(std::move(made));
}

void make_safe(const Site& site, const Handling& handling, Steps& steps) {
  auto unplug = step(Stage::make_safe, "Switch off and pull the mains plug.", kUnplugMinutes);
  if (site.has_role(kLamp))
    unplug.details.push_back({"If the lamp was lit, let the fans run down first.", ""});
  unplug.details.push_back({"Pull the aerial and every lead to other sets too.", ""});
  unplug.details.push_back({"Lay the plug where you can see it, until first power.", ""});
  steps.push_back(std::move(unplug));

  auto wait = wait_before_opening(site, handling);
  if (wait.minutes > 0) {
    auto cool = step(Stage::make_safe, "Let it cool down and run out of charge.", 0.0);
    cool.waiting_minutes = wait.minutes;
    cool.cautions = std::move(wait.why);
    steps.push_back(std::move(cool));
  }
  auto plug =
      step(Stage::make_safe, "Measure across the pins of the pulled plug.", kPlugProofMinutes);
  plug.details.push_back(
      {"It must read next to nothing. If it does not, wait and measure again.", ""});
  steps.push_back(std::move(plug));
}

void open(const Site& site, Steps& steps) {
  auto cover = step(Stage::open, "Open the set.",
                    site.kind() != nullptr ? site.kind()->open_minutes : std::nullopt);
  if (site.model() != nullptr && site.model()->mass_kg &&
      *site.model()->mass_kg >= kTwoPeopleKilograms)
    cover.details.push_back(
        {fmt::format("{:.0f} kg: turn it with two people.", *site.model()->mass_kg), ""});
  cover.details.push_back({"Count the screws and keep them in the order they came out.", ""});
  cover.details.push_back({"Touch nothing inside yet.", ""});
  steps.push_back(std::move(cover));

  auto dead = step(Stage::open, "Prove it dead by meter before a hand goes in.", kDeadProofMinutes);
  dead.roles = live_roles(site);
  dead.details = {
      {"Measure DC across the big capacitor of the supply. Over 10 V: discharge it through a power "
       "resistor on insulated probes, never with a screwdriver.",
       ""},
      {"Measure again after a minute: a capacitor can climb back.", ""}};
  steps.push_back(std::move(dead));

  auto photo =
      step(Stage::open, "Photograph how every lead lies and where it goes.", kPhotoMinutes);
  photo.details.push_back({"Count the earth leads, shields, ferrites and insulating sheets.", ""});
  steps.push_back(std::move(photo));
}

void take_out(const Site& site, const Handling& handling, Steps& steps) {
  for (std::size_t at = 0; at < handling.take_out.size(); ++at) {
    const Item& item = handling.take_out[at];
    auto made = item.seat != nullptr
                    ? seat_out(site, *item.seat)
                    : step(Stage::take_out, fmt::format("Take off the {}; keep it.", item.piece),
                           kPieceMinutes);
    if (item.seat == nullptr) made.piece = item.piece, made.roles = item.roles;
    const auto alike = alike_plugs(site, handling, at);
    made.details.insert(made.details.begin(), alike.begin(), alike.end());
    steps.push_back(std::move(made));
  }
}

void put_in(const Site& site, const Handling& handling, Steps& steps) {
  for (std::size_t at = 0; at < handling.put_in.size(); ++at) {
    const Item& item = handling.put_in[at];
    auto made = item.seat != nullptr
                    ? seat_in(site, *item.seat)
                    : step(Stage::put_in,
                           fmt::format("Fit the {}{}.", item.piece, from_words(item.piece_from)),
                           kPieceMinutes);
    if (item.seat == nullptr)
      made.piece = item.piece, made.roles = item.roles, made.code = item.code;
    const auto joined = joins(site, handling, at);
    made.details.insert(made.details.end(), joined.begin(), joined.end());
    steps.push_back(std::move(made));
  }
}

}  // namespace benchgraft::steps
