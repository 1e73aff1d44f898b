// A page as one HTML file: no scripts, nothing fetched, readable at arm's length, printable on A4.
#include <fmt/format.h>

#include "base/text.hpp"
#include "sheets/page.hpp"
#include "sheets/words.hpp"

namespace benchgraft::sheets {
namespace {

constexpr const char* kStyle = R"css(
:root{--paper:#fff;--ink:#16181b;--soft:#565d66;--line:#c9ced6;--box:#f3f5f8;
--danger:#a40e1c;--danger-box:#fdeaec;--bad:#9a2c00;--ask:#5b2a91;--work:#7a4d00;--good:#0f6130}
@media (prefers-color-scheme:dark){:root{--paper:#14171a;--ink:#eceff2;--soft:#aab2bc;
--line:#3c444d;--box:#1f2429;--danger:#ff9aa2;--danger-box:#3b181c;--bad:#ffb38f;--ask:#d3b5ff;
--work:#f3cb78;--good:#8fdca9}}
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%}
body{margin:0 auto;padding:1rem;max-width:46rem;background:var(--paper);color:var(--ink);
font:1.2rem/1.45 system-ui,"DejaVu Sans",sans-serif;overflow-wrap:anywhere}
h1{font-size:1.6rem;line-height:1.2;margin:.2rem 0 .6rem}
h2{font-size:1.4rem;line-height:1.25;margin:2.2rem 0 .6rem;padding-top:.5rem;
border-top:4px solid var(--ink)}
h3{font-size:1.2rem;margin:1.5rem 0 .4rem}
p{margin:.4rem 0}
ul,ol{list-style:none;margin:0;padding:0}
li{margin:0;padding:.65rem 0;border-bottom:1px solid var(--line)}
li li{padding:.3rem 0 0 1rem;border:0}
.verdict{border:3px solid currentColor;border-radius:.5rem;padding:.7rem .9rem;font-weight:600}
.figures{color:var(--soft)}
.mark{font-weight:700}
.mark::after{content:": "}
.verdict .mark{display:block;font-size:1.4rem}
.verdict .mark::after{content:""}
.code{font:600 .85em ui-monospace,"DejaVu Sans Mono",monospace;color:var(--soft);
white-space:nowrap}
.aside{color:var(--soft);white-space:nowrap}
.danger{color:var(--danger)}.bad{color:var(--bad)}.ask{color:var(--ask)}.work{color:var(--work)}
.good{color:var(--good)}.quiet{color:var(--soft)}
.box{margin:.45rem 0 0;padding:.45rem .7rem;border-left:6px solid var(--danger);
background:var(--danger-box);color:var(--ink)}
label{display:flex;gap:.8rem;align-items:flex-start;min-height:2.75rem;cursor:pointer}
input{flex:none;width:1.9rem;height:1.9rem;margin:.1rem 0 0;accent-color:var(--good)}
.step{font-weight:600}
.step .number{display:inline-block;min-width:2.1em}
.under .danger{font-weight:600}
label+.under{padding-left:2.7rem}
li:has(>label>input:checked)>.under{display:none}
li:has(>label>input:checked) .step{color:var(--soft);text-decoration:line-through}
details{border:1px solid var(--line);border-radius:.5rem;background:var(--box);
margin:1.2rem 0;padding:0 .9rem}
summary{min-height:3rem;padding:.7rem 0;font-weight:600;cursor:pointer}
.more{border:0;background:none;margin:0;padding:0}
.more summary{min-height:2.2rem;padding:.2rem 0;font-weight:400}
.nb{white-space:nowrap}
.box+.box{margin-top:0}
.box .mark{color:var(--danger)}
.scroll{overflow-x:auto}
table{border-collapse:collapse;width:100%}
th,td{text-align:left;vertical-align:top;padding:.5rem .7rem .5rem 0;
border-bottom:1px solid var(--line);overflow-wrap:normal}
footer{margin-top:2.5rem;padding-top:.8rem;border-top:4px solid var(--ink);color:var(--soft)}
@media print{
@page{size:A4;margin:14mm}
:root{--paper:#fff;--ink:#000;--soft:#444;--line:#999;--box:#fff;--danger:#000;
--danger-box:#fff;--bad:#000;--ask:#000;--work:#000;--good:#000}
body{max-width:none;padding:0;font-size:10pt;line-height:1.28}
h1{font-size:15pt}h2{font-size:13pt;margin-top:14pt}h3{font-size:11.5pt}
h2,h3{break-after:avoid}
li{padding:2.5pt 0;break-inside:avoid}
li:has(>label){break-inside:auto}
label{break-after:avoid}
.box{padding:3pt 6pt;margin-top:2pt}
label{min-height:0}
input{width:12pt;height:12pt}
label+.under{padding-left:1.6rem;display:block!important}
details:not(.more)::details-content{content-visibility:visible;height:auto}
summary{min-height:0;list-style:none}
li:has(>label>input:checked) .step{text-decoration:none;color:#000}
}
)css";

std::string escaped(const std::string& text) {
  std::string safe;
  for (const char c : text) {
    switch (c) {
      case '&':
        safe += "&amp;";
        break;
      case '<':
        safe += "&lt;";
        break;
      case '>':
        safe += "&gt;";
        break;
      case '"':
        safe += "&quot;";
        break;
      default:
        safe += c;
    }
  }
  return safe;
}

// Printed numbers ("QE-30/A") stay on one line.
std::string prose(const std::string& text) {
  std::string html;
  for (const auto& word : split(bind_units(text), ' ')) {
    if (!html.empty()) html += ' ';
    const bool number = word.find('-') != std::string::npos &&
                        word.find_first_of("0123456789") != std::string::npos;
    html += number ? fmt::format("<span class=\"nb\">{}</span>", escaped(word)) : escaped(word);
  }
  return html;
}

const char* class_of(Tone tone) {
  switch (tone) {
    case Tone::danger:
      return "danger";
    case Tone::bad:
      return "bad";
    case Tone::ask:
      return "ask";
    case Tone::work:
      return "work";
    case Tone::good:
      return "good";
    case Tone::quiet:
      return "quiet";
    case Tone::plain:
      return "";
  }
  return "";
}

std::string mark_of(const Line& line) {
  if (line.mark.empty()) return "";
  const std::string tone = class_of(line.tone);
  return fmt::format("<span class=\"mark{}\">{}</span>", tone.empty() ? "" : " " + tone,
                     escaped(line.mark));
}

std::string words_of(const Line& line) {
  std::string words = mark_of(line) + prose(line.text);
  if (!line.code.empty())
    words += fmt::format(" <span class=\"code\">[{}]</span>", escaped(line.code));
  if (!line.aside.empty())
    words += fmt::format(" <span class=\"aside\">({})</span>", escaped(line.aside));
  return words;
}

std::string under_of(const Line& line);

std::string opened_by_touch(const Line& line) {
  std::string html = fmt::format("<details class=\"more\"><summary>{}</summary>", words_of(line));
  for (const auto& words : line.more) html += fmt::format("<p>{}</p>", prose(words));
  return html + "</details>";
}

std::string item(const Line& line) {
  const bool box = line.tone == Tone::danger && !line.mark.empty();
  if (!line.more.empty())
    return fmt::format("<li{}>{}</li>\n", box ? " class=\"box\"" : "", opened_by_touch(line));
  const char* look = box ? " class=\"box\"" : line.tone == Tone::danger ? " class=\"danger\"" : "";
  return fmt::format("<li{}>{}{}</li>\n", look, words_of(line), under_of(line));
}

std::string under_of(const Line& line) {
  if (line.under.empty()) return "";
  std::string list = "\n<ul class=\"under\">\n";
  for (const auto& below : line.under) list += item(below);
  return list + "</ul>";
}

std::string step(const Line& line, int number) {
  const std::string numbered =
      number > 0 ? fmt::format("<span class=\"number\">{}.</span>", number) : "";
  return fmt::format(
      "<li><label><input type=\"checkbox\"><span class=\"step\">{}{}</span></label>{}</li>\n",
      numbered, words_of(line), under_of(line));
}

std::string table_of(const Table& table) {
  if (table.rows.empty()) return "";
  std::string html = "<div class=\"scroll\"><table>\n<tr>";
  for (const auto& cell : table.head) html += fmt::format("<th>{}</th>", escaped(cell));
  html += "</tr>\n";
  for (const auto& row : table.rows) {
    html += "<tr>";
    for (const auto& cell : row) html += fmt::format("<td>{}</td>", prose(cell));
    html += "</tr>\n";
  }
  return html + "</table></div>\n";
}

std::string inside_of(const Block& block, int& number) {
  std::string html;
  if (!block.lead.empty()) html += fmt::format("<p>{}</p>\n", escaped(block.lead));
  if (!block.lines.empty()) {
    html += block.numbered ? "<ol>\n" : "<ul>\n";
    for (const auto& line : block.lines)
      html += line.tick ? step(line, block.numbered ? number++ : 0) : item(line);
    html += block.numbered ? "</ol>\n" : "</ul>\n";
  }
  return html + table_of(block.table);
}

std::string block_html(const Block& block, int& number) {
  if (block.folded)
    return fmt::format("<details>\n<summary>{}</summary>\n{}</details>\n", escaped(block.heading),
                       inside_of(block, number));
  const int level = block.level > 1 ? 3 : 2;
  std::string html;
  if (!block.heading.empty())
    html = fmt::format("<h{}>{}</h{}>\n", level, escaped(block.heading), level);
  return html + inside_of(block, number);
}

}  // namespace

std::string as_html(const Page& page) {
  std::string html = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width,initial-scale=1\">\n"
      "<meta name=\"color-scheme\" content=\"light dark\">\n<title>{}</title>\n<style>{}</style>\n"
      "</head>\n<body>\n<header>\n<h1>{}</h1>\n",
      escaped(page.title), kStyle, escaped(page.title));
  if (!page.verdict.text.empty() || !page.verdict.mark.empty())
    html += fmt::format("<p class=\"verdict {}\">{}</p>\n", class_of(page.verdict.tone),
                        words_of(page.verdict));
  for (const auto& figure : page.figures)
    html += fmt::format("<p class=\"figures\">{}</p>\n", prose(figure));
  html += "</header>\n<main>\n";
  int number = 1;
  for (const auto& block : page.blocks) html += block_html(block, number);
  html += "</main>\n";
  if (!page.foot.empty()) {
    html += "<footer>\n";
    for (const auto& words : page.foot) html += fmt::format("<p>{}</p>\n", escaped(words));
    html += "</footer>\n";
  }
  return html + "</body>\n</html>\n";
}

}  // namespace benchgraft::sheets
