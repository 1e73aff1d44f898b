#include "tasks/knowledge.hpp"

#include <filesystem>

#include <fmt/format.h>

#include "base/text.hpp"
#include "fit/rule_names.hpp"
#include "shop/rows.hpp"
#include "shop/text.hpp"
#include "tasks/files.hpp"

namespace benchgraft::tasks {
namespace {

namespace fs = std::filesystem;
using catalogue::Catalogue;
using catalogue::Family;

constexpr const char* kLooseNotes = "loose swap notes";

Family loose(const std::vector<catalogue::SwapNote>& notes) {
  Family family;
  family.name = kLooseNotes;
  family.notes = notes;
  return family;
}

bool is_folder(const std::string& path) {
  std::error_code ignored;
  return fs::is_directory(path, ignored);
}

// Families, and loose swap notes as a family of their own; shop lists lying beside them are left.
Result<std::vector<Family>> families_in(const std::vector<std::string>& folders) {
  auto texts = read_files(folders);
  if (!texts) return texts.error();
  std::erase_if(texts.value(), [](const auto& text) { return !text.path.ends_with(".toml"); });
  if (texts.value().empty() && !folders.empty())
    return Error{ErrorKind::not_found,
                 fmt::format("{} holds no catalogue file (.toml).", listed(folders))};
  auto bundle = shop::sort_texts(texts.value());
  if (!bundle) return bundle.error();
  auto families = std::move(bundle.value().families);
  if (const auto& notes = bundle.value().rows->notes; !notes.empty())
    families.push_back(loose(notes));
  return families;
}

void replace_or_add(const std::vector<Family>& newer, std::vector<Family>& families) {
  for (const auto& family : newer) {
    bool replaced = false;
    for (auto& held : families)
      if (held.name == family.name) held = family, replaced = true;
    if (!replaced) families.push_back(family);
  }
}

}  // namespace

Result<std::string> data_folder(const Knowledge& knowledge) {
  if (!knowledge.data_dir.empty()) {
    if (is_folder(knowledge.data_dir + "/kinds")) return knowledge.data_dir;
    return Error{ErrorKind::not_found,
                 fmt::format("\"{}\" has no folder \"kinds\" in it; --data wants the folder that "
                             "holds kinds and limits.",
                             knowledge.data_dir)};
  }
  for (const char* folder : {BENCHGRAFT_DATA_DIR, BENCHGRAFT_INSTALLED_DATA_DIR})
    if (is_folder(std::string(folder) + "/kinds")) return std::string(folder);
  return Error{
      ErrorKind::not_found,
      fmt::format("The kinds of set that come with the program are neither in \"{}\" nor in "
                  "\"{}\"; name their folder with --data.",
                  BENCHGRAFT_DATA_DIR, BENCHGRAFT_INSTALLED_DATA_DIR)};
}

catalogue::Family notes_of_the_shop(const shop::Shop& room) {
  Family family;
  family.name = "swap notes of this shop";
  family.notes = room.notes;
  return family;
}

Result<Catalogue> known_catalogue(const Knowledge& knowledge, const std::vector<Family>& more) {
  const auto shipped = data_folder(knowledge);
  if (!shipped) return shipped.error();
  std::vector<std::string> own;
  for (const char* part : {"/kinds", "/limits"})
    if (is_folder(shipped.value() + part)) own.push_back(shipped.value() + part);
  auto families = families_in(own);
  if (!families) return families.error();
  auto named = families_in(knowledge.folders);
  if (!named) return named.error();
  replace_or_add(named.value(), families.value());
  replace_or_add(more, families.value());
  auto known = Catalogue::from_families(std::move(families).value());
  if (!known) return known.error();
  // What no judgement would accept is refused where it is loaded.
  if (auto good = fit::check_cures(known.value()); !good) return good.error();
  return known;
}

}  // namespace benchgraft::tasks
