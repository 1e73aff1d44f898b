// Closing, and power in stages.
#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "steps/stages.hpp"

namespace benchgraft::steps {
namespace {

// Usual minutes, common practice, no source; replaced by the kind's own where it has them.
constexpr double kLookOverMinutes = 5;
constexpr double kPowerStageMinutes = 5;
constexpr double kRejoinMinutes = 5;

// Direct voltage that may be met by a probe held in the hand
// (docs/decisions/0004-order-of-work.md).
constexpr double kTouchableVolts = 60;

std::optional<double> close_minutes(const Site& site) {
  return site.kind() != nullptr ? site.kind()->close_minutes : std::nullopt;
}

// "(CN2 of LD-20)" where it is recorded which plug brings the bus into the lamp driver.
std::string feed_plug(const Site& site) {
  for (const auto& link : site.judged().links) {
    if (link.from_role == "supply" && link.to_role == kLampDriver && link.carries == "bus")
      return fmt::format(" ({} of {})", link.to_port, link.to_type);
    if (link.to_role == "supply" && link.from_role == kLampDriver && link.carries == "bus")
      return fmt::format(" ({} of {})", link.from_port, link.from_type);
  }
  return "";
}

std::string volts_words(const catalogue::Range& volts) {
  return volts.low == volts.high ? fmt::format("{:g} V", volts.low)
                                 : fmt::format("{:g} to {:g} V", volts.low, volts.high);
}

// What the supply's own record says its low rails should be. Nobody measures a live bus here.
std::vector<std::string> rails_to_see(const Site& site) {
  std::vector<std::string> seen;
  for (const auto& seat : site.judged().seats) {
    const auto* type = site.type_in(seat);
    if (type == nullptr || !type->fills("supply")) continue;
    std::vector<std::string> rails;
    for (const auto& rail : type->rails) {
      if (!rail.volts || rail.volts->high > kTouchableVolts) continue;
      const auto volts = volts_words(*rail.volts);
      rails.push_back(rail.name == volts ? volts : fmt::format("{} {}", rail.name, volts));
    }
    if (!rails.empty())
      seen.push_back(fmt::format("Low rails of {}: {}.", type->reference(), listed(rails)));
  }
  return seen;
}

void supply_alone(const Site& site, Steps& steps) {
  auto made = step(Stage::first_power, "First power: the supply alone, lamp driver unplugged.",
                   kPowerStageMinutes);
  made.roles = present(site, {"mains inlet", "supply"});
  made.details = {
      {fmt::format("Unplug the feed of the lamp driver{}. Push an insulating sleeve over the loose "
                   "plug and tie it clear of metal: it is live at full bus voltage with mains on.",
                   feed_plug(site)),
       ""},
      {"Unplug the leads from the supply to the other boards.", ""},
      {"Stand clear, then mains on, through an isolating transformer and a current limiter. If a "
       "cover switch stops it, fit the cover: never hold or bridge the switch.",
       ""}};
  made.watch = rails_to_see(site);
  made.watch.emplace_back(
      "The standby rail comes up and stays. Other rails may wait for the main board.");
  made.cut = fmt::format("{}; a rail too high; or the limiter glowing bright", kCutAlways);
  steps.push_back(std::move(made));
}

void logic_and_wheel(const Site& site, Steps& steps) {
  const bool wheel = site.has_role("colour wheel");
  auto made = step(
      Stage::first_power,
      fmt::format("Second power: logic, fans{}. Still no lamp driver.", wheel ? " and wheel" : ""),
      kPowerStageMinutes);
  made.roles = present(site, {"supply", "colour wheel"});
  made.details = {{"Plug out. Prove the supply dead by meter. Join the leads to the other boards "
                   "again; the lamp driver stays unplugged and insulated.",
                   ""},
                  {"Mains on, switch on.", ""}};
  made.watch = {"Every fan turns and blows the right way."};
  if (wheel) made.watch.emplace_back("The wheel runs up and holds its speed without a whine.");
  made.watch.emplace_back(
      "With no lamp driver the set gives up after its tries and reports the lamp: that is right.");
  made.cut = fmt::format("{}; a fan that stands still; grinding or a rising whine", kCutAlways);
  steps.push_back(std::move(made));
}

void rejoin_driver(const Site& site, Steps& steps) {
  auto made =
      step(Stage::first_power, "Plug out, prove it dead, join the lamp driver.", kRejoinMinutes);
  made.roles = present(site, {"supply", kLampDriver});
  made.details = {
      {"Measure the bus by meter: under 10 V before a hand goes near it.", ""},
      {fmt::format("Take the sleeve off and join the feed of the lamp driver{}.", feed_plug(site)),
       ""}};
  steps.push_back(std::move(made));
}

void covers_on(const Site& site, Stage stage, Steps& steps) {
  const bool lamp = site.has_role(kLamp);
  auto made = step(
      stage,
      lamp ? "Shut the lamp door and fit every shield and cover." : "Fit every shield and cover.",
      close_minutes(site));
  made.details = {{"Every screw that came out is back. Nothing is left on the bench.", ""}};
  if (lamp) made.details.push_back({"Interlocks do their own work: none is held or bridged.", ""});
  steps.push_back(std::move(made));
}

void orientation_to_see(const fit::Judgement& judged, Step& made) {
  if (!judged.orientation.says.empty())
    made.details.push_back({judged.orientation.says, judged.orientation.code});
}

void first_light(const Site& site, Steps& steps) {
  auto made =
      step(Stage::first_power, "First light, with lamp door and covers on.", kPowerStageMinutes);
  made.roles = present(site, {kLampDriver, kLamp, "engine optics"});
  made.details = {{"Nobody looks into the light path, and no face is near a vent.", ""},
                  {"Mains on, switch on.", ""}};
  made.watch = {"Fans, then the wheel, then a short buzz and light within a few seconds.",
                "It stays lit for two minutes and the air at the vents is only warm."};
  if (!site.has_role("colour wheel"))
    made.watch[0] = "Fans, then a short buzz and light within a few seconds.";
  orientation_to_see(site.judged(), made);
  made.cut =
      fmt::format("{}; a bang; light out of a gap; no light after its own tries", kCutAlways);
  steps.push_back(std::move(made));
}

void plain_first_power(const Site& site, Steps& steps) {
  auto made = step(Stage::first_power, "First power, with the covers on.", kPowerStageMinutes);
  made.roles = present(site, {"mains inlet", "supply"});
  made.details = {
      {"Stand clear, then mains on, through an isolating transformer and a current "
       "limiter. Never hold or bridge a cover switch.",
       ""}};
  made.watch = {"Standby light, then sound and picture."};
  orientation_to_see(site.judged(), made);
  made.cut = fmt::format("{}; or the limiter glowing bright", kCutAlways);
  steps.push_back(std::move(made));
}

}  // namespace

void close(const Site& site, Steps& steps) {
  auto look = step(Stage::close, "Look it over before you close it.", kLookOverMinutes);
  const char* lamp =
      site.has_role(kLamp) ? "fans, hot parts and the lamp lead" : "fans and hot parts";
  look.details = {
      {"Earth leads, shields, ferrites and insulating sheets: the same count as before.", ""},
      {fmt::format("Leads low, tied, clear of {}.", lamp), ""},
      {"No screw, no tool, no part left inside or over.", ""}};
  steps.push_back(std::move(look));
  cold_tests(site, steps);
  if (!site.has_role(kLampDriver)) covers_on(site, Stage::close, steps);
}

void first_power(const Site& site, Steps& steps) {
  if (!site.has_role(kLampDriver)) return plain_first_power(site, steps);
  supply_alone(site, steps);
  logic_and_wheel(site, steps);
  rejoin_driver(site, steps);
  covers_on(site, Stage::first_power, steps);
  first_light(site, steps);
}

}  // namespace benchgraft::steps
