// Days as text.
#pragma once

#include <string>

namespace benchgraft::shop {

/// True for a day that exists, written as 2026-05-31.
bool is_date(const std::string& text);

}  // namespace benchgraft::shop
