#include "tasks/judge_rebuild.hpp"

#include "catalogue/text.hpp"
#include "sheets/json.hpp"
#include "sheets/judgement_page.hpp"
#include "sheets/ways_page.hpp"
#include "steps/steps.hpp"
#include "tasks/ways.hpp"

namespace benchgraft::tasks {
namespace {

// One line on a sheet need not wait for every way out.
constexpr std::size_t kJudgementsForASheet = 500;

}  // namespace

Result<Answer> judge_rebuild(const RebuildAsked& asked) {
  auto judged = judge_asked(asked);
  if (!judged) return judged.error();
  const auto& [known, rebuild, judgement, currency] = judged.value();
  const sheets::About about{rebuild.name, currency};
  return Answer{sheets::judgement_page(judgement, about), sheets::judgement_json(judgement, about)};
}

Result<Answer> build_sheet(const RebuildAsked& asked) {
  auto judged = judge_asked(asked);
  if (!judged) return judged.error();
  const auto& [known, rebuild, judgement, currency] = judged.value();
  const sheets::About about{rebuild.name, currency};
  if (judgement.verdict > fit::Verdict::unknown) {
    auto page = sheets::build_page(judgement, nullptr, about);
    auto way = cheapest_way(asked, rebuild, kJudgementsForASheet);
    if (!way) return way.error();
    page.figures.push_back(sheets::way_out_words(way.value(), about));
    return Answer{std::move(page), sheets::build_json(judgement, nullptr, about)};
  }
  auto work = steps::order(known, judgement);
  if (!work) return work.error();
  return Answer{sheets::build_page(judgement, &work.value(), about),
                sheets::build_json(judgement, &work.value(), about)};
}

Result<std::string> rebuild_file(const RebuildAsked& asked) {
  auto judged = judge_asked(asked);
  if (!judged) return judged.error();
  return catalogue::write_rebuild(judged.value().rebuild);
}

}  // namespace benchgraft::tasks
