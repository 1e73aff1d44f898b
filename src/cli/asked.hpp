// What was asked on the command line, as plain values: one struct for each command.
#pragma once

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include "tasks/adjust.hpp"
#include "tasks/part_use.hpp"
#include "tasks/set_use.hpp"
#include "tasks/terms.hpp"

namespace benchgraft::cli {

struct AskImport {
  std::vector<std::string> paths;
};
struct AskExport {
  std::string folder;
};
struct AskPlan {
  double seconds = 15;
};
struct AskJudge {
  std::string rebuild;
};
struct AskWays {
  std::string rebuild;
};
struct AskSheet {
  std::string rebuild;
  std::string html;  ///< file to write, "" = text on the screen
};
struct AskWriteRebuild {
  std::string host;
};
struct AskWhy {
  std::string code;
  std::string rebuild;
};
struct AskCheck {
  std::vector<std::string> folders;
};
struct AskList {
  std::string what;
};
struct AskFind {
  std::vector<std::string> words;
};
struct AskShow {
  std::string code;
};
struct AskTakeIn {
  std::string code;
  tasks::SetWords words;
};
struct AskSet {
  std::string code;
  tasks::SetWords words;
};
struct AskPart {
  std::string code;
  tasks::PartWords words;
  tasks::Spot spot;
  std::string state;
  bool is_new = false;
};
struct AskMark {
  std::string part;
  tasks::Test test;
};
struct AskMove {
  std::string part;
  tasks::Spot spot;
};
struct AskChange {
  std::string part;
  tasks::ChangeWords words;
};
struct AskNote {
  std::string file;
};
struct AskWish {
  std::string sort, set, part, note;
  std::string withdraw;  ///< first letters of an id
};
struct AskBegin {
  std::string host, name;
};
struct AskFinish {
  std::string rebuild, old_to, note;
  std::optional<double> work_minutes;
};
struct AskGiveUp {
  std::string rebuild, note;
};
struct AskTerms {
  tasks::TermsWords words;
};
struct AskJournal {
  std::size_t most = 20;
};
struct AskUndo {
  std::int64_t entry = 0;
  bool and_later = false;
};

struct AskAdjust {
  tasks::AdjustWords words;
  std::string html;  ///< file to write, "" = text on the screen
};

using Command =
    std::variant<std::monostate, AskImport, AskExport, AskPlan, AskJudge, AskWays, AskSheet,
                 AskWriteRebuild, AskWhy, AskCheck, AskList, AskFind, AskShow, AskTakeIn, AskSet,
                 AskPart, AskMark, AskMove, AskChange, AskNote, AskWish, AskBegin, AskFinish,
                 AskGiveUp, AskTerms, AskJournal, AskUndo, AskAdjust>;

struct Asked {
  std::string shop;
  std::string who;
  std::string data;
  std::vector<std::string> catalogue;
  bool json = false;
  Command command;
};

/// Understood, or what to print and the exit code to leave with (help, version, a wrong line).
struct Parsed {
  bool understood = false;
  Asked asked;
  std::string print;
  int exit_code = 0;
};

inline constexpr int kWrongCommandLine = 2;

Parsed parse(int count, const char* const* words);

}  // namespace benchgraft::cli
