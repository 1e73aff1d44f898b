#include "cli/answers.hpp"

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <system_error>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/text.hpp"

namespace benchgraft::cli {
namespace {

using Json = nlohmann::ordered_json;

std::string dumped(const Json& json) {
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string full_stop(std::string text) {
  text = capitalised(std::move(text));
  return text.empty() || text.back() == '.' ? text : text + ".";
}

void add_count(const std::string& what, const shop::Count& count, std::string& text) {
  std::vector<std::string> words;
  if (count.made > 0) words.push_back(fmt::format("{} new", count.made));
  if (count.changed > 0) words.push_back(fmt::format("{} changed", count.changed));
  if (count.same > 0) words.push_back(fmt::format("{} as before", count.same));
  if (!words.empty()) text += fmt::format("{}: {}.\n", what, listed(words));
}

Json json_of(const shop::Count& count) {
  return {{"new", count.made}, {"changed", count.changed}, {"same", count.same}};
}

std::string counted(std::size_t count, const std::string& one, const std::string& many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

}  // namespace

std::string as_words(const tasks::Recorded& done) {
  if (done.entry == 0) return "Nothing to change: it is on record like that already.\n";
  std::string text = full_stop(done.what);
  text += fmt::format(" (Take it back with: benchgraft undo {})\n", done.entry);
  for (const auto& remark : done.remarks) text += remark + "\n";
  return text;
}

std::string as_words(const tasks::Imported& done) {
  std::string text;
  add_count("Families", done.families, text);
  add_count("Sets", done.sets, text);
  add_count("Parts", done.parts, text);
  add_count("Swap notes", done.notes, text);
  add_count("Rebuild records", done.rebuilds, text);
  add_count("Wishes", done.wishes, text);
  if (done.terms_changed) text += "Terms: changed.\n";
  if (!done.rebuild_files.empty())
    text += fmt::format("{} left alone: ask with judge or sheet.\n",
                        counted(done.rebuild_files.size(), "rebuild file", "rebuild files"));
  if (done.recorded.entry == 0) return text + "Nothing was new.\n";
  return text + fmt::format("Take it all back with: benchgraft undo {}\n", done.recorded.entry);
}

std::string as_words(const tasks::Checked& checked) {
  std::string text = fmt::format("It loads: {}, {}, {}, {}, {}, {}.\n",
                                 counted(checked.families, "family", "families"),
                                 counted(checked.part_types, "part type", "part types"),
                                 counted(checked.models, "model", "models"),
                                 counted(checked.adaptations, "adaptation", "adaptations"),
                                 counted(checked.settings, "setting", "settings"),
                                 counted(checked.notes, "swap note", "swap notes"));
  if (checked.unknown.empty()) return text + "Nothing asked for is missing.\n";
  text += "Not known yet, and asked for when it matters:\n";
  for (const auto& unknown : checked.unknown)
    text += fmt::format("- {}: {}\n", unknown.what, listed(unknown.whose));
  return text;
}

std::string as_words(const std::vector<std::string>& files) {
  std::string text = "Written:\n";
  for (const auto& file : files) text += "- " + file + "\n";
  return text;
}

std::string as_json(const tasks::Recorded& done) {
  return dumped(
      {{"entry", done.entry}, {"what", done.what}, {"made", done.made}, {"remarks", done.remarks}});
}

std::string as_json(const tasks::Imported& done) {
  return dumped({{"entry", done.recorded.entry},
                 {"families", json_of(done.families)},
                 {"sets", json_of(done.sets)},
                 {"parts", json_of(done.parts)},
                 {"swap_notes", json_of(done.notes)},
                 {"rebuild_records", json_of(done.rebuilds)},
                 {"wishes", json_of(done.wishes)},
                 {"terms_changed", done.terms_changed},
                 {"rebuild_files", done.rebuild_files}});
}

std::string as_json(const tasks::Checked& checked) {
  Json unknown = Json::array();
  for (const auto& each : checked.unknown)
    unknown.push_back({{"what", each.what}, {"whose", each.whose}});
  return dumped({{"families", checked.families},
                 {"part_types", checked.part_types},
                 {"models", checked.models},
                 {"adaptations", checked.adaptations},
                 {"settings", checked.settings},
                 {"swap_notes", checked.notes},
                 {"unknown", std::move(unknown)}});
}

std::string as_json(const std::vector<std::string>& files) {
  Json json = Json::object();
  json["written"] = files;
  return dumped(json);
}

Result<void> write_whole(const std::string& path, const std::string& text) {
  const std::string beside = path + ".part";
  std::ofstream file(beside, std::ios::binary | std::ios::trunc);
  file << text;
  file.close();
  std::error_code wrong;
  if (file) std::filesystem::rename(beside, path, wrong);
  if (file && !wrong) return {};
  std::filesystem::remove(beside, wrong);
  return Error{
      ErrorKind::storage,
      fmt::format("\"{}\" cannot be written; is the folder there, and may you write in it?", path)};
}

}  // namespace benchgraft::cli
