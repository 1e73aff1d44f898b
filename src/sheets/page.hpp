// A sheet before it becomes text or HTML: headed blocks of plain statements.
#pragma once

#include <string>
#include <vector>

namespace benchgraft::sheets {

/// What a line means. A word on the line always says the same; colour only repeats it.
enum class Tone { plain, good, work, ask, bad, danger, quiet };

struct Line {
  std::string mark;  ///< short word in front: "Danger", "Caution"; "" = none
  std::string text;
  std::string code;  ///< ask "why" by it; "" = nothing to ask
  Tone tone = Tone::plain;
  std::string aside;              ///< at the end of the line: minutes, money
  std::vector<Line> under;        ///< what belongs to it
  bool tick = false;              ///< a box to tick off
  std::vector<std::string> more;  ///< opened by a touch where the sheet is on a screen
};

struct Table {
  std::vector<std::string> head;
  std::vector<std::vector<std::string>> rows;
};

struct Block {
  std::string heading;
  int level = 1;     ///< 1 = a part of the sheet, 2 = a group inside it
  std::string lead;  ///< a sentence under the heading
  std::vector<Line> lines;
  Table table;            ///< instead of lines, or after them
  bool folded = false;    ///< shown on request; on paper and as text it is short enough to stand
  bool numbered = false;  ///< numbers go on from block to block
};

struct Page {
  std::string title;
  Line verdict;                      ///< the one line to read when there is time for one
  std::vector<std::string> figures;  ///< minutes, material, chance
  std::vector<Block> blocks;
  std::vector<std::string> foot;
};

struct TextStyle {
  bool colour = false;     ///< only for a terminal that wants it
  std::size_t width = 80;  ///< columns
};

std::string as_text(const Page& page, const TextStyle& style = {});

/// One file, no scripts, nothing fetched: for the phone beside the set and for A4 paper.
std::string as_html(const Page& page);

/// "12 min", "1 h 30 min", "a few seconds".
std::string minutes_text(double minutes);
/// "74 %", and never 0 or 100 for something that is not certain.
std::string percent_text(double share);

}  // namespace benchgraft::sheets
