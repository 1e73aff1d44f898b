// What a task answers: a page for people, JSON for scripts.
#pragma once

#include <string>

#include "sheets/page.hpp"

namespace benchgraft::tasks {

struct Answer {
  sheets::Page page;
  std::string json;
};

}  // namespace benchgraft::tasks
