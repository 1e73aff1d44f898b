// What would it take, as a page, as JSON and in one line.
#pragma once

#include <optional>
#include <string>

#include "fit/ways_out.hpp"
#include "sheets/judgement_page.hpp"

namespace benchgraft::sheets {

Page ways_page(const fit::WaysOut& ways, const About& about);
std::string ways_json(const fit::WaysOut& ways, const About& about);

/// "Cheapest way out: buy FL-9 as the lamp (65.00 EUR, 3 days). ..." for a sheet; says when there
/// is none.
std::string way_out_words(const std::optional<fit::Way>& way, const About& about);

}  // namespace benchgraft::sheets
