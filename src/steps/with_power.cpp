#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "base/text.hpp"
#include "steps/precedence.hpp"
#include "steps/stages.hpp"

namespace benchgraft::steps {
namespace {

// Usual minutes, common practice, no source; replaced by the kind's own where it has them.
constexpr double kLookOverMinutes = 5;
constexpr double kColdTestMinutes = 6;
constexpr double kPowerStageMinutes = 5;
constexpr double kRejoinMinutes = 5;
constexpr double kFlipMinutes = 5;
constexpr double kTouchTestMinutes = 6;
constexpr double kSoakMinutes = 120;
constexpr double kColdStartsMinutes = 15;
constexpr double kHandOverMinutes = 10;

// Direct voltage that may be met by a probe held in the hand
// (docs/decisions/0004-order-of-work.md).
constexpr double kTouchableVolts = 60;

constexpr const char* kCutAlways =
    "smoke, a smell, arcing, a humming or hissing part, or anything that gets hot fast";

Step step(Stage stage, std::string title, std::optional<double> minutes) {
  Step made;
  made.stage = stage;
  made.title = std::move(title);
  made.work_minutes = minutes;
  return made;
}

std::vector<std::string> present(const Site& site, std::initializer_list<const char*> roles) {
  std::vector<std::string> found;
  for (const char* role : roles)
    if (site.has_role(role)) found.emplace_back(role);
  return found;
}

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

void cold_tests(const Site& site, Steps& steps) {
  auto made =
      step(Stage::close, "Measure bond and insulation cold, before any mains.", kColdTestMinutes);
  made.roles = present(site, {"mains inlet"});
  if (site.protection() != catalogue::Protection::class_2)
    made.details.push_back(
        {"Bond: from the earth pin of the plug to every metal part a hand can "
         "reach. Low, and steady while the lead is moved.",
         ""});
  made.details.push_back(
      {"Insulation: both mains pins joined, against the same metal parts, mains "
       "switch on.",
       ""});
  if (site.has_role("door switch") || site.has_role(kLamp))
    made.details.push_back(
        {"Door switch and thermal switch: on the meter, the circuit opens when "
         "the lamp door opens.",
         ""});
  made.details.push_back({"A set that fails one of these gets no mains.", ""});
  steps.push_back(std::move(made));
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

// Settings to be done, in the order their records ask for.
std::vector<const fit::SettingToDo*> settings_in_order(const Site& site) {
  const auto& todo = site.judged().settings;
  Precedence before(todo.size());
  for (std::size_t then = 0; then < todo.size(); ++then) {
    const auto* record = site.known().setting(todo[then].name);
    if (record == nullptr) continue;
    for (const auto& earlier : record->after)
      for (std::size_t first = 0; first < todo.size(); ++first)
        if (todo[first].name == earlier) before.require(first, then);
  }
  const auto outcome = before.sorted();
  ensure(outcome.circle.empty(), "a catalogue holds no settings that wait in a circle");
  std::vector<const fit::SettingToDo*> ordered;
  for (const std::size_t i : outcome.order) ordered.push_back(&todo[i]);
  return ordered;
}

std::string setting_title(const fit::SettingToDo& todo) {
  if (todo.action == "check") return fmt::format("Check {}.", todo.name);
  if (todo.action == "set") return fmt::format("Set {}.", todo.name);
  return fmt::format("Redo {}.", todo.name);
}

std::string flip_words(const catalogue::Flip& flip) {
  if (flip.h && flip.v) return "left-right and upside-down";
  return flip.h ? "left-right" : "upside-down";
}

bool sets_the_flip(const Site& site) {
  const auto& todo = site.judged().settings;
  return std::any_of(todo.begin(), todo.end(), [&](const fit::SettingToDo& each) {
    const auto* record = site.known().setting(each.name);
    return record != nullptr && record->flip && each.action != "travels";
  });
}

void flip_first(const Site& site, Steps& steps) {
  const auto& orientation = site.judged().orientation;
  if (!orientation.known || orientation.toggle == catalogue::Flip{} || sets_the_flip(site)) return;
  auto made = step(Stage::adjust, "Put the picture the right way round.", kFlipMinutes);
  made.code = orientation.code;
  made.details.push_back(
      {fmt::format("Change this flip: {}.", flip_words(orientation.toggle)), orientation.code});
  steps.push_back(std::move(made));
}

// The strictest recorded limit for the set's class, or of all where the class is not recorded.
std::string touch_limit_words(const Site& site) {
  const auto protection = site.protection();
  const catalogue::TouchLimit* strictest = nullptr;
  for (const auto* limit : site.known().limits()) {
    if (protection != catalogue::Protection::unknown && limit->protection != protection) continue;
    if (strictest == nullptr || limit->milliamps < strictest->milliamps) strictest = limit;
  }
  if (strictest == nullptr) return "";
  return fmt::format(
      "Strictest limit on record: {:g} mA ({}, {}, {}). The code in force where you "
      "are decides.",
      strictest->milliamps, strictest->profile, strictest->edition, strictest->test);
}

void safety_tests(const Site& site, Steps& steps) {
  auto cold = step(Stage::prove, "Measure bond and insulation again, plug out, covers on.",
                   kColdTestMinutes);
  cold.roles = present(site, {"mains inlet"});
  cold.details = {{"Write down each reading, the meter, the limit profile and its edition.", ""}};
  if (site.protection() == catalogue::Protection::class_2)
    cold.details.push_back({"Class II: there is no bond to measure; insulation counts.", ""});
  steps.push_back(std::move(cold));

  auto touch = step(Stage::prove, "Measure touch current in both polarities of the plug.",
                    kTouchTestMinutes);
  touch.roles = present(site, {"mains inlet"});
  touch.details = {
      {"This test alone is made straight on the outlet: an isolating transformer would hide the "
       "current. Mains switch on and off, plug one way and the other, every metal part a hand can "
       "reach.",
       ""}};
  const auto limit = touch_limit_words(site);
  if (!limit.empty()) touch.details.push_back({limit, ""});
  touch.details.push_back(
      {"These tests are for somebody trained and allowed to do them: local codes "
       "and licensed practice come first.",
       ""});
  touch.cut = "a tingle, a spark or a breaker that trips";
  steps.push_back(std::move(touch));

  auto plug = step(Stage::prove, "Pull the plug and measure across its pins.", 1.0);
  plug.details = {{"Under 60 V two seconds after it is pulled.", ""}};
  steps.push_back(std::move(plug));
}

void soak(const Site& site, Steps& steps) {
  auto made = step(Stage::prove, "Let it run with you in the room, then five cold starts.",
                   kColdStartsMinutes);
  made.waiting_minutes = kSoakMinutes;
  if (site.has_role(kLamp))
    made.details.push_back(
        {"Each time: does it light, how long does it take, is the air at the "
         "lamp warm and moving?",
         ""});
  made.details.push_back({"Never overnight, never alone in the house.", ""});
  made.cut = kCutAlways;
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

void adjust(const Site& site, Steps& steps) {
  flip_first(site, steps);
  for (const auto* each : settings_in_order(site)) {
    if (each->action == "travels") continue;
    auto made = step(Stage::adjust, setting_title(*each), each->work_minutes);
    made.code = each->code;
    made.waiting_minutes = each->waiting_minutes;
    if (!each->found_by.empty()) made.details.push_back({each->found_by, ""});
    if (!each->predicted.empty())
      made.details.push_back({fmt::format("Start with {}.", each->predicted), each->code});
    steps.push_back(std::move(made));
  }
}

void prove(const Site& site, Steps& steps) {
  safety_tests(site, steps);
  soak(site, steps);
}

void hand_over(const Site& site, Steps& steps) {
  const auto& judged = site.judged();
  auto made = step(Stage::hand_over, "Write the hand-over sheet.", kHandOverMinutes);
  for (const auto& lost : judged.lost)
    made.details.push_back({fmt::format("It can no longer do: {}.", lost), ""});
  for (const auto& gained : judged.gained)
    made.details.push_back({fmt::format("It can now do: {}.", gained), ""});
  for (const auto& counter : judged.counters) made.details.push_back({counter.says, counter.code});
  for (const auto& seat : judged.seats)
    if (seat.changed && shares(seat.roles, {kLamp}))
      made.details.push_back({fmt::format("It takes the lamp {}.", seat.type), ""});
  made.details.push_back({"Settings found, and which must never be reset.", ""});
  made.details.push_back({"Test readings with the meter, the date and the limit profile.", ""});
  steps.push_back(std::move(made));

  auto rest = step(Stage::hand_over, "Write the swap note and send the rest on.", 5.0);
  rest.details = {{"What went in, what plugged, what had to be done, what was seen.", ""},
                  {"Lamps, panels, boards and cells apart, dated, to the right collection.", ""}};
  steps.push_back(std::move(rest));
}

}  // namespace benchgraft::steps
