// The commands and their options. The only file that knows CLI11.
#include <sstream>

#include <CLI/CLI.hpp>

#include "base/text.hpp"
#include "cli/asked.hpp"

namespace benchgraft::cli {
namespace {

constexpr const char* kVersion = "benchgraft 0.1.0";

// One command under construction: its options write straight into the struct it hands over.
template <class Ask>
class Builder {
 public:
  Builder(CLI::App& app, Asked& asked, const std::string& name, const std::string& does,
          const std::string& example)
      : ask_(std::make_shared<Ask>()), sub_(app.add_subcommand(name, does)) {
    sub_->footer("Example:\n  " + example);
    sub_->fallthrough();
    sub_->callback([held = ask_, &asked] { asked.command = *held; });
  }

  Ask& operator*() { return *ask_; }
  Ask* operator->() { return ask_.get(); }
  template <class T>
  Builder& needs(const std::string& name, T& into, const std::string& says) {
    sub_->add_option(name, into, says)->required();
    return *this;
  }
  template <class T>
  Builder& may(const std::string& name, T& into, const std::string& says) {
    sub_->add_option(name, into, says);
    return *this;
  }
  Builder& flag(const std::string& name, bool& into, const std::string& says) {
    sub_->add_flag(name, into, says);
    return *this;
  }

 private:
  std::shared_ptr<Ask> ask_;
  CLI::App* sub_;
};

void add_files(CLI::App& app, Asked& asked) {
  Builder<AskImport> in(app, asked, "import", "Take files or folders into the shop; makes the shop",
                        "benchgraft --shop loft.shop import data/demo");
  in.needs("PATH", in->paths, "Folders or files: .toml and .csv");
  Builder<AskExport> out(app, asked, "export", "Write the shop as text files",
                         "benchgraft --shop loft.shop export loft_text");
  out.needs("DIR", out->folder, "Folder to write into");
  Builder<AskCheck> check(app, asked, "check",
                          "Read catalogue folders and say what is still unknown",
                          "benchgraft check data/demo/catalogue");
  check.needs("DIR", check->folders, "Catalogue folders");
}

void add_answers(CLI::App& app, Asked& asked) {
  Builder<AskPlan> plan(app, asked, "plan", "The best use of everything that is here",
                        "benchgraft --shop loft.shop plan --seconds 5");
  plan.may("--seconds", plan->seconds, "Time to look for a better plan (15)");
  Builder<AskJudge> judge(app, asked, "judge", "Every surprise of one rebuild, before it is opened",
                          "benchgraft judge first.toml --catalogue data/demo/catalogue");
  judge.needs("REBUILD", judge->rebuild, "A rebuild file, or with a shop the code of a host");
  Builder<AskWays> ways(app, asked, "ways",
                        "What it would take to finish a host that cannot be finished",
                        "benchgraft --shop loft.shop ways H2");
  ways.needs("REBUILD", ways->rebuild,
             "A rebuild file, or with a shop the code of a host as it stands");
  Builder<AskSheet> sheet(
      app, asked, "sheet", "The build sheet for the bench",
      "benchgraft sheet first.toml --catalogue data/demo/catalogue --html first.html");
  sheet.needs("REBUILD", sheet->rebuild, "A rebuild file, or with a shop the code of a host");
  sheet.may("--html", sheet->html, "Write one HTML file for phone and paper");
  Builder<AskWhy> why(app, asked, "why",
                      "Why something was said: rule, facts, source, what would change it",
                      "benchgraft why 7H6M first.toml --catalogue data/demo/catalogue");
  why.needs("CODE", why->code, "The letters in brackets, or the code of a set or part");
  why.may("REBUILD", why->rebuild, "The rebuild it was said about; not needed with a shop");
  Builder<AskWriteRebuild> write(app, asked, "write-rebuild",
                                 "The rebuild the plan makes of a host, as a rebuild file",
                                 "benchgraft --shop loft.shop write-rebuild H2 > H2.toml");
  write.needs("HOST", write->host, "Code of the host");
}

void add_adjusting(CLI::App& app, Asked& asked) {
  Builder<AskAdjust> adjust(app, asked, "adjust",
                            "The right value of a setting, from a few looks at the screen",
                            "benchgraft adjust \"wheel index\" 40=purplish 57=green");
  auto& words = adjust->words;
  adjust.needs("SETTING", words.setting, "\"wheel index\", \"pixel shift gain\", ...")
      .may("READING", words.readings,
           "Value and what was seen there: 40=purplish, or 40=3.2; with --wheel "
           "40=red:orange,green:green,blue:violet, or lux: 40=green:210,blue:31")
      .may("--by", words.observer, "Who judges: \"red bar\", \"photo of the comb\", ...")
      .may("--low", words.low, "Lowest value of this set")
      .may("--high", words.high, "Highest value of this set")
      .may("--step", words.step, "Least change of the value")
      .may("--part", words.parts,
           "Given twice: the two parts; begin where it ended with them before")
      .may("--start", words.start, "Where the setting stands now")
      .may("--wheel", words.wheel, "Segments in the order the light meets them: RGB, RGBRGB, RGBW")
      .may("--turns", words.turns_per_second, "Turns of the wheel a second (120)")
      .may("--degrees-per-step", words.degrees_per_step, "Wheel turn of one step, if known")
      .may("--html", adjust->html, "Write one HTML file for phone and paper");
}

void add_look_ups(CLI::App& app, Asked& asked) {
  Builder<AskList> list(app, asked, "list",
                        "Lists: sets, parts, wishes, rebuilds, terms, types, models, kinds",
                        "benchgraft --shop loft.shop list parts");
  list.needs("WHAT", list->what, "sets, parts, wishes, rebuilds, terms, types, models or kinds");
  Builder<AskFind> find(app, asked, "find", "Search sets, parts, part types, models and kinds",
                        "benchgraft --shop loft.shop find lamp driver");
  find.needs("WORD", find->words, "Starts of words; all of them must be there");
  Builder<AskShow> show(app, asked, "show", "Everything about one set or part, with its history",
                        "benchgraft --shop loft.shop show H2");
  show.needs("CODE", show->code, "Code of a set or part");
  Builder<AskJournal> journal(app, asked, "journal", "What was done, newest first",
                              "benchgraft --shop loft.shop journal --most 50");
  journal.may("--most", journal->most, "How many entries (20); 0 = all");
}

template <class Ask>
void set_words(Builder<Ask>& set) {
  auto& words = set->words;
  set.may("--model", words.model, "Model, when it is known")
      .may("--variant", words.variant, "Variant of the model")
      .may("--kind", words.kind, "Kind of set, when the model is not known")
      .may("--candidate", words.candidates, "Models it may be")
      .may("--owner", words.owner, "Whose it is")
      .may("--consent", words.consent,
           "\"may strip\" or \"must go back\"; unknown counts as the latter")
      .may("--looks", words.looks, "good, fair or poor")
      .may("--missing", words.missing, "Positions or roles that are empty")
      .may("--complaint", words.complaint, "What it does or does not do")
      .may("--place", words.place, "Where it stands")
      .may("--fate", words.fate, "here, rebuilt, stripped or gone")
      .may("--taken-in", words.taken_in, "Date, as 2026-05-31")
      .may("--note", words.note, "Anything else");
}

void add_set_commands(CLI::App& app, Asked& asked) {
  Builder<AskTakeIn> take(
      app, asked, "take-in", "A set comes in",
      "benchgraft --shop loft.shop take-in --model \"Alder 46\" --consent \"may strip\"");
  take.may("--code", take->code, "Code for the tape; one is made when none is given");
  set_words(take);
  Builder<AskSet> set(app, asked, "set", "Correct what is on record about a set",
                      "benchgraft --shop loft.shop set H2 --looks fair");
  set.needs("CODE", set->code, "Code of the set");
  set_words(set);
}

void add_part_commands(CLI::App& app, Asked& asked) {
  Builder<AskPart> part(
      app, asked, "part", "Add a part with --new, or correct one",
      "benchgraft --shop loft.shop part --new --type HD-20/A --place \"shelf 3\" --state good");
  auto& words = part->words;
  part.may("CODE", part->code, "Code of the part; for a new one a code is made when none is given")
      .flag("--new", part->is_new, "It is a new part")
      .may("--type", words.type, "Printed number, with /revision")
      .may("--candidate", words.candidates, "Part types it may be")
      .may("--role", words.roles, "What it does, when the type is not known")
      .may("--state", part->state, "For a new part: untested, good, suspect or bad")
      .may("--run-hours", words.run_hours, "Hours it has run")
      .may("--chance", words.chance_percent, "How likely it works, in percent, as you see it")
      .may("--in", part->spot.in_set, "For a new part: code of the set it is in")
      .may("--position", part->spot.position, "For a new part: its position in that set")
      .may("--place", part->spot.place, "For a new part: its shelf")
      .may("--from", words.from, "Set it was pulled from")
      .may("--note", words.note, "Anything else");
  Builder<AskMark> mark(app, asked, "mark", "Say whether a part is good or bad",
                        "benchgraft --shop loft.shop mark 7KR good --how \"ran an hour\" --in H2");
  mark.needs("PART", mark->part, "Code of the part")
      .needs("STATE", mark->test.state, "good, bad, suspect or untested")
      .may("--how", mark->test.how, "How it was tested")
      .may("--in", mark->test.in, "In which set")
      .may("--on", mark->test.on, "Date; today when left out");
  Builder<AskMove> move(app, asked, "move", "A part goes into a set or onto a shelf",
                        "benchgraft --shop loft.shop move 7KR --place \"shelf 3\"");
  move.needs("PART", move->part, "Code of the part")
      .may("--in", move->spot.in_set, "Code of the set")
      .may("--position", move->spot.position, "Position in the set")
      .may("--place", move->spot.place, "Shelf");
  Builder<AskChange> change(
      app, asked, "change", "Record what was done to a part",
      "benchgraft --shop loft.shop change 7KR \"contact moved\" --port CTL --from 2 --to 3");
  auto& done = change->words;
  change.needs("PART", change->part, "Code of the part")
      .needs("WHAT", done.sort,
             "plug cut, contact moved, contact removed, piece gone, piece added, lead replaced, "
             "memory changed or now has")
      .may("--port", done.port, "Port")
      .may("--from", done.from, "Contact it was on")
      .may("--to", done.to, "Contact it is on now")
      .may("--piece", done.piece, "Piece")
      .may("--piece-kind", done.piece_kind, "Kind of piece: bracket, shield, ferrite, ...")
      .may("--setting", done.setting, "Setting in its memory")
      .may("--trait", done.trait, "Trait it now has: panel code, ...")
      .may("--word", done.trait_word, "The word that trait now has")
      .may("--number", done.trait_number, "The number that trait now has")
      .may("--lead-mm", done.lead_mm, "Length of the new lead")
      .may("--note", done.note, "Anything else");
}

void add_rebuild_commands(CLI::App& app, Asked& asked) {
  Builder<AskBegin> begin(app, asked, "begin", "Begin the rebuild of a host as the plan has it",
                          "benchgraft --shop loft.shop begin H2");
  begin.needs("HOST", begin->host, "Code of the host")
      .may("--name", begin->name, "Name; one is made when none is given");
  Builder<AskFinish> finish(
      app, asked, "finish", "A rebuild is finished",
      "benchgraft --shop loft.shop finish \"H2 2026-05-31\" --minutes 240 --old-to \"shelf 5\"");
  finish.needs("REBUILD", finish->rebuild, "Its name")
      .may("--minutes", finish->work_minutes, "Minutes of work")
      .may("--old-to", finish->old_to, "Shelf for what came out")
      .may("--note", finish->note, "Anything else");
  Builder<AskGiveUp> give_up(app, asked, "give-up",
                             "A rebuild is given up; host and parts are free again",
                             "benchgraft --shop loft.shop give-up \"H2 2026-05-31\"");
  give_up.needs("REBUILD", give_up->rebuild, "Its name").may("--note", give_up->note, "Why");
}

void add_other_commands(CLI::App& app, Asked& asked) {
  Builder<AskNote> note(app, asked, "note", "Add a swap note; it counts from now on",
                        "benchgraft --shop loft.shop note yesterday.toml");
  note.needs("FILE", note->file, "A file with one [[swap_note]]");
  Builder<AskWish> wish(app, asked, "wish", "Insist on something, or withdraw it",
                        "benchgraft --shop loft.shop wish \"never strip\" --set H2");
  wish.may("WHAT", wish->sort, "build this, never strip, never build, use part in or keep part")
      .may("--set", wish->set, "Code of the set")
      .may("--part", wish->part, "Code of the part")
      .may("--note", wish->note, "Why")
      .may("--withdraw", wish->withdraw, "First letters of a wish, as \"list wishes\" shows them");
  Builder<AskTerms> terms(app, asked, "terms", "Change what the shop calculates with",
                          "benchgraft --shop loft.shop terms --per-hour 28 --hours 16");
  auto& words = terms->words;
  terms.may("--currency", words.currency, "Three letters: EUR, USD, ...")
      .may("--per-hour", words.per_hour, "What an hour at the bench costs")
      .may("--hours", words.hours, "Bench hours to plan for; 0 = as many as it takes")
      .may("--volts", words.mains_volts, "Mains voltage")
      .may("--hz", words.mains_hz, "Mains frequency")
      .may("--touch-profile", words.touch_profile, "Limit profile for touch current");
  Builder<AskUndo> undo(app, asked, "undo", "Take the last change back, or the one of an entry",
                        "benchgraft --shop loft.shop undo 12 --and-later");
  undo.may("ENTRY", undo->entry, "Entry of the journal; the newest that stands when left out")
      .flag("--and-later", undo->and_later, "With what came later and needs it");
}

void add_common(CLI::App& app, Asked& asked) {
  app.add_option("--shop", asked.shop, "Shop file; BENCHGRAFT_SHOP may name it");
  app.add_option("--catalogue", asked.catalogue, "Catalogue folder; may be given several times")
      ->allow_extra_args(false);
  app.add_option("--data", asked.data,
                 "Folder with the kinds and limits, instead of the one shipped");
  app.add_option("--who", asked.who, "Who acts, for the journal");
  app.add_flag("--json", asked.json, "Answer as JSON");
  app.set_version_flag("--version", kVersion);
}

std::string no_command(const CLI::App& app) {
  const auto extra = app.remaining();
  if (extra.empty()) return "Say what to do: benchgraft --help lists the commands.";
  std::vector<std::string> known;
  for (const auto* sub : app.get_subcommands([](const CLI::App*) { return true; }))
    known.push_back(sub->get_name());
  const auto near = nearest_word(extra.front(), known);
  return "\"" + extra.front() + "\" is no command" +
         (near.empty() ? "; benchgraft --help lists them." : "; did you mean \"" + near + "\"?");
}

// CLI11's own sentences speak of arguments and subcommands; ours name the word and the way out.
std::string wrong_line(const CLI::App& app, const CLI::ParseError& error) {
  const auto chosen = app.get_subcommands();
  if (chosen.empty()) return no_command(app);
  std::string wrong = error.what();
  auto extra = app.remaining(true);
  if (dynamic_cast<const CLI::ExtrasError*>(&error) != nullptr && !extra.empty())
    wrong = "\"" + extra.front() + "\" is not understood here";
  else if (dynamic_cast<const CLI::ConversionError*>(&error) != nullptr)
    wrong = "\"" + wrong.substr(wrong.rfind(' ') + 1) + "\" is not a number";
  else if (dynamic_cast<const CLI::RequiredError*>(&error) != nullptr)
    wrong = wrong.substr(0, wrong.find(' ')) + " is missing";
  return wrong + "; see: benchgraft " + chosen.front()->get_name() + " --help";
}

}  // namespace

Parsed parse(int count, const char* const* words) {
  CLI::App app{
      "Which working sets can be built out of the dead ones on the bench, and what happens "
      "before it does.",
      "benchgraft"};
  app.footer(
      "Example:\n  benchgraft --shop loft.shop plan\n"
      "Every command explains itself: benchgraft COMMAND --help");
  app.require_subcommand(1);
  Parsed parsed;
  add_common(app, parsed.asked);
  add_answers(app, parsed.asked);
  add_adjusting(app, parsed.asked);
  add_files(app, parsed.asked);
  add_look_ups(app, parsed.asked);
  add_set_commands(app, parsed.asked);
  add_part_commands(app, parsed.asked);
  add_rebuild_commands(app, parsed.asked);
  add_other_commands(app, parsed.asked);
  try {
    app.parse(count, words);
    parsed.understood = true;
  } catch (const CLI::ParseError& error) {
    std::ostringstream out, err;
    if (app.exit(error, out, err) == 0) {
      parsed.print = out.str();
      return parsed;
    }
    parsed.exit_code = kWrongCommandLine;
    parsed.print = "benchgraft: " + wrong_line(app, error) + "\n";
  }
  return parsed;
}

}  // namespace benchgraft::cli
