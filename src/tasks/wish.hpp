// What the user insists on.
#pragma once

#include <string>

#include "tasks/shop_at.hpp"

namespace benchgraft::tasks {

/// in: `sort` is "build this", "never strip", "never build", "use part in" or "keep part".
Result<Recorded> make_wish(const ShopAt& at, const std::string& sort, const std::string& set,
                           const std::string& part, const std::string& note);

/// in: the first letters of the wish's id, as the list shows them.
/// fails: not_found, or conflict when several wishes begin like that.
Result<Recorded> withdraw_wish(const ShopAt& at, const std::string& id_start);

}  // namespace benchgraft::tasks
