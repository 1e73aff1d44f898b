#include "shop/csv.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"

namespace benchgraft::shop {

namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

Error at_line(const std::string& file, int line, const std::string& sentence) {
  return {ErrorKind::bad_input, fmt::format("{}, line {}: {}", file, line, sentence)};
}

// The first of , ; tab outside quotes: spreadsheet programs of some countries write ';'.
char separator_of(std::string_view text) {
  bool quoted = false;
  for (const char c : text) {
    if (c == '"') quoted = !quoted;
    if (quoted) continue;
    if (c == ',' || c == ';' || c == '\t') return c;
    if (c == '\n' || c == '\r') break;
  }
  return ',';
}

/// Reads one cell after the other.
class CsvReading {
 public:
  CsvReading(std::string_view text, const std::string& file)
      : text_(text), file_(file), separator_(separator_of(text)) {}

  Result<std::vector<CsvRow>> rows() {
    std::vector<CsvRow> rows;
    while (at_ < text_.size()) {
      CsvRow row{line_, {}};
      if (auto read = read_row(row); !read) return read.error();
      if (std::any_of(row.cells.begin(), row.cells.end(),
                      [](const auto& cell) { return !cell.empty(); }))
        rows.push_back(std::move(row));
    }
    return rows;
  }

 private:
  [[nodiscard]] bool at_end_of_row() const {
    return at_ >= text_.size() || text_[at_] == '\n' || text_[at_] == '\r';
  }

  void next_line() {
    if (at_ + 1 < text_.size() && text_[at_] == '\r' && text_[at_ + 1] == '\n') ++at_;
    ++at_;
    ++line_;
  }

  Result<void> read_row(CsvRow& row) {
    for (;;) {
      auto cell = at_ < text_.size() && text_[at_] == '"' ? quoted_cell() : bare_cell();
      if (!cell) return cell.error();
      row.cells.push_back(std::move(cell.value()));
      if (at_end_of_row()) break;
      ++at_;  // the separator
    }
    if (at_ < text_.size()) next_line();
    return {};
  }

  Result<std::string> bare_cell() {
    const std::size_t from = at_;
    while (!at_end_of_row() && text_[at_] != separator_) {
      if (text_[at_] == '"')
        return at_line(
            file_, line_,
            fmt::format("a quote stands inside the cell {}; put the whole cell in quotes and "
                        "write each quote in it twice.",
                        std::string(text_.substr(from, at_ - from + 1))));
      ++at_;
    }
    return std::string(text_.substr(from, at_ - from));
  }

  Result<std::string> quoted_cell() {
    const int opened = line_;
    std::string cell;
    for (++at_; at_ < text_.size(); ++at_) {
      if (text_[at_] == '"') {
        if (at_ + 1 >= text_.size() || text_[at_ + 1] != '"') break;
        ++at_;
      }
      if (text_[at_] == '\n') ++line_;
      cell += text_[at_];
    }
    if (at_ >= text_.size())
      return at_line(file_, opened,
                     "a quote is opened and never closed; close it, or write it twice.");
    ++at_;
    while (!at_end_of_row() && text_[at_] == ' ') ++at_;
    if (!at_end_of_row() && text_[at_] != separator_)
      return at_line(
          file_, line_,
          fmt::format("\"{}\" goes on after its closing quote; write each quote inside a cell "
                      "twice.",
                      cell.substr(0, 40)));
    return cell;
  }

  std::string_view text_;
  const std::string& file_;
  char separator_;
  std::size_t at_ = 0;
  int line_ = 1;
};

bool needs_quotes(const std::string& cell) {
  return cell.find_first_of(",;\t\"\r\n") != std::string::npos ||
         trimmed(cell).size() != cell.size();
}

}  // namespace

Result<std::vector<CsvRow>> parse_csv(std::string_view text, const std::string& file) {
  if (text.starts_with(kByteOrderMark)) text.remove_prefix(kByteOrderMark.size());
  if (const std::size_t bad = first_bad_utf8(text); bad != std::string_view::npos)
    return at_line(file,
                   1 + static_cast<int>(std::count(
                           text.begin(), text.begin() + static_cast<std::ptrdiff_t>(bad), '\n')),
                   fmt::format("byte 0x{:02x} is not UTF-8 text; save the file as UTF-8.",
                               static_cast<unsigned>(static_cast<unsigned char>(text[bad]))));
  return CsvReading(text, file).rows();
}

void add_csv_row(std::string& text, const std::vector<std::string>& cells) {
  bool first = true;
  for (const auto& cell : cells) {
    if (!first) text += ',';
    first = false;
    if (!needs_quotes(cell)) {
      text += cell;
      continue;
    }
    text += '"';
    for (const char c : cell) text += c == '"' ? std::string("\"\"") : std::string(1, c);
    text += '"';
  }
  text += '\n';
}

std::string list_cell(const std::vector<std::string>& words) {
  std::string cell;
  for (const auto& word : words) {
    if (!cell.empty()) cell += " | ";
    for (const char c : word) {
      if (c == '|' || c == '\\') cell += '\\';
      cell += c;
    }
  }
  return cell;
}

std::vector<std::string> words_of_cell(std::string_view cell) {
  std::vector<std::string> words;
  std::string word;
  const auto end_word = [&] {
    if (const auto clean = trimmed(word); !clean.empty()) words.emplace_back(clean);
    word.clear();
  };
  for (std::size_t i = 0; i < cell.size(); ++i) {
    if (cell[i] == '|') {
      end_word();
      continue;
    }
    if (cell[i] == '\\' && i + 1 < cell.size() && (cell[i + 1] == '|' || cell[i + 1] == '\\')) ++i;
    word += cell[i];
  }
  end_word();
  return words;
}

}  // namespace benchgraft::shop
