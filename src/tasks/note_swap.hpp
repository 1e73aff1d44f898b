// Adds what a technician wrote after a swap.
#pragma once

#include <string>

#include "tasks/shop_at.hpp"

namespace benchgraft::tasks {

/// A file with one [[swap_note]]. The note acts on every judgement from now on.
Result<Recorded> note_swap(const ShopAt& at, const std::string& file);

}  // namespace benchgraft::tasks
