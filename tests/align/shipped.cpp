#include "shipped.hpp"

#include <fstream>
#include <sstream>

#include "catalogue/text.hpp"

namespace benchgraft::align {

std::vector<catalogue::Setting> shipped_settings() {
  std::ifstream file(std::string(BENCHGRAFT_SOURCE_DIR) + "/data/kinds/settings.toml");
  std::stringstream text;
  text << file.rdbuf();
  const auto family = catalogue::read_family(text.str(), "settings.toml");
  ensure(family.ok(), "the shipped settings can be read");
  return family.value().settings;
}

catalogue::Setting shipped(const std::string& name) {
  for (const auto& setting : shipped_settings())
    if (setting.name == name) return setting;
  ensure(false, "a setting of that name ships");
  return {};
}

Reading said(const std::string& observer, double value, const std::string& word) {
  return {observer, value, word, {}, {}};
}

Reading read(const std::string& observer, double value, double number) {
  return {observer, value, "", number, {}};
}

}  // namespace benchgraft::align
