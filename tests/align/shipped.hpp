// The settings that come with the program, and questions about them.
#pragma once

#include <string>
#include <vector>

#include "align/reading.hpp"

namespace benchgraft::align {

/// All settings of data/kinds/settings.toml, in their order.
std::vector<catalogue::Setting> shipped_settings();
/// A setting of data/kinds/settings.toml.
catalogue::Setting shipped(const std::string& name);

Reading said(const std::string& observer, double value, const std::string& word);
Reading read(const std::string& observer, double value, double number);

}  // namespace benchgraft::align
