#include "tasks/move_files.hpp"

#include <filesystem>

#include <fmt/format.h>

#include "catalogue/text.hpp"
#include "tasks/files.hpp"

namespace benchgraft::tasks {
namespace {

using catalogue::Family;

// Families of the shop with those that come in: together with the shipped ones they must hold.
Result<void> would_hold(const Knowledge& knowledge, std::vector<Family> held,
                        const std::vector<Family>& coming) {
  for (const auto& family : coming) {
    std::erase_if(held, [&](const Family& old) { return old.name == family.name; });
    held.push_back(family);
  }
  const auto whole = known_catalogue(knowledge, held);
  if (!whole) return whole.error();
  return {};
}

Result<Imported> take_in_bundle(const ShopAt& at, const Knowledge& knowledge,
                                const shop::Bundle& bundle) {
  auto store = open_shop(at, store::Mode::create);
  if (!store) return store.error();
  auto held = store.value().families();
  if (!held) return held.error();
  if (const auto holds = would_hold(knowledge, std::move(held).value(), bundle.families); !holds)
    return holds.error();
  auto done = store.value().import(bundle, occasion(at));
  if (!done) return done.error();
  const auto& in = done.value();
  return Imported{{in.done.entry, in.done.what, in.done.made},
                  in.sets,
                  in.parts,
                  in.notes,
                  in.rebuilds,
                  in.wishes,
                  in.families,
                  in.terms_changed,
                  bundle.rebuilds};
}

// "Quernby 56" -> "quernby_56.toml"
std::string file_name(const std::string& family) {
  std::string name;
  for (const char c : family) {
    const bool letter = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
    const bool capital = c >= 'A' && c <= 'Z';
    name += letter ? c : capital ? static_cast<char>(c + 32) : '_';
  }
  return name + ".toml";
}

std::vector<shop::NamedText> family_texts(const std::vector<Family>& families) {
  std::vector<shop::NamedText> texts;
  for (const auto& family : families) {
    std::string name = file_name(family.name);
    for (int twin = 2; std::any_of(texts.begin(), texts.end(),
                                   [&](const auto& other) { return other.path == name; });
         ++twin)
      name = fmt::format("{}_{}.toml",
                         file_name(family.name).substr(0, file_name(family.name).size() - 5), twin);
    texts.push_back({name, catalogue::write_family(family)});
  }
  return texts;
}

}  // namespace

Result<Imported> import_paths(const ShopAt& at, const Knowledge& knowledge,
                              const std::vector<std::string>& paths) {
  auto texts = read_files(paths);
  if (!texts) return texts.error();
  if (texts.value().empty())
    return Error{ErrorKind::not_found,
                 fmt::format("\"{}\" holds no .toml and no .csv file.", paths.front())};
  auto bundle = shop::sort_texts(texts.value());
  if (!bundle) return bundle.error();
  return take_in_bundle(at, knowledge, bundle.value());
}

Result<std::vector<std::string>> export_folder(const ShopAt& at, const std::string& folder) {
  auto store = open_shop(at, store::Mode::read);
  if (!store) return store.error();
  auto room = store.value().load();
  if (!room) return room.error();
  auto families = store.value().families();
  if (!families) return families.error();

  std::vector<std::string> written;
  const std::vector<std::pair<std::string, std::vector<shop::NamedText>>> parts{
      {folder + "/shop", shop::export_texts(room.value())},
      {folder + "/catalogue", family_texts(families.value())}};
  for (const auto& [where, texts] : parts) {
    if (texts.empty()) continue;
    if (const auto done = write_files(where, texts); !done) return done.error();
    for (const auto& text : texts) written.push_back(where + "/" + text.path);
  }
  return written;
}

}  // namespace benchgraft::tasks
