// A page as text: for the terminal, for a text printer, for mail.
#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "sheets/page.hpp"
#include "sheets/words.hpp"

namespace benchgraft::sheets {
namespace {

// Columns a text takes: every character counts one, whatever its bytes.
std::size_t columns(const std::string& text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
  }));
}

std::string upper(std::string text) {
  for (char& c : text)
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 32);
  return text;
}

// Plain blanks again, once the line is broken.
std::string unbound(std::string line) {
  for (std::size_t at = 0; (at = line.find("\u00A0", at)) != std::string::npos;)
    line.replace(at, 2, " ");
  return line;
}

const char* paint(Tone tone) {
  switch (tone) {
    case Tone::danger:
      return "\033[1;31m";
    case Tone::bad:
      return "\033[31m";
    case Tone::ask:
      return "\033[35m";
    case Tone::work:
      return "\033[33m";
    case Tone::good:
      return "\033[32m";
    case Tone::quiet:
      return "\033[2m";
    case Tone::plain:
      return "";
  }
  return "";
}

class Writer {
 public:
  explicit Writer(const TextStyle& style) : style_(style) {}

  void blank() {
    if (!text_.empty()) text_ += '\n';
  }

  void title(const std::string& words) {
    text_ += bold(words) + '\n' + std::string(std::min(columns(words), style_.width), '=') + '\n';
  }

  void heading(const std::string& words) {
    blank();
    text_ += bold(words) + '\n';
  }

  // `lead` stands before the first line, the others are set in under its end.
  void paragraph(const std::string& lead, const std::string& words, std::size_t indent,
                 Tone tone = Tone::plain, std::size_t hang = 0) {
    const std::size_t under = indent + (hang > 0 ? hang : columns(lead));
    std::string line(indent, ' ');
    line += painted(lead, tone);
    std::size_t at = indent + columns(lead);
    bool first = true;
    for (const auto& word : split(bind_units(words), ' ')) {
      if (word.empty()) continue;
      if (!first && at + 1 + columns(word) > style_.width) {
        text_ += unbound(line) + '\n';
        line = std::string(under, ' ');
        at = under;
        first = true;
      }
      if (!first) line += ' ', ++at;
      line += word;
      at += columns(word);
      first = false;
    }
    while (!line.empty() && line.back() == ' ') line.pop_back();
    text_ += unbound(line) + '\n';
  }

  void write(const Line& line, std::size_t indent, const std::string& bullet) {
    std::string words = line.text;
    if (!line.code.empty()) words += fmt::format(" [{}]", line.code);
    if (!line.aside.empty()) words += fmt::format(" ({})", line.aside);
    const std::string mark = line.mark.empty() ? "" : line.mark + ": ";
    paragraph(bullet + mark, words, indent, line.tone, columns(bullet));
    for (const auto& below : line.under) write(below, indent + columns(bullet), "- ");
  }

  void write(const Table& table, std::size_t indent) {
    std::vector<std::size_t> widths;
    const auto measure = [&](const std::vector<std::string>& row) {
      for (std::size_t i = 0; i < row.size(); ++i) {
        if (widths.size() <= i) widths.push_back(0);
        widths[i] = std::max(widths[i], columns(row[i]));
      }
    };
    measure(table.head);
    for (const auto& row : table.rows) measure(row);
    this->row(table.head, widths, indent, true);
    for (const auto& row : table.rows) this->row(row, widths, indent, false);
  }

  [[nodiscard]] std::string text() && { return std::move(text_); }
  [[nodiscard]] std::string painted(const std::string& words, Tone tone) const {
    const std::string colour = paint(tone);
    if (!style_.colour || colour.empty() || words.empty()) return words;
    return colour + words + "\033[0m";
  }

 private:
  [[nodiscard]] std::string bold(const std::string& words) const {
    return style_.colour ? "\033[1m" + words + "\033[0m" : words;
  }

  // The last column takes what is left of the line and breaks there; where that is too little it
  // starts a line of its own.
  void row(const std::vector<std::string>& cells, const std::vector<std::size_t>& widths,
           std::size_t indent, bool head) {
    if (cells.empty()) return;
    constexpr std::size_t kLeast = 24;
    std::string lead;
    for (std::size_t i = 0; i + 1 < cells.size(); ++i)
      lead += cells[i] + std::string(widths[i] - columns(cells[i]) + 2, ' ');
    if (head) {
      text_ += std::string(indent, ' ') + bold(lead + cells.back()) + '\n';
    } else if (columns(lead) + std::min(columns(cells.back()), kLeast) <= style_.width) {
      paragraph(lead, cells.back(), indent);
    } else {
      paragraph(lead, "", indent);
      paragraph("", cells.back(), indent + 4);
    }
  }

  TextStyle style_;
  std::string text_;
};

void write_block(const Block& block, Writer& writer, int& number) {
  const std::size_t indent = block.level > 1 ? 2 : 0;
  if (!block.heading.empty())
    writer.heading(block.level > 1 ? "  " + block.heading : upper(block.heading));
  else
    writer.blank();
  if (!block.lead.empty()) writer.paragraph("", block.lead, indent);
  for (const auto& line : block.lines) {
    std::string bullet = line.tick ? "[ ] " : "- ";
    if (block.numbered) bullet = fmt::format("{}{:>3}. ", line.tick ? "[ ]" : "", number++);
    writer.write(line, indent, bullet);
  }
  if (!block.table.rows.empty()) writer.write(block.table, indent);
}

}  // namespace

std::string as_text(const Page& page, const TextStyle& style) {
  Writer writer(style);
  if (!page.title.empty()) writer.title(page.title);
  if (!page.verdict.text.empty())
    writer.paragraph(page.verdict.mark.empty() ? "" : upper(page.verdict.mark) + ". ",
                     page.verdict.text, 0, page.verdict.tone, 2);
  else if (!page.verdict.mark.empty())
    writer.paragraph(upper(page.verdict.mark) + ".", "", 0, page.verdict.tone, 2);
  for (const auto& figure : page.figures) writer.paragraph("", figure, 0, Tone::plain, 2);
  int number = 1;
  for (const auto& block : page.blocks) write_block(block, writer, number);
  if (!page.foot.empty()) writer.blank();
  for (const auto& words : page.foot) writer.paragraph("", words, 0);
  return std::move(writer).text();
}

}  // namespace benchgraft::sheets
