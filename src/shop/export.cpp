// The shop as text files.
#include <map>

#include "shop/columns.hpp"
#include "shop/csv.hpp"
#include "shop/paper_keys.hpp"
#include "shop/text.hpp"

namespace benchgraft::shop {

namespace {

constexpr std::string_view kFormatLine = "format = 1\n";

template <class T, class Things>
std::string csv_text(const std::vector<Column<T>>& columns, const Things& things) {
  std::vector<std::string> cells;
  for (const auto& column : columns) cells.emplace_back(column.name);
  std::string text;
  add_csv_row(text, cells);
  for (const T& thing : things) {
    cells.clear();
    for (const auto& column : columns) cells.push_back(column.write(thing));
    add_csv_row(text, cells);
  }
  return text;
}

std::vector<PartOnPaper> parts_on_paper(const Shop& shop) {
  std::map<SetId, std::string> codes;
  for (const auto& set : shop.sets) codes.emplace(set.id, set.code);
  std::vector<PartOnPaper> parts;
  for (const auto& part : shop.parts)
    parts.push_back({part, part.in_set ? codes.at(*part.in_set) : ""});
  return parts;
}

std::string changes_text(const Shop& shop) {
  ChangesPaper paper;
  for (const auto& part : shop.parts)
    if (!part.changes.empty()) paper.parts.push_back({part.code, part.changes, {}});
  return catalogue::file_text(paper);
}

std::string rebuilds_text(const Shop& shop) {
  std::map<PartId, std::string> codes;
  for (const auto& part : shop.parts) codes.emplace(part.id, part.code);
  RebuildsPaper paper;
  for (const auto& one : shop.rebuilds) {
    RebuildOnPaper& rebuild = paper.rebuilds.emplace_back(RebuildOnPaper{one.id,
                                                                         one.name,
                                                                         shop.set(one.host)->code,
                                                                         {},
                                                                         one.state,
                                                                         one.started,
                                                                         one.finished,
                                                                         one.work_minutes,
                                                                         one.note,
                                                                         {}});
    for (const auto& in : one.parts) rebuild.parts.push_back({in.position, codes.at(in.part)});
  }
  return catalogue::file_text(paper);
}

void add(std::vector<NamedText>& texts, const char* name, const std::string& body) {
  if (!body.empty()) texts.push_back({name, std::string(kFormatLine) + body});
}

}  // namespace

std::vector<NamedText> export_texts(const Shop& shop) {
  std::vector<NamedText> texts;
  add(texts, "shop.toml", catalogue::file_text(shop.terms));
  texts.push_back({"sets.csv", csv_text(set_columns(), shop.sets)});
  texts.push_back({"parts.csv", csv_text(part_columns(), parts_on_paper(shop))});
  add(texts, "changes.toml", changes_text(shop));
  add(texts, "notes.toml", catalogue::file_text(catalogue::SwapNoteFile{shop.notes}));
  add(texts, "rebuilds.toml", rebuilds_text(shop));
  if (!shop.wishes.empty()) texts.push_back({"wishes.csv", csv_text(wish_columns(), shop.wishes)});
  return texts;
}

}  // namespace benchgraft::shop
