#include <gtest/gtest.h>

#include "golden/golden.hpp"
#include "sheets/json.hpp"
#include "sheets/judgement_page.hpp"
#include "sheets/plan_page.hpp"
#include "sheets/sample.hpp"
#include "sheets/why_page.hpp"

namespace benchgraft::sheets {
namespace {

const About kAbout{"late engine into H2", "EUR"};

TEST(GoldenSheets, the_build_sheet_as_text) {
  const auto work = sample_work();
  expect_golden("build_sheet.txt", as_text(build_page(sample_judgement(), &work, kAbout)));
}

TEST(GoldenSheets, the_build_sheet_as_html) {
  const auto work = sample_work();
  expect_golden("build_sheet.html", as_html(build_page(sample_judgement(), &work, kAbout)));
}

TEST(GoldenSheets, the_judgement_as_text) {
  expect_golden("judgement.txt", as_text(judgement_page(sample_judgement(), kAbout)));
}

TEST(GoldenSheets, the_judgement_as_json) {
  expect_golden("judgement.json", judgement_json(sample_judgement(), kAbout));
}

TEST(GoldenSheets, a_rebuild_that_must_not_be_built) {
  auto judged = sample_judgement();
  judged.verdict = fit::Verdict::destroys;
  judged.reasons.front().verdict = fit::Verdict::destroys;
  const auto work = sample_work();
  expect_golden("must_not_be_built.txt", as_text(build_page(judged, &work, kAbout)));
}

TEST(GoldenSheets, the_plan_as_text) {
  expect_golden("plan.txt", as_text(plan_page(sample_plan(), "EUR")));
}

TEST(GoldenSheets, the_plan_as_json) {
  expect_golden("plan.json", plan_json(sample_plan(), "EUR"));
}

TEST(GoldenSheets, why_something_was_said) {
  expect_golden("why_reason.txt", as_text(why_page(sample_judgement(), "D4NG").value()));
}

TEST(GoldenSheets, why_something_is_asked) {
  expect_golden("why_question.txt", as_text(why_page(sample_judgement(), "QST2").value()));
}

TEST(GoldenSheets, why_a_set_is_used_so) {
  expect_golden("why_set.txt", as_text(why_page(sample_plan(), "D3", "EUR").value()));
}

}  // namespace
}  // namespace benchgraft::sheets
