#include "sheets/said.hpp"

#include <nlohmann/json.hpp>

namespace benchgraft::sheets {

using Json = nlohmann::ordered_json;

std::string said_json(const SaidAbout& about) {
  const Json json = {{"name", about.name}, {"rebuild", about.rebuild}};
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

Result<SaidAbout> said_from_json(const std::string& json) {
  const Json read = Json::parse(json, nullptr, false);
  const auto is_text = [&](const char* key) {
    return read.is_object() && read.contains(key) && read[key].is_string();
  };
  if (!is_text("name") || !is_text("rebuild"))
    return Error{ErrorKind::bad_input,
                 "What was said was kept in a form this program does not know; judge the rebuild "
                 "again."};
  return SaidAbout{read["name"].get<std::string>(), read["rebuild"].get<std::string>()};
}

}  // namespace benchgraft::sheets
