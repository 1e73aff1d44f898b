// What shows that the set is safe and works, and what is handed over with it.
#include <fmt/format.h>

#include "steps/stages.hpp"

namespace benchgraft::steps {
namespace {

// Usual minutes, common practice, no source; replaced by the kind's own where it has them.
constexpr double kTouchTestMinutes = 6;
constexpr double kColdTestMinutes = 6;
constexpr double kSoakMinutes = 120;
constexpr double kColdStartsMinutes = 15;
constexpr double kHandOverMinutes = 10;

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
