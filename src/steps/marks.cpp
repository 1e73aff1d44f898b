#include <algorithm>

#include "steps/stages.hpp"

namespace benchgraft::steps {
namespace {

bool handles_things(Stage stage) {
  return stage == Stage::fetch || stage == Stage::open || stage == Stage::take_out ||
         stage == Stage::bench || stage == Stage::put_in || stage == Stage::close ||
         stage == Stage::first_power;
}

constexpr const char* kMains = "mains";

// A step that says when to pull the plug has the plug in.
bool is_live(const Step& step) { return !step.cut.empty(); }

Step* opening(Steps& steps) {
  for (auto& each : steps)
    if (each.stage == Stage::open) return &each;
  return nullptr;
}

template <class Said>
void say_once(std::vector<Said>& said, const Said& sentence) {
  if (std::find(said.begin(), said.end(), sentence) == said.end()) said.push_back(sentence);
}

// The last of the parts in question to go in is the one that closes the connection.
Step* joining(const fit::Reason& reason, Steps& steps) {
  Step* last = nullptr;
  for (auto& each : steps)
    if (each.stage == Stage::put_in && !each.position.empty() && shares(each.roles, reason.roles))
      last = &each;
  return last;
}

// The first stage of power that reaches one of the roles; for safety, and where none is named, the
// very first.
Step* powering(const fit::Reason& reason, Steps& steps) {
  Step* first = nullptr;
  for (auto& each : steps) {
    if (each.stage != Stage::first_power) continue;
    if (first == nullptr) first = &each;
    if (!reason.safety && shares(each.roles, reason.roles)) return &each;
  }
  return first;
}

}  // namespace

void place_cautions(const Site& site, Steps& steps) {
  for (const auto& caution : site.cautions()) {
    const StepCaution said{caution.hazard, caution.text};
    if (caution.roles.empty())
      if (auto* cover = opening(steps)) say_once(cover->cautions, said);
    if (caution.hazard == kMains)
      for (auto& each : steps)
        if (is_live(each)) say_once(each.cautions, said);
    for (auto& each : steps)
      if (handles_things(each.stage) && shares(each.roles, caution.roles))
        say_once(each.cautions, said);
  }
}

void place_not_before(const fit::Judgement& judged, Steps& steps) {
  for (const auto& reason : judged.reasons) {
    if (reason.not_before.empty()) continue;
    const Statement statement{reason.not_before, reason.code};
    // What merely has to be done some time (a lead tied back) only has to be done before power.
    auto* joined = reason.before >= fit::Verdict::does_not_fit ? joining(reason, steps) : nullptr;
    if (joined != nullptr) say_once(joined->not_before, statement);
    if (joined != nullptr && reason.before != fit::Verdict::destroys) continue;
    if (auto* powered = powering(reason, steps)) say_once(powered->not_before, statement);
  }
}

}  // namespace benchgraft::steps
