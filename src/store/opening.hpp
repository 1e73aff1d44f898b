// From a path to an open, current shop file.
#pragma once

#include <string>

#include "base/result.hpp"
#include "store/connection.hpp"
#include "store/store.hpp"

namespace benchgraft::store {

Result<Connection> open_shop(const std::string& path, Mode mode, int wait_ms);

}  // namespace benchgraft::store
