#include <nlohmann/json.hpp>

#include "sheets/shop_pages.hpp"
#include "shop/words.hpp"

namespace benchgraft::sheets {
namespace {

using Json = nlohmann::ordered_json;
using shop::word_of;

std::string dumped(const Json& json) {
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

Json number(const std::optional<double>& value) { return value ? Json(*value) : Json(nullptr); }

// A word of a closed list; null for what is not known.
template <class List, class E>
Json word(const List& list, E value) {
  const auto text = word_of(list, value);
  return text.empty() ? Json(nullptr) : Json(std::string(text));
}

Json json_of(const shop::Set& set) {
  return {{"id", to_text(set.id)},
          {"code", set.code},
          {"owner", set.owner},
          {"consent", word(shop::kConsentWords, set.consent)},
          {"kind", set.kind},
          {"model", set.model},
          {"variant", set.variant},
          {"candidates", set.candidates},
          {"looks", word(shop::kLooksWords, set.looks)},
          {"missing", set.missing},
          {"complaint", set.complaint},
          {"place", set.place},
          {"taken_in", set.taken_in},
          {"fate", word(shop::kFateWords, set.fate)},
          {"note", set.note}};
}

Json json_of(const shop::Shop& room, const shop::Part& part) {
  const auto* set = part.in_set ? room.set(*part.in_set) : nullptr;
  Json changes = Json::array();
  for (const auto& change : part.changes)
    changes.push_back({{"change", catalogue::word_of(catalogue::kChangeSortWords, change.sort)},
                       {"port", change.port},
                       {"from", change.from},
                       {"to", change.to},
                       {"piece", change.piece},
                       {"setting", change.setting},
                       {"note", change.note}});
  return {{"id", to_text(part.id)},
          {"code", part.code},
          {"type", part.type},
          {"candidates", part.candidates},
          {"roles", part.roles},
          {"changes", std::move(changes)},
          {"state", word(shop::kStateWords, part.state)},
          {"tested_how", part.tested_how},
          {"tested_in", part.tested_in},
          {"tested_on", part.tested_on},
          {"run_hours", number(part.run_hours)},
          {"chance", number(part.chance)},
          {"in_set", set != nullptr ? Json(set->code) : Json(nullptr)},
          {"position", part.position},
          {"place", part.place},
          {"from", part.from},
          {"note", part.note}};
}

Json json_of(const std::vector<JournalLine>& lines) {
  Json array = Json::array();
  for (const auto& line : lines) {
    Json entry = {{"entry", line.number},
                  {"when", line.when},
                  {"who", line.who},
                  {"command", line.command},
                  {"what", line.what}};
    entry["taken_back_by"] = line.taken_back_by != 0 ? Json(line.taken_back_by) : Json(nullptr);
    array.push_back(std::move(entry));
  }
  return array;
}

}  // namespace

std::string sets_json(const shop::Shop& room) {
  Json json = {{"sets", Json::array()}};
  for (const auto& set : room.sets) json["sets"].push_back(json_of(set));
  return dumped(json);
}

std::string parts_json(const shop::Shop& room) {
  Json json = {{"parts", Json::array()}};
  for (const auto& part : room.parts) json["parts"].push_back(json_of(room, part));
  return dumped(json);
}

std::string wishes_json(const shop::Shop& room) {
  Json json = {{"wishes", Json::array()}};
  for (const auto& wish : room.wishes)
    json["wishes"].push_back({{"id", to_text(wish.id)},
                              {"wish", word(shop::kWishWords, wish.sort)},
                              {"set", wish.set},
                              {"part", wish.part},
                              {"note", wish.note}});
  return dumped(json);
}

std::string rebuilds_json(const shop::Shop& room) {
  Json json = {{"rebuilds", Json::array()}};
  for (const auto& rebuild : room.rebuilds) {
    const auto* host = room.set(rebuild.host);
    Json parts = Json::array();
    for (const auto& in : rebuild.parts) {
      const auto* part = room.part(in.part);
      parts.push_back({{"position", in.position}, {"part", part != nullptr ? part->code : ""}});
    }
    json["rebuilds"].push_back({{"name", rebuild.name},
                                {"host", host != nullptr ? host->code : ""},
                                {"parts", std::move(parts)},
                                {"state", rebuild.state},
                                {"started", rebuild.started},
                                {"finished", rebuild.finished},
                                {"work_minutes", number(rebuild.work_minutes)},
                                {"note", rebuild.note}});
  }
  return dumped(json);
}

std::string terms_json(const shop::Terms& terms) {
  return dumped({{"currency", terms.currency},
                 {"per_hour_minor", terms.per_hour.minor},
                 {"hours", number(terms.hours)},
                 {"mains_volts", terms.mains_volts},
                 {"mains_hz", terms.mains_hz},
                 {"touch_profile", terms.touch_profile},
                 {"chance_untested", terms.chance_untested},
                 {"chance_good", terms.chance_good},
                 {"chance_suspect", terms.chance_suspect}});
}

std::string set_json(const shop::Shop& room, const shop::Set& set,
                     const std::vector<JournalLine>& history) {
  Json json = json_of(set);
  json["parts"] = Json::array();
  for (const auto* part : room.parts_in(set.id)) json["parts"].push_back(json_of(room, *part));
  json["history"] = json_of(history);
  return dumped(json);
}

std::string part_json(const shop::Shop& room, const shop::Part& part,
                      const std::vector<JournalLine>& history) {
  Json json = json_of(room, part);
  json["history"] = json_of(history);
  return dumped(json);
}

std::string journal_json(const std::vector<JournalLine>& lines) {
  return dumped({{"journal", json_of(lines)}});
}

std::string found_json(const std::vector<Found>& found) {
  Json json = {{"found", Json::array()}};
  for (const auto& each : found)
    json["found"].push_back({{"sort", each.sort}, {"code", each.code}, {"text", each.text}});
  return dumped(json);
}

}  // namespace benchgraft::sheets
