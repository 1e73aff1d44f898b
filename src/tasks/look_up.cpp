#include "tasks/look_up.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.hpp"
#include "sheets/shop_pages.hpp"
#include "tasks/journal.hpp"

namespace benchgraft::tasks {
namespace {

using sheets::Found;

std::string lower(std::string text) {
  for (char& c : text)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c + 32);
  return text;
}

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80;
}

bool starts_a_word(const std::string& text, const std::string& word) {
  for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1))
    if (at == 0 || !is_letter(text[at - 1])) return true;
  return false;
}

bool has_every_word(const std::string& text, const std::string& words) {
  const auto wanted = split(lower(words), ' ');
  const auto low = lower(text);
  return std::all_of(wanted.begin(), wanted.end(), [&](const std::string& word) {
    return word.empty() || starts_a_word(low, word);
  });
}

Found found_type(const catalogue::PartType& type) {
  std::string text = type.kind;
  if (!type.roles.empty()) text += fmt::format("; fills: {}", listed(type.roles));
  if (!type.note.empty()) text += "; " + type.note;
  return {"part type", type.reference(), text};
}

Found found_model(const catalogue::Model& model) {
  std::vector<std::string> variants;
  for (const auto& variant : model.variants) variants.push_back(variant.name);
  std::string text = model.kind;
  if (!variants.empty()) text += fmt::format("; variants: {}", listed(variants));
  if (!model.note.empty()) text += "; " + model.note;
  return {"model", model.name, text};
}

Found found_kind(const catalogue::SetKind& kind) {
  return {"kind", kind.name, kind.judged ? kind.note : kind.not_judged};
}

std::vector<Found> kinds_of(const catalogue::Catalogue& known) {
  std::vector<Found> all;
  for (const auto& family : known.families())
    for (const auto& kind : family.set_kinds) all.push_back(found_kind(kind));
  return all;
}

std::vector<Found> types_of(const catalogue::Catalogue& known) {
  std::vector<Found> all;
  for (const auto* type : known.part_types()) all.push_back(found_type(*type));
  return all;
}

std::vector<Found> models_of(const catalogue::Catalogue& known) {
  std::vector<Found> all;
  for (const auto* model : known.models()) all.push_back(found_model(*model));
  return all;
}

Result<catalogue::Catalogue> catalogue_for(const ShopAt& at, const Knowledge& knowledge) {
  if (at.path.empty()) return known_catalogue(knowledge);
  auto room = load_room(at, knowledge);
  if (!room) return room.error();
  return std::move(room.value().known);
}

Answer listed_answer(const std::string& title, const std::vector<Found>& all) {
  sheets::Page page = sheets::found_page("", all);
  page.title = title;
  if (all.empty()) page.blocks.front().lead = "None is on record.";
  return {std::move(page), sheets::found_json(all)};
}

Result<Answer> list_catalogue(const ShopAt& at, const Knowledge& knowledge,
                              const std::string& what) {
  auto known = catalogue_for(at, knowledge);
  if (!known) return known.error();
  if (what == "types") return listed_answer("Part types", types_of(known.value()));
  if (what == "models") return listed_answer("Models", models_of(known.value()));
  return listed_answer("Kinds of set", kinds_of(known.value()));
}

}  // namespace

Result<Answer> list_all(const ShopAt& at, const Knowledge& knowledge, const std::string& what) {
  if (what == "types" || what == "models" || what == "kinds")
    return list_catalogue(at, knowledge, what);
  auto store = open_shop(at, store::Mode::read);
  if (!store) return store.error();
  auto room = store.value().load();
  if (!room) return room.error();
  const auto& shop = room.value();
  if (what == "sets") return Answer{sheets::sets_page(shop), sheets::sets_json(shop)};
  if (what == "parts") return Answer{sheets::parts_page(shop), sheets::parts_json(shop)};
  if (what == "wishes") return Answer{sheets::wishes_page(shop), sheets::wishes_json(shop)};
  if (what == "rebuilds") return Answer{sheets::rebuilds_page(shop), sheets::rebuilds_json(shop)};
  if (what == "terms")
    return Answer{sheets::terms_page(shop.terms), sheets::terms_json(shop.terms)};
  return Error{ErrorKind::bad_input,
               fmt::format("There is no list \"{}\"; the lists are: sets, parts, wishes, rebuilds, "
                           "terms, types, models and kinds.",
                           what)};
}

Result<Answer> show_one(const ShopAt& at, const std::string& code) {
  auto store = open_shop(at, store::Mode::read);
  if (!store) return store.error();
  auto room = store.value().load();
  if (!room) return room.error();
  const auto& shop = room.value();
  if (const auto* set = shop.set_by_code(code)) {
    auto past = history(store.value(), "set", to_text(set->id));
    if (!past) return past.error();
    return Answer{sheets::set_page(shop, *set, past.value()),
                  sheets::set_json(shop, *set, past.value())};
  }
  if (const auto* part = shop.part_by_code(code)) {
    auto past = history(store.value(), "part", to_text(part->id));
    if (!past) return past.error();
    return Answer{sheets::part_page(shop, *part, past.value()),
                  sheets::part_json(shop, *part, past.value())};
  }
  return Error{ErrorKind::not_found, fmt::format("No set and no part here has the code {}.", code)};
}

Result<Answer> find(const ShopAt& at, const Knowledge& knowledge, const std::string& words) {
  std::vector<Found> found;
  if (!at.path.empty()) {
    auto store = open_shop(at, store::Mode::read);
    if (!store) return store.error();
    auto hits = store.value().search(words);
    if (!hits) return hits.error();
    for (const auto& hit : hits.value()) found.push_back({hit.sort, hit.code, hit.text});
  }
  auto known = catalogue_for(at, knowledge);
  if (!known) return known.error();
  for (const auto& all :
       {models_of(known.value()), types_of(known.value()), kinds_of(known.value())})
    for (const auto& each : all)
      if (has_every_word(each.sort + " " + each.code + " " + each.text, words))
        found.push_back(each);
  return Answer{sheets::found_page(words, found), sheets::found_json(found)};
}

}  // namespace benchgraft::tasks
