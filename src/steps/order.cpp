#include "steps/stages.hpp"

namespace benchgraft::steps {

std::string to_text(Stage stage) {
  switch (stage) {
    case Stage::read_first:
      return "Read first";
    case Stage::fetch:
      return "Get the parts";
    case Stage::make_safe:
      return "Make safe";
    case Stage::open:
      return "Open";
    case Stage::take_out:
      return "Take out";
    case Stage::bench:
      return "On the bench";
    case Stage::put_in:
      return "Put in";
    case Stage::close:
      return "Close";
    case Stage::first_power:
      return "First power";
    case Stage::adjust:
      return "Adjust";
    case Stage::prove:
      return "Prove it";
    case Stage::hand_over:
      return "Hand over";
  }
  return "";
}

namespace {
void add_up(WorkOrder& work) {
  for (const auto& each : work.steps) {
    if (each.work_minutes)
      work.work_minutes += *each.work_minutes;
    else
      ++work.without_minutes;
    work.waiting_minutes += each.waiting_minutes;
  }
}
}  // namespace

Result<WorkOrder> order(const catalogue::Catalogue& known, const fit::Judgement& judged) {
  const Site site(known, judged);
  const auto handling = handle(site);
  if (!handling) return handling.error();
  WorkOrder work;
  read_first(site, work.steps);
  fetch(site, work.steps);
  make_safe(site, handling.value(), work.steps);
  open(site, work.steps);
  take_out(site, handling.value(), work.steps);
  on_the_bench(site, handling.value(), work.steps);
  put_in(site, handling.value(), work.steps);
  close(site, work.steps);
  first_power(site, work.steps);
  adjust(site, work.steps);
  prove(site, work.steps);
  hand_over(site, work.steps);
  place_cautions(site, work.steps);
  place_not_before(judged, work.steps);
  add_up(work);
  return work;
}

}  // namespace benchgraft::steps
