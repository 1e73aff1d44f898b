#include "cli/run.hpp"

#include <cstdio>
#include <exception>
#include <string>

#include "base/text.hpp"
#include "cli/answers.hpp"
#include "cli/asked.hpp"
#include "cli/screen.hpp"
#include "tasks/adjust.hpp"
#include "tasks/check_catalogue.hpp"
#include "tasks/journal.hpp"
#include "tasks/judge_rebuild.hpp"
#include "tasks/look_up.hpp"
#include "tasks/move_files.hpp"
#include "tasks/note_swap.hpp"
#include "tasks/plan_room.hpp"
#include "tasks/rebuild_record.hpp"
#include "tasks/ways.hpp"
#include "tasks/why.hpp"
#include "tasks/wish.hpp"

namespace benchgraft::cli {
namespace {

// Each command in one line: the task it asks, and how the answer is shown.
class Runner {
 public:
  Runner(const Asked& asked, Screen& screen)
      : asked_(asked),
        screen_(screen),
        at_{asked.shop, asked.who},
        knowledge_{asked.data, asked.catalogue} {}

  int operator()(const std::monostate&) { return kWrongCommandLine; }
  int operator()(const AskImport& ask) {
    return shown(tasks::import_paths(at_, knowledge_, ask.paths));
  }
  int operator()(const AskExport& ask) { return shown(tasks::export_folder(at_, ask.folder)); }
  int operator()(const AskCheck& ask) {
    auto knowledge = knowledge_;
    knowledge.folders.insert(knowledge.folders.end(), ask.folders.begin(), ask.folders.end());
    return shown(tasks::check_catalogue(knowledge));
  }
  int operator()(const AskPlan& ask) {
    auto plan = tasks::plan_room(at_, knowledge_, {ask.seconds, true, progress()});
    return answered(plan);
  }
  int operator()(const AskJudge& ask) { return answered(tasks::judge_rebuild(about(ask.rebuild))); }
  int operator()(const AskWays& ask) { return answered(tasks::ways(about(ask.rebuild))); }
  int operator()(const AskSheet& ask);
  int operator()(const AskWriteRebuild& ask);
  int operator()(const AskAdjust& ask);
  int operator()(const AskWhy& ask) { return answered(tasks::why(about(ask.rebuild), ask.code)); }
  int operator()(const AskList& ask) {
    return answered(tasks::list_all(at_, knowledge_, ask.what));
  }
  int operator()(const AskFind& ask) {
    std::string words;
    for (const auto& word : ask.words) words += (words.empty() ? "" : " ") + word;
    return answered(tasks::find(at_, knowledge_, words));
  }
  int operator()(const AskShow& ask) { return answered(tasks::show_one(at_, ask.code)); }
  int operator()(const AskJournal& ask) { return answered(tasks::journal(at_, ask.most)); }
  int operator()(const AskTakeIn& ask) {
    return shown(tasks::take_in_set(at_, ask.code, ask.words));
  }
  int operator()(const AskSet& ask) { return shown(tasks::change_set(at_, ask.code, ask.words)); }
  int operator()(const AskPart& ask) {
    return shown(ask.is_new ? tasks::add_part(at_, ask.code, ask.words, ask.spot, ask.state)
                            : tasks::change_part(at_, ask.code, ask.words));
  }
  int operator()(const AskMark& ask) { return shown(tasks::mark_part(at_, ask.part, ask.test)); }
  int operator()(const AskMove& ask) { return shown(tasks::move_part(at_, ask.part, ask.spot)); }
  int operator()(const AskChange& ask) {
    return shown(tasks::record_change(at_, knowledge_, ask.part, ask.words));
  }
  int operator()(const AskNote& ask) { return shown(tasks::note_swap(at_, ask.file)); }
  int operator()(const AskWish& ask) {
    return shown(ask.withdraw.empty() ? tasks::make_wish(at_, ask.sort, ask.set, ask.part, ask.note)
                                      : tasks::withdraw_wish(at_, ask.withdraw));
  }
  int operator()(const AskBegin& ask) {
    return shown(tasks::begin_rebuild(at_, knowledge_, ask.host, ask.name, progress()));
  }
  int operator()(const AskFinish& ask) {
    return shown(tasks::finish_rebuild(at_, ask.rebuild, ask.work_minutes, ask.old_to, ask.note));
  }
  int operator()(const AskGiveUp& ask) {
    return shown(tasks::give_up_rebuild(at_, ask.rebuild, ask.note));
  }
  int operator()(const AskTerms& ask) { return shown(tasks::set_terms(at_, ask.words)); }
  int operator()(const AskUndo& ask) {
    return shown(tasks::take_back(at_, ask.entry, ask.and_later));
  }

 private:
  [[nodiscard]] tasks::RebuildAsked about(const std::string& named) const {
    return {named, at_, knowledge_, progress()};
  }

  [[nodiscard]] tasks::Progress progress() const {
    return [this](const std::string& text) { screen_.progress(text); };
  }

  int answered(const Result<tasks::Answer>& answer) const {
    screen_.end_progress();
    if (!answer) return screen_.fail(answer.error());
    if (asked_.json)
      screen_.print(answer.value().json);
    else
      screen_.show(answer.value().page);
    return 0;
  }

  // Everything that was done or counted, in the words or the JSON of answers.hpp.
  template <class Done>
  int shown(const Result<Done>& done) const {
    screen_.end_progress();
    if (!done) return screen_.fail(done.error());
    screen_.print(asked_.json ? as_json(done.value()) : as_words(done.value()));
    return 0;
  }

  const Asked& asked_;
  Screen& screen_;
  tasks::ShopAt at_;
  tasks::Knowledge knowledge_;
};

int Runner::operator()(const AskSheet& ask) {
  auto sheet = tasks::build_sheet(about(ask.rebuild));
  screen_.end_progress();
  if (!sheet || ask.html.empty()) return answered(sheet);
  if (const auto written = write_whole(ask.html, sheets::as_html(sheet.value().page)); !written)
    return screen_.fail(written.error());
  if (asked_.json) return answered(sheet);
  screen_.print("The sheet is written: " + ask.html + "\n");
  return 0;
}

int Runner::operator()(const AskAdjust& ask) {
  auto found = tasks::adjust(at_, knowledge_, ask.words);
  screen_.end_progress();
  if (!found || ask.html.empty()) return answered(found);
  if (const auto written = write_whole(ask.html, sheets::as_html(found.value().page)); !written)
    return screen_.fail(written.error());
  if (asked_.json) return answered(found);
  screen_.print("The page is written: " + ask.html + "\n");
  return 0;
}

int Runner::operator()(const AskWriteRebuild& ask) {
  auto text = tasks::rebuild_file(about(ask.host));
  screen_.end_progress();
  if (!text) return screen_.fail(text.error());
  screen_.print(text.value());
  return 0;
}

int run_unguarded(int count, const char* const* words) {
  Parsed parsed = parse(count, words);
  if (!parsed.understood) {
    std::fputs(parsed.print.c_str(), parsed.exit_code == 0 ? stdout : stderr);
    return parsed.exit_code;
  }
  const Surroundings around = surroundings();
  if (parsed.asked.shop.empty()) parsed.asked.shop = around.shop;
  if (parsed.asked.who.empty()) parsed.asked.who = around.who;
  Screen screen(around);
  return std::visit(Runner(parsed.asked, screen), parsed.asked.command);
}

}  // namespace

int run(int count, const char* const* words) {
  try {
    const int code = run_unguarded(count, words);
    // A full disk shows only when the last of the answer is written.
    if (std::fflush(stdout) == 0) return code;
    std::fputs("benchgraft: the answer could not be written in full.\n", stderr);
    return exit_code(ErrorKind::storage);
  } catch (const std::exception& error) {
    std::fprintf(stderr,
                 "benchgraft: a mistake in the program stopped it (%s); nothing was half done.\n",
                 error.what());
    return 1;
  } catch (...) {
    std::fputs("benchgraft: a mistake in the program stopped it.\n", stderr);
    return 1;
  }
}

}  // namespace benchgraft::cli
